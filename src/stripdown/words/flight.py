"""What is said of a ball's flight: where it goes, how well that is known, and what must be looked at again."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING, Final

import numpy as np

from stripdown.core.shot_statistics import Interval
from stripdown.units import Scale, from_si, show
from stripdown.words.answer import Answer, Caption, Cell, Column, Figure, FigureFooting, Sentence, Table
from stripdown.words.gun import PREDICTION, assumed_sentence
from stripdown.words.impact import AT_THE_MUZZLE, impact_part
from stripdown.words.numbers import grams, joules, minus, speed, speed_range, speed_unit

if TYPE_CHECKING:
    from stripdown.studies.flight import FlightStudy
    from stripdown.studies.hop_setting import HopSetting
    from stripdown.studies.lift import FittedLift, Sighting
    from stripdown.studies.muzzle import MuzzleState

_COMPUTED, _ESTIMATE = FigureFooting.COMPUTED, FigureFooting.ESTIMATE
_NOTHING: Final = "–"
SIDE_VIEW = "The flight from the side"
HEIGHT_OVER_MUZZLE = "Height over the muzzle, cm"
PALE_BAND = "pale: between the paths of nine pairs of published laws of drag and lift"
FROM_MUZZLE = "distance from the muzzle, m"
SPEED_BY_DISTANCE = "Drop and speed by distance"
SAFE_SIDE = Sentence(
    key="nobody_downrange",
    full="A ball can hurt further than it is aimed: eye protection for everybody within its whole flight, and a backstop.",
)
NO_LIFT_KNOWN = Sentence(
    key="no_lift_known",
    full="Nobody has published the lift of such a ball; the laws are of other spheres, and one may lose its lift altogether. "
    "Spin computed for a shot is an estimate.",
)


_WITH_MACH: Final = Sentence(
    key="mach", full="The drag grows with the Mach number, by a law whose coefficients are quoted from memory."
)


def flight_answer(study: FlightStudy, *, scale: Scale) -> Answer:
    """Say where the ball goes, between which paths the laws leave it, and what it can hurt."""
    unit = speed_unit(scale)
    assumed = assumed_sentence(study.muzzle.complete.assumed)
    parts = [
        Answer(
            key="by_distance",
            title="By distance",
            tables=(_heights(study), _speeds(study, unit)),
            notes=tuple(_about_distances(study)),
        ),
        Answer(key="chronograph", title="What a chronograph shows", tables=(_chronographs(study, unit),), notes=(_AND_BACK,)),
    ]
    if study.levels:
        parts.append(Answer(key="levels", title="Where it has come down to an energy", tables=(_levels(study),)))
    if study.hop is not None:
        parts.append(hop_part(study.hop, is_fitted=bool(study.lift.sightings)))
    parts.append(impact_part(study.impact))
    return Answer(
        key="flight",
        title=f"{study.muzzle.gun.shown_name}: {ball_and_speed(study.muzzle, unit)}",
        lead=(*_questions(study), lift_known(study.lift)),
        figures=tuple(_figures(study, unit)),
        parts=tuple(parts),
        notes=(
            *([_WITH_MACH] if "mach_factor" in study.path.remarks else []),
            NO_LIFT_KNOWN,
            *([assumed] if assumed else []),
            *([] if study.muzzle.reading is not None else [PREDICTION]),
        ),
        cautions=(AT_THE_MUZZLE, SAFE_SIDE),
        pictures=("side-view", "by-distance"),
    )


def ball_and_speed(muzzle: MuzzleState, unit: str) -> str:
    """Say which ball leaves how fast, and whether that was read."""
    how = "predicted"
    if muzzle.reading is not None:
        how = (
            f"from {speed(muzzle.reading, unit)} read {_metres(muzzle.read_at)} in front of the muzzle"
            if muzzle.read_at
            else "as read"
        )
    return f"{grams(muzzle.ball.mass)} ball, {speed(muzzle.speed, unit)} at the muzzle ({how})"


def lift_known(lift: FittedLift) -> Sentence:
    """Say what the lift rests on, and, if it is a guess, what would better it."""
    return Sentence(key="lift", full=_lift(lift), act="" if lift.sightings else "tell_seen")


def _lift(lift: FittedLift) -> str:
    weight = f"{lift.over_weight:.1f} times the weight of the ball at the muzzle"
    if not lift.sightings:
        return f"Lift not fitted: {weight}, by the usual law at the spin that the shot model gives. That is an estimate."
    seen = ", ".join(map(_seen, lift.sightings))
    own = "" if lift.factor_uncertainty is None else f" ± {lift.factor_uncertainty:.2f}"
    tilt = f", the barrel pointing {_degrees(lift.elevation)}" if lift.is_elevation_fitted else ""
    missed = max((abs(one) for one in lift.misses), default=0.0)
    left = f" What was seen is missed by up to {missed * 100:.0f} cm." if missed > 0.005 else ""
    return f"Lift fitted to what was seen ({seen}): {weight}, {lift.factor:.2f}{own} times the usual law{tilt}.{left}"


def hop_part(hop: HopSetting, *, is_fitted: bool) -> Answer:
    """Say which hop setting flies flattest."""
    rests = "the fitted lift" if is_fitted else "a lift that is not fitted, so it only says more or less"
    change = f"{hop.times_present:.2f} times" if is_fitted else ("more than" if hop.times_present > 1.0 else "less than")
    return Answer(
        key="hop",
        title=f"Hop-up for the flattest flight to {_metres(hop.reach)}",
        figures=(
            Figure(
                key="backspin",
                label="backspin",
                text=f"{change} that of the present setting (about {show(hop.backspin, 'rpm', digits=2)})",
                value=hop.backspin,
                footing=_ESTIMATE,
            ),
            Figure(key="elevation", label="barrel to the line of the sights", text=_degrees(hop.elevation), value=hop.elevation),
            Figure(
                key="deviation",
                label="furthest from the line of the sights",
                text=f"{hop.deviation * 100:.0f} cm",
                value=hop.deviation,
                footing=_ESTIMATE,
            ),
        ),
        notes=(
            Sentence(
                key="hop",
                full=f"It rests on {rests}. Turn the hop-up in small steps and look; a ball that climbs has too much. The muzzle "
                "speed is taken to stay, though a hop-up that presses harder slows the ball: read the chronograph again.",
            ),
        ),
    )


def side_view_caption(study: FlightStudy, scale: Scale) -> Caption:
    """Say what the side view shows."""
    return Caption(
        title=SIDE_VIEW,
        lines=(
            f"{study.muzzle.gun.shown_name}: {ball_and_speed(study.muzzle, speed_unit(scale))}",
            f"line: {'fitted to what was seen' if study.lift.sightings else 'lift not fitted, an estimate'}; {PALE_BAND}",
        ),
    )


def by_distance_caption(study: FlightStudy, scale: Scale) -> Caption:
    """Say what the picture by distance shows."""
    return Caption(
        title=SPEED_BY_DISTANCE,
        lines=(f"{study.muzzle.gun.shown_name}: {ball_and_speed(study.muzzle, speed_unit(scale))}", PALE_BAND),
    )


def _seen(sighting: Sighting) -> str:
    side = "below" if sighting.height < 0.0 else "above"
    amount = f"{abs(sighting.height) * 100:.0f} cm {side} the muzzle"
    return f"highest point {amount}" if sighting.distance is None else f"{amount} at {_metres(sighting.distance)}"


def _figures(study: FlightStudy, unit: str) -> Iterator[Figure]:
    muzzle, path = study.muzzle, study.path
    known_tilt = study.lift.is_elevation_told or study.lift.is_elevation_fitted
    known = _ESTIMATE if muzzle.reading is None else _COMPUTED
    yield Figure(key="muzzle_speed", label="muzzle speed", text=speed(muzzle.speed, unit), value=muzzle.speed, footing=known)
    yield Figure(key="muzzle_energy", label="muzzle energy", text=joules(muzzle.energy), value=muzzle.energy, footing=known)
    yield Figure(
        key="backspin",
        label="backspin of the shot model",
        text=f"{round(from_si(muzzle.backspin, 'rpm'), -2):.0f} rpm, spin ratio {muzzle.spin_ratio:.3f}",
        value=muzzle.backspin,
        footing=_ESTIMATE,
    )
    yield Figure(
        key="elevation",
        label="elevation of the barrel",
        text=_degrees(study.lift.elevation) if known_tilt else "taken to be level: none was told",
        value=study.lift.elevation,
        footing=_ESTIMATE if study.lift.is_elevation_fitted else None,
    )
    top = path.apex
    rise = top.position[2] - study.stance.muzzle_height
    yield Figure(
        key="apex",
        label="highest point",
        text=f"{rise * 100:.0f} cm over the muzzle at {_metres(top.position[0])}",
        value=rise,
        footing=_ESTIMATE,
    )
    ground = path.ground
    if ground is not None:
        yield Figure(
            key="ground",
            label=f"lands, from {study.stance.muzzle_height:.2g} m",
            text=f"{_metres(ground.position[0])}, after {ground.time:.1f} s",
            value=ground.position[0],
            footing=_ESTIMATE,
        )


def _questions(study: FlightStudy) -> Iterator[Sentence]:
    said = {
        "ball": f"Look again: a ball of {grams(study.muzzle.ball.mass)} is no usual one; a slip in its decimal point?",
        "climbs": f"Look again: this ball would climb {study.climb:.1f} m over the line of its barrel. No player leaves a "
        f"hop-up so; "
        "the setting, the spin or what was seen is another than thought.",
        "factor": f"Look again: the lift is {study.lift.factor:.1f} times what the usual law gives at the computed spin. The "
        f"hop-up "
        "presses otherwise than the gun's file says, or what was seen is not this ball, speed or elevation.",
        "sightings_too_near": "What was seen hardly tells lift from elevation: look at a nearer and at a further distance.",
    }
    for key in study.questions:
        yield Sentence(key=key, full=said[key])


def _heights(study: FlightStudy) -> Table:
    passings, line = study.passings, study.sight_line
    blown = bool(np.nanmax(np.abs(passings.position[:, 1]), initial=0.0) > 0.0)
    heads = (
        "height over the muzzle, cm",
        "laws leave open, cm",
        *(("over the sights, cm", "hold over, mrad") if line else ()),
        *(("drift, cm",) if blown else ()),
    )
    rows = []
    for place, at in zip(map(float, passings.distance), passings.position, strict=True):
        height = float(at[2]) - study.stance.muzzle_height
        over = None if line is None else height - line[0] - line[1] * place
        cells = (
            Cell(text=_metres(place)),
            Cell(text=_centimetres(height)),
            Cell(text=_between(*study.band.at(place)[:2])),
            *([] if over is None else [Cell(text=_centimetres(over)), Cell(text=_hold(over, place))]),
            *([Cell(text=_centimetres(-float(at[1])))] if blown else []),
        )
        rows.append(cells)
    return Table(key="heights", columns=_columns(heads), rows=tuple(rows))


def _speeds(study: FlightStudy, unit: str) -> Table:
    passings, ball = study.passings, study.muzzle.ball
    area = 0.25 * math.pi * ball.diameter**2
    rows = []
    for place, fast, time in zip(map(float, passings.distance), map(float, passings.speed), passings.time, strict=True):
        energy = 0.5 * ball.mass * fast**2
        slowest, fastest = study.band.at(place)[2:]
        said = (
            speed(fast, unit),
            speed_range(Interval(slowest, fastest), unit, with_unit=False),
            joules(energy),
            show(energy / area, "J/cm2", digits=2),
            f"{time:.2f} s",
        )
        rows.append((Cell(text=_metres(place)), *(Cell(text=_NOTHING if math.isnan(fast) else one) for one in said)))
    return Table(
        key="speeds", columns=_columns(("speed", "laws leave open", "energy", "energy per area", "time")), rows=tuple(rows)
    )


def _columns(heads: Sequence[str]) -> tuple[Column, ...]:
    return Column(head="distance", is_figure=True), *(Column(head=head, is_figure=True, footing=_ESTIMATE) for head in heads)


def _about_distances(study: FlightStudy) -> Iterator[Sentence]:
    yield Sentence(
        key="band",
        full=f"What the laws leave open: the lowest and the highest path of {len(study.band.laws)} pairs of published laws of "
        f"drag and lift{', each fitted to what was seen' if study.lift.sightings else ''}. The laws of drag alone leave a "
        "tenth of the speed open at 15 m and a fifth at 35 m.",
    )
    if study.band.left_out:
        yield Sentence(
            key="left_out", full=f"{len(study.band.left_out)} pairs of laws cannot give what was seen and are left out."
        )
    if study.sight_line is not None:
        yield Sentence(
            key="sights",
            full=f"Sights {study.stance.sight_height * 1e3:.0f} mm over the barrel, zeroed at "
            f"{_metres(study.stance.zero or 0.0)}. "
            "Hold over: upward if positive.",
        )
    if bool(np.isnan(study.passings.time).any()):
        yield Sentence(key="down", full=f"{_NOTHING}: the ball is down before.")
    if study.path.parameters.wind.across or study.path.parameters.wind.along:
        yield Sentence(key="wind", full="Wind as told, growing with the height by a power law; drift to the right if positive.")


_AND_BACK = Sentence(
    key="and_back",
    full="A reading times the last column is the muzzle speed. A limit at the muzzle is less where the chronograph stands.",
)


def _chronographs(study: FlightStudy, unit: str) -> Table:
    columns = (
        Column(head="stands at", is_figure=True),
        Column(head="shows", is_figure=True, footing=_ESTIMATE),
        Column(head="energy there", is_figure=True, footing=_ESTIMATE),
        Column(head="muzzle speed over reading", is_figure=True, footing=_ESTIMATE),
    )
    rows = tuple(
        (
            Cell(text=_metres(one.distance)),
            Cell(text=speed(one.speed, unit)),
            Cell(text=joules(one.energy)),
            Cell(text=f"{1.0 / one.ratio:.4f}"),
        )
        for one in study.readings
    )
    return Table(key="chronographs", columns=columns, rows=rows)


def _levels(study: FlightStudy) -> Table:
    columns = (
        Column(head="energy", is_figure=True),
        Column(head="reached at", is_figure=True, footing=_ESTIMATE),
        Column(head="with the least published drag", is_figure=True, footing=_ESTIMATE),
    )
    rows = tuple(
        (
            Cell(text=joules(one.energy)),
            *(Cell(text="lands with more" if place is None else _metres(place)) for place in (one.distance, one.furthest)),
        )
        for one in study.levels
    )
    return Table(key="levels", columns=columns, rows=rows)


def _metres(distance: float) -> str:
    return f"{float(f'{distance:.3g}'):g} m"


def _centimetres(height: float) -> str:
    if math.isnan(height):
        return _NOTHING
    text = f"{height * 100:.0f}"
    return "0" if text == "-0" else minus(text)


def _between(low: float, high: float) -> str:
    return _NOTHING if math.isnan(low) else f"{_centimetres(low)} to {_centimetres(high)}"


def _hold(over: float, distance: float) -> str:
    return (
        _NOTHING if math.isnan(over) or distance <= 0.0 else minus(f"{-over / distance * 1e3 + 0.0:.1f}".replace("-0.0", "0.0"))
    )


def _degrees(angle: float) -> str:
    degrees = math.degrees(angle)
    return "level" if abs(degrees) < 0.005 else f"{minus(f'{degrees:.2f}')}°"
