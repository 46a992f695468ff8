"""How much does a square inner corner concentrate stress, and what does a radius gain?"""

from __future__ import annotations

import enum
import math
from dataclasses import dataclass
from typing import Annotated, Final, TypeVar

from stripdown.core.part_condition.basis import Basis
from stripdown.core.part_condition.parameters import NET_WIDTH, RADIUS, STEP, Loading
from stripdown.errors import OutOfRange, OutsideValidity
from stripdown.quantities import Q, check_value

_Choice = TypeVar("_Choice", bound=enum.Enum)

FULL_WIDTH = Q("m", low=1e-5, high=10, usual=(5e-3, 60e-3), label="width beyond the corner", shown="mm")
SPREAD: Final = 0.10
"""By how much charts, polynomials and readings of the same corner differ."""

_CAUTION: Final = (
    "Two figures at most mean anything. It is a ratio of elastic peaks, not a life: how sharply zinc or filled nylon answers to "
    "a notch was found nowhere. A crack is always a reject, whatever the radius. Mask and wash when filing; leave no scratch "
    "across the corner."
)
SHOULDER_BASIS: Final = Basis(
    footing="published",
    source="pilkey_peterson",
    place="charts 3.2a and 3.8a, as polynomials",
    holds_for="Flat bar that widens on both sides at a fillet; step of 0.1 to 20 radii; stress on the narrow section.",
    caution=_CAUTION,
)
NOTCH_BASIS: Final = Basis(
    footing="published",
    source="pilkey_peterson",
    place="notch in one edge, tension, as a polynomial",
    holds_for="Notch with a round bottom in one edge; depth of 2 to 20 radii and under 0.3 of the width; stress on what is left.",
    caution=_CAUTION,
)
GAIN_BASIS: Final = Basis(
    footing="estimate",
    source="pilkey_peterson",
    place="a window's inner corner lies between the stepped bar and the notch in one edge; no chart for it was found",
    holds_for="Ratio of two radii at one corner; step of 0.1 to 20 radii for both.",
    caution=_CAUTION,
)


class CornerShape(enum.Enum):
    """Which corner it is."""

    SHOULDER = "shoulder"
    """A flat bar that widens on both sides, with a fillet at each corner."""
    EDGE_NOTCH = "edge_notch"
    """A notch with a round bottom in one edge."""


# C1 to C4, each c0 + c1 sqrt(x) + c2 x, with x the step over the radius; the factor is a cubic in the depth over the width.
_Polynomial = tuple[
    tuple[float, float, float], tuple[float, float, float], tuple[float, float, float], tuple[float, float, float]
]
_BLUNT_TENSION: Final[_Polynomial] = (
    (1.006, 1.008, -0.044),
    (-0.115, -0.584, 0.315),
    (0.245, -1.006, -0.257),
    (-0.135, 0.582, -0.017),
)
_SHARP_TENSION: Final[_Polynomial] = (
    (1.020, 1.009, -0.048),
    (-0.065, -0.165, -0.007),
    (-3.495, 1.266, -0.016),
    (3.505, -2.109, 0.069),
)
# The last coefficient was read as -0.200. With that sign the factor falls far below 1 for a deep step, where it must end at 1,
# and jumps by a third where the two ranges meet; with +0.200 it ends at 1 within 2 %, and they meet within 0.2 %.
_BLUNT_BENDING: Final[_Polynomial] = (
    (1.006, 0.967, 0.013),
    (-0.270, -2.372, 0.708),
    (0.662, 1.157, -0.908),
    (-0.405, 0.249, 0.200),
)
_SHARP_BENDING: Final[_Polynomial] = (
    (1.058, 1.002, -0.038),
    (-3.652, 1.639, -0.436),
    (6.170, -5.687, 1.175),
    (-2.558, 3.046, -0.701),
)
_EDGE_NOTCH: Final[_Polynomial] = (
    (0.953, 2.136, -0.005),
    (-3.255, -6.281, 0.068),
    (8.203, 6.893, 0.064),
    (-4.851, -2.793, -0.128),
)
_SHOULDER: Final = {Loading.TENSION: (_BLUNT_TENSION, _SHARP_TENSION), Loading.BENDING: (_BLUNT_BENDING, _SHARP_BENDING)}
_SHOULDER_RADII: Final = (0.1, 20.0)
SHARPEST: Final = 1.0 / _SHOULDER_RADII[1]
"""Radius over step of the sharpest corner that the charts of a bar hold for."""
_SHARP_FROM: Final = 2.0
_NOTCH_RADII: Final = (2.0, 20.0)
_DEEPEST_NOTCH: Final = 0.3


@dataclass(frozen=True, slots=True, kw_only=True)
class StressConcentration:
    """Peak stress in a corner over the mean stress beside it.

    Parameters
    ----------
    shape
        Which corner it is.
    loading
        How the narrow part is loaded.
    full_width
        Width beyond the corner in m.
    net_width
        Width of the narrow part in m.
    radius
        Of the corner in m.
    basis
        What the figures rest on.
    """

    shape: CornerShape
    loading: Loading
    full_width: Annotated[float, FULL_WIDTH]
    net_width: Annotated[float, NET_WIDTH]
    radius: Annotated[float, RADIUS]
    factor: Annotated[float, Q("1", label="stress concentration factor")]
    low: Annotated[float, Q("1", label="least that charts give")]
    high: Annotated[float, Q("1", label="most that charts give")]
    basis: Basis


@dataclass(frozen=True, slots=True, kw_only=True)
class CornerGain:
    """What a larger radius takes off the peak stress.

    Parameters
    ----------
    before
        The corner as it is.
    after
        The corner with the larger radius.
    notch_ratio
        The ratio that a notch in one edge has, a pure number; None where its chart does not reach.
    basis
        What the ratio rests on.
    """

    before: StressConcentration
    after: StressConcentration
    ratio: Annotated[float, Q("1", label="peak before over peak after")]
    low: Annotated[float, Q("1", label="least ratio")]
    high: Annotated[float, Q("1", label="largest ratio")]
    notch_ratio: float | None
    basis: Basis


def stress_concentration(
    *,
    full_width: float,
    net_width: float,
    radius: float,
    loading: Loading = Loading.TENSION,
    shape: CornerShape = CornerShape.SHOULDER,
) -> StressConcentration:
    """Peak stress in an inner corner over the mean stress of the narrow section beside it.

    Parameters
    ----------
    full_width
        Width beyond the corner (of the whole bar, for a notch) in m.
    net_width
        Width of the narrow part (what the notch leaves) in m.
    radius
        Of the corner in m; above zero.
    loading
        Tension, or bending in the plane of the bar; a notch has a chart for tension only.
    shape
        A bar that widens on both sides, or a notch in one edge.

    Returns
    -------
    StressConcentration
        Factor, and from where to where charts and readings of it go: 10 % either way.

    Raises
    ------
    OutOfRange
        For a radius of zero or larger than the section, a narrow part that is not narrower, an unknown loading or shape.
    OutsideValidity
        For a corner beyond the charts.

    Notes
    -----
    ``K = C1 + C2 y + C3 y² + C4 y³``; for the bar y = 2t/W and the C depend on t/r, t = (W - w)/2; for the notch y = d/W and d/r,
    d = W - w. Read off a chart the same corner came out 6 % (tension) and 9 % (bending) lower in two textbooks.

    References
    ----------
    pilkey_peterson, charts 3.2a and 3.8a, and the notch in one edge.
    """
    loading, shape = _chosen(Loading, "loading", loading), _chosen(CornerShape, "shape", shape)
    _check_section(full_width=full_width, net_width=net_width, radius=radius)
    if shape is CornerShape.SHOULDER:
        factor, basis = _shoulder(full_width, net_width, radius, loading), SHOULDER_BASIS
    else:
        factor, basis = _notch(full_width, net_width, radius, loading), NOTCH_BASIS
    return StressConcentration(
        shape=shape,
        loading=loading,
        full_width=full_width,
        net_width=net_width,
        radius=radius,
        factor=factor,
        low=max(1.0, (1.0 - SPREAD) * factor),
        high=(1.0 + SPREAD) * factor,
        basis=basis,
    )


def corner_radius_gain(
    *,
    bar_width: float,
    step: float | None = None,
    radius_before: float,
    radius_after: float,
    loading: Loading = Loading.TENSION,
) -> CornerGain:
    """What radiusing the inner corner of a window takes off the peak stress, as a ratio.

    Parameters
    ----------
    bar_width
        Width in m of the narrow bar that runs into the corner.
    step
        By how much the shell widens at the corner, in m; half the bar's width if None. A deeper step raises both peaks alike, and
        moves the ratio by 3 % at most; a shallower one gains less, so measure it.
    radius_before
        As the corner is, in m.
    radius_after
        As it would be, in m.
    loading
        How the bar is loaded.

    Returns
    -------
    CornerGain
        Peak before over peak after; 10 % either way at least, more where bar and notch disagree.

    Raises
    ------
    OutOfRange
        As for `stress_concentration`.
    OutsideValidity
        As for `stress_concentration`, for the bar; a notch beyond its chart is left out.

    Notes
    -----
    The bar's ratio is the answer. In tension the ratio of a notch in one edge, which is larger, moves the upper end up, where its
    chart reaches. Errors of one chart at two radii go the same way, so the ratio is taken to be no worse than each factor.

    References
    ----------
    pilkey_peterson, chart 3.2a and the notch in one edge.
    """
    loading = _chosen(Loading, "loading", loading)
    check_value("bar_width", bar_width, NET_WIDTH)
    step = 0.5 * bar_width if step is None else step
    check_value("step", step, STEP)
    for name, radius in (("radius_before", radius_before), ("radius_after", radius_after)):
        _check_radius(name, radius, bar_width)
    before, after = (
        stress_concentration(full_width=bar_width + 2.0 * step, net_width=bar_width, radius=radius, loading=loading)
        for radius in (radius_before, radius_after)
    )
    ratio = before.factor / after.factor
    notch_ratio = _notch_ratio(bar_width, step, radius_before, radius_after, loading)
    ends = (ratio,) if notch_ratio is None else (ratio, notch_ratio)
    return CornerGain(
        before=before,
        after=after,
        ratio=ratio,
        low=(1.0 - SPREAD) * min(ends),
        high=(1.0 + SPREAD) * max(ends),
        notch_ratio=notch_ratio,
        basis=GAIN_BASIS,
    )


def _chosen(kind: type[_Choice], field: str, value: _Choice) -> _Choice:
    """A choice by its member or by its word."""
    try:
        return kind(value)
    except ValueError:
        words = ", ".join(f'"{member.value}"' for member in kind)
        raise OutOfRange(f'{field} = "{value}" is not known.', field=field, value=value, hint=f"Choose from {words}.") from None


def _check_section(*, full_width: float, net_width: float, radius: float) -> None:
    check_value("full_width", full_width, FULL_WIDTH)
    check_value("net_width", net_width, NET_WIDTH)
    if net_width >= full_width:
        raise OutOfRange(
            f"net_width = {net_width * 1e3:g} mm is not narrower than full_width = {full_width * 1e3:g} mm: there is no corner.",
            field="net_width",
            value=net_width,
            unit="m",
            limits=(None, full_width),
            hint="The narrow part is what carries beside the corner.",
        )
    _check_radius("radius", radius, net_width)


def _check_radius(name: str, radius: float, section: float) -> None:
    if math.isfinite(radius) and 0.0 < radius <= section:
        return
    too_large = radius > section
    hint = (
        "" if too_large else " No corner is quite square: cast ones have 0.1 to 0.3 mm (common practice, no source); measure it."
    )
    raise OutOfRange(
        f"{name} = {radius * 1e3:g} mm is {'larger than the section' if too_large else 'impossible'}.",
        field=name,
        value=radius,
        unit="m",
        limits=(0.0, section),
        hint=f"It must lie above 0 and up to {section * 1e3:g} mm, the width of the narrow part.{hint}",
    )


def _shoulder(full_width: float, net_width: float, radius: float, loading: Loading) -> float:
    step = 0.5 * (full_width - net_width)
    radii = step / radius
    _within("step over radius", radii, _SHOULDER_RADII, step)
    blunt, sharp = _SHOULDER[loading]
    return _factor(sharp if radii > _SHARP_FROM else blunt, radii, 2.0 * step / full_width)


def _notch(full_width: float, net_width: float, radius: float, loading: Loading) -> float:
    if loading is not Loading.TENSION:
        raise OutOfRange(
            "A notch in one edge has a chart for tension only.",
            field="loading",
            value=loading.value,
            hint='Take the shape "shoulder" for bending.',
        )
    depth = full_width - net_width
    _within("depth over radius", depth / radius, _NOTCH_RADII, depth)
    if depth >= _DEEPEST_NOTCH * full_width:
        raise OutsideValidity(
            f"The chart of a notch ends at {_DEEPEST_NOTCH:g} of the width; this one takes {depth / full_width:.2f}.",
            model="stress concentration",
            quantity="depth over width",
            value=depth / full_width,
            limits=(0.0, _DEEPEST_NOTCH),
            reference="pilkey_peterson",
        )
    return _factor(_EDGE_NOTCH, depth / radius, depth / full_width)


def _within(quantity: str, radii: float, limits: tuple[float, float], depth: float) -> None:
    low, high = limits
    if low * (1.0 - 1e-12) <= radii <= high * (1.0 + 1e-12):
        return
    raise OutsideValidity(
        f"The chart holds for a {quantity} of {low:g} to {high:g}; this corner has {radii:.3g}. For a step of {depth * 1e3:g} mm "
        f"that is a radius of {depth / high * 1e3:.3g} to {depth / low * 1e3:.3g} mm.",
        model="stress concentration",
        quantity=quantity,
        value=radii,
        limits=limits,
        reference="pilkey_peterson",
    )


def _factor(polynomial: _Polynomial, radii: float, depth: float) -> float:
    root = math.sqrt(radii)
    found = sum((c0 + c1 * root + c2 * radii) * depth**power for power, (c0, c1, c2) in enumerate(polynomial))
    return max(1.0, found)  # no corner relieves the bar: what the fit lacks there is its own error


def _notch_ratio(bar_width: float, step: float, before: float, after: float, loading: Loading) -> float | None:
    if loading is not Loading.TENSION:
        return None
    try:
        sharp, blunt = (_notch(bar_width + step, bar_width, radius, loading) for radius in (before, after))
    except OutsideValidity:
        return None
    return sharp / blunt
