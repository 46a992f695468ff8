"""All that may, and may not, touch one thing."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass

from stripdown.catalogue.fluids import Fluid, fluid_names, load_fluids
from stripdown.catalogue.kinds import Kind, members
from stripdown.catalogue.materials import load_materials, material_names
from stripdown.catalogue.part_materials import PartMaterials, load_part_materials, part_names
from stripdown.errors import InputError
from stripdown.studies.ratings import Rating, rating
from stripdown.studies.touch_names import fluid_named, subject_named


@dataclass(frozen=True, slots=True, kw_only=True)
class RatingSurvey:
    """One material, part or fluid against everything in the catalogue.

    Parameters
    ----------
    name
        Its name for people.
    remark
        What one should know of it; empty for nothing.
    fluids
        Answers for each fluid, if it is a material or a part.
    materials
        Answers for each material, if it is a fluid.
    parts
        Answers for each part, if it is a fluid.
    """

    name: str
    remark: str
    fluids: tuple[Rating, ...]
    materials: tuple[Rating, ...]
    parts: tuple[Rating, ...]


def survey_ratings(name: str, *, stressed: bool | None = None, soaked: bool = False, made_of: str | None = None) -> RatingSurvey:
    """Hold one material, part or fluid against everything in the catalogue.

    Parameters
    ----------
    name
        Material, part or fluid, as `stripdown.studies.ratings.rating` understands it.
    stressed
        Whether the material or part is clamped or under stress; None is cautious.
    soaked
        Whether it lies in the fluid.
    made_of
        Material of the part, if it is known; for parts only.

    Returns
    -------
    RatingSurvey
        Wider kinds are left out: all that belong to them are there.

    Raises
    ------
    InputError
        For an empty or unknown name, or one that may be a material and a fluid.
    """
    is_fluid = fluid_names().key_of(name) is not None
    if is_fluid and (material_names().key_of(name) is not None or part_names().key_of(name) is not None):
        raise InputError(
            f'"{name}" may be a material and a fluid.',
            field="name",
            value=name,
            hint=f'Say which: "{name} rubber" or "{name} oil", for example.',
        )
    if not is_fluid:
        subject = subject_named(name)
        fluids = tuple(rating(name, key, stressed=stressed, soaked=soaked, made_of=made_of) for key in _narrow(load_fluids()))
        return RatingSurvey(name=_shown(subject), remark=_remark(subject), fluids=fluids, materials=(), parts=())
    if made_of is not None:
        raise InputError("made_of is for a part.", field="made_of", value=made_of, hint="Name a part, or leave it out.")
    fluid = fluid_named(name)
    return RatingSurvey(
        name=fluid.name,
        remark=fluid.remark,
        fluids=(),
        materials=tuple(rating(key, name, stressed=stressed, soaked=soaked) for key in _narrow(load_materials())),
        parts=tuple(rating(key, name, stressed=stressed, soaked=soaked) for key in load_part_materials()),
    )


def _narrow(kinds: Mapping[str, Kind] | Mapping[str, Fluid]) -> list[str]:
    return [key for key in kinds if members(kinds, key) == (kinds[key],)]


def _shown(subject: Kind | PartMaterials) -> str:
    return subject.shown if isinstance(subject, Kind) else subject.name


def _remark(subject: Kind | PartMaterials) -> str:
    if isinstance(subject, Kind):
        return subject.remark
    return f"Met in {', '.join(load_materials()[key].name for key in subject.materials)}."
