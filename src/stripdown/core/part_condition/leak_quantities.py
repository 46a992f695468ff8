"""What the leak tests take and give, declared without the laws, so that commands start at once."""

from __future__ import annotations

from stripdown.quantities import Q

LEAK_AREA = Q("m2", low=0, high=1e-3, usual=(0, 3e-6), label="effective leak area", shown="mm2")
OVERPRESSURE = Q("Pa", low=1.0, high=1.5e6, usual=(1e4, 5e5), label="pressure over the air outside", shown="bar")
AMBIENT = Q("Pa", low=3e4, high=1.2e5, usual=(85e3, 104e3), label="air pressure outside", shown="hPa")
TEMPERATURE = Q("K", low=233.15, high=333.15, usual=(263.15, 313.15), label="temperature", shown="degC")

# timed test
LOAD = Q(
    "N",
    low=0.1,
    high=1000,
    usual=(10, 100),
    label="load on the piston",
    explain="Weight in kg times 9.81, or force of the spring.",
)
DISTANCE = Q("m", low=1e-4, high=0.3, usual=(0.01, 0.05), label="way of the piston", shown="mm")
DURATION = Q("s", low=0.05, high=1e5, usual=(0.3, 60), label="time for that way")
BORE = Q("m", low=1e-3, high=0.2, usual=(0.0235, 0.0240), label="cylinder bore", shown="mm")
DRAG = Q("N", low=0, high=200, usual=(2, 8), label="piston drag in the cylinder")
AIR_LEFT = Q("m", low=1e-3, high=0.5, usual=(0.005, 0.06), label="length of trapped air at the start", shown="mm")
DRAG_UNCERTAINTY = Q("N", low=0, high=100, usual=(0.3, 3), label="standard uncertainty of the drag")
TIME_UNCERTAINTY = Q("s", low=0, high=100, usual=(0.05, 0.5), label="standard uncertainty of the time")

# gauge test
VOLUME = Q(
    "m3", low=1e-8, high=1e-2, usual=(5e-6, 1e-4), label="volume under test", shown="cm3", explain="Hose, gauge and syringe too."
)
TIME = Q("s", low=0, high=1e6, label="time of a reading")
GAUGE_UNCERTAINTY = Q("Pa", low=0, high=1e5, usual=(100, 5000), label="standard uncertainty of a gauge reading", shown="mbar")
VOLUME_UNCERTAINTY = Q("1", low=0, high=0.5, usual=(0.01, 0.1), label="relative standard uncertainty of the volume", shown="%")

# shot
SHOT_PRESSURE = Q("Pa", low=1.2e5, high=2e6, usual=(2e5, 8e5), label="absolute pressure during the shot", shown="bar")
