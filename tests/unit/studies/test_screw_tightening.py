"""Screws by their names: what limits the torque, and what an unknown name is told."""

from __future__ import annotations

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stripdown.catalogue import load_screw_classes, load_shell_materials, load_threads
from stripdown.errors import InputError, OutsideValidity
from stripdown.references import load_references
from stripdown.studies.screw_tightening import LimitedBy, screw_tightening, screw_torque, thread_stripping_force

_THREADS = st.sampled_from([thread.name for thread in load_threads().values()])
_MATERIALS = st.sampled_from(sorted(load_shell_materials()))
_CLASSES = st.sampled_from([one.name for one in load_screw_classes().values()])


@given(thread=_THREADS, material=_MATERIALS, property_class=_CLASSES, depth=st.floats(0.4, 2.4), friction=st.floats(0.06, 0.3))
def test_neither_screw_nor_boss_is_overdone(
    thread: str, material: str, property_class: str, depth: float, friction: float
) -> None:
    """The torque is the lower of what the screw bears and half of what strips the boss."""
    engagement = depth * next(one.diameter for one in load_threads().values() if one.name == thread)
    found = screw_tightening(
        thread=thread, material=material, property_class=property_class, engagement=engagement, friction=friction
    )
    assert found.stripping_torque is not None
    assert found.torque == pytest.approx(min(found.screw_torque, 0.5 * found.stripping_torque))
    assert (found.limited_by is LimitedBy.SCREW) == (found.screw_torque <= 0.5 * found.stripping_torque)
    assert found.least_clamp_force < found.clamp_force < found.greatest_clamp_force
    assert found.engagement_to_break is not None
    assert found.strips_first == (engagement < found.engagement_to_break)


def test_a_steel_nut_leaves_the_screw_to_decide() -> None:
    """Without a boss the answer is the torque of the tables."""
    found = screw_tightening(thread="M3", property_class="8.8")
    assert found.torque == found.screw_torque == screw_torque(thread="M3", property_class="8.8")
    assert found.limited_by is LimitedBy.SCREW
    assert (found.stripping_force, found.engagement, found.strips_first) == (None, None, None)
    assert any("steel nut" in note for note in found.notes)


def test_a_wanted_clamp_force_has_its_torque() -> None:
    """Half the force takes half the torque; a wide pan head takes more."""
    whole, half = (screw_torque(thread="M3", clamp_force=force) for force in (1000.0, 500.0))
    assert whole == pytest.approx(2 * half)
    assert screw_torque(thread="M3", clamp_force=1000.0, bearing_diameter=4.5e-3) > whole


def test_two_diameters_are_taken_where_none_are_given() -> None:
    """The workshop's rule for soft bosses."""
    assert screw_tightening(thread="M2.5", material="zinc").engagement == pytest.approx(5e-3)


def test_a_deep_boss_counts_two_and_a_half_diameters() -> None:
    """And says so; a script that asks for the force itself is told."""
    deep, counted = (screw_tightening(thread="M3", material="acetal", engagement=length) for length in (12e-3, 7.5e-3))
    assert deep.stripping_force == counted.stripping_force
    assert any("2.5 were counted" in note for note in deep.notes)
    with pytest.raises(OutsideValidity, match=r"2.5 diameters"):
        thread_stripping_force(thread="M3", engagement=12e-3, material="acetal")


def test_a_shallow_boss_is_pointed_out() -> None:
    """Less than two diameters of thread in zinc."""
    notes = screw_tightening(thread="M3", material="zinc", engagement=3e-3).notes
    assert any(note.startswith("1.0 diameters") for note in notes)


@pytest.mark.parametrize(
    ("material", "words"),
    [
        (None, "manual"),
        ("zamak_5", "turning back until the thread drops in"),
        ("aluminium_cast", "Thread-locker on metal threads only"),
        ("polycarbonate", "In plastic the hand decides"),
    ],
)
def test_every_answer_has_its_caution_and_basis(material: str | None, words: str) -> None:
    """What is known better than this figure, and what cracks what."""
    basis = screw_tightening(thread="M3", material=material).basis
    assert words in basis.caution
    assert "cracks polycarbonate and ABS" in basis.caution
    assert basis.source in load_references()
    assert basis.holds_for


@pytest.mark.parametrize("typed", ["M3", "m3", "3", "M3x0.5", "M3 × 0,5", " M 3 "])
def test_a_thread_is_read_as_it_is_written(typed: str) -> None:
    """Any case, with or without its pitch."""
    assert screw_tightening(thread=typed).thread == "M3"


def test_fine_and_coarse_are_told_apart() -> None:
    """Without a pitch the coarse thread is meant."""
    assert screw_tightening(thread="M8").thread == "M8"
    assert screw_tightening(thread="M8x1").thread == "M8x1"


@pytest.mark.parametrize(
    ("ask", "complaint"),
    [
        (lambda: screw_torque(thread="M3.2"), r"M3\.2.* does not exist.*Nearest are M3 \(pitch 0.5 mm\) and M3\.5"),
        (lambda: screw_torque(thread="M3x0.4"), r"Nearest are M3 "),
        (lambda: screw_torque(thread="M99"), "M99.*Nearest are M8"),
        (lambda: screw_torque(thread="1/4-20"), "1/4-20.*not a metric thread"),
        (lambda: screw_torque(thread=""), 'thread = "" is not a metric thread'),
        (lambda: screw_torque(thread="M3", property_class="8.9"), r"Did you mean 8\.8"),
        (lambda: screw_torque(thread="M3", clamp_force=-1.0), "clamp_force"),
        (lambda: screw_torque(thread="M3", friction=0.0), "friction"),
        (lambda: thread_stripping_force(thread="M7.5", engagement=3e-3, material="zinc"), r"M7\.5.*Nearest are M8"),
        (lambda: thread_stripping_force(thread="M3", engagement=3e-3, material="zamak_4"), "Did you mean zamak_"),
        (lambda: thread_stripping_force(thread="M3", engagement=3e-3), "Neither material nor shear_strength"),
        (lambda: thread_stripping_force(thread="M3", engagement=-3e-3, material="zinc"), "engagement.*-0.003 m is impossible"),
        (lambda: screw_tightening(thread="M3", material="cheese"), "Known are zinc, zamak_3"),
        (lambda: screw_tightening(thread="M3", material="zinc", engagement=0.0), "engagement.* = 0 m is impossible"),
    ],
)
def test_what_is_not_known_is_refused_with_the_nearest(ask: Callable[[], object], complaint: str) -> None:
    """One message each: the field, its value, what would be right."""
    with pytest.raises(InputError, match=complaint):
        ask()


def test_an_own_strength_goes_before_the_catalogue() -> None:
    """Whoever knows the alloy gives its shear strength."""
    from_list, own = (
        thread_stripping_force(thread="M3", engagement=3e-3, material="zamak_3", shear_strength=strength)
        for strength in (None, 107e6)
    )
    assert own == pytest.approx(0.5 * from_list)
