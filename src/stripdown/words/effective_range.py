"""How far a gun hits a target: what is said of it."""

from __future__ import annotations

from typing import TYPE_CHECKING

from stripdown.units import Scale, show
from stripdown.words.answer import Answer, Caption, Cell, Column, FigureFooting, Sentence, Table
from stripdown.words.flight import SAFE_SIDE, ball_and_speed, hop_part, lift_known
from stripdown.words.gun import PREDICTION, assumed_sentence
from stripdown.words.numbers import minus, speed, speed_unit

if TYPE_CHECKING:
    from stripdown.studies.effective_range import RangeStudy

_ESTIMATE = FigureFooting.ESTIMATE
ON_TARGET = "Where the balls strike"
UP, ACROSS = "up, cm", "to the right, cm"


def range_answer(study: RangeStudy, *, scale: Scale) -> Answer:
    """Say to which distance a gun hits a target of a size, and what that rests on."""
    unit = speed_unit(scale)
    assumed = assumed_sentence(study.muzzle.complete.assumed)
    return Answer(
        key="range",
        title=f"{study.muzzle.gun.shown_name}: {ball_and_speed(study.muzzle, unit)}",
        lead=(Sentence(key="range", full=_how_far(study)), *_rests(study, unit)),
        tables=(_hits(study),),
        parts=() if study.hop is None else (hop_part(study.hop, is_fitted=bool(study.lift.sightings)),),
        notes=(
            Sentence(
                key="sights",
                full=f"Sights {study.stance.sight_height * 1e3:.0f} mm over the barrel, zeroed at {study.stance.zero:g} m. Held "
                f"over: "
                "fall and drift at each distance are known and allowed for, as nobody does in a game.",
            ),
            *([assumed] if assumed else []),
            *([] if study.muzzle.reading is not None else [PREDICTION]),
        ),
        cautions=(SAFE_SIDE,),
        pictures=("on-target",),
    )


def on_target_caption(study: RangeStudy, scale: Scale) -> Caption:
    """Say what the picture of the target shows."""
    across = "" if study.group is not None else "; no group was measured, so nothing spreads them across"
    return Caption(
        title=f"{ON_TARGET} at {study.shown_at:g} m",
        lines=(
            f"{study.muzzle.gun.shown_name}: {ball_and_speed(study.muzzle, speed_unit(scale))}",
            f"{len(study.impacts)} shots with the sights on the middle, target {_size(study)}{across}",
        ),
    )


def _how_far(study: RangeStudy) -> str:
    share = f"{study.wanted * 100:.0f} % of the shots"
    sights = _far(study.on_sight, study)
    over = _far(study.held_over, study)
    return f"On a target {_size(study)}, {share} hit {sights} with the sights on its middle, {over} held over."


def _far(distance: float | None, study: RangeStudy) -> str:
    if distance is None:
        return "at no distance"
    if study.hits and distance == study.hits[-1].distance:
        return f"as far as the ball flies, {distance:.0f} m"
    return f"to about {distance:.0f} m"


def _rests(study: RangeStudy, unit: str) -> tuple[Sentence, ...]:
    said = [lift_known(study.lift)]
    if study.group is None:
        full = (
            f"No group was measured: the scatter of the speed ({speed(study.scatter, unit)}) alone spreads shots up and down "
            f"only, and "
            "that least of all. Hop-up, rubber and barrel spread them across too: what stands here is the best that could be."
        )
        return (*said, Sentence(key="speed_alone", full=full, act="give_group"))
    group = study.group
    full = (
        f"Group of {group.shots} shots at {group.distance:g} m: {show(group.width, 'mm', digits=3)} wide, "
        f"{show(group.height, 'mm', digits=3)} high. It is taken to open in proportion to the distance, which a group seldom "
        "does so kindly: far out the shares are optimistic."
    )
    said.append(Sentence(key="group", full=full))
    if study.is_all_speed:
        said.append(
            Sentence(
                key="all_speed", full="The scatter of the speed alone gives more height than the group has: look again at both."
            )
        )
    return tuple(said)


def _hits(study: RangeStudy) -> Table:
    columns = tuple(
        Column(head=head, is_figure=True, footing=footing)
        for head, footing in (
            ("distance", None),
            ("hits, sights on it", _ESTIMATE),
            ("hits, held over", _ESTIMATE),
            ("over the sights, cm", _ESTIMATE),
            ("drift, cm", _ESTIMATE),
            ("spread across, cm", _ESTIMATE),
            ("spread up, cm", _ESTIMATE),
        )
    )
    known = study.group is not None
    rows = tuple(
        (
            Cell(text=f"{one.distance:g} m"),
            Cell(text=_hundredths(one.on_sight)),
            Cell(text=_hundredths(one.held_over)),
            Cell(text=_cm(one.fall)),
            Cell(text=_cm(-one.drift)),
            Cell(text=f"{one.spread_across * 100:.1f}" if known else "not known"),
            Cell(text=f"{one.spread_up * 100:.1f}"),
        )
        for one in study.hits
    )
    return Table(key="hits", columns=columns, rows=rows)


def _hundredths(share: float) -> str:
    return "<1 %" if share < 0.005 else (">99 %" if share > 0.995 else f"{share * 100:.0f} %")


def _cm(length: float) -> str:
    text = f"{length * 100:.0f}"
    return "0" if text == "-0" else minus(text)


def _size(study: RangeStudy) -> str:
    return f"{study.target.width * 100:.3g} by {study.target.height * 100:.3g} cm"
