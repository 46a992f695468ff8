"""Mistakes in a gun's file: one clear message with file, line, field and value, and what would be right."""

from __future__ import annotations

from pathlib import Path

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from stripdown.errors import InputError, OutOfRange, UnitError
from stripdown.files.gun import GunCheck, check_gun, load_gun
from stripdown.files.gun_fields import TABLES

_BIND = (
    '[spring]\nwire_diameter = "1.4 mm"\nouter_diameter = "13 mm"\n'
    'total_coils = {coils}\nfree_length = "170 mm"\npreload = "55 mm"\n'
)
_BAD: dict[str, tuple[str, int, str, type[InputError], tuple[str, ...]]] = {
    # name: text, line, field, kind of mistake, what it says
    "a mistyped field": ('[spring]\nrat = "500 N/m"\n', 2, "spring.rat", InputError, ("has no field rat", "Did you mean rate?")),
    "a mistyped table": ('[sprng]\nrate = "500 N/m"\n', 1, "sprng", InputError, ("Did you mean spring?",)),
    "a field that is like none": ("[ball]\ncolour = 3\n", 2, "ball.colour", InputError, ("Known are mass, diameter.",)),
    "a field above all tables": ('rate = "500 N/m"\n', 1, "rate", InputError, ("stands above all tables", "under [spring]")),
    "a number without quotes": ("[cylinder]\nbore = 23.8\n", 2, "cylinder.bore", UnitError, ("has no unit", '"23.8 mm"')),
    "a unit that is missing": ('[cylinder]\nbore = "23.8"\n', 2, "cylinder.bore", UnitError, ('"23.8" has no unit', '"23.8 mm"')),
    "a unit of another kind": ('[cylinder]\nbore = "4 N"\n', 2, "cylinder.bore", UnitError, ("is a force, not a length",)),
    "a unit that nobody knows": (
        '[cylinder]\nbore = "4 foo"\n',
        2,
        "cylinder.bore",
        UnitError,
        ('has "foo" where the unit belongs',),
    ),
    "a thousands comma": ('[barrel]\nlength = "1,200 mm"\n', 2, "barrel.length", UnitError, ("two ways", '"1.200"', '"1200"')),
    "a negative bore": (
        '[cylinder]\nbore = "-23.8 mm"\n',
        2,
        "cylinder.bore",
        OutOfRange,
        ('"-23.8 mm"', "between 1 and 200 mm", "23.5 to 24 mm"),
    ),
    "a value too large": (
        '[spring]\nrate = "30 N/mm"\n',
        2,
        "spring.rate",
        OutOfRange,
        ("impossible", "between 0.01 and 20 N/mm"),
    ),
    "not a number": ("[cylinder_head]\nrestitution = nan\n", 2, "cylinder_head.restitution", InputError, ("is not a number",)),
    "infinity": ("[cylinder_head]\nrestitution = inf\n", 2, "cylinder_head.restitution", InputError, ("is not a number",)),
    "a switch in words": ('[piston]\nvented = "yes"\n', 2, "piston.vented", InputError, ("true or false",)),
    "a switch for a number": ("[piston]\nmass = true\n", 2, "piston.mass", UnitError, ("true is not a number", '"20 g"')),
    "a list for a number": ('[piston]\nmass = ["1 g"]\n', 2, "piston.mass", UnitError, ("is not a number",)),
    "a date for a number": ("[piston]\nmass = 2020-01-01\n", 2, "piston.mass", UnitError, ("is not a number",)),
    "half a slot": (
        '[[cylinder.port]]\nstart = "1 mm"\nlength = "4 mm"\nwidth = "3 mm"\ncount = 2.5\n',
        5,
        "cylinder.port_1.count",
        InputError,
        ("whole number",),
    ),
    "a port without its width": (
        '[[cylinder.port]]\nstart = "1 mm"\nlength = "4 mm"\n',
        1,
        "cylinder.port_1.width",
        InputError,
        ("has no width",),
    ),
    "four rings of ports": ("[[cylinder.port]]\n" * 4, 4, "cylinder.port", InputError, ("more than the 3 rings",)),
    "a port with single brackets": ('[cylinder.port]\nstart = "1 mm"\n', 1, "cylinder.port", InputError, ("[[cylinder.port]]",)),
    "a port and none": (
        "[cylinder]\nported = false\n[[cylinder.port]]\n",
        2,
        "cylinder.ported",
        InputError,
        ("Keep one of the two",),
    ),
    "a port that is not given": ("[cylinder]\nported = true\n", 2, "cylinder.ported", InputError, ("no port is given",)),
    "an inline table": (
        'spring = { rate = "500 N/m" }\n',
        1,
        "spring",
        InputError,
        ("in braces", "[spring] on a line of its own"),
    ),
    "inline ports": (
        '[cylinder]\nport = [{ start = "1 mm" }]\n',
        2,
        "cylinder.port",
        InputError,
        ("in braces", "[[cylinder.port]]"),
    ),
    "a table for a value": ("[piston.mass]\nx = 1\n", 1, "piston.mass", InputError, ("is a value, not a table",)),
    "a value for a table": ('gun = "x"\n', 1, "gun", InputError, ("is a table, not a value", "[gun]")),
    "a list of springs": ('[[spring]]\nrate = "500 N/m"\n', 1, "spring", InputError, ("one table, not a list",)),
    "a name that is a number": ("[gun]\nname = 7\n", 2, "gun.name", InputError, ("not a text",)),
    "an unknown law": ('[laws]\nflow_law = "isentropc"\n', 2, "laws.flow_law", InputError, ('Did you mean "isentropic"?',)),
    "an unknown label": ('[spring]\nlabel = "M105"\n', 2, "spring.label", InputError, ("not in the catalogue", "M100, M110")),
    "an unknown wire": ('[spring]\nwire_material = "brass"\n', 2, "spring.wire_material", InputError, ("Known are music_wire",)),
    "a ball larger than the bore": (
        '[barrel]\nbore = "6.03 mm"\n[ball]\ndiameter = "6.05 mm"\n',
        4,
        "ball.diameter",
        OutOfRange,
        ("6.05 mm does not pass barrel.bore = 6.03 mm",),
    ),
    "a bore smaller than the assumed ball": (
        '[barrel]\nbore = "5.90 mm"\n',
        2,
        "ball.diameter",
        OutOfRange,
        ("5.95 mm does not pass",),
    ),
    "a port beyond the stroke": (
        '[cylinder]\nstroke = "50 mm"\n[[cylinder.port]]\nstart = "45 mm"\nlength = "10 mm"\nwidth = "4 mm"\n',
        5,
        "cylinder.port_1.length",
        OutOfRange,
        ("ends 55 mm", "stroke of 50 mm"),
    ),
    "a spring coil-bound before full draw": (
        _BIND.format(coils=47),
        5,
        "spring.free_length",
        OutOfRange,
        ("coil-bound", "leaves 63.0 mm", "solid at 65.8 mm"),
    ),
    "a rate that the coils deny": (
        '[spring]\nrate = "500 N/m"\nwire_diameter = "1.4 mm"\nmean_diameter = "11.6 mm"\nactive_coils = 25\n',
        2,
        "spring.rate",
        OutOfRange,
        ('"500 N/m" contradicts the coils: 975.8 N/m',),
    ),
    "a preload that the lengths deny": (
        '[spring]\npreload = "50 mm"\nfree_length = "170 mm"\nfitted_length = "115 mm"\n',
        2,
        "spring.preload",
        OutOfRange,
        ("is 55 mm",),
    ),
    "two diameters that disagree": (
        '[spring]\nwire_diameter = "1.3 mm"\nmean_diameter = "11 mm"\nouter_diameter = "13 mm"\n',
        3,
        "spring.mean_diameter",
        OutOfRange,
        ("less one wire",),
    ),
    "two counts that disagree": (
        "[spring]\nactive_coils = 30\ntotal_coils = 40\n",
        3,
        "spring.total_coils",
        OutOfRange,
        ("do not belong to one spring",),
    ),
    "a spring longer fitted than free": (
        '[spring]\nfree_length = "110 mm"\nfitted_length = "115 mm"\n',
        3,
        "spring.fitted_length",
        OutOfRange,
        ("is not shorter",),
    ),
    "a wire as thick as its coil": (
        '[spring]\nwire_diameter = "2 mm"\nouter_diameter = "3 mm"\nactive_coils = 30\n',
        2,
        "spring.outer_diameter",
        OutOfRange,
        ("leaves no hole",),
    ),
    "a rate from coils that is impossible": (
        '[spring]\nwire_diameter = "5 mm"\nmean_diameter = "11 mm"\nactive_coils = 10\n',
        2,
        "spring.rate",
        OutOfRange,
        ("impossible", "It is computed"),
    ),
    "a ball seated beyond the muzzle": (
        '[barrel]\nlength = "60 mm"\nseat_depth = "80 mm"\n',
        3,
        "barrel.seat_depth",
        OutOfRange,
        ("leaves no travel",),
    ),
    "a floor that grips better than the rubber": (
        "[hop_up]\nfloor_friction = 0.8\n",
        2,
        "hop_up.floor_friction",
        OutOfRange,
        ("0.8 is above hop_up.top_friction = 0.6",),
    ),
    "a file that is not TOML": ("[spring\n", 1, "", InputError, ("not TOML",)),
    "a field written twice": ('[ball]\nmass = "1 g"\nmass = "2 g"\n', 3, "", InputError, ("written twice",)),
}


def _check(tmp_path: Path, text: str) -> GunCheck:
    path = tmp_path / "gun.toml"
    path.write_text(text, encoding="utf-8")
    return check_gun(path)


@pytest.mark.parametrize("name", _BAD)
def test_a_mistake_is_told_with_its_place_and_what_would_be_right(tmp_path: Path, name: str) -> None:
    """File, line and field are right, the kind of mistake too, and the words say what to do."""
    text, line, field, kind, said = _BAD[name]
    first = _check(tmp_path, text).wrong[0]
    assert type(first) is kind
    assert str(first).startswith(f"{tmp_path / 'gun.toml'}, line {line}: ")
    assert (first.file, first.line) == (str(tmp_path / "gun.toml"), line)
    assert (first.field or "") == field
    for words in said:
        assert words in str(first)


@pytest.mark.parametrize("name", _BAD)
def test_a_mistake_stops_the_loading(tmp_path: Path, name: str) -> None:
    """Loading raises the same mistake that the check lists first; no half a gun comes back."""
    check = _check(tmp_path, _BAD[name][0])
    assert check.gun is None
    with pytest.raises(InputError) as caught:
        load_gun(tmp_path / "gun.toml")
    assert caught.value.message == check.wrong[0].message
    assert caught.value.line == check.wrong[0].line


def test_all_mistakes_are_told_in_the_order_of_the_file(tmp_path: Path) -> None:
    """A technician mends the file once, not once for each mistake; loading says how many more there are."""
    text = '[cylinder]\nbore = "5 N"\n[spring]\nmass = "x"\nrat = "500 N/m"\n[ball]\ndiameter = "-1 mm"\n'
    check = _check(tmp_path, text)
    assert [mistake.line for mistake in check.wrong] == [2, 4, 5, 7]
    with pytest.raises(UnitError, match="There are 3 more mistakes: `stripdown gun check` lists all"):
        load_gun(tmp_path / "gun.toml")


def test_one_more_mistake_is_told_in_the_singular(tmp_path: Path) -> None:
    """Two mistakes: the first and one more."""
    _check(tmp_path, '[cylinder]\nbore = "5 N"\nstroke = "5 N"\n')
    with pytest.raises(UnitError, match="There is one more mistake"):
        load_gun(tmp_path / "gun.toml")


def test_two_rules_that_are_broken_are_both_told(tmp_path: Path) -> None:
    """Rules between parts do not stop at the first."""
    port = '[[cylinder.port]]\nstart = "45 mm"\nlength = "10 mm"\nwidth = "4 mm"\n'
    text = f'[barrel]\nbore = "5.90 mm"\n[cylinder]\nstroke = "50 mm"\n{port}'
    assert [mistake.field for mistake in _check(tmp_path, text).wrong] == ["ball.diameter", "cylinder.port_1.length"]


def test_a_missing_file_is_told(tmp_path: Path) -> None:
    """By its name, without a traceback's words."""
    with pytest.raises(InputError, match=r"rack9\.toml: there is no such file"):
        load_gun(tmp_path / "rack9.toml")


@pytest.mark.parametrize(
    ("text", "line", "said"),
    [
        ('[leaks]\npiston_seal = "1.28 mm2"\n', 2, "usual is 0 to 0.3 mm²"),
        ('[cylinder]\nbore = "1,2 mm"\n', 2, "usual is 23.5 to 24 mm"),
        ('[spring]\nwire_diameter = "1.3 mm"\n', 2, "gives no spring rate by itself"),
        ('[spring]\nlabel = "M140"\nrate = "500 N/m"\n', 2, "usually means about"),
        (_BIND.format(coils=44.5), 5, "it may bind"),
        ('[spring]\nfree_length = "150 mm"\nfitted_length = "115 mm"\n', 2, "(preload): usual is 40 to 70 mm. It is computed"),
    ],
)
def test_what_is_possible_and_unusual_is_doubted(tmp_path: Path, text: str, line: int, said: str) -> None:
    """A doubt has its line and says what is usual; the gun can be used all the same."""
    check = _check(tmp_path, text)
    assert check.gun is not None
    assert [(doubt.line, said in doubt.message) for doubt in check.doubtful] == [(line, True)]


def test_a_spring_that_just_fits_is_no_mistake(tmp_path: Path) -> None:
    """Room of more than one wire when drawn: neither wrong nor doubtful."""
    check = _check(tmp_path, _BIND.format(coils=42))
    assert not check.wrong
    assert not check.doubtful


_raw = st.one_of(
    st.sampled_from(
        ["true", "3", "-1.5", "nan", '"x"', '"1 mm"', '"1,5 g"', '"1,500 N"', '"0.3"', "[1]", "{a = 1}", "2020-01-01"]
    ),
    st.text("0123456789.,-+ mgNc%", max_size=8).map(lambda text: f'"{text}"'),
)
_places = st.sampled_from(
    [field.path for table in TABLES.values() for field in table.values()] + ["spring.x", "wheel.size", "bore"]
)


@settings(suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(entries=st.dictionaries(_places, _raw, max_size=6))
def test_any_entries_give_a_gun_or_mistakes_with_lines(tmp_path: Path, entries: dict[str, str]) -> None:
    """Whatever stands in the fields, the check ends, and every mistake has a place in the file."""
    check = _check(tmp_path, "".join(f"{path} = {raw}\n" for path, raw in entries.items()) or "# nothing\n")
    assert (check.gun is None) == bool(check.wrong)
    for mistake in check.wrong:
        assert mistake.line is not None
        assert mistake.field or "TOML" in mistake.message
