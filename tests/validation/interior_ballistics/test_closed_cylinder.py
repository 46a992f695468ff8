"""The closed cylinder against its own energy balance, and against the compression of real air in CoolProp 8."""

from __future__ import annotations

import pytest

from stripdown.core.interior_ballistics.closed_forms import closed_cylinder_compression
from tests.published import Published

coolprop = pytest.importorskip("CoolProp.CoolProp")

ATMOSPHERE, ROOM, VOLUME = 101325.0, 293.15, 25e-6


@pytest.mark.source(
    "derived",
    "E = p0 V0/(g-1) (r^(g-1) - 1) - p0 V0 (1 - 1/r), worked for 2 J in 25 cm3",
    rtol=0.002,
    because="worked to three or four figures",
)
def test_derived_two_joules(published: Published) -> None:
    """Two joules into 25 cm3 of room air press it to a third: 5.14 bar and 466 K."""
    found = closed_cylinder_compression(volume=VOLUME, pressure=ATMOSPHERE, temperature=ROOM, work=2.0)
    published("volume ratio", found=found.volume_ratio, expected=3.190, unit="1")
    published("peak pressure", found=found.pressure, expected=5.14e5, unit="Pa")
    published("peak temperature", found=found.temperature, expected=466.0, unit="K")


def _real_compression(ratio: float) -> tuple[float, float, float]:
    """Net work of the spring in J, pressure and temperature after real air was pressed without heat by a volume ratio."""
    density = coolprop.PropsSI("D", "P", ATMOSPHERE, "T", ROOM, "Air")
    entropy = coolprop.PropsSI("S", "P", ATMOSPHERE, "T", ROOM, "Air")
    before = coolprop.PropsSI("U", "P", ATMOSPHERE, "T", ROOM, "Air")
    after, pressure, temperature = (coolprop.PropsSI(name, "D", ratio * density, "S", entropy, "Air") for name in ("U", "P", "T"))
    work = density * VOLUME * (after - before) - ATMOSPHERE * VOLUME * (1.0 - 1.0 / ratio)
    return work, pressure, temperature


@pytest.mark.source(
    "lemmon_2000", "isentropic compression from 101325 Pa and 293.15 K", rtol=0.01, because="constant ratio of heat capacities"
)
@pytest.mark.parametrize("ratio", [1.5, 2.0, 3.0, 4.0, 5.0])
def test_lemmon_compression(published: Published, ratio: float) -> None:
    """Up to 10 bar the ideal gas is within one per cent of real air that took the same work."""
    work, pressure, temperature = _real_compression(ratio)
    found = closed_cylinder_compression(volume=VOLUME, pressure=ATMOSPHERE, temperature=ROOM, work=work)
    published(f"volume ratio for {work:.3g} J", found=found.volume_ratio, expected=ratio, unit="1")
    published(f"pressure for {work:.3g} J", found=found.pressure, expected=pressure, unit="Pa")
    published(f"temperature for {work:.3g} J", found=found.temperature, expected=temperature, unit="K")
    assert found.notes == ()


@pytest.mark.source(
    "lemmon_2000", "isentropic compression to 25 and 114 bar", because="the errors that the docstring states", rtol=0.0
)
@pytest.mark.parametrize(("ratio", "allowed"), [(10.0, 0.02), (30.0, 0.06)])
def test_lemmon_compression_beyond_ten_bar(published: Published, ratio: float, allowed: float) -> None:
    """Beyond 10 bar the answer comes with a note, and errs upwards by about what the docstring says."""
    work, pressure, temperature = _real_compression(ratio)
    found = closed_cylinder_compression(volume=VOLUME, pressure=ATMOSPHERE, temperature=ROOM, work=work)
    published(f"pressure for {work:.3g} J", found=found.pressure, expected=pressure, unit="Pa", rtol=allowed)
    published(f"temperature for {work:.3g} J", found=found.temperature, expected=temperature, unit="K", rtol=allowed + 0.02)
    assert found.temperature > temperature
    assert "10 bar" in found.notes[0]
