"""`stripdown flight`, `range`, `balls`: where the ball of a gun goes, how far it hits, and which ball suits it."""

from __future__ import annotations

import dataclasses
import functools
import re
from collections.abc import Callable
from dataclasses import dataclass
from pathlib import Path
from typing import TYPE_CHECKING, Any, Final, TypeVar

import click

from stripdown.bench.strings import FIRED_BALL_MASS
from stripdown.cli.ending import Shown, end, shown_options
from stripdown.cli.examples import ExampleCommand
from stripdown.cli.limit import typed_limit
from stripdown.cli.quantity_option import QuantitiesOption, QuantityOption, ball_option, day_options
from stripdown.cli.readings import SessionOptions, load_session, session_options
from stripdown.cli.terminal import model_at_work
from stripdown.core.exterior_ballistics.parameters import Wind
from stripdown.core.parts.conditions import Conditions
from stripdown.errors import InputError
from stripdown.files.gun import load_gun
from stripdown.plain.flight import balls_fields, flight_fields, range_fields
from stripdown.quantities import Q, leaves
from stripdown.studies.ball_choice import study_balls
from stripdown.studies.effective_range import Group, Target, study_range
from stripdown.studies.flight import study_flight
from stripdown.studies.lift import Sighting, SightingKind, flat_to
from stripdown.studies.muzzle import Stance
from stripdown.units import parse
from stripdown.words.ball_choice import balls_answer
from stripdown.words.effective_range import range_answer
from stripdown.words.flight import flight_answer

if TYPE_CHECKING:
    import numpy as np

_F = TypeVar("_F", bound=Callable[..., Any])
_GUN = click.argument("gun", metavar="GUN.toml", type=click.Path(path_type=Path))
_SEED: Final = 20261130
_AMOUNT: Final = r"\d[\d.,]*\s*[a-z]+"
_SEEN: Final = (
    re.compile(rf"flat\s+to\s+(?:about\s+)?(?P<distance>{_AMOUNT})", re.IGNORECASE),
    re.compile(rf"(?:apex|highest)\s+(?P<height>{_AMOUNT})(?:\s+above)?", re.IGNORECASE),
    re.compile(rf"(?P<height>{_AMOUNT})\s+(?P<side>above|below)\s+at\s+(?P<distance>{_AMOUNT})", re.IGNORECASE),
)
_SEEN_HINT: Final = (
    "Write 'flat to 35 m', '20 cm below at 40 m', '15 cm above at 25 m' or 'highest 30 cm', from the level of the muzzle."
)
_GROUP: Final = re.compile(
    rf"(?P<width>\d[\d.,]*(?:\s*[a-z]+)?)\s+by\s+(?P<height>{_AMOUNT})\s*,?\s*(?P<shots>\d{{1,4}})\s+shots\s+at\s+(?P<distance>{_AMOUNT})",
    re.IGNORECASE,
)
_GROUP_HINT: Final = "Write '120 by 150 mm, 10 shots at 20 m': width, height, shots, distance."
_SIZE: Final = re.compile(rf"(?P<width>\d[\d.,]*(?:\s*[a-z]+)?)\s+by\s+(?P<height>{_AMOUNT})", re.IGNORECASE)
_DISTANCE: Final = Q("m", low=-1000, high=300, label="distance from the muzzle")
_READ_AT: Final = Q("m", low=0, high=100, usual=(0, 3), label="distance of the chronograph")
_SPEED: Final = Q("m/s", low=1, high=400, usual=(40, 180), label="reading of the chronograph")
_SCATTER: Final = Q("m/s", low=0, high=50, usual=(0.1, 2), label="standard deviation of the speed")
_ENERGY: Final = Q("J", low=0.001, high=100, usual=(0.05, 3), label="energy")
_WINDOW: Final = Q("m", low=0.01, high=2, usual=(0.05, 0.5), label="window about the line of the sights", shown="cm")
_SHARE: Final = Q("1", low=0.01, high=0.99, label="share of shots that is to hit", shown="%")
_STANCE: Final = {leaf.path: leaf.quantity for leaf in leaves(Stance) if leaf.quantity is not None}
_WIND: Final = {leaf.path: leaf.quantity for leaf in leaves(Wind) if leaf.quantity is not None}


def _option(name: str, quantity: Q, words: str, *, metavar: str, default: str | None = None) -> Callable[[_F], _F]:
    return click.option(
        name, type=QuantityOption(quantity), metavar=metavar, default=default, show_default=default is not None, help=words
    )


@dataclass(frozen=True, slots=True, kw_only=True)
class FlownOptions:
    """What was said of a flight on the command line."""

    ball: float | None
    speed: float | None
    read_at: float
    muzzle_height: float
    elevation: float | None
    sight_height: float
    zero: float | None
    seen: tuple[str, ...]
    flattest_to: float | None
    wind_behind: float
    wind_from_right: float

    @property
    def stance(self) -> Stance:
        """How the gun is held."""
        return Stance(muzzle_height=self.muzzle_height, elevation=self.elevation, sight_height=self.sight_height, zero=self.zero)

    @property
    def wind(self) -> Wind:
        """The wind as told."""
        return Wind(along=self.wind_behind, across=self.wind_from_right)

    @property
    def asked(self) -> dict[str, Any]:
        """What every study of a flight takes."""
        return {
            "ball_mass": self.ball,
            "reading": self.speed,
            "read_at": self.read_at,
            "stance": self.stance,
            "sightings": tuple(map(typed_sighting, self.seen)),
            "flattest_to": self.flattest_to,
            "wind": self.wind,
        }


_FLOWN: Final = (
    ball_option,
    _option("--speed", _SPEED, 'What a chronograph shows, as "98 m/s"; predicted if left out.', metavar="SPEED"),
    _option("--read-at", _READ_AT, "Where that chronograph stands, from the muzzle.", metavar="DISTANCE", default="0 m"),
    _option("--muzzle-height", _STANCE["muzzle_height"], "Height over the ground.", metavar="HEIGHT", default="1.5 m"),
    _option("--elevation", _STANCE["elevation"], 'Of the barrel, as "0 deg" for a level one.', metavar="ANGLE"),
    _option("--sight-height", _STANCE["sight_height"], "Sights over the barrel.", metavar="HEIGHT", default="60 mm"),
    _option("--zero", _STANCE["zero"], "Distance at which the sights are zeroed.", metavar="DISTANCE"),
    click.option(
        "--seen",
        multiple=True,
        metavar="'WHAT'",
        help="What you saw of it: 'flat to 35 m', '20 cm below at 40 m', 'highest 30 cm', from the level of the muzzle. May be "
        "repeated.",
    ),
    _option("--flattest-to", _DISTANCE, "Look for the hop setting that flies flattest up to this distance.", metavar="DISTANCE"),
    _option("--wind-behind", _WIND["along"], "Negative is in the face.", metavar="SPEED", default="0 m/s"),
    _option("--wind-from-right", _WIND["across"], "Negative is from the left.", metavar="SPEED", default="0 m/s"),
)


def flown_options(command: _F) -> _F:
    """Give a command that takes `said` the options for a flight."""
    names = [field.name for field in dataclasses.fields(FlownOptions)]

    @functools.wraps(command)
    def collected(*args: Any, **settings: Any) -> Any:
        said = FlownOptions(**{name: settings.pop(name) for name in names})
        return command(*args, said=said, **settings)

    for option in reversed(_FLOWN):
        collected = option(collected)
    return collected  # type: ignore[return-value]


def typed_sighting(text: str) -> Sighting:
    """Understand what somebody saw of a flight."""
    matched = next((found for pattern in _SEEN if (found := pattern.fullmatch(text.strip()))), None)
    if matched is None:
        raise InputError(f'--seen: "{text}" is not understood.', field="--seen", value=text, hint=_SEEN_HINT)
    said = matched.groupdict()
    distance = None if said.get("distance") is None else parse(said["distance"], "m", field="--seen")
    if said.get("height") is None:
        assert distance is not None  # noqa: S101  narrows: every pattern has one of the two
        return flat_to(distance)
    height = parse(said["height"], "m", field="--seen")
    if distance is None:
        return Sighting(kind=SightingKind.APEX, height=height)
    below = said["side"].lower() == "below"
    return Sighting(kind=SightingKind.HEIGHT, height=-height if below else height, distance=distance)


def typed_group(text: str) -> Group:
    """Understand a group on paper."""
    found = _GROUP.fullmatch(text.strip())
    if found is None:
        raise InputError(f'--group: "{text}" is not understood.', field="--group", value=text, hint=_GROUP_HINT)
    width, height = _two(found, "--group")
    return Group(width=width, height=height, shots=int(found["shots"]), distance=parse(found["distance"], "m", field="--group"))


def typed_target(text: str) -> Target:
    """Understand the size of a target."""
    found = _SIZE.fullmatch(text.strip())
    if found is None:
        hint = "Write '40 by 40 cm': width and height."
        raise InputError(f'--target: "{text}" is not understood.', field="--target", value=text, hint=hint)
    width, height = _two(found, "--target")
    return Target(width=width, height=height)


def _two(found: re.Match[str], field: str) -> tuple[float, float]:
    """Width and height; a width without a unit has that of the height."""
    width = found["width"]
    unit = "" if width[-1].isalpha() else f" {re.sub(r'[^a-zA-Z]', '', found['height'])}"
    return parse(f"{width}{unit}", "m", field=field), parse(found["height"], "m", field=field)


@click.command(
    cls=ExampleCommand,
    examples=[
        "stripdown flight my_gun.toml --elevation '0 deg' --seen 'flat to 35 m'",
        "stripdown flight my_gun.toml --speed '98 m/s' --read-at '1 m' --seen '10 cm above at 25 m' --seen '30 cm below at 40 m'",
        "stripdown flight my_gun.toml --flattest-to '40 m' --energies '0.5 J, 0.2 J' --pictures out",
    ],
)
@_GUN
@flown_options
@click.option(
    "--distances",
    type=QuantitiesOption(_DISTANCE),
    default=", ".join(f"{place} m" for place in range(0, 55, 5)),
    show_default=True,
    metavar="DISTANCES",
    help="Where the flight is told, each with its unit.",
)
@click.option(
    "--energies",
    type=QuantitiesOption(_ENERGY),
    metavar="ENERGIES",
    help='Say where the ball has come down to these, as "0.5 J".',
)
@_option(
    "--hottest",
    _ENERGY,
    "Highest energy that a string has shown, with any ball and selector position; predicted if left out.",
    metavar="ENERGY",
)
@click.option("--mach", is_flag=True, help="Let the drag grow with the Mach number: 2 % at 100 m/s.")
@day_options
@shown_options(speeds=True, assumed=True, pictures=True)
def flight(
    gun: Path,
    *,
    said: FlownOptions,
    distances: tuple[float, ...],
    energies: tuple[float, ...] | None,
    hottest: float | None,
    mach: bool,
    day: Conditions | None,
    shown: Shown,
) -> None:
    """Follow a gun's ball to the ground: height, speed and energy by distance, and what it can hurt.

    Lift is fitted to what you see of the flight, not assumed: that needs a known elevation, or two sightings. Without any it
    stays an estimate, and the band between published laws is wide. Eye protection is judged at the muzzle, whatever the
    distance. The site's own rule comes first.
    """
    loaded, asked = load_gun(gun), said.asked
    with model_at_work("Following the ball", kernel="fly"):
        study = study_flight(
            loaded, **asked, distances=distances, energies=energies or (), hottest=hottest, mach=mach, conditions=day
        )
    end(
        shown,
        answer=lambda: flight_answer(study, scale=shown.scale),
        plain=lambda: flight_fields(study),
        drawn={gun.stem: study},
    )


@click.command(
    "range",
    cls=ExampleCommand,
    examples=[
        "stripdown range my_gun.toml --group '120 by 150 mm, 10 shots at 20 m' --scatter '0.6 m/s' --zero '25 m'",
        "stripdown range my_gun.toml --scatter '0.6 m/s' --target '20 by 30 cm' --flattest-to '40 m'",
    ],
)
@_GUN
@flown_options
@_option("--scatter", _SCATTER, "Standard deviation of a string's speed.", metavar="SPEED")
@click.option("--group", metavar="'GROUP'", help="A group on paper: '120 by 150 mm, 10 shots at 20 m'.")
@click.option(
    "--target", default="40 by 40 cm", show_default=True, metavar="'SIZE'", help="Width and height of an elliptical target."
)
@_option("--share", _SHARE, "Share of the shots that is to hit.", metavar="SHARE", default="50 %")
@day_options
@shown_options(speeds=True, assumed=True, pictures=True)
def range_(
    gun: Path,
    *,
    said: FlownOptions,
    scatter: float | None,
    group: str | None,
    target: str,
    share: float,
    day: Conditions | None,
    shown: Shown,
) -> None:
    """Say to which distance a gun hits a target, with the group that it was seen to shoot.

    The scatter of the speed alone spreads shots up and down only: without a measured group the answer is the best that could
    be, and says so. Sights that have no --zero are zeroed at 20 m.
    """
    asked, own_group, own_target = said.asked, None if group is None else typed_group(group), typed_target(target)
    loaded = load_gun(gun)
    with model_at_work("Shooting at a target", kernel="fly_many"):
        study = study_range(
            loaded,
            **asked,
            rng=_generator(),
            scatter=scatter,
            group=own_group,
            target=own_target,
            wanted=share,
            conditions=day,
        )
    end(shown, answer=lambda: range_answer(study, scale=shown.scale), plain=lambda: range_fields(study), drawn={gun.stem: study})


def _generator() -> np.random.Generator:
    """The same shots each time that somebody asks."""
    import numpy as np  # noqa: PLC0415  only one command of this module draws

    return np.random.default_rng(_SEED)


@click.command(
    cls=ExampleCommand,
    examples=[
        "stripdown balls my_gun.toml --balls '0.20 g, 0.25 g, 0.28 g, 0.32 g'",
        "stripdown balls my_gun.toml after.csv --limit '1.14 J at 0.3 m' --pictures out",
    ],
)
@_GUN
@click.argument("readings", metavar="[READINGS...]", nargs=-1, type=click.Path(path_type=Path))
@click.option("--limit", metavar="LIMIT", help="As for `stripdown verdict`: a key, or '1.14 J at 0.3 m'.")
@click.option(
    "--balls",
    "masses",
    type=QuantitiesOption(FIRED_BALL_MASS),
    default="0.20 g, 0.23 g, 0.25 g, 0.28 g, 0.30 g, 0.32 g, 0.36 g, 0.40 g, 0.43 g, 0.48 g",
    show_default=True,
    metavar="MASSES",
    help="Masses of the balls, each with its unit.",
)
@click.option("--can-fire-automatic/--single-shots-only", default=None, help="What the gun can do; some limits depend on it.")
@_option("--window", _WINDOW, "How far from the line of the sights still hits.", metavar="HEIGHT", default="15 cm")
@_option("--compare-at", _DISTANCE, "Where energy, time and drift are compared.", metavar="DISTANCE", default="30 m")
@_option("--cross-wind", _WIND["across"], "In which they drift.", metavar="SPEED", default="2 m/s")
@session_options
@day_options
@shown_options(speeds=True, assumed=True, pictures=True)
def balls(
    gun: Path,
    readings: tuple[Path, ...],
    *,
    limit: str | None,
    masses: tuple[float, ...],
    can_fire_automatic: bool | None,
    window: float,
    compare_at: float,
    cross_wind: float,
    said: SessionOptions,
    day: Conditions | None,
    shown: Shown,
) -> None:
    """Compare balls in one gun: energy at the muzzle, carry with the best hop setting, energy left, drift, and the limit.

    Nothing is proved of a ball that no string was fired with. Readings without a limit are refused: they would decide nothing.
    """
    if readings and limit is None:
        raise InputError(
            "Readings were given and no limit to hold them against.", field="--limit", hint="Add --limit '1.14 J at 0.3 m'."
        )
    meant = None if limit is None else typed_limit(limit)
    loaded = load_gun(gun)
    session = load_session(readings, said, gun=loaded) if readings else None
    with model_at_work("Comparing balls", kernel="run_shots"):
        study = study_balls(
            loaded,
            ball_masses=masses,
            window=window,
            looked_at=compare_at,
            cross_wind=cross_wind,
            session=session,
            limit=meant,
            can_fire_automatic=can_fire_automatic,
            conditions=day,
        )
    end(shown, answer=lambda: balls_answer(study, scale=shown.scale), plain=lambda: balls_fields(study), drawn={gun.stem: study})
