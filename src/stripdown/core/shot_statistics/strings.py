"""What a chronograph string says: centre, scatter, energy, and whether its shots belong together."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from typing import Annotated

from stripdown.core.shot_statistics.chronograph import CHRONOGRAPH_AS_READ, Chronograph
from stripdown.core.shot_statistics.energy import EnergyOfString, energy_of_string
from stripdown.core.shot_statistics.intervals import (
    Interval,
    mean_interval,
    next_shot_interval,
    standard_deviation_interval,
    tolerance_interval,
)
from stripdown.core.shot_statistics.levels import check_share
from stripdown.core.shot_statistics.moments import (
    Centred,
    centre,
    check_uncertainty,
    finite_numbers,
    lag_one_autocorrelation,
    median,
)
from stripdown.core.shot_statistics.outliers import Outlier
from stripdown.core.shot_statistics.reading import check_ball_mass
from stripdown.core.shot_statistics.set_aside import SetAside, keep
from stripdown.core.shot_statistics.signs import StringSigns, look_for_signs, string_notes
from stripdown.quantities import Q, check, parameters


@parameters
class StringStatistics:
    """One string, reduced. Speeds in m/s with the chronograph's bias taken off; None where too few shots say nothing."""

    readings: Annotated[tuple[float, ...], Q("m/s", label="readings")]
    ball_mass: Annotated[float | None, Q("kg", label="mass of the ball", shown="g")]
    confidence: Annotated[float, Q("1", label="confidence of the intervals", shown="%")]
    count: Annotated[int, Q("1", label="shots counted")]
    mean: Annotated[float, Q("m/s", label="mean")]
    median: Annotated[float, Q("m/s", label="median")]
    standard_deviation: Annotated[float | None, Q("m/s", label="standard deviation")]
    extreme_spread: Annotated[float, Q("m/s", label="extreme spread")]
    slowest: Annotated[float, Q("m/s", label="slowest shot")]
    fastest: Annotated[float, Q("m/s", label="fastest shot")]
    lag_one_autocorrelation: Annotated[float | None, Q("1", label="correlation of neighbouring shots")]
    common_uncertainty: Annotated[float, Q("m/s", label="standard uncertainty of the chronograph")]
    mean_interval: Interval | None
    standard_deviation_interval: Interval | None
    next_shot_interval: Interval | None
    tolerance_interval: Interval | None
    energy: EnergyOfString | None
    signs: StringSigns
    set_aside: tuple[SetAside, ...]
    notes: tuple[str, ...]

    @property
    def mean_energy(self) -> float | None:
        """Mean energy of the shots in J; None without the mass of the ball."""
        return None if self.energy is None else self.energy.mean

    @property
    def outliers(self) -> tuple[Outlier, ...]:
        """Shots that do not belong with the others; they are counted all the same."""
        return self.signs.outliers

    @property
    def relative_standard_deviation(self) -> float | None:
        """Standard deviation over the mean; None for a single shot or a mean of zero."""
        if self.standard_deviation is None or self.mean == 0.0:
            return None
        return self.standard_deviation / abs(self.mean)

    @property
    def has_drift(self) -> bool:
        """Whether the shots rise, fall or wander; False also when there are too few to tell."""
        return self.signs.drift is not None and self.signs.drift.has_drift

    @property
    def has_two_heaps(self) -> bool:
        """Whether the shots fall into two heaps; False also when there are too few to tell."""
        return self.signs.two_heaps is not None and self.signs.two_heaps.has_two_heaps

    @property
    def has_low_first_shot(self) -> bool:
        """Whether the first shot is low; False also when there are too few to tell."""
        return self.signs.first_shot is not None and self.signs.first_shot.is_low


def analyse_string(
    speeds: Iterable[float],
    *,
    ball_mass: float | None,
    ball_mass_uncertainty: float = 0.0,
    chronograph: Chronograph = CHRONOGRAPH_AS_READ,
    set_aside: Mapping[int, str] | None = None,
    confidence: float = 0.95,
) -> StringStatistics:
    """Reduce a chronograph string.

    Parameters
    ----------
    speeds
        One finite number or more, in m/s, in the order in which they were fired.
    ball_mass
        In kg; None if it is not known, then nothing is said of energy.
    ball_mass_uncertainty
        Standard uncertainty of the mass in kg.
    chronograph
        Bias and uncertainty of the instrument; without it readings are used as they stand.
    set_aside
        Reason by place (from 0) for shots that are not to be counted.
    confidence
        Of all intervals, and share of shots in the tolerance interval, between 0 and 1.

    Returns
    -------
    StringStatistics

    Raises
    ------
    OutOfRange
        Without any reading, for one that is not finite, for an impossible mass, or a shot set aside without a reason.

    Notes
    -----
    Every statement but mean, median and spread supposes independent normal scatter; drift, heaps and outliers are
    looked for and named because they break that. Outliers are named and stay in. Plausibility is not judged here:
    any finite numbers are taken.

    References
    ----------
    nist_strd, univariate summary statistics; nist_handbook, sections 1.3.5 and 7.2.6.
    """
    check_share("confidence", confidence)
    check_uncertainty("ball_mass_uncertainty", ball_mass_uncertainty)
    check(chronograph)
    if ball_mass is not None:
        check_ball_mass(ball_mass)
    kept = keep(finite_numbers(speeds, field="speeds"), set_aside)
    sample = centre(tuple(value - chronograph.bias for value in kept.values))
    common = chronograph.common_uncertainty(abs(sample.mean), sample.standard_deviation)
    signs = look_for_signs(sample, places=kept.places, resolution=chronograph.resolution)
    inflation = 1.0 if signs.drift is None else signs.drift.inflation
    return StringStatistics(
        readings=sample.values,
        ball_mass=ball_mass,
        confidence=confidence,
        count=sample.count,
        mean=sample.mean,
        median=median(sample.values),
        standard_deviation=sample.standard_deviation,
        extreme_spread=max(sample.values) - min(sample.values),
        slowest=min(sample.values),
        fastest=max(sample.values),
        lag_one_autocorrelation=lag_one_autocorrelation(sample),
        common_uncertainty=common,
        mean_interval=mean_interval(sample, confidence=confidence, common_uncertainty=common, inflation=inflation),
        standard_deviation_interval=standard_deviation_interval(sample, confidence=confidence),
        next_shot_interval=next_shot_interval(sample, confidence=confidence, common_uncertainty=common),
        tolerance_interval=tolerance_interval(sample, content=confidence, confidence=confidence),
        energy=_energy(sample, ball_mass, ball_mass_uncertainty, common, confidence),
        signs=signs,
        set_aside=kept.set_aside,
        notes=string_notes(sample, signs),
    )


def _energy(
    sample: Centred, ball_mass: float | None, ball_mass_uncertainty: float, common: float, confidence: float
) -> EnergyOfString | None:
    if ball_mass is None:
        return None
    return energy_of_string(
        sample,
        ball_mass=ball_mass,
        ball_mass_uncertainty=ball_mass_uncertainty,
        common_uncertainty=common,
        confidence=confidence,
    )
