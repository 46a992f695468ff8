"""What a shot leaves behind: a ledger that adds up by its own words, and numbers that name events as the kernel does."""

from __future__ import annotations

import dataclasses

import pytest

from stripdown.core.interior_ballistics import kernel, summary
from stripdown.core.interior_ballistics.result import EnergyLedger, EventKind, Outcome
from stripdown.quantities import leaves
from tests.synthetic_shots import LEDGER, make_shot


def test_the_ledger_has_fourteen_entries() -> None:
    """Fourteen entries stand against the spring's work, each once; what is blown out is parted five ways beside them."""
    assert len(EnergyLedger.ENTRIES) == len(set(EnergyLedger.ENTRIES)) == 14
    others = {field.name for field in dataclasses.fields(EnergyLedger)} - set(EnergyLedger.ENTRIES)
    assert others == {
        "spring_work",
        "start_energy",
        "leaked_at_cylinder",
        "leaked_at_port",
        "leaked_at_lip",
        "leaked_past_ball",
        "leaked_at_muzzle",
    }


def test_the_residual_is_what_the_entries_leave_over() -> None:
    """Work of the spring and energy at release less the fourteen entries; a joule more in one is a joule less left over."""
    ledger = dataclasses.replace(LEDGER, start_energy=0.5)
    assert ledger.put_in == pytest.approx(LEDGER.spring_work + 0.5)
    for name in EnergyLedger.ENTRIES:
        more = dataclasses.replace(ledger, **{name: getattr(ledger, name) + 1.0})
        assert more.residual == pytest.approx(ledger.residual - 1.0)


def test_every_entry_is_in_joules_and_has_a_name_for_people() -> None:
    """Each number of the ledger declares its unit and what a workshop calls it."""
    for leaf in leaves(EnergyLedger):
        assert leaf.quantity is not None
        assert leaf.quantity.unit == "J"
        assert leaf.quantity.label


def test_events_are_numbered_as_the_guards() -> None:
    """What the kernel hits by number is what a result calls by name."""
    numbers = {
        EventKind.PISTON_LANDS: kernel.PISTON_LANDS,
        EventKind.PISTON_LIFTS: kernel.PISTON_LIFTS,
        EventKind.PORT_1_STARTS: kernel.PORT_EDGES,
        EventKind.PORT_3_ENDS: kernel.PORT_EDGES + 5,
        EventKind.BALL_STARTS: kernel.BALL_STARTS,
        EventKind.BALL_GRIPS: kernel.BALL_GRIPS,
        EventKind.BALL_SLIPS: kernel.BALL_SLIPS,
        EventKind.PATCH_ENDS: kernel.PATCH_ENDS,
        EventKind.BALL_LEAVES_MUZZLE: kernel.BALL_LEAVES,
        EventKind.BALL_STOPS: kernel.BALL_STOPS,
        EventKind.BALL_STARTS_AGAIN: kernel.BALL_STARTS_AGAIN,
        EventKind.BALL_RETURNS: kernel.BALL_RETURNS,
        EventKind.PISTON_RESTS: kernel.PISTON_RESTS,
    }
    for kind, number in numbers.items():
        assert kind == number
    assert kernel.GUARDS == kernel.PISTON_RESTS == len(EventKind) - 1


def test_outcomes_are_numbered_as_in_the_summary() -> None:
    """The number that a batch keeps is the outcome that a result names."""
    for outcome in Outcome:
        assert getattr(summary, outcome.name) == outcome


def test_a_shot_cannot_be_changed() -> None:
    """A result is frozen: its fields cannot be set."""
    shot = make_shot()
    with pytest.raises(dataclasses.FrozenInstanceError):
        shot.outcome = Outcome.NO_BALL  # type: ignore[misc]
