"""The drive cycle: from the trigger until the sector gear is at rest again.

How fast does it cycle, what does it draw, how warm does it get, and where does the sector gear stand when the piston comes home?
"""

from stripdown.core.drive_cycle.battery import battery_open_circuit_voltage
from stripdown.core.drive_cycle.geometry import SectorAngles, sector_angles
from stripdown.core.drive_cycle.leads import wire_resistance
from stripdown.core.drive_cycle.motor import OperatingPoint, motor_operating_point, winding_temperature
from stripdown.core.drive_cycle.parameters import DrawnLoad, DriveDay, DriveParameters
from stripdown.core.drive_cycle.result import Burst, BurstOutcome, DriveEvent, DriveEventKind, DriveLedger
from stripdown.core.drive_cycle.simulate import simulate_drive
from stripdown.core.drive_cycle.tappet import PlateReturn, plate_return

__all__ = [
    "Burst",
    "BurstOutcome",
    "DrawnLoad",
    "DriveDay",
    "DriveEvent",
    "DriveEventKind",
    "DriveLedger",
    "DriveParameters",
    "OperatingPoint",
    "PlateReturn",
    "SectorAngles",
    "battery_open_circuit_voltage",
    "motor_operating_point",
    "plate_return",
    "sector_angles",
    "simulate_drive",
    "winding_temperature",
    "wire_resistance",
]
