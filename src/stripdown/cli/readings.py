"""`stripdown string`, `compare`, `match`, `explain`: what chronograph readings say, alone and of a gun."""

from __future__ import annotations

import dataclasses
import functools
import re
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, TypeVar

import click

from stripdown.bench.strings import BETWEEN_DAYS, FIRED_BALL_MASS, SETUP_UNCERTAINTY, USUAL_BETWEEN_DAYS
from stripdown.cli.ending import Shown, end, shown_options
from stripdown.cli.examples import ExampleCommand
from stripdown.cli.quantity_option import QuantityOption, day_options
from stripdown.cli.terminal import model_at_work
from stripdown.core.parts.conditions import Conditions
from stripdown.core.shot_statistics.chronograph import Chronograph
from stripdown.core.shot_statistics.conditions import FireMode, HopState, StringConditions
from stripdown.errors import InputError
from stripdown.files import chronograph_session
from stripdown.files.chronograph_session import SetAsideLine
from stripdown.files.gun import load_gun
from stripdown.plain.causes import session_explanation_fields, session_match_fields
from stripdown.plain.chronographs import site_chronograph_fields
from stripdown.plain.strings import session_comparison_fields, session_fields
from stripdown.quantities import Q, leaves
from stripdown.studies.session_answers import study_comparison, study_loss, study_match, study_strings
from stripdown.studies.site_chronograph import study_site_chronograph
from stripdown.tables.nearest import nearest_name
from stripdown.words.causes import explanation_answer
from stripdown.words.chronographs import chronographs_answer
from stripdown.words.match import match_answer
from stripdown.words.strings import comparison_answer, strings_answer

if TYPE_CHECKING:
    from stripdown.bench.gun import Gun
    from stripdown.bench.strings import ChronographSession

_F = TypeVar("_F", bound=Callable[..., Any])


def _declared(record: type, name: str, label: str) -> Q:
    """A quantity as its record declares it, called what it is among the options."""
    quantity = next(leaf.quantity for leaf in leaves(record) if leaf.path == name and leaf.quantity is not None)
    return dataclasses.replace(quantity, label=label)


_DISTANCE = _declared(StringConditions, "distance", "distance of the chronograph")
_SPEED_UNCERTAINTY = _declared(Chronograph, "standard_uncertainty", "standard uncertainty of the chronograph")
_SHARE_UNCERTAINTY = _declared(Chronograph, "relative_uncertainty", "standard uncertainty of the chronograph")
_ASIDE = re.compile(r"\s*(?:(?P<file>[^:]+):)?(?P<line>[1-9]\d{0,8})\s+(?P<reason>\S.*)", re.DOTALL)


class UncertaintyOption(click.ParamType[tuple[float, bool]]):
    """A standard uncertainty as a speed or as a share; the second of the pair says whether it is a share."""

    name = "uncertainty"

    def convert(self, value: object, param: click.Parameter | None, ctx: click.Context | None) -> tuple[float, bool]:
        """Read what was typed."""
        is_share = str(value).strip().endswith("%")
        return QuantityOption(_SHARE_UNCERTAINTY if is_share else _SPEED_UNCERTAINTY).convert(value, param, ctx), is_share


@dataclass(frozen=True, slots=True, kw_only=True)
class SessionOptions:
    """What was said of readings on the command line."""

    ball: float | None
    distance: float | None
    hop: str | None
    selector: str | None
    unit: str | None
    uncertainty: tuple[float, bool] | None
    setup_uncertainty: float | None
    between_days: float | None
    set_aside: tuple[str, ...]


_OPTIONS = (
    click.option(
        "--ball", type=QuantityOption(FIRED_BALL_MASS), metavar="MASS", help="Mass of the ball, where the file does not say."
    ),
    click.option(
        "--distance",
        type=QuantityOption(_DISTANCE),
        metavar="DISTANCE",
        help="From the muzzle to the middle of the chronograph, where the file does not say.",
    ),
    click.option("--hop", type=click.Choice(["off", "set"]), help="Whether the hop-up pressed, where the file does not say."),
    click.option("--selector", type=click.Choice(["semi", "automatic"]), help="Selector, where the file does not say."),
    click.option(
        "--unit", type=click.Choice(["m/s", "ft/s", "km/h", "mph"]), help="Unit of readings for which the file names none; m/s."
    ),
    click.option(
        "--uncertainty",
        type=UncertaintyOption(),
        metavar="UNCERTAINTY",
        help='Standard uncertainty of the chronograph, as "0.5 m/s" or "0.4 %": half of a stated plus-or-minus.',
    ),
    click.option(
        "--setup-uncertainty",
        type=QuantityOption(SETUP_UNCERTAINTY),
        metavar="SPEED",
        help="What setting the chronograph up anew changes between before and after, as a standard uncertainty.",
    ),
    click.option(
        "--between-days",
        type=QuantityOption(BETWEEN_DAYS),
        metavar="SHARE",
        help='What two days differ by in themselves, as a standard deviation: "0.5 %" if left out.',
    ),
    click.option(
        "--set-aside",
        multiple=True,
        metavar="'LINE REASON'",
        help="Do not count the reading in this line, as '12 two balls'; of two files, 'after.csv:12 two balls'. May be repeated.",
    ),
)


def session_options(command: _F) -> _F:
    """Give a command the options for readings."""
    names = [field.name for field in dataclasses.fields(SessionOptions)]

    @functools.wraps(command)
    def collected(*args: Any, **settings: Any) -> Any:
        said = SessionOptions(**{name: settings.pop(name) for name in names})
        return command(*args, said=said, **settings)

    for option in reversed(_OPTIONS):
        collected = option(collected)
    return collected  # type: ignore[return-value]


def load_session(
    files: Sequence[Path],
    said: SessionOptions,
    *,
    in_turn: bool = False,
    gun: Gun | None = None,
    read_on_both: Sequence[Path] = (),
) -> ChronographSession:
    """Read files of readings, completed with what was said on the command line."""
    value, is_share = said.uncertainty or (0.0, False)
    return chronograph_session.load_session(
        files,
        unit=said.unit,
        said=StringConditions(
            ball_mass=said.ball,
            distance=said.distance,
            hop=None if said.hop is None else HopState(said.hop),
            fire_mode=None if said.selector is None else FireMode(said.selector),
        ),
        in_turn=in_turn,
        chronograph=Chronograph(standard_uncertainty=0.0 if is_share else value, relative_uncertainty=value if is_share else 0.0),
        setup_uncertainty=said.setup_uncertainty or 0.0,
        between_days=USUAL_BETWEEN_DAYS if said.between_days is None else said.between_days,
        set_aside=[_aside(text, files) for text in said.set_aside],
        gun=gun,
        read_on_both=read_on_both,
    )


def _aside(text: str, files: Sequence[Path]) -> SetAsideLine:
    found = _ASIDE.fullmatch(text)
    if found is None:
        message = f'--set-aside: "{text}" is not a line with a reason.'
        raise InputError(message, field="--set-aside", value=text, hint="Write for example '12 two balls at once'.")
    named = [str(file) for file in files if found["file"] is None or found["file"].strip() in (str(file), file.name)]
    if not named:
        message = f'--set-aside: "{found["file"]}" is none of the readings.'
        hint = nearest_name(found["file"], [file.name for file in files])
        raise InputError(message, field="--set-aside", value=text, hint=hint)
    return SetAsideLine(file=named[0] if len(named) == 1 else "", line=int(found["line"]), reason=found["reason"].strip())


GUN = click.argument("gun", metavar="GUN.toml", type=click.Path(path_type=Path))
READINGS = click.argument("readings", metavar="READINGS...", nargs=-1, required=True, type=click.Path(path_type=Path))


@click.command(
    "string",
    cls=ExampleCommand,
    examples=["stripdown string readings.csv", "stripdown string readings.csv --unit ft/s --ball '0.20 g' --distance '1 ft'"],
)
@READINGS
@session_options
@shown_options(speeds=True, pictures=True)
def string(readings: tuple[Path, ...], *, said: SessionOptions, shown: Shown) -> None:
    """Say what each string of readings holds: mean, scatter, energy, intervals, and whether its shots belong together.

    One reading a line, or a table; several strings in one file by columns or headings. Lines that give no reading are named.
    """
    study = study_strings(load_session(readings, said))
    end(shown, answer=lambda: strings_answer(study, scale=shown.scale), plain=lambda: session_fields(study), drawn=study)


@click.command(
    cls=ExampleCommand,
    examples=["stripdown compare readings.csv", "stripdown compare before.csv after.csv --ball '0.20 g'"],
)
@READINGS
@session_options
@shown_options(speeds=True, pictures=True)
def compare(readings: tuple[Path, ...], *, said: SessionOptions, shown: Shown) -> None:
    """Say what changed between strings before and after, with its interval: same ball, hop-up and selector only.

    One file that says before and after, or two files, the first before and the second after.
    """
    study = study_comparison(load_session(readings, said, in_turn=True))
    end(
        shown,
        answer=lambda: comparison_answer(study, scale=shown.scale),
        plain=lambda: session_comparison_fields(study),
        drawn=study,
    )


@click.command(
    cls=ExampleCommand,
    examples=["stripdown chronographs both.csv", "stripdown chronographs bench.csv site.csv --json"],
)
@READINGS
@session_options
@shown_options(speeds=True)
def chronographs(readings: tuple[Path, ...], *, said: SessionOptions, shown: Shown) -> None:
    """Say how the site's chronograph reads against the bench's, from guns that were read on both, with its interval.

    The readings say the chronograph (bench, site) and the gun of each string, in columns or in lines above.
    """
    study = study_site_chronograph(load_session(readings, said))
    end(
        shown,
        answer=lambda: chronographs_answer(study, scale=shown.scale),
        plain=lambda: site_chronograph_fields(study),
    )


@click.command(
    cls=ExampleCommand,
    examples=["stripdown match my_gun.toml readings.csv", "stripdown match my_gun.toml readings.csv --ball '0.25 g' --hop off"],
)
@GUN
@READINGS
@session_options
@day_options
@shown_options(speeds=True, assumed=True)
def match(
    gun: Path,
    readings: tuple[Path, ...],
    *,
    said: SessionOptions,
    day: Conditions | None,
    shown: Shown,
) -> None:
    """Fit a gun's model to its readings: at most three numbers, the rest as assumed and widening the answer.

    Of readings before and after the work those after are used. One ball mass carries one number, two carry two, three or
    both states of the hop-up three.
    """
    loaded = load_gun(gun)
    session = load_session(readings, said, gun=loaded)
    with model_at_work("Fitting", kernel="run_shots"):
        study = study_match(loaded, session, day=day)
    end(shown, answer=lambda: match_answer(study, scale=shown.scale), plain=lambda: session_match_fields(study))


@click.command(
    cls=ExampleCommand,
    examples=["stripdown explain my_gun.toml readings.csv", "stripdown explain my_gun.toml before.csv after.csv --hop off"],
)
@GUN
@READINGS
@session_options
@day_options
@shown_options(speeds=True, assumed=True, pictures=True)
def explain(
    gun: Path,
    readings: tuple[Path, ...],
    *,
    said: SessionOptions,
    day: Conditions | None,
    shown: Shown,
) -> None:
    """Say which single fault, and how much of it, lies between strings before and after, and what would tell causes apart.

    The gun's file describes it sound. Two ball masses tell far more than one.
    """
    loaded = load_gun(gun)
    session = load_session(readings, said, in_turn=True, gun=loaded)
    with model_at_work("Looking for causes", kernel="run_shots"):
        study = study_loss(loaded, session, day=day)
    end(
        shown,
        answer=lambda: explanation_answer(study, scale=shown.scale),
        plain=lambda: session_explanation_fields(study),
        drawn={gun.stem: study},
    )
