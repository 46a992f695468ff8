"""May this touch that? Materials and parts of a gun held against what it is cleaned, greased and glued with."""

from __future__ import annotations

from collections.abc import Collection, Iterator, Sequence
from dataclasses import dataclass

from stripdown.catalogue.compatibility import Compatibility, worst
from stripdown.catalogue.fluids import Fluid, load_fluids
from stripdown.catalogue.kinds import Kind, members, rated_as
from stripdown.catalogue.materials import load_materials
from stripdown.catalogue.part_materials import PartMaterials
from stripdown.catalogue.ratings import load_ratings
from stripdown.errors import InputError
from stripdown.references import load_references
from stripdown.references.provenance import Footing, Provenance
from stripdown.studies.touch_names import fluid_named, material_named, subject_named

_BEST_KNOWN_FIRST = (
    Footing.MEASURED,
    Footing.PUBLISHED,
    Footing.MAKERS_CLAIM,
    Footing.COMMON_PRACTICE,
    Footing.ESTIMATE,
)
_NOTHING_KNOWN = Provenance(footing=Footing.COMMON_PRACTICE, source=None, where="what nobody has rated is kept off")
_NOT_TOLD = " of a kind not told"
EYES = "Eye protection whenever a part is under a spring's load or a fluid can splash."
"""Caution that every answer carries."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RatingGround:
    """What one entry of the catalogue says of one material or part with one fluid.

    Parameters
    ----------
    subject
        Name of the material, or of the part if it is said of its place.
    fluid
        Name of the fluid.
    verdict
        Whether it may touch.
    reason
        Why, with the grade if it is a chart's.
    is_graded
        Whether a chart says it, rather than a rule.
    needs_stress
        Whether it holds only for what is clamped or under stress.
    provenance
        Where it comes from.
    """

    subject: str
    fluid: str
    verdict: Compatibility
    reason: str
    is_graded: bool
    needs_stress: bool
    provenance: Provenance

    @property
    def source(self) -> str:
        """The source as a reader can find it, or that there is none."""
        return _cited(self.provenance)


@dataclass(frozen=True, slots=True, kw_only=True)
class Rating:
    """Whether a fluid may touch a material or a part.

    Parameters
    ----------
    subject
        The material or part, by its name for people.
    fluid
        The fluid, by its name for people.
    verdict
        The worst that holds; equal to its word ("suitable", "with_care", "avoid", "unknown").
    reason
        Why, in sentences.
    footing
        How well what decided is known.
    source
        What decided, as a reader can find it; or that it has no source.
    source_key
        Its key in the register of sources; None if it has none.
    where
        Place in the source.
    assumed
        What was not told, and how it was taken.
    cautions
        What can do harm to people or gun.
    grounds
        Everything that the catalogue says of it, the worst first.
    """

    subject: str
    fluid: str
    verdict: Compatibility
    reason: str
    footing: Footing
    source: str
    source_key: str | None
    where: str
    assumed: tuple[str, ...]
    cautions: tuple[str, ...]
    grounds: tuple[RatingGround, ...]


def rating(
    material: str, fluid: str, *, stressed: bool | None = None, soaked: bool = False, made_of: str | None = None
) -> Rating:
    """Say whether a fluid may touch a material or a part of the gun.

    Parameters
    ----------
    material
        Material or part by name, key, or code of ISO 1629 or ISO 1043, in any case; a wider kind ("rubber", "black O-ring")
        stands for all in it, a part for all materials in which it is met.
    fluid
        Cleaner, lubricant or adhesive by name or key, in any case; a wider kind ("grease", "brake cleaner") stands for all in it.
    stressed
        Whether it is clamped, screwed, pressed or sprung. None takes it as stressed where that matters, unless it is a part
        that sits free.
    soaked
        Whether the part lies in the fluid, rather than being wiped or filmed with it.
    made_of
        Material of the part, if it is known; for parts only.

    Returns
    -------
    Rating
        The worst of everything that holds.

    Raises
    ------
    InputError
        For an empty or unknown name, with the nearest known ones; for a fluid where a material belongs, and the other way round.

    Notes
    -----
    Of chart, stress-crack list and rule of the trade the worst counts. What nobody has rated is "unknown" and is to be kept off.
    Charts mean about 70 hours of immersion at room temperature (`wipe_or_soak`).
    """
    subject, what = subject_named(material), fluid_named(fluid)
    part = subject if isinstance(subject, PartMaterials) else None
    if made_of is not None and part is None:
        raise InputError(
            f'made_of: "{material}" is a material already.', field="made_of", value=made_of, hint="Name a part, or leave it out."
        )
    materials = _materials(subject, made_of)
    fluids = members(load_fluids(), what.key)
    under_stress = stressed if stressed is not None else part is None or part.is_stressed
    grounds: list[RatingGround] = []
    for other in fluids:
        for one in materials:
            grounds.extend(_of_material(one, other, under_stress=under_stress, soaked=soaked))
        if part is not None:
            keys = (part.key, *part.groups)
            grounds.extend(_matching(keys, part.name, other, under_stress=under_stress, soaked=soaked))
    # The worst first; of those the best known; of those what is said of the part's place, whatever it is made of.
    grounds.sort(
        key=lambda one: (-one.verdict.severity, _BEST_KNOWN_FIRST.index(one.provenance.footing), one.subject != subject.name)
    )
    deciding = grounds[0]
    verdict = worst(entry.verdict for entry in grounds)
    return Rating(
        subject=subject.name if part is not None else _shown(subject),
        fluid=what.name,
        verdict=verdict,
        reason=_reason(grounds, names_pair=len(materials) > 1 or len(fluids) > 1),
        footing=deciding.provenance.footing,
        source=deciding.source,
        source_key=deciding.provenance.source,
        where=deciding.provenance.where,
        assumed=tuple(_assumed(subject, what, materials, fluids, stressed=stressed, made_of=made_of, grounds=grounds)),
        cautions=tuple(dict.fromkeys([*(caution for one in fluids for caution in one.cautions), *what.cautions, EYES])),
        grounds=tuple(grounds),
    )


def _cited(provenance: Provenance) -> str:
    if provenance.source is None:
        return provenance.footing.words
    return load_references()[provenance.source].cite(provenance.where)


def _shown(subject: Kind | PartMaterials) -> str:
    return subject.shown if isinstance(subject, Kind) else subject.name


def _materials(subject: Kind | PartMaterials, made_of: str | None) -> tuple[Kind, ...]:
    """Materials that it may be of, no wider kind among them."""
    known = load_materials()
    if isinstance(subject, Kind):
        return members(known, subject.key)
    keys = (material_named(made_of, field="made_of").key,) if made_of is not None else subject.materials
    return tuple({one.key: one for key in keys for one in members(known, key)}.values())


def _of_material(material: Kind, fluid: Fluid, *, under_stress: bool, soaked: bool) -> Iterator[RatingGround]:
    """Everything that is said of one material with one fluid, or that nobody has said anything."""
    keys = rated_as(load_materials(), material.key)
    said = list(_matching(keys, material.name, fluid, under_stress=under_stress, soaked=soaked))
    yield from said
    if not said:
        yield RatingGround(
            subject=material.name,
            fluid=fluid.name,
            verdict=Compatibility.UNKNOWN,
            reason=f"Nobody has rated {material.name} with {fluid.name}: keep it off, or try it for a day on a scrap.",
            is_graded=False,
            needs_stress=False,
            provenance=_NOTHING_KNOWN,
        )


def _matching(keys: Collection[str], name: str, fluid: Fluid, *, under_stress: bool, soaked: bool) -> Iterator[RatingGround]:
    """What the catalogue says of a thing that answers to some keys."""
    of_fluid = rated_as(load_fluids(), fluid.key)
    for entry in load_ratings().values():
        if of_fluid.isdisjoint(entry.fluids) or (entry.needs_stress and not under_stress):
            continue
        for key, verdict in entry.verdicts.items():
            if key in keys:
                grade = entry.grades.get(key)
                yield RatingGround(
                    subject=name,
                    fluid=fluid.name,
                    verdict=entry.soaked if soaked and entry.soaked is not None else verdict,
                    reason=" ".join(filter(None, (f"A chart grades it {grade}." if grade else "", entry.reason))),
                    is_graded=grade is not None,
                    needs_stress=entry.needs_stress,
                    provenance=entry.provenance,
                )


def _reason(grounds: Sequence[RatingGround], *, names_pair: bool) -> str:
    """Reasons of what decided: the first pair that is as bad as the answer, rules before charts."""
    first = grounds[0]
    alike = [one for one in grounds if (one.subject, one.fluid, one.verdict) == (first.subject, first.fluid, first.verdict)]
    which = f"{first.subject[:1].upper()}{first.subject[1:]} with {first.fluid}: " if names_pair else ""
    return which + " ".join(dict.fromkeys(one.reason for one in sorted(alike, key=lambda one: one.is_graded)))


def _assumed(
    subject: Kind | PartMaterials,
    what: Fluid,
    materials: Sequence[Kind],
    fluids: Sequence[Fluid],
    *,
    stressed: bool | None,
    made_of: str | None,
    grounds: Sequence[RatingGround],
) -> Iterator[str]:
    if len(materials) > 1:
        names = ", ".join(one.shown for one in materials)
        told = (
            f"{made_of} may be several"
            if made_of
            else "Not told " + ("which it is" if isinstance(subject, Kind) else "what it is made of")
        )
        yield f"{told}: the worst of {names} counts."
    if len(fluids) > 1:
        names = ", ".join(one.name for one in fluids)
        yield f"Not told which {what.name.removesuffix(_NOT_TOLD)} it is: the worst of {names} counts."
    if stressed is None and any(entry.needs_stress for entry in grounds):
        free = worst([Compatibility.SUITABLE, *(entry.verdict for entry in grounds if not entry.needs_stress)])
        if free is not grounds[0].verdict:
            how = "as it sits in the gun" if isinstance(subject, PartMaterials) else "as it nearly always is in a gun"
            yield f"Not told whether it is clamped or under stress: taken as stressed, {how}."
