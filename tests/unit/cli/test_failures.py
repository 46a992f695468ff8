from __future__ import annotations

from stripdown.cli.failures import exit_code, said_of
from stripdown.errors import NumericalFailure, OutOfRange, OutsideValidity, StripdownError, UnitError
from stripdown.references import load_references


def test_special_complaints_share_the_code_of_their_kind() -> None:
    """A unit that is wrong and a value out of range are things to put right, as any input."""
    assert exit_code(UnitError("no unit.")) == exit_code(OutOfRange("too long.")) == 2


def test_a_failure_of_no_known_sort_is_still_a_failure() -> None:
    """The root class has no code of its own."""
    assert exit_code(StripdownError("?")) == 1


def test_a_failed_integration_tells_what_is_needed_to_repeat_it() -> None:
    """Time, counts and the whole state, and whose fault it is."""
    failure = NumericalFailure("Stopped.", time=0.0123, state=(0.5, 2e-5), steps=70, rejected=4, evaluations=999)
    text = said_of(failure)
    assert text.startswith("Stopped. This is a fault of the program")
    for figure in ("0.0123", "70 steps", "4 rejected", "999 evaluations", "0.5, 2e-05"):
        assert figure in text


def test_a_model_beyond_its_range_names_the_source() -> None:
    """So that a reader can look up how far it holds."""
    failure = OutsideValidity("Too hot.", model="air", quantity="t", value=1.0, limits=(0, 1), reference="picard_2008")
    assert said_of(failure) == f"Too hot. Range of the model: {load_references()['picard_2008'].cite()}"
