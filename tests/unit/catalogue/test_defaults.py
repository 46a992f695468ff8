"""Defaults: what is assumed for each parameter of a shot, and by how much such parts differ."""

from __future__ import annotations

import pytest

from stripdown.catalogue.defaults import load_defaults, read_defaults
from stripdown.catalogue.entries import packaged_text
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.errors import CatalogueError
from stripdown.quantities import Leaf, check, is_usual, leaves, value_at
from stripdown.references.provenance import Footing
from stripdown.tables.values import assemble

_NUMBERS = [leaf for leaf in leaves(ShotParameters) if leaf.type is float]


@pytest.mark.parametrize("leaf", _NUMBERS, ids=lambda leaf: leaf.path)
def test_a_default_is_usual_and_so_are_parts_that_differ_from_it(leaf: Leaf) -> None:
    """One tolerance up or down from the default is still possible, so that the sensitivity study can go there."""
    assert leaf.quantity is not None
    default = load_defaults()[leaf.path]
    assert isinstance(default.value, float)
    assert is_usual(default.value, leaf.quantity)
    assert default.tolerance is not None
    assert leaf.quantity.high is None or default.value + default.tolerance <= leaf.quantity.high
    assert leaf.quantity.low is None or default.value - default.tolerance >= leaf.quantity.low or default.value == 0


def test_only_numbers_have_a_tolerance() -> None:
    """Counts, switches and choices are one thing or another."""
    measured = {path for path, default in load_defaults().items() if default.tolerance is not None}
    assert measured == {leaf.path for leaf in _NUMBERS}


def test_the_defaults_are_a_whole_gun() -> None:
    """They pass every rule between parts, and the values arrive where their paths say."""
    values = {path: default.value for path, default in load_defaults().items()}
    gun = assemble(ShotParameters, values)
    check(gun)
    assert {leaf.path: value_at(gun, leaf.path) for leaf in leaves(ShotParameters)} == values


def test_nothing_is_said_to_be_measured_or_published_without_being_so() -> None:
    """Of the defaults only the ratio of heat capacities stands in a published table; the rest is estimate or common practice."""
    footing = {path: default.provenance.footing for path, default in load_defaults().items()}
    known = {path for path, how in footing.items() if how not in (Footing.ESTIMATE, Footing.COMMON_PRACTICE)}
    assert known == {"ambient.heat_capacity_ratio"}


@pytest.mark.parametrize(
    ("old", "new", "field", "said"),
    [
        ("[spring.rate]", "[spring.rat]", "spring.rat", "is no parameter of a shot"),
        ("[spring.rate]\n", "[spring.rate]\nnote = 1\n", "spring.rate.note", "means nothing here"),
        ('value = "520 N/m"', 'value = "520 N"', "spring.rate.value", "is a force, not"),
        ('value = "520 N/m"', 'value = "5 N/m"', "spring.rate.value", "impossible"),
        ('tolerance = "26 N/m"\n', "", "spring.rate.tolerance", "must be a text"),
        ('tolerance = "26 N/m"', 'tolerance = "-26 N/m"', "spring.rate.tolerance", "must not be negative"),
        ('value = "adair"', 'value = "adaire"', "laws.cylinder_heat_law.value", 'Did you mean "adair"'),
        ("[spring.rate]", "x = 1\n[spring.rate]", "x", "stands outside a table"),
    ],
)
def test_defaults_that_break_the_rules_are_refused(old: str, new: str, field: str, said: str) -> None:
    """With file, entry and field."""
    text = packaged_text("defaults.toml")
    assert text.count(old) == 1
    with pytest.raises(CatalogueError) as caught:
        read_defaults(text.replace(old, new), file="defaults.toml")
    assert said in str(caught.value)
    assert (caught.value.file, caught.value.field) == ("defaults.toml", field)


def test_a_parameter_without_a_default_is_refused() -> None:
    """Whatever a gun's file leaves out must be somewhere."""
    text = packaged_text("defaults.toml").replace("[nozzle.bore]", "[nozzle.bore.old]")
    with pytest.raises(CatalogueError, match=r"nozzle\.bore"):
        read_defaults(text, file="defaults.toml")
