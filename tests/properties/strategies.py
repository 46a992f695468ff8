"""Random records drawn from the declared usual ranges: for Hypothesis, and for a generator of a fixed seed.

A number without a usual range cannot be drawn, so a record that declares none fails here instead of being left out.
"""

from __future__ import annotations

import enum
from typing import Any, TypeVar

import numpy as np
from hypothesis import strategies as st

from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.quantities import Leaf, leaves
from stripdown.tables.values import assemble

_T = TypeVar("_T")


def _usual(leaf: Leaf) -> tuple[float, float]:
    if leaf.quantity is None or leaf.quantity.usual is None:
        message = f"{leaf.path} declares no usual range, so no random value can be drawn"
        raise TypeError(message)
    return leaf.quantity.usual


def leaf_values(leaf: Leaf) -> st.SearchStrategy[Any]:
    """Values of one leaf: any switch or choice, any number in its usual range."""
    if leaf.type is bool:
        return st.booleans()
    if issubclass(leaf.type, enum.Enum):
        return st.sampled_from(list(leaf.type))
    low, high = _usual(leaf)
    if leaf.type is int:
        return st.integers(int(low), int(high))
    return st.floats(low, high)


@st.composite
def usual_records(draw: st.DrawFn, record_type: type[_T]) -> _T:
    """Records of a type whose every number is usual."""
    return assemble(record_type, {leaf.path: draw(leaf_values(leaf)) for leaf in leaves(record_type)})


def usual_guns() -> st.SearchStrategy[ShotParameters]:
    """Guns, balls and days as a workshop may meet them, in any combination."""
    return usual_records(ShotParameters)


def draw_usual(record_type: type[_T], generator: np.random.Generator) -> _T:
    """One record from a generator, every number even in its usual range."""
    return assemble(record_type, {leaf.path: _drawn(leaf, generator) for leaf in leaves(record_type)})


def _drawn(leaf: Leaf, generator: np.random.Generator) -> Any:
    if leaf.type is bool:
        return bool(generator.integers(2))
    if issubclass(leaf.type, enum.Enum):
        choices = list(leaf.type)
        return choices[int(generator.integers(len(choices)))]
    low, high = _usual(leaf)
    if leaf.type is int:
        return int(generator.integers(int(low), int(high) + 1))
    return float(generator.uniform(low, high))
