"""The instrument: what it adds to every reading, and what it adds to all of them alike."""

from __future__ import annotations

import math
from typing import Annotated

from stripdown.quantities import Q, parameters


@parameters
class Chronograph:
    """What is known of a chronograph; with everything zero its readings are used as they stand."""

    bias: Annotated[float, Q("m/s", low=-100, high=100, usual=(-2, 2), label="reads too high by")] = 0.0
    standard_uncertainty: Annotated[
        float,
        Q(
            "m/s",
            low=0,
            high=100,
            usual=(0, 1),
            label="standard uncertainty of the reading",
            explain="Half of a stated plus-or-minus.",
        ),
    ] = 0.0
    relative_uncertainty: Annotated[
        float,
        Q("1", low=0, high=0.5, usual=(0, 0.01), label="standard uncertainty, share of the reading", shown="%"),
    ] = 0.0
    resolution: Annotated[float, Q("m/s", low=0, high=100, usual=(0, 1), label="smallest step shown")] = 0.0
    screen_spacing: Annotated[
        float, Q("m", low=0, high=10, usual=(0.05, 0.6), label="distance between the screens", shown="mm")
    ] = 0.0
    distance_uncertainty: Annotated[
        float, Q("m", low=0, high=10, usual=(0, 0.05), label="standard uncertainty of its distance from the muzzle", shown="mm")
    ] = 0.0

    def common_uncertainty(self, speed: float, scatter: float | None) -> float:
        """Standard uncertainty that shifts all readings of a string alike.

        Parameters
        ----------
        speed
            Mean reading in m/s.
        scatter
            Standard deviation of the readings in m/s; None for a single reading.

        Returns
        -------
        float
            In m/s. What varies from shot to shot is in the scatter already. Rounding counts only while the
            scatter is smaller than one step: above that it averages out.
        """
        rounding = self.resolution / math.sqrt(12.0) if scatter is None or scatter < self.resolution else 0.0
        return math.hypot(self.standard_uncertainty, self.relative_uncertainty * speed, rounding)


CHRONOGRAPH_AS_READ = Chronograph()


def two_screen_uncertainty(speed: float, *, spacing: float, spacing_uncertainty: float, time_uncertainty: float) -> float:
    """Relative standard uncertainty of a speed timed over two screens.

    Parameters
    ----------
    speed
        In m/s.
    spacing
        Distance between the screens in m.
    spacing_uncertainty
        Its standard uncertainty in m.
    time_uncertainty
        Standard uncertainty of the time between the two triggers in s.

    Returns
    -------
    float
        Share of the speed.

    Notes
    -----
    ``sqrt((u_d/d)² + (u_t·v/d)²)``: both fall with a longer base. A ball that crosses at an angle θ reads low by
    ``1 - cos θ`` (1.5 % at 10 degrees); that is a bias and not in here. Resolution is not accuracy.

    References
    ----------
    jcgm_100, section 5.1.6, applied to v = d/t.
    """
    return math.hypot(spacing_uncertainty / spacing, time_uncertainty * speed / spacing)
