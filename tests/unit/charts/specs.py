"""Reading specifications in tests: their shape without data, and the data apart."""

from __future__ import annotations

from collections.abc import Iterator
from typing import Any

from stripdown.charts.render import AnyChart, to_spec


def shape(chart: AnyChart) -> Any:
    """The specification without its data and without the names that are made from them."""
    return _without_data(to_spec(chart))


def tables(chart: AnyChart) -> list[list[dict[str, Any]]]:
    """The data of a chart, in the order in which its layers use them."""
    specification = to_spec(chart)
    used = dict.fromkeys(_names(specification))
    return [specification["datasets"][name] for name in used]


def table_with(chart: AnyChart, *fields: str) -> list[dict[str, Any]]:
    """The first table whose rows have all these fields."""
    return next(table for table in tables(chart) if table and set(fields) <= set(table[0]))


def _names(node: Any) -> Iterator[str]:
    if isinstance(node, dict):
        if isinstance(node.get("data"), dict) and "name" in node["data"]:
            yield node["data"]["name"]
        for key, child in node.items():
            if key != "datasets":
                yield from _names(child)
    elif isinstance(node, list):
        for child in node:
            yield from _names(child)


def _without_data(node: Any) -> Any:
    if isinstance(node, dict):
        return {key: _without_data(child) for key, child in node.items() if key not in {"data", "datasets"}}
    return [_without_data(child) for child in node] if isinstance(node, list) else node
