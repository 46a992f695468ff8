"""The hardest-worked tooth: the two laws put together."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from stripdown.core.mechanics.gear_teeth import lewis_form_factor, lewis_stress
from stripdown.core.part_condition.teeth import tooth_load
from stripdown.errors import OutOfRange, OutsideValidity
from stripdown.references import load_references

_LAST = {"face_width": 5e-3, "module": 1e-3, "tooth_count": 16.0}


def test_the_rack_is_bent_less_than_the_sector() -> None:
    """The same force on the same width: a rack's tooth is thicker at its root, 0.296 against 0.485."""
    found = tooth_load(tangential_force=110.0, **_LAST)
    assert found.bending_stress == pytest.approx(110.0 / (5e-6 * 0.296))
    assert found.mate_bending_stress == pytest.approx(110.0 / (5e-6 * 0.485))
    assert found.normal_force == pytest.approx(110.0 / 0.9396926)


@given(force=st.floats(1.0, 500.0), more=st.floats(1.01, 4.0))
def test_bending_goes_with_the_force_and_pressure_with_its_root(force: float, more: float) -> None:
    """A stronger spring bends the tooth in proportion and presses the flank by the square root."""
    weak, strong = (tooth_load(tangential_force=pull, **_LAST) for pull in (force, force * more))
    assert strong.bending_stress == pytest.approx(more * weak.bending_stress)
    assert strong.contact_pressure == pytest.approx(more**0.5 * weak.contact_pressure)


def test_a_plastic_rack_spreads_the_pressure() -> None:
    """The bending stays, the pressure falls: 3 GPa against 205 GPa leaves about a sixth."""
    steel = tooth_load(tangential_force=110.0, **_LAST)
    plastic = tooth_load(tangential_force=110.0, mate_youngs_modulus=3e9, **_LAST)
    assert plastic.bending_stress == steel.bending_stress
    assert plastic.contact_pressure == pytest.approx(steel.contact_pressure * (2 / (1 + 205 / 3)) ** 0.5)


def test_a_mate_of_few_teeth_is_a_gear() -> None:
    """Its form factor is its own, and two round flanks press harder than a round and a flat one."""
    found = tooth_load(tangential_force=20.0, mate_tooth_count=12.0, **_LAST)
    assert found.mate_bending_stress == pytest.approx(
        lewis_stress(tangential_force=20.0, face_width=5e-3, module=1e-3, form_factor=lewis_form_factor(12))
    )
    assert found.contact_pressure > tooth_load(tangential_force=20.0, **_LAST).contact_pressure


def test_what_cannot_be_is_refused() -> None:
    """A negative force, a face without width, and fewer teeth than the table has."""
    with pytest.raises(OutOfRange, match=r"tangential_force .* = -5 N is impossible"):
        tooth_load(tangential_force=-5.0, **_LAST)
    with pytest.raises(OutOfRange, match="face_width"):
        tooth_load(tangential_force=5.0, face_width=0.0, module=1e-3, tooth_count=16.0)
    with pytest.raises(OutsideValidity, match="begins at 10 teeth; 8 were asked for"):
        tooth_load(tangential_force=5.0, face_width=5e-3, module=1e-3, tooth_count=8.0)


def test_the_answer_says_what_it_rests_on() -> None:
    """A source of the register, and that the look of the tooth decides."""
    basis = tooth_load(tangential_force=5.0, **_LAST).basis
    assert basis.source in load_references()
    assert "reject" in basis.caution
