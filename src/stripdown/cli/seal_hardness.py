"""`stripdown seal hardness`: has a ring gone hard or soft beside a new one?"""

from __future__ import annotations

import re

import click

from stripdown.cli.examples import ExampleCommand
from stripdown.cli.option_names import options_named
from stripdown.cli.quantity_option import QuantityOption, json_option
from stripdown.cli.terminal import answers
from stripdown.core.part_condition.hardness import (
    GREATEST_CHANGE,
    POINTS,
    TEST_TOLERANCE,
    USUAL_GREATEST_CHANGE,
    USUAL_TEST_TOLERANCE,
    HardnessScale,
    compare_hardness,
)
from stripdown.plain.seals import seal_fields
from stripdown.plain.si import written
from stripdown.units import parse

_BETWEEN = re.compile(r"[;\s]+|,\s+")  # a comma inside a number is a decimal sign
_SCALES = {scale.value.lower().replace(" ", "-"): scale for scale in HardnessScale}


class HardnessReadings(click.ParamType[tuple[float, ...]]):
    """Several readings of one ring, parted by spaces."""

    name = "readings"

    def convert(
        self,
        value: object,
        param: click.Parameter | None,
        ctx: click.Context | None,  # noqa: ARG002  click's
    ) -> tuple[float, ...]:
        """Read what was typed."""
        field = param.opts[0] if param is not None else self.name
        parts = [part for part in _BETWEEN.split(str(value).strip().rstrip(",;")) if part]
        return tuple(parse(part, POINTS, field=field) for part in parts)


@click.command(
    cls=ExampleCommand,
    short_help="A used ring beside a new one, on one tester.",
    examples=['stripdown seal hardness --scale shore-m --new "70 71 70" --used "81 83 82"'],
)
@click.option("--scale", type=click.Choice([*_SCALES]), required=True, help="What the tester shows.")
@click.option("--used-scale", type=click.Choice([*_SCALES]), help="If the used ring was read on another: then it is refused.")
@click.option("--new", type=HardnessReadings(), required=True, help='Readings of the new ring, as "70 71 70".')
@click.option("--used", type=HardnessReadings(), required=True, help='Readings of the used ring, as "81 83 82".')
@click.option(
    "--test-tolerance",
    type=QuantityOption(TEST_TOLERANCE),
    default=f"{USUAL_TEST_TOLERANCE:g}",
    show_default=True,
    help="Points that the test cannot tell from none.",
)
@click.option(
    "--greatest-change",
    type=QuantityOption(GREATEST_CHANGE),
    default=f"{USUAL_GREATEST_CHANGE:g}",
    show_default=True,
    help="Points from which you replace a ring; an estimate.",
)
@json_option
@options_named(new="--new", used="--used", greatest_change="--greatest-change", test_tolerance="--test-tolerance")
def hardness(
    *,
    scale: str,
    used_scale: str | None,
    new: tuple[float, ...],
    used: tuple[float, ...],
    test_tolerance: float,
    greatest_change: float,
    as_json: bool,
) -> None:
    """Compare a used ring with a new one of its size, read on the same tester: scales do not convert."""
    answer = compare_hardness(
        new=new,
        used=used,
        scale=_SCALES[scale],
        used_scale=None if used_scale is None else _SCALES[used_scale],
        test_tolerance=test_tolerance,
        greatest_change=greatest_change,
    )
    if as_json:
        click.echo(written(seal_fields(answer)))
        return
    from stripdown.cli.printed_seal import print_hardness  # noqa: PLC0415  heavy imports belong inside commands

    print_hardness(answers(), answer)
