"""Units: every factor against an independent library, every doubtful spelling refused, nothing ever misread."""

from __future__ import annotations

import math
from typing import Any

import pint
import pytest
from hypothesis import given
from hypothesis import strategies as st

from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.interior_ballistics.result import EnergyLedger, ShotSummary
from stripdown.core.parts.conditions import Conditions
from stripdown.errors import UnitError
from stripdown.quantities import Q, leaves
from stripdown.units import display_unit, from_si, parse, show, show_range, to_si, typed_unit, understand, unit_named, units_for
from stripdown.units.table import ALL_UNITS, KINDS, Unit

_UNITS = list(dict.fromkeys(ALL_UNITS.values()))
_PINT: Any = pint.UnitRegistry(autoconvert_offset_to_baseunit=True)
# Only where Pint spells a unit differently.
_PINT_NAMES = {
    "": "dimensionless",
    "%": "percent",
    "um": "micrometer",
    "us": "microsecond",
    "gf": "gram_force",
    "kgf": "kilogram_force",
    "kgf/mm": "kilogram_force/millimeter",
    "ft lbf": "foot*force_pound",
    "N m": "newton*meter",
    "N cm": "newton*centimeter",
    "mN m": "millinewton*meter",
    "kgf cm": "kilogram_force*centimeter",
    "lbf in": "force_pound*inch",
    "rpm": "revolution/minute",
    "rev": "revolution",
    "rev/s": "revolution/second",
    "deg": "degree",
    "deg/s": "degree/second",
    "l": "liter",
    "mbar": "millibar",
    "J/(kg K)": "joule/kilogram/kelvin",
    "kJ/(kg K)": "kilojoule/kilogram/kelvin",
    "1": "dimensionless",
}
_SI_IN_PINT = {
    "J/m2": "joule/meter**2",
    "N m": "newton*meter",
    "m2": "m**2",
    "m3": "m**3",
    "J/(kg K)": "J/kg/K",
    "1": "dimensionless",
}
_numbers = st.builds(lambda size, sign: sign * float(f"{size:.9g}"), st.floats(1e-6, 1e9), st.sampled_from([-1.0, 1.0]))


def _in_pint(unit: Unit) -> str:
    name = unit.name
    for power in ("2", "3"):
        if name.endswith(power) and name not in _PINT_NAMES:
            return f"{name[:-1]}**{power}"
    return _PINT_NAMES.get(name, name)


def _pint_si(number: float, unit: Unit) -> float:
    return float(_PINT.Quantity(number, _in_pint(unit)).to(_SI_IN_PINT.get(unit.si, unit.si)).magnitude)


@pytest.mark.parametrize("unit", _UNITS, ids=lambda unit: unit.name or "pure")
@given(number=_numbers)
def test_every_unit_agrees_with_an_independent_library(unit: Unit, number: float) -> None:
    """A number typed with any unit of the table has the SI value that Pint gives it."""
    typed = f"{number:.9g}".replace("e+", "e")
    expected = _pint_si(number, unit)
    assert parse(f"{typed} {unit.name}", unit.si) == pytest.approx(expected, rel=1e-12, abs=1e-9 * abs(float(unit.factor)))


@pytest.mark.parametrize("unit", _UNITS, ids=lambda unit: unit.name or "pure")
@given(value=_numbers)
def test_to_and_from_si_undo_each_other(unit: Unit, value: float) -> None:
    """What is converted there and back is the same number."""
    assert to_si(from_si(value, unit.name), unit.name) == pytest.approx(value, rel=1e-12, abs=1e-9)
    assert to_si(from_si(value, unit.name, difference=True), unit.name, difference=True) == pytest.approx(value, rel=1e-12)


@pytest.mark.parametrize(
    ("typed", "si_unit", "expected"),
    [
        ("23.8 mm", "m", 0.0238),
        ("23.8mm", "m", 0.0238),
        ("  23.8   mm ", "m", 0.0238),
        ("23,8 mm", "m", 0.0238),
        ("0.20 g", "kg", 0.0002),
        ("0,200 g", "kg", 0.0002),
        ("1.2 mm2", "m2", 1.2e-6),
        ("1.2 mm²", "m2", 1.2e-6),
        ("1.2 mm^2", "m2", 1.2e-6),
        ("0.5 cm3", "m3", 0.5e-6),
        ("0.5 cm³", "m3", 0.5e-6),
        ("0.5 ml", "m3", 0.5e-6),
        (".5 ml", "m3", 0.5e-6),
        ("0.52 N/mm", "N/m", 520.0),
        ("20 °C", "K", 293.15),
        ("20 degC", "K", 293.15),
        ("-40 degF", "K", 233.15),
        ("−40 °F", "K", 233.15),
        ("1013.25 hPa", "Pa", 101325.0),
        ("2 bar", "Pa", 200000.0),
        ("5 µm", "m", 5e-6),
        ("5 μm", "m", 5e-6),
        ("1 in", "m", 0.0254),
        ("1 thou", "m", 0.0000254),
        ("12 ms", "s", 0.012),
        ("80 %", "1", 0.8),
        ("0.8", "1", 0.8),
        ("2e-3 m", "m", 0.002),
        ("350 fps", "m/s", 106.68),
        ("1 ft·lbf", "J", 1.3558179483314004),
    ],
)
def test_what_a_technician_types_is_read(typed: str, si_unit: str, expected: float) -> None:
    """Spellings of the trade, with comma or dot, sign or superscript, give exactly the decimal value."""
    assert parse(typed, si_unit) == expected


@pytest.mark.parametrize(
    ("typed", "si_unit", "said"),
    [
        ("23.8", "m", 'has no unit. Write a length, for example "23.8 mm"'),
        ("4 N", "m", "is a force, not a length"),
        ("0.8 mm", "1", "is a length, not a pure number"),
        ("1,200 mm", "m", 'Write "1.200" if the comma is a decimal sign, "1200" if it parts thousands'),
        ("12,000", "1", "can be read in two ways"),
        ("1.2.3 mm", "m", "is not a number"),
        ("1,234.5 mm", "m", "is not a number"),
        ("1 200 mm", "m", 'has "200 mm" where the unit belongs'),
        ("1_200 mm", "m", 'has "_200 mm" where the unit belongs'),
        ("10^3 mm", "m", 'has "3 mm" where the unit belongs'),
        ("2³ mm", "m", "where the unit belongs"),
        ("5/16 in", "m", "where the unit belongs"),
        ("nan mm", "m", "is not a number"),
        ("inf mm", "m", "is not a number"),
        ("", "m", "is not a number"),
        ("mm", "m", "is not a number"),
        (". mm", "m", "is not a number"),
        ("- 5 mm", "m", "is not a number"),
        ("٢ mm", "m", "is not a number"),
        ("5 MM", "m", 'Did you mean "mm"?'),
        ("5 Mpa", "Pa", 'Did you mean "MPa"?'),
        ("20 C", "K", 'Did you mean "degC"?'),
        ("0.20 gr", "kg", 'Did you mean "g"?'),
        ("5 mm\n", "m", None),
        ("5 mm\n6 mm", "m", "is not a number"),
        ("9" * 100 + " mm", "m", "is not a number"),
        ("1e400 m", "m", "where the unit belongs"),
    ],
)
def test_what_could_be_misread_is_refused(typed: str, si_unit: str, said: str | None) -> None:
    """A complaint names what was typed and says what would be right; only space around it does no harm."""
    if said is None:
        assert parse(typed, si_unit) == pytest.approx(0.005)
        return
    with pytest.raises(UnitError) as caught:
        parse(typed, si_unit, field="cylinder.bore")
    assert said in str(caught.value)
    assert "cylinder.bore" in str(caught.value)
    assert caught.value.field == "cylinder.bore"
    assert caught.value.value == typed


@given(whole=st.integers(0, 99999), part=st.text("0123456789", min_size=1, max_size=6))
def test_a_decimal_comma_is_never_a_thousands_comma(whole: int, part: str) -> None:
    """A comma reads as the dot does, and says so, unless three digits follow it: then it is refused."""
    comma, dot = f"{whole},{part} mm", f"{whole}.{part} mm"
    if len(part) == 3 and whole:
        with pytest.raises(UnitError, match="two ways"):
            parse(comma, "m")
    else:
        understood = understand(comma, "m")
        assert understood.value == parse(dot, "m")
        assert understood.reworded
        assert understood.text == dot


@given(typed=st.text(max_size=40), si_unit=st.sampled_from(sorted(KINDS)))
def test_any_text_gives_a_finite_number_or_a_unit_error(typed: str, si_unit: str) -> None:
    """Whatever is typed, nothing else happens."""
    try:
        value = parse(typed, si_unit)
    except UnitError:
        return
    assert math.isfinite(value)


@given(
    number=st.from_regex(r"\A[-+−]?[0-9]{1,4}([.][0-9]{0,4}|,[0-9]{0,2})?([eE][-+]?[0-9]{1,2})?\Z"),
    space=st.sampled_from(["", " ", "  "]),
    unit=st.sampled_from(_UNITS),
)
def test_what_is_understood_reads_back_as_itself(number: str, space: str, unit: Unit) -> None:
    """The plain spelling that is printed back means the same value."""
    understood = understand(f"{number}{space}{unit.shown}", unit.si)
    again = understand(understood.text, unit.si)
    assert again.value == understood.value
    assert again.text == understood.text
    assert not again.reworded


def test_a_bare_number_takes_the_unit_of_its_form_field() -> None:
    """A form shows its unit beside the field, so a number alone means that unit; a typed unit still wins."""
    assert parse("23.8", "m", bare_unit="mm") == 0.0238
    assert parse("1 in", "m", bare_unit="mm") == 0.0254


def test_a_step_of_temperature_has_no_zero() -> None:
    """An uncertainty of 2 degC is 2 K, of 1.8 degF is 1 K."""
    assert parse("2 degC", "K", difference=True) == 2.0
    assert parse("1.8 degF", "K", difference=True) == pytest.approx(1.0)
    assert show(2.0, "degC", difference=True) == "2 °C"


@pytest.mark.parametrize(
    ("value", "quantity", "scale", "digits", "expected"),
    [
        (0.0238, "mm", "metric", None, "23.8 mm"),
        (0.0238, Q("m", shown="mm"), "metric", 4, "23.80 mm"),
        (98.7654, "m/s", "metric", 4, "98.77 m/s"),
        (98.7654, "m/s", "imperial", 4, "324.0 ft/s"),
        (99.996, "m/s", "metric", 4, "100.0 m/s"),
        (0.0238, "mm", "imperial", None, "23.8 mm"),
        (293.15, "degC", "metric", None, "20 °C"),
        (293.15, "degC", "imperial", None, "68 °F"),
        (1.2e-6, "mm2", "metric", None, "1.2 mm²"),
        (0.5e-6, "cm3", "metric", None, "0.5 cm³"),
        (0.8, "1", "metric", None, "0.8"),
        (0.8, "%", "metric", None, "80 %"),
        (0.0, "N", "metric", None, "0 N"),
        (0.0, "N", "metric", 3, "0.00 N"),
        (520.0, "N/m", "imperial", 3, "520 N/m"),
        (-0.00123456, "1", "metric", 3, "-0.00123"),
        (math.pi / 6, "deg", "metric", None, "30°"),
        (1e-12, "1", "metric", 3, "1.00e-12"),
        (1e12, "1", "metric", None, "1e+12"),
        (math.inf, "mm", "metric", None, "inf mm"),
    ],
)
def test_a_value_is_printed_in_workshop_units(
    value: float, quantity: Q | str, scale: str, digits: int | None, expected: str
) -> None:
    """Significant digits as asked, no exponent where zeros can be counted, the user's scale for what instruments show."""
    assert show(value, quantity, "imperial" if scale == "imperial" else "metric", digits) == expected


def test_a_range_names_its_unit_once() -> None:
    """A reader sees 40 to 70 mm, not two units."""
    assert show_range(0.04, 0.07, "mm") == "40 to 70 mm"


@given(value=st.floats(1e-6, 1e6), unit=st.sampled_from([unit for unit in _UNITS if not unit.offset]))
def test_what_is_printed_can_be_typed_again(value: float, unit: Unit) -> None:
    """Six digits of a printed value survive being typed."""
    assert parse(show(value, unit.name), unit.si) == pytest.approx(value, rel=1e-5)


@pytest.mark.parametrize("record", [ShotParameters, ShotSummary, EnergyLedger, Conditions])
def test_every_declared_quantity_can_be_printed_and_typed(record: type) -> None:
    """Its SI unit and its workshop unit stand in the table, and belong together."""
    for leaf in leaves(record):
        if leaf.quantity is not None:
            assert units_for(leaf.quantity)
            for scale in ("metric", "imperial"):
                assert display_unit(leaf.quantity, "imperial" if scale == "imperial" else "metric") in units_for(leaf.quantity)


def test_no_two_units_share_a_spelling() -> None:
    """A spelling means one unit, whatever is asked for."""
    spellings = [spelling for unit in _UNITS for spelling in unit.spellings]
    assert len(spellings) == len(set(spellings))


@pytest.mark.parametrize(
    ("typed", "unit"), [("5 N/mm", "N/mm"), ("5 lbf/in", "lbf/in"), ("5", "N/m"), ("5 mm", "N/m"), ("x", "N/m")]
)
def test_a_value_is_answered_in_the_unit_in_which_it_was_typed(typed: str, unit: str) -> None:
    """Who typed N/mm was told limits in N/m; what is no unit of the kind is answered in the workshop's."""
    rate = Q("N/m", low=10, high=20000, usual=(350, 900), label="spring rate")
    found = typed_unit(typed, rate)
    assert display_unit(found).name == unit


def test_forces_stay_in_newtons_where_speeds_are_in_feet() -> None:
    """The option names the unit of speeds: it turned newtons into pounds too."""
    assert show(4.0, "N", "imperial") == "4 N"


def test_an_unknown_unit_by_name_offers_the_nearest() -> None:
    """A chart or option that asks for a unit which is not in the table is told so."""
    with pytest.raises(UnitError, match='Did you mean "psi"'):
        unit_named("psl")


def test_a_declaration_with_an_unlisted_unit_is_the_programmers_mistake() -> None:
    """It is no InputError: no technician could put it right."""
    with pytest.raises(LookupError, match="furlong"):
        parse("1 m", "furlong")
