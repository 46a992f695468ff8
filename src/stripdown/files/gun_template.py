"""A commented gun's file to start from, made from the declarations and the catalogue's defaults."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Mapping

from stripdown.catalogue.defaults import load_defaults
from stripdown.catalogue.guns import load_guns
from stripdown.catalogue.springs import load_springs
from stripdown.catalogue.wires import load_wires
from stripdown.errors import InputError
from stripdown.files.gun_fields import TABLES, Field
from stripdown.files.gun_reader import TYPICAL
from stripdown.files.toml_text import quoted
from stripdown.quantities import is_choice
from stripdown.tables.values import Typed
from stripdown.units import show_range

_WIDTH = 100
_TABLE_WORDS: Mapping[str, str] = {
    "gun": "Which gun this is.",
    "spring": "Main spring. Give its rate; or wire, coil diameter and coils; or, as a stopgap, its trade label. "
    "Give its preload; or free and fitted length.",
    "piston": "Piston with its head and ring.",
    "cylinder": "Cylinder. All travel is measured at the ring (the seal line), not at the piston's face.",
    "cylinder.port": "One table [[cylinder.port]] for each ring of slots in the wall, up to three.",
    "cylinder_head": "Cylinder head with its pad.",
    "nozzle": "Nozzle, forward and sealed.",
    "leaks": "Leaks, as the area of a hole that would leak as much. Shooting cannot tell the first three apart.",
    "hop_up": "Hop-up unit as set.",
    "barrel": "Inner barrel.",
    "ball": "The BB. Another mass can be asked for when shooting.",
    "laws": "Coefficients of the model. Leave this table out unless you know why.",
}
_EXAMPLES: Mapping[str, str] = {
    "spring.wire_diameter": '"1.30 mm"',
    "spring.mean_diameter": '"11.7 mm"',
    "spring.outer_diameter": '"13.0 mm"',
    "spring.active_coils": "33.5",
    "spring.total_coils": "35.5",
    "spring.free_length": '"170 mm"',
    "spring.fitted_length": '"115 mm"',
    "spring.wire_material": '"music_wire"',
    "spring.label": '"M100"',
    "cylinder.ported": "false",
    "cylinder.port.start": '"2.4 mm"',
    "cylinder.port.length": '"8 mm"',
    "cylinder.port.width": '"4 mm"',
    "cylinder.port.count": "1",
}


def gun_template(*, name: str = "My gun", layout: str | None = None) -> str:
    """Write a gun's file to start from.

    Parameters
    ----------
    name
        What the gun is called.
    layout
        Key of a typical gun of the catalogue whose values are written in; None writes none.

    Returns
    -------
    str
        TOML, every field with what it is and where to measure it.

    Raises
    ------
    InputError
        For a layout that the catalogue does not have.
    """
    guns = load_guns()
    if layout is not None and layout not in guns:
        raise InputError(
            f'"{layout}" is no layout of the catalogue.', field="layout", value=layout, hint=f"Known are {', '.join(guns)}."
        )
    differs: Mapping[str, Typed] = {} if layout is None else guns[layout].differs
    lines = list(_head(None if layout is None else guns[layout].name))
    for table, fields in TABLES.items():
        lines += ["", *_comment(_TABLE_WORDS[table])]
        if table == "gun":
            lines += [
                "[gun]",
                f"name = {quoted(name)}",
                '# note = "who measured it, when, in what state"',
                "# invented = false",
            ]
            continue
        written = {key for key in fields if _differs_at(table, key) in differs}
        port = table == "cylinder.port"
        lines.append(f"{'# ' if port and not written else ''}{'[[cylinder.port]]' if port else f'[{table}]'}")
        for field in fields.values():
            hidden = "" if field.name in written else "# "
            lines += [*_comment(f"{field.explain}{_range(field)}"), f"{hidden}{field.name} = {_value(field, differs)}"]
    return "\n".join(lines) + "\n"


def _head(layout: str | None) -> Iterator[str]:
    yield '# A gun for stripdown. Values are text with their unit: bore = "23.8 mm" (mm, in, g, N, N/mm, cm3, …).'
    yield "# Take away the # in front of what you measured and put your figure there. What stays commented out is"
    yield "# assumed with the figure shown, and every answer will say so."
    if layout is not None:
        yield f'# Figures marked "{TYPICAL}" are those of a typical {layout}. Nobody measured yours: they stay assumed.'
        yield "# Put your own figure in place of the whole text; where yours is the same, take the word away."


def _differs_at(table: str, name: str) -> str:
    """Path under which a typical gun of the catalogue would have this field."""
    return f"{'cylinder.port_1' if table == 'cylinder.port' else table}.{name}"


def _range(field: Field) -> str:
    if field.path == "spring.wire_material":
        return f" One of {', '.join(load_wires())}."
    if field.path == "spring.label":
        return f" One of {', '.join(spring.name for spring in load_springs().values())}."
    if is_choice(field.type):
        return f" One of {', '.join(name.lower() for name in field.type.__members__)}."  # type: ignore[attr-defined]
    quantity = field.quantity
    if quantity is None or quantity.usual is None or quantity.usual[0] == quantity.usual[1]:
        return ""
    return f" Usual: {show_range(*quantity.usual, quantity)}."


def _value(field: Field, differs: Mapping[str, Typed]) -> str:
    path = _differs_at(field.table, field.name)
    if path in differs:
        text = {"yes": "true", "no": "false"}[differs[path].text] if field.type is bool else differs[path].text
        return quoted(f"{text}, {TYPICAL}")
    if field.path in _EXAMPLES:
        return _EXAMPLES[field.path]
    text = load_defaults()[path].text
    if field.type is bool:
        return "true" if text == "yes" else "false"
    bare = field.type is int or (field.quantity is not None and field.quantity.unit == "1")
    return text if bare else f'"{text}"'


def _comment(words: str) -> list[str]:
    return textwrap.wrap(words, width=_WIDTH, initial_indent="# ", subsequent_indent="# ")
