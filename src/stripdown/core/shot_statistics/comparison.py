"""Before and after: how much changed, and how sure that is."""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from stripdown.core.shot_statistics.distributions import t_above, t_quantile
from stripdown.core.shot_statistics.drift import drift_test
from stripdown.core.shot_statistics.intervals import Interval, freedom_of
from stripdown.core.shot_statistics.levels import check_share
from stripdown.core.shot_statistics.moments import Centred, centre, check_uncertainty, finite_numbers
from stripdown.core.shot_statistics.reading import check_ball_mass
from stripdown.core.shot_statistics.signs import SYMPTOM_LEVEL

_FEWEST = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Difference:
    """After minus before, with what chance alone would do.

    Parameters
    ----------
    difference
        Mean after minus mean before, in m/s or J.
    interval
        Confidence interval of the difference, same unit.
    standard_uncertainty
        Of the difference, same unit.
    statistic
        Difference over its standard uncertainty; None when nothing scatters.
    degrees_of_freedom
        Effective, after Welch; infinite when only a stated uncertainty counts, None when nothing scatters.
    p_value
        Chance of a difference as large, up or down, if nothing had changed.
    share
        Difference over the mean before; None for a mean of zero.
    """

    difference: float
    interval: Interval
    standard_uncertainty: float
    statistic: float | None
    degrees_of_freedom: float | None
    p_value: float
    share: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class StringComparison:
    """Two strings held against each other; speeds in m/s, energies in J.

    Parameters
    ----------
    speed
        Change of mean speed.
    energy
        Change of mean energy; None without the mass of the ball.
    confidence
        Of the intervals.
    count_before, count_after
        Shots in each string.
    notes
        Sentences that must stand beside the numbers.
    """

    speed: Difference
    energy: Difference | None
    confidence: float
    count_before: int
    count_after: int
    notes: tuple[str, ...]

    @property
    def difference(self) -> float:
        """Mean speed after minus mean speed before, in m/s."""
        return self.speed.difference

    @property
    def interval(self) -> Interval:
        """Confidence interval of the difference in m/s."""
        return self.speed.interval

    @property
    def degrees_of_freedom(self) -> float | None:
        """Effective degrees of freedom, after Welch."""
        return self.speed.degrees_of_freedom

    @property
    def p_value(self) -> float:
        """Chance of a difference as large, up or down, if nothing had changed."""
        return self.speed.p_value


def compare_strings(
    before: Iterable[float],
    after: Iterable[float],
    *,
    ball_mass: float | None = None,
    setup_uncertainty: float = 0.0,
    confidence: float = 0.95,
) -> StringComparison:
    """Compare two strings of one gun, fired with the same ball and read at the same distance.

    Parameters
    ----------
    before, after
        Two finite numbers or more each, in m/s.
    ball_mass
        In kg, the same for both strings; None says nothing of energy.
    setup_uncertainty
        Standard uncertainty in m/s of what setting up the chronograph anew changes, once per string. A bias that is
        the same on both days cancels and is not counted.
    confidence
        Share of such intervals that hold the true value, between 0 and 1.

    Returns
    -------
    StringComparison

    Raises
    ------
    OutOfRange
        For fewer than two readings, one that is not finite, or an impossible mass.

    Notes
    -----
    Welch: scatter may differ between the strings; one whose neighbours are alike counts as fewer shots (`drift_test`), so the
    order of the shots matters. Different balls, distances or hop settings are the caller's to
    refuse: see `comparison_obstacles`.

    References
    ----------
    welch_1947; jcgm_100, G.4.1, for the effective degrees of freedom.
    """
    check_share("confidence", confidence)
    check_uncertainty("setup_uncertainty", setup_uncertainty)
    if ball_mass is not None:
        check_ball_mass(ball_mass)
    one = centre(finite_numbers(before, field="before", at_least=_FEWEST))
    two = centre(finite_numbers(after, field="after", at_least=_FEWEST))
    scale = max(one.scale, two.scale)
    setup = setup_uncertainty / scale
    speeds = [centre(tuple(value / scale for value in sample.values)) for sample in (one, two)]
    alike = [_inflation(sample) for sample in (one, two)]
    speed = _times(_difference(speeds, alike, math.sqrt(2.0) * setup, confidence), scale)
    energy = None
    if ball_mass is not None:
        squares = [centre(tuple((value / scale) ** 2 for value in sample.values)) for sample in (one, two)]
        shift = 2.0 * setup * math.hypot(speeds[0].mean, speeds[1].mean)  # d(v²) = 2·v·dv, once per string
        energy = _times(_difference(squares, alike, shift, confidence), 0.5 * ball_mass * scale * scale)
    notes = ["Nothing scatters in either string: the interval has no width, which no real gun has."]
    if speed.degrees_of_freedom is not None:
        notes = [
            f"Neighbouring shots {words} are alike: the interval is as wide as for {sample.count / inflation:.1f} shots."
            for words, sample, inflation in zip(("before", "after"), (one, two), alike, strict=True)
            if inflation > 1.0
        ]
    return StringComparison(
        speed=speed,
        energy=energy,
        confidence=confidence,
        count_before=one.count,
        count_after=two.count,
        notes=tuple(notes),
    )


def _inflation(sample: Centred) -> float:
    """How many times the variance of its mean is that of independent shots."""
    drift = drift_test(sample, level=SYMPTOM_LEVEL)
    return 1.0 if drift is None else drift.inflation


def _difference(samples: Sequence[Centred], alike: Sequence[float], setup: float, confidence: float) -> Difference:
    """Difference of two samples near one in size, with a standard uncertainty that setting up anew adds."""
    before, after = samples
    difference = after.mean - before.mean
    errors = [
        (sample.standard_deviation or 0.0) * math.sqrt(inflation / sample.count)
        for sample, inflation in zip(samples, alike, strict=True)
    ]
    total = math.hypot(*errors, setup)
    share = difference / abs(before.mean) if before.mean != 0.0 else None
    if total == 0.0:
        return Difference(
            difference=difference,
            interval=Interval(difference, difference),
            standard_uncertainty=0.0,
            statistic=None,
            degrees_of_freedom=None,
            p_value=float(difference == 0.0),
            share=share,
        )
    weights = [(error / total) ** 2 for error in errors]
    inverse = sum(
        weight * weight / freedom_of(sample.count, inflation)
        for weight, sample, inflation in zip(weights, samples, alike, strict=True)
    )
    freedom = 1.0 / inverse if inverse > 0.0 else math.inf
    half = total * t_quantile(0.5 * (1.0 + confidence), freedom)
    return Difference(
        difference=difference,
        interval=Interval(difference - half, difference + half),
        standard_uncertainty=total,
        statistic=difference / total,
        degrees_of_freedom=freedom,
        p_value=2.0 * t_above(abs(difference) / total, freedom),
        share=share,
    )


def _times(difference: Difference, factor: float) -> Difference:
    return Difference(
        difference=difference.difference * factor,
        interval=Interval(difference.interval.low * factor, difference.interval.high * factor),
        standard_uncertainty=difference.standard_uncertainty * factor,
        statistic=difference.statistic,
        degrees_of_freedom=difference.degrees_of_freedom,
        p_value=difference.p_value,
        share=difference.share,
    )
