"""Constants against CODATA, as SciPy 1.17 carries it."""

from __future__ import annotations

import pytest
from scipy import constants as codata

from stripdown.core.constants import MOLAR_GAS_CONSTANT, STANDARD_ATMOSPHERE, STANDARD_GRAVITY, ZERO_CELSIUS
from tests.published import Published


@pytest.mark.source("scipy", "scipy.constants, CODATA 2022", rtol=1e-9, because="exact by definition, ten digits kept")
def test_scipy_codata(published: Published) -> None:
    """Gas constant, gravity, atmosphere and the zero of Celsius are the defined ones."""
    published("molar gas constant", found=MOLAR_GAS_CONSTANT, expected=codata.R, unit="J/(mol K)")
    published("standard gravity", found=STANDARD_GRAVITY, expected=codata.g, unit="m/s2")
    published("standard atmosphere", found=STANDARD_ATMOSPHERE, expected=codata.atm, unit="Pa")
    published("zero Celsius", found=ZERO_CELSIUS, expected=codata.zero_Celsius, unit="K")
