"""Physical constants and standard air, each with its source.

Every line names a key of ``references.toml`` and the place there. Numbers only: laws are in `stripdown.core.mechanics` and
`stripdown.core.air`.
"""

from __future__ import annotations

from typing import Final

# Any gas
MOLAR_GAS_CONSTANT: Final = 8.314462618  # J/(mol K); bipm_si_brochure_2019, section 2.2: product of the exact k and N_A
STANDARD_GRAVITY: Final = 9.80665  # m/s2; bipm_si_brochure_2019, standard acceleration of free fall
STANDARD_ATMOSPHERE: Final = 101325.0  # Pa; us_standard_atmosphere_1976, table of sea-level values
ZERO_CELSIUS: Final = 273.15  # K; bipm_si_brochure_2019, section 2.3.1

# Dry air as an ideal gas
AIR_MOLAR_MASS: Final = 0.02896546  # kg/mol at 400 µmol/mol of carbon dioxide; picard_2008, equation 4
AIR_GAS_CONSTANT: Final = 287.05  # J/(kg K); MOLAR_GAS_CONSTANT over AIR_MOLAR_MASS, rounded as in us_standard_atmosphere_1976
AIR_HEAT_CAPACITY_RATIO: Final = 1.4  # ideal diatomic gas; within 0.5 % of lemmon_2000 from 230 to 420 K

# Water vapour
WATER_MOLAR_MASS: Final = 0.01801528  # kg/mol; picard_2008, equation 3
VAPOUR_HEAT_CAPACITY: Final = 4.04  # molar heat capacity at constant pressure over R; 1864 J/(kg K) near 300 K, wagner_2002

# Viscosity of dry air, Sutherland's form: SUTHERLAND_FACTOR T^1.5 / (T + SUTHERLAND_TEMPERATURE)
SUTHERLAND_FACTOR: Final = 1.458e-6  # kg/(m s K^0.5); us_standard_atmosphere_1976, section 1.3.11, equation 51
SUTHERLAND_TEMPERATURE: Final = 110.4  # K; the same place

# Thermal conductivity of dry air in the same form, fitted here to lemmon_2004 at 1 atm: within 0.8 % from 230 to 700 K
CONDUCTIVITY_FACTOR: Final = 2.436e-3  # W/(m K^1.5)
CONDUCTIVITY_TEMPERATURE: Final = 178.2  # K
AIR_PRANDTL_NUMBER: Final = 0.703  # mean from 230 to 700 K, where it stays within 0.698 to 0.719; lemmon_2004

# Reference air of pneumatic components
ISO_6358_TEMPERATURE: Final = 293.15  # K; iso_6358_1, reference atmosphere
ISO_6358_PRESSURE: Final = 100e3  # Pa; the same place
ISO_6358_DENSITY: Final = 1.185  # kg/m3, at 65 % relative humidity; the same place
