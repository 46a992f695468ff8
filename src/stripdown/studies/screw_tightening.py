"""How tight may this screw be in this boss: names in, torque out, with what limits it."""

from __future__ import annotations

import enum
from collections.abc import Mapping
from dataclasses import dataclass
from typing import Annotated, Final

from stripdown.catalogue.screw_classes import ScrewClass, load_screw_classes
from stripdown.catalogue.shell_materials import Family, ShellMaterial, load_shell_materials
from stripdown.catalogue.threads import Thread, thread_named
from stripdown.core.part_condition.basis import Basis
from stripdown.core.part_condition.parameters import ENGAGEMENT, FRICTION, USUAL_FRICTION
from stripdown.core.part_condition.screws import (
    CLAMP_FORCE,
    DEEPEST,
    HAND_SCATTER,
    SETTLING,
    TORQUE,
    stress_area,
    stripping_force,
    torque_per_clamp_force,
    yield_clamp_force,
)
from stripdown.errors import InputError
from stripdown.quantities import Q, check_value
from stripdown.tables.nearest import nearest_name

BOSS_SHARE: Final = 0.5
"""Part of the stripping torque that a boss is given (common practice, no source)."""
USUAL_DEPTH: Final = 2.0
"""Engagement in diameters that zinc, aluminium and plastic want, by the workshop's rule."""

_FIRST: Final = "The figure in the gun's manual, or of whoever made the part, comes first."
_LOCKER: Final = (
    "Thread-locker on metal threads only: it cracks polycarbonate and ABS; it changes the torque, and a cured joint cannot be "
    "checked again."
)
_METAL: Final = "Every unscrewing takes some of the thread: start by hand, turning back until the thread drops in."
_BY_FAMILY: Final[Mapping[Family, str]] = {
    Family.ZINC: _METAL,
    Family.ALUMINIUM: _METAL,
    Family.PLASTIC: "In plastic the hand decides: stop as the head sits. The figure is for a cut thread; a screw that forms its "
    "own needs torque to drive besides, and clamped plastic creeps.",
}


class LimitedBy(enum.Enum):
    """What gives first as the screw is tightened."""

    SCREW = "screw"
    BOSS = "boss"


@dataclass(frozen=True, slots=True, kw_only=True)
class ScrewTightening:
    """How tight a screw may be.

    Parameters
    ----------
    thread
        Name of the thread.
    property_class
        Of the screw.
    friction
        Coefficient of thread and head, a pure number.
    material
        Key of what the boss is made of; None for a steel nut.
    engagement
        Length of thread that holds, in m; None for a steel nut.
    torque
        Most that spares screw and boss, in N m.
    limited_by
        What the torque spares.
    clamp_force
        At that torque, in N.
    least_clamp_force
        What it may be when set by hand and settled, in N.
    greatest_clamp_force
        What it may be when set by hand, in N.
    stripping_force
        Pull at which a fresh boss strips, in N; None for a steel nut.
    stripping_torque
        Torque that pulls so hard, in N m; None for a steel nut.
    strips_first
        Whether the boss strips before the screw breaks; None for a steel nut.
    engagement_to_break
        Engagement in m at which the screw would break first; None for a steel nut.
    notes
        What to know before it is tightened, one sentence each.
    basis
        What the figures rest on.
    """

    thread: str
    property_class: str
    friction: Annotated[float, FRICTION]
    material: str | None
    engagement: Annotated[float | None, ENGAGEMENT]
    torque: Annotated[float, TORQUE]
    limited_by: LimitedBy
    clamp_force: Annotated[float, CLAMP_FORCE]
    least_clamp_force: Annotated[float, CLAMP_FORCE]
    greatest_clamp_force: Annotated[float, CLAMP_FORCE]
    screw_torque: Annotated[float, Q("N m", label="torque that the screw bears in a steel nut")]
    breaking_force: Annotated[float, Q("N", label="pull that breaks the screw")]
    stripping_force: Annotated[float | None, Q("N", label="pull that strips the boss")]
    stripping_torque: Annotated[float | None, Q("N m", label="torque that strips the boss")]
    strips_first: bool | None
    engagement_to_break: Annotated[float | None, Q("m", label="engagement at which the screw breaks first", shown="mm")]
    notes: tuple[str, ...]
    basis: Basis


def screw_torque(
    *,
    thread: str,
    property_class: str = "8.8",
    friction: float = USUAL_FRICTION,
    clamp_force: float | None = None,
    bearing_diameter: float | None = None,
) -> float:
    """Torque for a screw in a steel nut.

    Parameters
    ----------
    thread
        Such as ``"M3"`` or ``"M8x1"``.
    property_class
        Such as ``"8.8"`` or ``"A2-70"``; 4.8 if nothing is stamped on the head.
    friction
        Coefficient in the thread and under the head, a pure number; 0.12 is plain or lightly oiled steel.
    clamp_force
        Wanted, in N; the force at 90 % of the screw's yield strength if None.
    bearing_diameter
        Mean diameter in m of the ring under the head; that of a hexagon head if None.

    Returns
    -------
    float
        Torque in N m.

    Raises
    ------
    InputError
        For a thread that does not exist or an unknown class, with the nearest; an impossible value.

    Notes
    -----
    Never for a boss of zinc, aluminium or plastic: see `screw_tightening`. Maker's or manual's figures come first.

    References
    ----------
    vdi_2230, assembly preload and tightening torque.
    """
    screw, strength = thread_named(thread), _class_named(property_class)
    per_force = torque_per_clamp_force(
        diameter=screw.diameter, pitch=screw.pitch, friction=friction, bearing_diameter=bearing_diameter
    )
    if clamp_force is None:
        return per_force * _yield_clamp(screw, strength, friction)
    check_value("clamp_force", clamp_force, CLAMP_FORCE)
    return per_force * clamp_force


def thread_stripping_force(
    *, thread: str, engagement: float, material: str | None = None, shear_strength: float | None = None
) -> float:
    """Pull on a screw at which the thread of its boss shears off.

    Parameters
    ----------
    thread
        Such as ``"M3"``.
    engagement
        Length of thread that holds, in m.
    material
        What the boss is made of: a key such as ``"zamak_3"``, ``"aluminium_cast"`` or ``"polyamide_glass"``.
    shear_strength
        Of the boss in Pa, instead of the catalogue's figure.

    Returns
    -------
    float
        Force in N, for a fresh thread pulled once.

    Raises
    ------
    InputError
        For a thread that does not exist or an unknown material, with the nearest; an impossible value; neither material nor
        strength.
    OutsideValidity
        For more than 2.5 diameters of engagement.

    References
    ----------
    fed_std_h28, shear area of the internal thread.
    """
    if shear_strength is None:
        if material is None:
            hint = f"Give one of them; the catalogue has {', '.join(load_shell_materials())}."
            raise InputError("Neither material nor shear_strength of the boss is known.", field="material", hint=hint)
        shear_strength = _material_named(material).shear_strength
    return _strip(thread_named(thread), engagement, shear_strength)


def screw_tightening(
    *,
    thread: str,
    property_class: str = "4.8",
    friction: float = USUAL_FRICTION,
    material: str | None = None,
    engagement: float | None = None,
) -> ScrewTightening:
    """How tight a screw may be in its boss: the lower of what the screw bears and half of what strips the boss.

    Parameters
    ----------
    thread
        Such as ``"M3"``.
    property_class
        Such as ``"8.8"``; 4.8 if nothing is stamped on the head.
    friction
        Coefficient in the thread and under the head, a pure number.
    material
        What the boss is made of; None for a steel nut.
    engagement
        Length of thread that holds, in m; two diameters if None.

    Returns
    -------
    ScrewTightening

    Raises
    ------
    InputError
        For a thread that does not exist, an unknown class or material, with the nearest; an impossible value.

    Notes
    -----
    Clamp force is given with the 35 % by which it scatters. More than 2.5 diameters of engagement count as 2.5.

    References
    ----------
    vdi_2230, tightening torque; fed_std_h28, shear area of the internal thread; sandia_2008_0371, scatter.
    """
    screw, strength = thread_named(thread), _class_named(property_class)
    boss = None if material is None else _material_named(material)
    per_force = torque_per_clamp_force(diameter=screw.diameter, pitch=screw.pitch, friction=friction)
    bears = per_force * _yield_clamp(screw, strength, friction)
    breaks = strength.tensile_strength * stress_area(diameter=screw.diameter, pitch=screw.pitch)
    holds, strips = None, None
    if boss is not None:
        holds = USUAL_DEPTH * screw.diameter if engagement is None else engagement
        check_value("engagement", holds, ENGAGEMENT)
        strips = _strip(screw, min(holds, DEEPEST * screw.diameter), boss.shear_strength)
    spared = None if strips is None else BOSS_SHARE * per_force * strips
    torque = bears if spared is None else min(bears, spared)
    clamp = torque / per_force
    return ScrewTightening(
        thread=screw.name,
        property_class=strength.name,
        friction=friction,
        material=None if boss is None else boss.key,
        engagement=holds,
        torque=torque,
        limited_by=LimitedBy.SCREW if torque == bears else LimitedBy.BOSS,
        clamp_force=clamp,
        least_clamp_force=(1.0 - HAND_SCATTER) * (1.0 - SETTLING) * clamp,
        greatest_clamp_force=(1.0 + HAND_SCATTER) * clamp,
        screw_torque=bears,
        breaking_force=breaks,
        stripping_force=strips,
        stripping_torque=None if strips is None else per_force * strips,
        strips_first=None if strips is None else strips < breaks,
        engagement_to_break=None if boss is None else _engagement_to_break(screw, boss, breaks),
        notes=tuple(_notes(screw, holds, strips, breaks, boss)),
        basis=_basis(boss),
    )


def _yield_clamp(screw: Thread, strength: ScrewClass, friction: float) -> float:
    return yield_clamp_force(
        diameter=screw.diameter, pitch=screw.pitch, yield_strength=strength.yield_strength, friction=friction
    )


def _strip(screw: Thread, engagement: float, shear_strength: float) -> float:
    return stripping_force(
        pitch=screw.pitch,
        engagement=engagement,
        least_major_diameter=screw.least_major_diameter,
        greatest_pitch_diameter=screw.greatest_pitch_diameter,
        shear_strength=shear_strength,
    )


def _engagement_to_break(screw: Thread, boss: ShellMaterial, breaks: float) -> float:
    return screw.diameter * breaks / _strip(screw, screw.diameter, boss.shear_strength)


def _class_named(typed: str) -> ScrewClass:
    classes = load_screw_classes()
    spoken = {key: one.name for key, one in classes.items()}
    return classes[_key_of(typed, spoken, field="property_class", what="a property class of the catalogue")]


def _material_named(typed: str) -> ShellMaterial:
    materials = load_shell_materials()
    return materials[_key_of(typed, {key: key for key in materials}, field="material", what="a material of the catalogue")]


def _key_of(typed: str, spoken: Mapping[str, str], *, field: str, what: str) -> str:
    """Key of what is called by key or spoken name, in any case."""
    wanted = _plain(typed)
    for key, name in spoken.items():
        if wanted in {key, _plain(name)}:
            return key
    raise InputError(f'{field} = "{typed}" is not {what}.', field=field, value=typed, hint=nearest_name(typed, spoken.values()))


def _plain(name: str) -> str:
    return name.strip().casefold().replace(" ", "_").replace("-", "_")


def _notes(screw: Thread, engagement: float | None, strips: float | None, breaks: float, boss: ShellMaterial | None) -> list[str]:
    scatter, settled = f"{HAND_SCATTER * 100:.0f} %", f"{SETTLING * 100:.0f} %"
    notes = [f"Set by hand, the clamp force may be {scatter} more or less, and settling takes {settled} of it."]
    if engagement is None or strips is None or boss is None:
        return [*notes, "For a steel nut or a steel thread: name the material of a softer boss."]
    depth = engagement / screw.diameter
    if depth > DEEPEST:
        notes.append(f"Of {depth:.1f} diameters of engagement {DEEPEST:g} were counted: deeper turns hardly carry.")
    if depth < USUAL_DEPTH:
        notes.append(f"{depth:.1f} diameters of engagement; zinc, aluminium and plastic want {USUAL_DEPTH:g} (workshop's rule).")
    if strips < breaks:
        notes.append("Fresh and pulled straight, the boss strips before the screw breaks: a ruined boss, not a broken screw.")
    else:
        notes.append("Fresh and pulled straight, the screw breaks before the boss strips; a worn boss may not hold so long.")
    return notes


def _basis(boss: ShellMaterial | None) -> Basis:
    holds_for = "ISO metric thread of M1.6 to M8, hexagon head, no thread-locker"
    if boss is None:
        return Basis(
            footing="published",
            source="vdi_2230",
            place="torque at 90 % of the yield strength; tables of small screws differ by a tenth",
            holds_for=f"{holds_for}; steel nut.",
            caution=f"{_FIRST} {_LOCKER}",
        )
    footing = "published strength" if boss.provenance.footing.value == "published" else "estimated strength"
    return Basis(
        footing="common practice, no source",
        source="fed_std_h28",
        place="the lower of the torque at 90 % of the screw's yield strength and half of what strips the boss; "
        f"shear area of the thread in {boss.name}, {footing}",
        holds_for=f"{holds_for}; fresh boss at room temperature, softer than the screw, engagement up to {DEEPEST:g} diameters.",
        caution=f"{_FIRST} {_BY_FAMILY[boss.family]} {_LOCKER}",
    )
