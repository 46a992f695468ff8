"""One leaf from what a file says, and a record from its leaves."""

from __future__ import annotations

import dataclasses
import datetime
import typing
from typing import Any

import pytest

from stripdown import quantities
from stripdown.catalogue.guns import load_guns
from stripdown.core.interior_ballistics.parameters import HeatLaw, ShotParameters
from stripdown.core.parts.spring import Spring
from stripdown.errors import InputError, UnitError
from stripdown.plain.si import si_record
from stripdown.quantities import Q, leaves, value_at
from stripdown.tables.values import Typed, assemble, read_leaf

_BORE = Q("m", low=0.001, high=0.2, usual=(0.0235, 0.0240), label="cylinder bore", shown="mm")
_SHARE = Q("1", low=0, high=1, label="share")


@pytest.mark.parametrize(
    ("raw", "bare", "quantity", "expected"),
    [
        ("23.8 mm", float, _BORE, Typed(0.0238, "23.8 mm")),
        ("23,8 mm", float, _BORE, Typed(0.0238, "23.8 mm", reworded=True)),
        (0.4, float, _SHARE, Typed(0.4, "0.4")),
        (1, float, _SHARE, Typed(1.0, "1")),
        ("40 %", float, _SHARE, Typed(0.4, "40 %")),
        (2, int, _SHARE, Typed(2, "2")),
        ("2", int, _SHARE, Typed(2, "2")),
        (True, bool, None, Typed(value=True, text="yes")),
        (False, bool, None, Typed(value=False, text="no")),
        ("woschni", HeatLaw, None, Typed(HeatLaw.WOSCHNI, "woschni")),
        (" Woschni", HeatLaw, None, Typed(HeatLaw.WOSCHNI, "woschni")),
    ],
)
def test_a_leaf_is_read_by_its_type(raw: object, bare: type, quantity: Q | None, expected: Typed) -> None:
    """Numbers with units become SI, pure numbers may stand without quotes, switches and choices by name."""
    assert read_leaf(raw, bare, quantity, field="x.y") == expected


@pytest.mark.parametrize(
    ("raw", "bare", "quantity", "kind", "said"),
    [
        (23.8, float, _BORE, UnitError, "has no unit"),
        (True, float, _BORE, UnitError, 'for example y = "24 mm"'),
        ([1], float, _BORE, UnitError, "is not a number with a unit"),
        (float("nan"), float, _SHARE, UnitError, "is not a number"),
        (datetime.date(2020, 1, 1), float, _SHARE, UnitError, "is not a number"),
        (2.0, int, _SHARE, InputError, "is not a count"),
        (True, int, _SHARE, InputError, "is not a count"),
        ("two", int, _SHARE, InputError, "is not a count"),
        ("²", int, _SHARE, InputError, "is not a count"),
        (1, bool, None, InputError, "true or false"),
        ("true", bool, None, InputError, "without quotes"),
        ("WOSCHNEY", HeatLaw, None, InputError, 'Did you mean "woschni"? Choose from'),
        (2, HeatLaw, None, InputError, '"hohenberg"'),
    ],
)
def test_what_is_no_such_leaf_is_refused(raw: object, bare: type, quantity: Q | None, kind: type[InputError], said: str) -> None:
    """With the field, the value, and what to write instead."""
    with pytest.raises(kind) as caught:
        read_leaf(raw, bare, quantity, field="x.y")
    assert said in str(caught.value)
    assert caught.value.field == "x.y"


def test_a_record_taken_apart_and_put_together_is_the_same() -> None:
    """Every leaf finds its way back, through all nested records."""
    for gun in load_guns().values():
        apart = {leaf.path: value_at(gun.parameters, leaf.path) for leaf in leaves(ShotParameters)}
        assert assemble(ShotParameters, apart) == gun.parameters


def test_annotations_are_resolved_once(monkeypatch: pytest.MonkeyPatch) -> None:
    """To resolve them took two thirds of a shot: a record put together, listed and printed again resolves none."""
    gun = load_guns()["carbine"].parameters
    values = {leaf.path: value_at(gun, leaf.path) for leaf in leaves(ShotParameters)}
    first, resolved = assemble(ShotParameters, values), []

    def counting(record_type: type, **options: Any) -> dict[str, Any]:
        resolved.append(record_type)
        return typing.get_type_hints(record_type, **options)

    monkeypatch.setattr(quantities, "get_type_hints", counting)

    @quantities.parameters
    class Fresh:
        """A record that nobody has read yet: shows that the count counts."""

        spring: Spring

    assert resolved == [Fresh]
    assert assemble(ShotParameters, values) == first
    assert assemble(Fresh, values).spring == gun.spring
    assert si_record(gun) == si_record(first)
    assert resolved == [Fresh]


def test_a_forgotten_leaf_is_the_programmers_mistake() -> None:
    """It is no InputError: nobody at the bench forgot it."""
    gun = load_guns()["carbine"].parameters
    with pytest.raises(KeyError, match=r"spring\.rate"):
        assemble(type(gun.spring), {"spring.mass": 1.0}, "spring.")


def test_a_typed_value_cannot_be_changed() -> None:
    """It is what the file said."""
    with pytest.raises(dataclasses.FrozenInstanceError):
        Typed(1.0, "1").value = 2.0  # type: ignore[misc]
