"""`stripdown seal set`: how much of its squeeze has a ring lost for good?"""

from __future__ import annotations

import click

from stripdown.cli.examples import ExampleCommand
from stripdown.cli.option_names import options_named
from stripdown.cli.quantity_option import QuantityOption, json_option
from stripdown.cli.terminal import answers
from stripdown.core.part_condition.compression_set import HARDNESS, READING_UNCERTAINTY, THICKNESS, judge_compression_set
from stripdown.plain.seals import seal_fields
from stripdown.plain.si import written


@click.command(
    "set",
    cls=ExampleCommand,
    short_help="Compression set of a ring.",
    examples=['stripdown seal set --original "3.53 mm" --compressed "2.65 mm" --recovered "3.30 mm"'],
)
@click.option("--original", type=QuantityOption(THICKNESS), required=True, help="Thickness of a new ring of that size.")
@click.option("--compressed", type=QuantityOption(THICKNESS), required=True, help="Depth of its gland.")
@click.option("--recovered", type=QuantityOption(THICKNESS), required=True, help="Thickness half an hour after it was let go.")
@click.option("--hardness", type=QuantityOption(HARDNESS), help="Of the new ring, IRHD or Shore A.")
@click.option(
    "--uncertainty",
    type=QuantityOption(READING_UNCERTAINTY),
    default="0.02 mm",
    show_default=True,
    help="Standard uncertainty of a thickness.",
)
@json_option
@options_named(original="--original", compressed="--compressed", recovered="--recovered", hardness="--hardness")
def ring_set(
    *, original: float, compressed: float, recovered: float, hardness: float | None, uncertainty: float, as_json: bool
) -> None:
    """Compute the compression set of a ring, and hold it against what makers of seals accept."""
    answer = judge_compression_set(
        original=original, compressed=compressed, recovered=recovered, hardness=hardness, reading_uncertainty=uncertainty
    )
    if as_json:
        click.echo(written(seal_fields(answer)))
        return
    from stripdown.cli.printed_seal import print_set  # noqa: PLC0415  heavy imports belong inside commands

    print_set(answers(), answer)
