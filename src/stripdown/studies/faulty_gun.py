"""A gun with a fault of a given size: which parameters become what."""

from __future__ import annotations

import dataclasses
from collections.abc import Mapping

import numpy as np
from numpy.typing import ArrayLike, NDArray

from stripdown.catalogue.faults import Change, Fault
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.quantities import Q, leaves, replace_at, value_at

Column = NDArray[np.float64]

_LEAVES = {leaf.path: leaf for leaf in leaves(ShotParameters)}
_REACH = 0.9  # of the stroke; beyond it no cylinder has its port
_LEAST_LATER = 1e-3  # m; as much later any port may close, however far forward it ends
_PORTS = ("cylinder.port_1", "cylinder.port_2", "cylinder.port_3")


def fault_columns(parameters: ShotParameters, fault: Fault, amounts: ArrayLike) -> Mapping[str, Column]:
    """Values of every parameter that a fault moves, for each of several amounts."""
    size = np.atleast_1d(np.asarray(amounts, dtype=np.float64))
    columns = {change.path: _changed(_value_before(parameters, change.path), change, size) for change in fault.changes}
    for port in _PORTS:
        _cut_port(parameters, port, columns)
    return {path: _possible(path, column) for path, column in columns.items()}


def fault_of(parameters: ShotParameters, fault: Fault) -> Fault:
    """A fault as far as it can go in this gun: a port that is there has used up part of what is ordinary and possible."""
    used = max((_value_before(parameters, change.path) for change in fault.changes if _lengthens_a_port(change)), default=0.0)
    if used == 0.0:
        return fault
    largest = max(fault.largest - used, _LEAST_LATER)
    ordinary = min(max(fault.ordinary - used, _LEAST_LATER), largest)
    amount = dataclasses.replace(fault.amount, high=largest, usual=(0.0, ordinary))
    return dataclasses.replace(fault, ordinary=ordinary, largest=largest, amount=amount)


def _lengthens_a_port(change: Change) -> bool:
    port, _, name = change.path.rpartition(".")
    return port in _PORTS and name == "length" and change.add > 0.0


def with_fault(parameters: ShotParameters, fault: Fault, amount: float) -> ShotParameters:
    """A gun with one fault."""
    for path, column in fault_columns(parameters, fault, [amount]).items():
        value = float(column[0])
        parameters = replace_at(parameters, path, round(value) if _LEAVES[path].type is int else value)
    return parameters


def _value_before(parameters: ShotParameters, path: str) -> float:
    """A parameter of the sound gun; a slot that is not there reaches as far as those that are, for a fault to lengthen it."""
    port, _, name = path.rpartition(".")
    if name == "length" and port in _PORTS and value_at(parameters, f"{port}.count") == 0:
        slots = [value_at(parameters, other) for other in _PORTS]
        return max((float(slot.start + slot.length) for slot in slots if slot.count > 0), default=0.0)
    return float(value_at(parameters, path))


def _changed(value: float, change: Change, amounts: Column) -> Column:
    if change.to is not None:
        # Nothing of a fault changes nothing, a port that is not there included.
        return np.where(amounts > 0.0, change.to, value)
    return (value + change.add * amounts) * (1.0 - change.shrink * amounts)


def _cut_port(parameters: ShotParameters, port: str, columns: dict[str, Column]) -> None:
    """A slot that would begin behind the drawn seal begins at it, and is so much shorter; none reaches the cylinder head."""
    start = columns.get(f"{port}.start")
    if start is None:
        return
    behind = np.minimum(start, 0.0)
    length = columns.get(f"{port}.length", np.full(start.shape, float(value_at(parameters, f"{port}.length"))))
    stroke = columns.get("cylinder.stroke", np.full(start.shape, parameters.cylinder.stroke))
    room = _REACH * stroke - np.maximum(start, 0.0)
    columns[f"{port}.length"] = np.clip(length + behind, 0.0, np.maximum(room, 0.0))


def _possible(path: str, column: Column) -> Column:
    quantity: Q | None = _LEAVES[path].quantity
    low = None if quantity is None else quantity.low
    high = None if quantity is None else quantity.high
    return np.clip(column, low, high)
