"""What the calculators of parts are asked: each a record that declares its numbers, and loads without any law."""

from __future__ import annotations

import enum
import math
from typing import Annotated

from stripdown.core.mechanics.gear_teeth import FACE_WIDTH, TANGENTIAL_FORCE, TOOTH_COUNT, YOUNGS_MODULUS
from stripdown.core.mechanics.gear_teeth import MODULE as TOOTH_MODULE
from stripdown.quantities import Q, parameters

# engagement and its pad
WITNESS_HEIGHT = Q(
    "m",
    low=0,
    high=0.05,
    usual=(0, 1e-3),
    label="height of the witness mark",
    shown="mm",
    explain='Height of the witness mark above the pitch line, towards the rack\'s tip, as "0.5 mm".',
)
PRESSURE_ANGLE = Q(
    "rad", low=math.radians(10), high=math.radians(35), label="pressure angle", shown="deg", explain="Pressure angle."
)
MODULE = Q("m", low=1e-4, high=0.02, usual=(0.9e-3, 1.1e-3), label="module", shown="mm", explain="Module of the rack.")
SECTOR_TEETH = Q(
    "1",
    low=6,
    high=500,
    label="teeth of the whole sector gear",
    explain="Teeth that the sector gear would have all round; with few, a mark near the tip is an edge's.",
)
PAD_THICKNESS = Q(
    "m",
    low=0,
    high=0.05,
    usual=(0.5e-3, 4e-3),
    label="thickness of the pad, as pressed",
    shown="mm",
    explain="What comes on top of what the gun's file was measured with.",
)
PAD_DIAMETER = Q(
    "m",
    low=1e-3,
    high=0.2,
    usual=(0.018, 0.0236),
    label="outer diameter of the pad",
    shown="mm",
    explain="Outer diameter; 20 mm if left out.",
)
HOLE_DIAMETER = Q(
    "m",
    low=0,
    high=0.2,
    usual=(0.004, 0.012),
    label="hole of the pad",
    shown="mm",
    explain="Hole in its middle; 6 mm if left out.",
)

# rings
CROSS_SECTION = Q(
    "m",
    low=1e-4,
    high=0.05,
    usual=(1e-3, 4e-3),
    label="section of the ring",
    shown="mm",
    explain="Thickness of the ring's cord, unpressed.",
)
INNER_DIAMETER = Q(
    "m",
    low=1e-4,
    high=5,
    usual=(3e-3, 40e-3),
    label="inner diameter of the ring",
    shown="mm",
    explain="Inner diameter of the free ring.",
)
GLAND_DEPTH = Q(
    "m",
    low=1e-4,
    high=0.05,
    usual=(0.8e-3, 3.6e-3),
    label="depth of the gland",
    shown="mm",
    explain="Half of bore less diameter of the groove's floor.",
)
GLAND_WIDTH = Q(
    "m",
    low=1e-4,
    high=0.1,
    usual=(1.2e-3, 6e-3),
    label="width of the gland",
    shown="mm",
    explain="Width of the groove along the axis.",
)
GLAND_INNER_DIAMETER = Q(
    "m",
    low=1e-4,
    high=5,
    usual=(3e-3, 40e-3),
    label="diameter of the groove's floor",
    shown="mm",
    explain="Diameter of the groove's floor; with the ring's inner diameter.",
)
TOLERANCE = Q(
    "m",
    low=0,
    high=0.005,
    usual=(0, 2e-4),
    label="tolerance of the section",
    shown="mm",
    explain="Of the section; ISO 3601-1 class B if left out.",
)
GROOVE_DIAMETER = Q(
    "m",
    low=1e-3,
    high=0.2,
    usual=(0.016, 0.021),
    label="diameter of the groove's floor",
    shown="mm",
    explain="Diameter of the groove's floor.",
)
GROOVE_WIDTH = Q(
    "m",
    low=1e-4,
    high=0.05,
    usual=(2e-3, 4e-3),
    label="width of the groove",
    shown="mm",
    explain="Width of the groove along the axis.",
)
BORE = Q("m", low=1e-3, high=0.2, usual=(0.0235, 0.0240), label="cylinder bore", shown="mm", explain="Bore of the cylinder.")
THICKNESS = Q("m", low=1e-5, high=0.1, usual=(0.8e-3, 4e-3), label="thickness of the ring's cord", shown="mm")
READING_UNCERTAINTY = Q(
    "m",
    low=0,
    high=0.01,
    usual=(1e-5, 1e-4),
    label="standard uncertainty of a thickness",
    shown="mm",
    explain="Standard uncertainty of a thickness.",
)
USUAL_READING_UNCERTAINTY = 0.02e-3  # m, a caliper closed on soft rubber; an estimate, hence a parameter
HARDNESS = Q(
    "1", low=10, high=100, usual=(60, 90), label="hardness, IRHD or Shore A", explain="Of the new ring, IRHD or Shore A."
)
POINTS = Q("1", low=0, high=100, usual=(40, 95), label="hardness reading")
TEST_TOLERANCE = Q(
    "1",
    low=0,
    high=50,
    usual=(3, 10),
    label="change that the test cannot show",
    explain="Points that the test cannot tell from none.",
)
GREATEST_CHANGE = Q(
    "1",
    low=0,
    high=100,
    usual=(8, 20),
    label="change from which a ring is replaced",
    explain="Points from which you replace a ring; an estimate.",
)
USUAL_TEST_TOLERANCE = 5.0  # lubricant_compatibility: 5 Shore A is the tolerance of the test
USUAL_GREATEST_CHANGE = 10.0  # an estimate: no standard that fixes it was found, hence a parameter

# leaks and drag
LEAK_AREA = Q("m2", low=0, high=1e-3, usual=(0, 3e-6), label="effective leak area", shown="mm2")
OVERPRESSURE = Q("Pa", low=1.0, high=1.5e6, usual=(1e4, 5e5), label="pressure over the air outside", shown="bar")
AMBIENT = Q("Pa", low=3e4, high=1.2e5, usual=(85e3, 104e3), label="air pressure outside", shown="hPa")
TEMPERATURE = Q("K", low=233.15, high=333.15, usual=(263.15, 313.15), label="temperature", shown="degC")
LOAD = Q(
    "N",
    low=0.1,
    high=1000,
    usual=(10, 100),
    label="load on the piston",
    explain='Timed test: force on the piston, as "30 N" or "3 kgf".',
)
DISTANCE = Q(
    "m",
    low=1e-4,
    high=0.3,
    usual=(0.01, 0.05),
    label="way of the piston",
    shown="mm",
    explain="Timed test: way of the piston.",
)
DURATION = Q("s", low=0.05, high=1e5, usual=(0.3, 60), label="time for that way", explain="Timed test: time for that way.")
DRAG = Q(
    "N",
    low=0,
    high=200,
    usual=(2, 8),
    label="piston drag in the cylinder",
    explain="Pulled with a spring scale, nozzle off.",
)
USUAL_DRAG = 4.0  # N, middle of what healthy guns have; common practice, no source
AIR_LEFT = Q(
    "m",
    low=1e-3,
    high=0.5,
    usual=(0.005, 0.06),
    label="length of trapped air at the start",
    shown="mm",
    explain="Timed test with a spring: length of air at the start.",
)
DRAG_UNCERTAINTY = Q("N", low=0, high=100, usual=(0.3, 3), label="standard uncertainty of the drag")
TIME_UNCERTAINTY = Q(
    "s", low=0, high=100, usual=(0.05, 0.5), label="standard uncertainty of the time", explain="Of a hand-held watch."
)
VOLUME = Q(
    "m3",
    low=1e-8,
    high=1e-2,
    usual=(5e-6, 1e-4),
    label="volume under test",
    shown="cm3",
    explain="Gauge test: volume, hose and gauge included.",
)
TIME = Q("s", low=0, high=1e6, label="time of a reading")
GAUGE_UNCERTAINTY = Q(
    "Pa",
    low=0,
    high=1e5,
    usual=(100, 5000),
    label="standard uncertainty of a gauge reading",
    shown="mbar",
    explain="Of one reading.",
)
VOLUME_UNCERTAINTY = Q(
    "1",
    low=0,
    high=0.5,
    usual=(0.01, 0.1),
    label="relative standard uncertainty of the volume",
    shown="%",
    explain="Of the volume.",
)
SHOT_PRESSURE = Q(
    "Pa",
    low=1.2e5,
    high=2e6,
    usual=(2e5, 8e5),
    label="absolute pressure during the shot",
    shown="bar",
    explain="Absolute, in the shot.",
)
USUAL_SHOT_PRESSURE = 4e5
"""Middle of what healthy guns reach behind the piston while the ball is in the barrel, in Pa; an estimate."""

# shell
NET_WIDTH = Q(
    "m",
    low=1e-5,
    high=10,
    usual=(2e-3, 40e-3),
    label="width of the narrow part",
    shown="mm",
    explain='Narrow bar beside the corner, as "6 mm".',
)
RADIUS = Q(
    "m",
    low=0,
    high=1,
    usual=(0.1e-3, 4e-3),
    label="radius of the corner",
    shown="mm",
    explain="Radius that the corner has; 0 mm for one that looks square.",
)
STEP = Q(
    "m",
    low=1e-6,
    high=5,
    usual=(1e-3, 20e-3),
    label="step at the corner",
    shown="mm",
    explain="By how much the shell widens at the corner; half the bar if left out. Deeper gains the same, shallower less.",
)
FRICTION = Q(
    "1",
    low=0.03,
    high=0.6,
    usual=(0.08, 0.20),
    label="friction of thread and head",
    explain="Of thread and head: 0.10 oiled, 0.12 as bought, 0.14 and more dry.",
)
USUAL_FRICTION = 0.12
"""Plain or lightly oiled steel (`vdi_2230`)."""
ENGAGEMENT = Q(
    "m",
    low=1e-4,
    high=0.5,
    usual=(2e-3, 12e-3),
    label="thread engagement",
    shown="mm",
    explain='Thread that holds, as "6 mm"; two diameters if left out.',
)


class HardnessScale(enum.Enum):
    """What a tester shows. There is no conversion between them on a small ring."""

    SHORE_A = "Shore A"
    SHORE_M = "Shore M"
    IRHD = "IRHD"
    IRHD_MICRO = "IRHD-M"


class Loading(enum.Enum):
    """How the narrow part is loaded."""

    TENSION = "tension"
    BENDING = "bending"


@parameters
class WitnessMark:
    """The mark that the first sector tooth left on the rack, and how a pad for it is cut."""

    witness_height: Annotated[float, WITNESS_HEIGHT]
    pressure_angle: Annotated[float, PRESSURE_ANGLE] = math.radians(20.0)  # common practice, no source
    module: Annotated[float, MODULE] = 1e-3  # common practice, no source
    sector_teeth: Annotated[float | None, SECTOR_TEETH] = None
    is_edge_contact: Annotated[bool, "The mark is the nick of an edge: then nothing can be computed."] = False
    pad_diameter: Annotated[float | None, PAD_DIAMETER] = None
    hole_diameter: Annotated[float | None, HOLE_DIAMETER] = None


@parameters
class RingInGland:
    """A ring that does not move, and the room that it has."""

    cross_section: Annotated[float, CROSS_SECTION]
    gland_depth: Annotated[float, GLAND_DEPTH]
    gland_width: Annotated[float, GLAND_WIDTH]
    inner_diameter: Annotated[
        float | None, INNER_DIAMETER.explained("Inner diameter of the free ring; with the groove's diameter.")
    ] = None
    gland_inner_diameter: Annotated[float | None, GLAND_INNER_DIAMETER] = None
    tolerance: Annotated[float | None, TOLERANCE] = None


@parameters
class RingInGroove:
    """The ring of a vented piston head, and the groove in which it floats."""

    cross_section: Annotated[float, CROSS_SECTION]
    inner_diameter: Annotated[float, INNER_DIAMETER]
    groove_diameter: Annotated[float, GROOVE_DIAMETER]
    groove_width: Annotated[float, GROOVE_WIDTH]
    bore: Annotated[float, BORE]


@parameters
class PressedRing:
    """Thicknesses of a ring before, while and after it was pressed."""

    original: Annotated[float, THICKNESS.explained("Thickness of a new ring of that size.")]
    compressed: Annotated[float, THICKNESS.explained("Depth of its gland.")]
    recovered: Annotated[float, THICKNESS.explained("Thickness half an hour after it was let go.")]
    hardness: Annotated[float | None, HARDNESS] = None
    reading_uncertainty: Annotated[float, READING_UNCERTAINTY] = USUAL_READING_UNCERTAINTY


@parameters
class RingsOnATester:
    """Hardness readings of a new ring and a used one."""

    scale: Annotated[HardnessScale, "What the tester shows."]
    used_scale: Annotated[HardnessScale | None, "If the used ring was read on another: then it is refused."] = None
    new: Annotated[tuple[float, ...], POINTS.explained('Readings of the new ring, as "70 71 70".')]
    used: Annotated[tuple[float, ...], POINTS.explained('Readings of the used ring, as "81 83 82".')]
    test_tolerance: Annotated[float, TEST_TOLERANCE] = USUAL_TEST_TOLERANCE
    greatest_change: Annotated[float, GREATEST_CHANGE] = USUAL_GREATEST_CHANGE


@parameters
class LeakTests:
    """A timed test, a gauge test or both, of one leak; bore and drag are the gun's if there is one."""

    load: Annotated[float | None, LOAD] = None
    load_at_end: Annotated[float | None, LOAD.explained("Timed test with a spring: its force at the end of the way.")] = None
    trapped_length: Annotated[float | None, AIR_LEFT] = None
    distance: Annotated[float | None, DISTANCE] = None
    duration: Annotated[float | None, DURATION] = None
    duration_uncertainty: Annotated[float, TIME_UNCERTAINTY] = 0.2
    bore: Annotated[float | None, BORE.explained("Timed test: bore of the cylinder; the gun's if left out.")] = None
    drag: Annotated[float | None, DRAG.explained("Timed test: drag of the piston; the gun's if left out.")] = None
    times: Annotated[tuple[float, ...], TIME] = ()
    overpressures: Annotated[tuple[float, ...], OVERPRESSURE] = ()
    volume: Annotated[float | None, VOLUME] = None
    reading_uncertainty: Annotated[float, GAUGE_UNCERTAINTY] = 1000.0
    volume_uncertainty: Annotated[float, VOLUME_UNCERTAINTY] = 0.05
    shot_pressure: Annotated[float, SHOT_PRESSURE] = USUAL_SHOT_PRESSURE


@parameters
class PistonDrag:
    """Drag of a piston as it was pulled, and the drag that it is compared with."""

    drag: Annotated[float, DRAG]
    reference_drag: Annotated[float | None, DRAG.explained("Drag that it is compared with; the gun's own if left out.")] = None


@parameters
class InnerCorner:
    """An inner corner of the shell, and the radius that it would get."""

    bar_width: Annotated[float, NET_WIDTH]
    radius_before: Annotated[float, RADIUS]
    radius_after: Annotated[float | None, RADIUS.explained("Radius that it would get.")] = None
    step: Annotated[float | None, STEP] = None
    loading: Annotated[Loading, "How the bar is loaded."] = Loading.TENSION


@parameters
class ScrewInBoss:
    """A screw and what it goes into."""

    thread: str
    material: Annotated[
        str | None, "What it goes into: zinc, zamak_3, aluminium_cast, polyamide_glass …; a steel nut if left out."
    ] = None
    engagement: Annotated[float | None, ENGAGEMENT] = None
    property_class: Annotated[str, "Property class on the head; 4.8 if there is none."] = "4.8"
    friction: Annotated[float, FRICTION] = USUAL_FRICTION


@parameters
class LoadedTooth:
    """A tooth that carries everything alone, and its mate."""

    tangential_force: Annotated[float, TANGENTIAL_FORCE.explained("On the tooth; at release the drawn spring's.")]
    face_width: Annotated[float, FACE_WIDTH.explained("Of the narrower of the two teeth.")]
    module: Annotated[float, TOOTH_MODULE.explained("Of the gear.")] = 1e-3  # common practice, no source
    tooth_count: Annotated[int, TOOTH_COUNT.explained("Teeth that the gear would have all round.")]
    mate_tooth_count: Annotated[int | None, TOOTH_COUNT.explained("Teeth of its mate; a rack if left out.")] = None
    youngs_modulus: Annotated[float | None, YOUNGS_MODULUS.explained("Young's modulus of the gear; steel if left out.")] = None
    mate_youngs_modulus: Annotated[
        float | None, YOUNGS_MODULUS.explained('Of its mate, as "3 GPa" for plastic; steel if left out.')
    ] = None
