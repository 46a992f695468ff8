"""`stripdown rating`: may this touch that?"""

from __future__ import annotations

import click

from stripdown.cli.examples import ExampleCommand
from stripdown.cli.quantity_option import json_option
from stripdown.cli.terminal import answers
from stripdown.plain.si import si_record, written


@click.command(
    cls=ExampleCommand,
    examples=[
        'stripdown rating NBR "isopropyl alcohol"',
        'stripdown rating nozzle "silicone oil" --made-of POM',
        "stripdown rating polycarbonate IPA --free",
        "stripdown rating EPDM",
    ],
)
@click.argument("thing")
@click.argument("fluid", required=False)
@click.option("--stressed/--free", default=None, help="Clamped, screwed or sprung, or not; taken as stressed if not told.")
@click.option("--soaked", is_flag=True, help="It lies in the fluid, rather than being wiped or filmed with it.")
@click.option("--made-of", metavar="MATERIAL", help="Material of the part, if it is known.")
@json_option
def rating(*, thing: str, fluid: str | None, stressed: bool | None, soaked: bool, made_of: str | None, as_json: bool) -> None:
    """Say whether a fluid may touch a material or a part, why, and on whose word.

    THING is a material (NBR, nitrile, PC, zinc alloy) or a part (hop-up rubber, nozzle), by name or by its ISO code, in any case.
    With THING alone, which may be a fluid too, everything is listed that may and may not touch it.
    What nobody has rated is unknown, and is kept off.
    """
    from stripdown.cli import printed_rating  # noqa: PLC0415  the terminal's library and the catalogue take a while

    if fluid is None:
        from stripdown.studies.rating_survey import survey_ratings  # noqa: PLC0415

        survey = survey_ratings(thing, stressed=stressed, soaked=soaked, made_of=made_of)
        if as_json:
            click.echo(written(si_record(survey)))
            return
        printed_rating.print_survey(answers(), survey)
        return
    from stripdown.studies.ratings import rating as rate  # noqa: PLC0415

    found = rate(thing, fluid, stressed=stressed, soaked=soaked, made_of=made_of)
    if as_json:
        click.echo(written(si_record(found)))
        return
    printed_rating.print_rating(answers(), found)
