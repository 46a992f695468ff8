"""Public docstrings are whole: every parameter, what comes back, and the unit of every number."""

from __future__ import annotations

import dataclasses
import importlib
import inspect
import pkgutil
import re
import sys
import typing
from collections.abc import Callable, Iterator
from typing import Any

import pytest
from numpydoc.docscrape import NumpyDocString

import stripdown.api
import stripdown.core
from stripdown.core.numerics.rows import Fields
from stripdown.quantities import own_fields

# A number is a float or an array of floats; counts, switches, texts and records need no unit.
_NUMBER = re.compile(r"\bfloat|NDArray\[np\.float64\]|Trace\b")
_QUOTED = re.compile(r"'[^']*'|\"[^\"]*\"")  # words of help beside a type
_SYMBOL = r"(?:m|mm|min|h|s|kg|K|Pa|J|W|N|V|A|C|rad|mol|Hz|degC|ohm)"
_UNIT = re.compile(
    rf"""
    \bin\ (?:the\ )?[(\[]?(?:1/)?{_SYMBOL}\d*\b      # "in Pa", "in kg/s", "in W/(m2 K)"
    | \bSI\b                                  # records that carry many kinds
    | \b(?:dimensionless|pure\ number|ratio|share|fraction|factor|coefficient|multiplier|index|exponent|number|probability|level
        |percentage|same\ unit|unit\ of|degrees\ of\ freedom|times|relative|count|coils|shape|chance|confidence|statistic)\b
    """,
    re.VERBOSE | re.IGNORECASE,
)


def _public() -> Iterator[tuple[str, Any]]:
    """What the interface and the core offer: a package that lists its names offers those, any other all that are not private."""
    names = {f"stripdown.api.{name}": getattr(stripdown.api, name) for name in stripdown.api.__all__}
    for found in pkgutil.walk_packages(stripdown.core.__path__, "stripdown.core."):
        module = importlib.import_module(found.name)
        offered = getattr(sys.modules[found.name.rpartition(".")[0]], "__all__", None)
        for name, thing in vars(module).items():
            here = getattr(_plain(thing), "__module__", None) == module.__name__
            if here and not name.startswith("_") and (offered is None or name in offered):
                names[f"{module.__name__}.{name}"] = thing
    yield from {id(thing): (name, thing) for name, thing in reversed(names.items())}.values()


def _plain(thing: Any) -> Any:
    return getattr(thing, "py_func", thing)  # the function under a compiled one


def _public_functions() -> Iterator[tuple[str, Callable[..., Any]]]:
    for name, thing in _public():
        if inspect.isfunction(_plain(thing)):
            yield name, thing
        elif inspect.isclass(thing) and thing.__module__.startswith("stripdown"):
            for inner, method in vars(thing).items():
                if inspect.isfunction(method) and not inner.startswith("_"):
                    yield f"{name}.{inner}", method


_FUNCTIONS = dict(_public_functions())


def _has_unit(name: str, words: str) -> bool:
    """Whether a description names a unit, or name and description say that it is a pure number."""
    return bool(_UNIT.search(f"{name.replace('_', ' ')} {words}"))


def _names_described(section: list[Any]) -> dict[str, str]:
    return {name.strip(" *"): " ".join(part.desc) for part in section for name in part.name.split(",")}


@pytest.mark.parametrize("name", _FUNCTIONS)
def test_a_public_function_explains_itself(name: str) -> None:
    """Summary, every parameter of the signature and no other, what comes back, and the unit of each number."""
    function = _plain(_FUNCTIONS[name])
    text = inspect.getdoc(function)
    assert text, "no docstring"
    document = NumpyDocString(text)
    assert document["Summary"], "no summary"

    hints = typing.get_type_hints(function).values()
    if any(inspect.isclass(hint) and issubclass(hint, Fields) for hint in hints):
        return  # inside a kernel: it takes rows and work areas, whose fields are declared where they are made
    signature = inspect.signature(function)
    parameters = {key: value for key, value in signature.parameters.items() if key not in {"self", "cls"}}
    described = _names_described(document["Parameters"])
    assert set(described) == set(parameters)

    numbers = [key for key, value in parameters.items() if _NUMBER.search(str(value.annotation))]
    assert [key for key in numbers if not _has_unit(key, described[key])] == [], "a number without its unit"

    if str(signature.return_annotation) != "None":
        returned = document["Returns"] or document["Yields"]
        assert returned, "no Returns"
        words = " ".join(" ".join([part.name, part.type, *part.desc]) for part in returned)
        if _NUMBER.match(str(signature.return_annotation)):
            assert _has_unit(function.__name__, words), "what comes back has no unit"


@pytest.mark.parametrize(
    "record",
    [pytest.param(thing, id=name) for name, thing in _public() if inspect.isclass(thing) and dataclasses.is_dataclass(thing)],
)
def test_a_public_record_explains_its_fields(record: type) -> None:
    """A field either declares its quantity or stands in the docstring with its unit."""
    described = _names_described(NumpyDocString(inspect.getdoc(record) or "")["Parameters"])
    declared = {leaf.path for leaf in own_fields(record) if leaf.quantity is not None}
    for field in dataclasses.fields(record):
        if field.name in declared or not _NUMBER.search(_QUOTED.sub("", str(field.type))):
            continue
        assert field.name in described, f"{field.name} is described nowhere"
        assert _has_unit(field.name, described[field.name]), f"{field.name} has no unit"
