"""Every number that a kernel reads, and every array that a result carries, is declared once."""

from __future__ import annotations

import typing
from collections.abc import Iterator

import pytest

from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.interior_ballistics.result import EnergyLedger, Shot, ShotSummary
from stripdown.quantities import Leaf, Q, leaves
from stripdown.units import display_unit, units_for

_READ_BY_KERNELS = [leaf for leaf in leaves(ShotParameters) if leaf.type in {float, int}]
_CARRIED = [leaf for record in (EnergyLedger, ShotSummary) for leaf in leaves(record) if leaf.quantity is not None]


def _arrays(record: type) -> Iterator[Leaf]:
    for name, hint in typing.get_type_hints(record, include_extras=True).items():
        if "ndarray" in str(hint):
            quantity = next((extra for extra in typing.get_args(hint) if isinstance(extra, Q)), None)
            yield Leaf(path=name, type=object, quantity=quantity)


def _named(found: list[Leaf]) -> pytest.MarkDecorator:
    return pytest.mark.parametrize("leaf", [pytest.param(leaf, id=leaf.path) for leaf in found])


@_named(_READ_BY_KERNELS)
def test_a_number_that_a_kernel_reads_is_declared_whole(leaf: Leaf) -> None:
    """It has a label, limits, and a usual range inside them, from which the tests draw random guns."""
    quantity = leaf.quantity
    assert quantity is not None
    assert quantity.label
    assert quantity.low is not None
    assert quantity.high is not None
    assert quantity.usual is not None
    low, high = quantity.usual
    assert quantity.low <= low <= high <= quantity.high


@_named([*_arrays(Shot)])
def test_an_array_of_a_result_is_declared(leaf: Leaf) -> None:
    """Charts label their axes, and exports name their columns, from the declaration."""
    assert leaf.quantity is not None
    assert leaf.quantity.label


@pytest.mark.parametrize(
    "unit", sorted({q.unit for leaf in [*_READ_BY_KERNELS, *_CARRIED, *_arrays(Shot)] if (q := leaf.quantity)})
)
def test_a_declared_unit_is_in_the_table_of_units(unit: str) -> None:
    """What is declared can be typed and printed."""
    assert units_for(unit)


@_named([leaf for leaf in [*_READ_BY_KERNELS, *_CARRIED, *_arrays(Shot)] if leaf.quantity and leaf.quantity.shown])
def test_a_workshop_unit_measures_the_same_kind(leaf: Leaf) -> None:
    """The unit that a workshop writes is one in which this quantity may be written."""
    assert leaf.quantity is not None
    assert display_unit(leaf.quantity).name == leaf.quantity.shown
