from __future__ import annotations

import click
import pytest

from stripdown.cli.quantity_option import BALL_MASS, QuantitiesOption, QuantityOption, day_options
from stripdown.core.parts.conditions import Conditions
from stripdown.errors import InputError, OutOfRange, UnitError


def _one(typed: str) -> float:
    return QuantityOption(BALL_MASS).convert(typed, None, None)


def _many(typed: str) -> tuple[float, ...]:
    return QuantitiesOption(BALL_MASS).convert(typed, None, None)


@pytest.mark.parametrize("typed", ["0.25 g", "0,25 g", "0.25g", "250 mg"])
def test_a_mass_is_read_with_its_unit(typed: str) -> None:
    """However a person writes a quarter of a gram, it is 0.00025 kg."""
    assert _one(typed) == pytest.approx(0.00025, rel=1e-12)


@pytest.mark.parametrize("typed", ["0.25", "0.25 mm", "quarter", ""])
def test_a_number_without_its_unit_is_refused(typed: str) -> None:
    """Nothing is guessed; the message says what would be right."""
    with pytest.raises(UnitError, match=r"0\.20 g"):
        _one(typed)


def test_an_impossible_mass_is_refused_with_the_limits_in_workshop_units() -> None:
    """A ball of two kilograms is a slip."""
    with pytest.raises(OutOfRange, match=r"2000 g is impossible.*Possible is 0.001 to 1000 g"):
        _one("2 kg")


def test_an_unusual_mass_is_remarked_on(capsys: pytest.CaptureFixture[str]) -> None:
    """Two grams for 0.2 grams is a common slip, and possible: the shot is fired, and the person told."""
    assert _one("2 g") == pytest.approx(0.002)
    assert "2 g is possible and unusual (usual is 0.12 to 0.48 g); look again." in capsys.readouterr().err


@pytest.mark.parametrize(
    "typed",
    ["0.20 g, 0.25 g,0.3 g", "0,20 g, 0,25 g, 0,3 g", "0.20 g; 0.25 g; 0.3 g", "0.2g,0.25g,0.3g,", "200 mg,250 mg,300 mg"],
)
def test_a_comma_after_a_unit_parts_and_one_between_digits_is_a_decimal_sign(typed: str) -> None:
    """So lists can be written by people of either habit."""
    assert _many(typed) == pytest.approx((0.0002, 0.00025, 0.0003), rel=1e-12)


@pytest.mark.parametrize("typed", ["0.2 g,,0.3 g", "", "  ", ",0.2 g"])
def test_nothing_between_two_commas_is_refused(typed: str) -> None:
    """A value that was forgotten is not passed over in silence."""
    with pytest.raises(InputError, match="nothing between two commas"):
        _many(typed)


def test_a_list_in_which_one_unit_is_missing_is_refused() -> None:
    """Half a list is no list."""
    with pytest.raises(UnitError):
        _many("0.20, 0.25 g")


def test_what_was_not_said_about_the_day_is_the_workshop() -> None:
    """Only what was given differs from the default day, and nothing given is no day."""
    days: list[Conditions | None] = []

    @click.command()
    @day_options
    def command(day: Conditions | None) -> None:
        days.append(day)

    command.main([], standalone_mode=False)
    command.main(["--temperature", "12 degC", "--humidity", "80 %"], standalone_mode=False)
    assert days == [None, Conditions(temperature=285.15, relative_humidity=0.8)]
