"""What is said of pads, corners, screws and teeth."""

from __future__ import annotations

from collections.abc import Iterator
from typing import TYPE_CHECKING, Final

from stripdown.catalogue.shell_materials import load_shell_materials
from stripdown.core.part_condition.corners import CornerGain, StressConcentration
from stripdown.core.part_condition.engagement import BASIS as PAD_BASIS
from stripdown.core.part_condition.parameters import RADIUS
from stripdown.units import show, show_number
from stripdown.words.answer import Answer, Cell, Column, Figure, Sentence, Table
from stripdown.words.basis import fired_title, notes, rests_on
from stripdown.words.numbers import joules, share_changed_to_a_tenth, slow, speed, speed_unit
from stripdown.words.sentences import caution_sentence

if TYPE_CHECKING:
    from stripdown.core.part_condition.engagement import EngagementPad
    from stripdown.core.part_condition.parameters import WitnessMark
    from stripdown.core.part_condition.teeth import ToothLoad
    from stripdown.studies.calculators import Answered
    from stripdown.studies.pad_cost import PadCost
    from stripdown.studies.screw_tightening import ScrewTightening
    from stripdown.units import Scale

_SPARED = {"screw": "spares the screw", "boss": "half of what strips the boss"}


def pad_answer(answered: Answered, _: Scale) -> Answer:
    """How thick a pad is wanted, or why a mark says nothing of it."""
    pad, mark = answered.found, answered.asked.record
    return Answer(
        key="pad",
        title="",
        lead=(Sentence(full=answered.refused if pad is None else _pad_in_short(pad)), Sentence(full=_mark(mark, pad))),
        notes=() if pad is None else notes(pad.notes),
        cautions=(caution_sentence(PAD_BASIS.caution),),
        rests_on=rests_on(PAD_BASIS),
        pictures=() if pad is None else ("witness-mark",),
    )


def _pad_in_short(pad: EngagementPad) -> str:
    """Thickness, and whether it is suspect."""
    doubt = ", SUSPECT: the wrong tooth?" if pad.is_suspect else "."
    return f"Pad {show(pad.thickness, 'mm', digits=3)} as pressed, on top of what is there{doubt}"


def pad_figures(pad: EngagementPad) -> dict[str, str]:
    """What stands in the picture of a mark and its pad."""
    return {
        "mark": f"mark {show(pad.witness_height, 'mm', digits=2)}",
        "pad": f"pad {show(pad.thickness, 'mm', digits=3)}{': wrong tooth?' if pad.is_suspect else ''}",
        "pitch": f"one pitch {show(pad.pitch, 'mm', digits=3)}, broken: nine tenths",
    }


def pad_share(pad: EngagementPad) -> str:
    """What stands above that picture."""
    return f"{_share_of_pitch(pad)}; more than 90 %: the wrong tooth?" if pad.is_suspect else _share_of_pitch(pad)


def _share_of_pitch(pad: EngagementPad) -> str:
    return f"{pad.share_of_pitch * 100:.0f} % of a pitch"


def _mark(mark: WitnessMark, pad: EngagementPad | None) -> str:
    angle, module = show(mark.pressure_angle, "deg", digits=3), show(mark.module, "mm", digits=2)
    read = f"Mark {show(mark.witness_height, 'mm', digits=2)} above the pitch line, pressure angle {angle}, module {module}"
    return f"{read}." if pad is None else f"{read}: {_share_of_pitch(pad)}."


def pad_cost_answer(answered: Answered, scale: Scale) -> Answer:
    """What a pad costs a gun: before and after, and what is lost."""
    cost: PadCost = answered.cost
    unit = speed_unit(scale)
    without, with_pad = cost.without, cost.with_pad
    rows = (
        ("stroke", show(cost.stroke_before, "mm", digits=4), show(cost.stroke_after, "mm", digits=4), cost.stroke_lost),
        ("spring gives", joules(cost.stored_before), joules(cost.stored_after), cost.stored_lost),
        ("muzzle speed", speed(without.muzzle_speed, unit), speed(with_pad.muzzle_speed, unit), cost.speed_lost),
        (
            "slam",
            slow(without.slam_speed, unit),
            slow(with_pad.slam_speed, unit),
            1.0 - with_pad.slam_speed / without.slam_speed,
        ),
    )
    return Answer(
        key="pad_cost",
        title=f"{fired_title(answered.gun, cost.ball_mass)}: what the pad costs",
        tables=(
            Table(
                key="pad_cost",
                columns=(
                    Column(head=""),
                    *(Column(head=head, is_figure=True) for head in ("without", "with it", "change")),
                ),
                rows=tuple(
                    (Cell(text=what, key=what), Cell(text=before), Cell(text=after), Cell(text=share_changed_to_a_tenth(-lost)))
                    for what, before, after, lost in rows
                ),
            ),
        ),
        notes=notes(cost.notes),
        cautions=(caution_sentence(cost.basis.caution),),
        rests_on=rests_on(cost.basis),
    )


_SQUARE = (
    "A square corner has no end to its peak on paper. It is reckoned with the sharpest radius that the charts hold for: peak and "
    "gain are at least these. No corner is quite square, cast ones have 0.1 to 0.3 mm (common practice, no source): measure it."
)


def corner_answer(answered: Answered, _: Scale) -> Answer:
    """What one corner does, or what a larger radius takes off."""
    found = answered.found
    assert isinstance(found, CornerGain | StressConcentration)  # noqa: S101  narrows: a corner's answer is one of them
    said: tuple[Sentence, ...] = ()
    if isinstance(found, StressConcentration):
        figures = [_peak(found, "now")]
        said = (Sentence(full="Give the radius that it would get, such as 1.5 mm, to learn what that gains.", act="give_radius"),)
    else:
        figures = [_peak(found.before, "before"), _peak(found.after, "after"), *_gain(found)]
        if found.low <= 1.0:
            said = (Sentence(full="The charts cannot tell this from no gain at all: a larger radius would show."),)
    if answered.asked.record.radius_before == 0.0:
        said = (Sentence(key="square", full=_SQUARE), *said)
    return Answer(
        key="corner",
        title="",
        figures=tuple(figures),
        notes=said,
        cautions=(caution_sentence(found.basis.caution),),
        rests_on=rests_on(found.basis),
    )


def _peak(found: StressConcentration, key: str) -> Figure:
    label = f"peak over mean, {found.loading.value}, radius {show(found.radius, RADIUS)}"
    return _ranged(f"peak_{key}", label, (found.factor, found.low, found.high))


def _gain(gain: CornerGain) -> Iterator[Figure]:
    yield _ranged("gain", "gain, peak before over peak after", (gain.ratio, gain.low, gain.high))
    if gain.notch_ratio is not None:
        words = "the same for a notch in one edge"
        yield Figure(key="notch_ratio", label=words, text=show_number(gain.notch_ratio, 2), value=gain.notch_ratio)


def _ranged(key: str, label: str, figures: tuple[float, float, float]) -> Figure:
    """Two digits: the charts give no more."""
    value, low, high = figures
    text = f"{show_number(value, 2)} ({show_number(low, 2)} to {show_number(high, 2)})"
    return Figure(key=key, label=label, text=text, value=value, low=low, high=high)


def screw_answer(answered: Answered, _: Scale) -> Answer:
    """How tight a screw may be."""
    found: ScrewTightening = answered.found
    return Answer(
        key="screw",
        title="",
        figures=tuple(_tightening(found)),
        notes=notes(found.notes),
        cautions=(caution_sentence(found.basis.caution),),
        rests_on=rests_on(found.basis),
    )


def _tightening(found: ScrewTightening) -> Iterator[Figure]:
    least, greatest = found.least_clamp_force, found.greatest_clamp_force
    yield Figure(
        key="torque",
        label=f"{found.thread}, class {found.property_class}, at most",
        text=f"{_torque(found.torque)} ({_SPARED[found.limited_by.value]})",
        value=found.torque,
    )
    yield Figure(
        key="clamp_force",
        label="clamp force then",
        text=f"{_force(found.clamp_force)} ({_force(least)} to {_force(greatest)} by hand)",
        value=found.clamp_force,
        low=least,
        high=greatest,
    )
    words = "screw in a steel nut bears"
    yield Figure(key="screw_torque", label=words, text=_torque(found.screw_torque), value=found.screw_torque)
    words = "screw breaks at a pull of"
    yield Figure(key="breaking_force", label=words, text=_force(found.breaking_force), value=found.breaking_force)
    if found.stripping_force is not None and found.engagement is not None and found.material is not None:
        held = show(found.engagement, "mm", digits=2)
        yield Figure(
            key="stripping_force",
            label=f"{load_shell_materials()[found.material].name}, {held} of thread, strips at",
            text=f"{_force(found.stripping_force)}, {_torque(found.stripping_torque or 0.0)}",
            value=found.stripping_force,
        )
    if found.engagement_to_break is not None:
        yield Figure(
            key="engagement_to_break",
            label="fresh thread that outlasts the screw",
            text=show(found.engagement_to_break, "mm", digits=2),
            value=found.engagement_to_break,
        )


def tooth_answer(answered: Answered, _: Scale) -> Answer:
    """What a tooth bears."""
    found: ToothLoad = answered.found
    mate = "rack" if found.mate_tooth_count is None else f"gear of {found.mate_tooth_count:.0f} teeth"
    rows = (
        ("bending_stress", f"bending, tooth of a gear of {found.tooth_count:.0f}", found.bending_stress),
        ("mate_bending_stress", f"bending, tooth of the {mate}", found.mate_bending_stress),
        ("contact_pressure", "pressure on the flank", found.contact_pressure),
    )
    force = show(found.normal_force, "N", digits=3)
    return Answer(
        key="tooth",
        title="",
        figures=(
            *(Figure(key=key, label=label, text=show(value, "MPa", digits=2), value=value) for key, label, value in rows),
            Figure(key="normal_force", label="force square to the flank", text=force, value=found.normal_force),
        ),
        cautions=(caution_sentence(found.basis.caution),),
        rests_on=rests_on(found.basis),
    )


def _torque(value: float) -> str:
    return show(value, "N m", digits=2)


def _force(value: float) -> str:
    return show(value, "N", digits=2)


OF_BENCH: Final = {"pad": pad_answer, "corner": corner_answer, "screw": screw_answer, "tooth": tooth_answer}
PRICE_OF_PAD: Final = {"pad": pad_cost_answer}
