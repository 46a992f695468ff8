"""The pad against contact found by brute force: an involute turned until it touches a straight flank."""

from __future__ import annotations

import math

import pytest

from stripdown.core.part_condition.engagement import engagement_pad
from tests.published import Published

pytestmark = pytest.mark.source(
    "derived",
    "involute of the base circle, turned about the gear's centre until it touches the rack's flank",
    rtol=1e-4,
    because="contact is searched for on a grid that is refined until it no longer moves",
)


def _contact_height(shift: float, *, teeth: float, angle: float) -> float:
    """Height above the pitch line at which a tooth of module 1 first touches a flank that crosses that line at `shift`.

    The pole is the origin, the rack's tip points up, the gear's centre stands a pitch radius above the pole and its teeth push
    to the right. Turned forward, the tooth first touches where its point that lies farthest beyond the flank just reaches it.
    """
    pitch_radius = 0.5 * teeth
    base = pitch_radius * math.cos(angle)

    def point(roll: float, turned: float) -> tuple[float, float]:
        outward = base * (math.cos(roll) + roll * math.sin(roll))  # along the radius on which the involute starts
        behind = base * (math.sin(roll) - roll * math.cos(roll))  # the tooth thins towards its tip
        side = outward * math.sin(turned) - behind * math.cos(turned)
        return side, pitch_radius - outward * math.cos(turned) - behind * math.sin(turned)

    def beyond(roll: float, turned: float) -> float:
        side, height = point(roll, turned)
        return (side - shift) * math.cos(angle) - height * math.sin(angle)

    def farthest(turned: float) -> float:
        low, high = 0.0, 1.2
        for _ in range(120):  # golden section: a convex tooth has one such point
            first, second = high - 0.618034 * (high - low), low + 0.618034 * (high - low)
            low, high = (first, high) if beyond(first, turned) < beyond(second, turned) else (low, second)
        return 0.5 * (low + high)

    low, high = -1.0, 1.0  # clear of the flank, and through it
    for _ in range(80):
        middle = 0.5 * (low + high)
        low, high = (low, middle) if beyond(farthest(middle), middle) > 0.0 else (middle, high)
    return point(farthest(high), high)[1]


@pytest.mark.parametrize("angle", [14.5, 20.0, 25.0])
@pytest.mark.parametrize("teeth", [24.0, 60.0])
def test_the_pad_is_the_way_that_the_rack_must_start_later(angle: float, teeth: float, published: Published) -> None:
    """Contact climbs y above the pitch line as the flank stands away from the pole by the pad of y."""
    alpha = math.radians(angle)
    for shift in (0.3, 0.8, 1.4):
        height = _contact_height(-shift, teeth=teeth, angle=alpha)
        pad = engagement_pad(witness_height=height * 1e-3, pressure_angle=alpha, module=1e-3)
        published(
            f"pad, {angle} deg, {teeth:g} teeth, mark {height:.3f} mm", found=pad.thickness * 1e3, expected=shift, unit="mm"
        )


def test_twenty_degrees(published: Published) -> None:
    """Sine and cosine of 20 degrees from a table, 0.34202 and 0.93969: half a module and a whole one."""
    pad = engagement_pad(witness_height=0.5e-3, pressure_angle=math.radians(20.0), module=1e-3)
    published("pad", found=pad.thickness * 1e3, expected=0.5 / (0.34202 * 0.93969), unit="mm")
    whole = engagement_pad(witness_height=1e-3, pressure_angle=math.radians(20.0), module=1e-3)
    published("share of a pitch", found=whole.share_of_pitch, expected=1.0 / (0.34202 * 0.93969 * 3.14159), unit="1")
