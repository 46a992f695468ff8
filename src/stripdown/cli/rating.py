"""`stripdown rating`: may this touch that?"""

from __future__ import annotations

import click

from stripdown.bench.calculators import Touching
from stripdown.cli.calculated import end_calculated
from stripdown.cli.ending import Shown, shown_options
from stripdown.cli.examples import ExampleCommand
from stripdown.cli.record_options import record_options


@click.command(
    cls=ExampleCommand,
    examples=[
        'stripdown rating NBR "isopropyl alcohol"',
        'stripdown rating nozzle "silicone oil" --made-of POM',
        "stripdown rating polycarbonate IPA --free",
        "stripdown rating EPDM",
    ],
)
@record_options(
    Touching,
    names={
        "thing": "THING",
        "fluid": "[FLUID]",
        "stressed": "--stressed/--free",
        "soaked": "--soaked",
        "made_of": "--made-of",
    },
)
@shown_options()
def rating(asked: Touching, *, shown: Shown) -> None:
    """Say whether a fluid may touch a material or a part, why, and on whose word.

    THING is a material (NBR, nitrile, PC, zinc alloy) or a part (hop-up rubber, nozzle), by name or by its ISO code, in any case.
    With THING alone, which may be a fluid too, everything is listed that may and may not touch it.
    What nobody has rated is unknown, and is kept off.
    """
    end_calculated("rating", asked, shown)
