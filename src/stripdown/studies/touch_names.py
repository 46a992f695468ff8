"""Which material, part or fluid a person means, and a clear answer when it is none of them."""

from __future__ import annotations

import itertools

from stripdown.catalogue.fluids import Fluid, fluid_names, load_fluids
from stripdown.catalogue.kinds import Kind
from stripdown.catalogue.materials import load_materials, material_names
from stripdown.catalogue.part_materials import PartMaterials, load_part_materials, part_names
from stripdown.errors import InputError


def subject_named(typed: str, *, field: str = "material") -> Kind | PartMaterials:
    """Find a material or a part by what a person calls it."""
    _refuse_empty(typed, field, 'Name a material or a part, for example "NBR", "polycarbonate", "nozzle".')
    if (material := material_names().key_of(typed)) is not None:
        return load_materials()[material]
    if (part := part_names().key_of(typed)) is not None:
        return load_part_materials()[part]
    if (fluid := fluid_names().key_of(typed)) is not None:
        raise InputError(
            f'{field}: "{typed}" is a fluid ({load_fluids()[fluid].name}), and here stands what it touches.',
            field=field,
            value=typed,
            hint='Material or part first, then the fluid: "NBR", "isopropyl alcohol".',
        )
    near = [*material_names().near(typed), *part_names().near(typed)]
    raise _unknown(typed, field, near, 'name the wider kind: "rubber", "plastic", "metal".')


def material_named(typed: str, *, field: str) -> Kind:
    """Find a material by what a person calls it."""
    found = subject_named(typed, field=field)
    if isinstance(found, PartMaterials):
        raise InputError(f'{field}: "{typed}" is a part, and here stands a material.', field=field, value=typed)
    return found


def fluid_named(typed: str, *, field: str = "fluid") -> Fluid:
    """Find a fluid by what a person calls it."""
    _refuse_empty(typed, field, 'Name a cleaner, lubricant or adhesive, for example "isopropyl alcohol", "silicone oil".')
    if (fluid := fluid_names().key_of(typed)) is not None:
        return load_fluids()[fluid]
    if material_names().key_of(typed) is not None or part_names().key_of(typed) is not None:
        raise InputError(
            f'{field}: "{typed}" is a material or a part, and here stands what touches it.',
            field=field,
            value=typed,
            hint='Material or part first, then the fluid: "NBR", "isopropyl alcohol".',
        )
    raise _unknown(typed, field, list(fluid_names().near(typed)), 'name the wider kind: "solvent", "oil", "grease".')


def _refuse_empty(typed: object, field: str, hint: str) -> None:
    if not isinstance(typed, str):
        raise InputError(f"{field} = {typed!r} is no name.", field=field, value=typed, hint=hint)
    if not any(sign.isalnum() for sign in typed):
        raise InputError(f"{field} is empty.", field=field, value=typed, hint=hint)


def _unknown(typed: str, field: str, near: list[str], otherwise: str) -> InputError:
    names = ", ".join(f'"{name}"' for name in itertools.islice(dict.fromkeys(near), 4))
    hint = f"Nearest known: {names}. Or {otherwise}" if near else f"{otherwise[0].upper()}{otherwise[1:]}"
    return InputError(f'{field}: "{typed}" is not known.', field=field, value=typed, hint=hint)
