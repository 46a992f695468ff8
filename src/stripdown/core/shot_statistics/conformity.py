"""Conformity with a limit when the measured value is uncertain."""

from __future__ import annotations

import math

from stripdown.core.shot_statistics.distributions import normal_below, normal_quantile
from stripdown.core.shot_statistics.levels import check_share
from stripdown.errors import OutOfRange


def probability_of_conformity(
    *, value: float, standard_uncertainty: float, lower: float | None = None, upper: float | None = None
) -> float:
    """Chance that the true value lies within limits, from a measured one with normal uncertainty.

    Parameters
    ----------
    value
        Best estimate of the measurand; any unit, a pure number here.
    standard_uncertainty
        Standard uncertainty in the same unit, zero or more.
    lower, upper
        Limits, same unit; None for no limit on that side, but not both.

    Returns
    -------
    float
        Between 0 and 1. Without any uncertainty it is 0 or 1, and a value on a limit conforms.

    Raises
    ------
    OutOfRange
        If a number is not finite, the uncertainty is negative, there is no limit, or the limits are crossed.

    Notes
    -----
    ``Phi((upper - value)/u) - Phi((lower - value)/u)``: no knowledge but the measurement.

    References
    ----------
    jcgm_106, section 7.
    """
    for field, number in (("value", value), ("standard_uncertainty", standard_uncertainty), ("lower", lower), ("upper", upper)):
        if number is not None and not math.isfinite(number):
            raise OutOfRange(
                f"{field} = {number} is not a finite number.",
                field=field,
                value=number,
                hint="Leave out a limit that does not exist.",
            )
    if standard_uncertainty < 0.0:
        raise OutOfRange(
            f"standard_uncertainty = {standard_uncertainty:g} is negative.",
            field="standard_uncertainty",
            value=standard_uncertainty,
            limits=(0.0, None),
            hint="It is zero or more.",
        )
    if lower is None and upper is None:
        raise OutOfRange("There is no limit to conform with.", field="upper", hint="Give lower, upper or both.")
    if lower is not None and upper is not None and lower > upper:
        raise OutOfRange(
            f"lower = {lower:g} is above upper = {upper:g}.", field="lower", value=lower, limits=(None, upper), hint="Swap them."
        )
    if standard_uncertainty == 0.0:
        return float((lower is None or lower <= value) and (upper is None or value <= upper))
    above_lower = math.inf if lower is None else (value - lower) / standard_uncertainty
    below_upper = math.inf if upper is None else (upper - value) / standard_uncertainty
    if above_lower < 0.0:
        # subtract in the lower tail, where both are small and the difference keeps its digits
        return normal_below(above_lower) - normal_below(-below_upper)
    return normal_below(below_upper) - normal_below(-above_lower)


def guard_band(standard_uncertainty: float, *, false_acceptance: float) -> float:
    """Distance that a measured value must keep from a limit.

    Parameters
    ----------
    standard_uncertainty
        Of the measured value, in its unit: a number, zero or more.
    false_acceptance
        Greatest probability that a true value beyond the limit is accepted, for a value on the edge of the band, between
        0 and 1.

    Returns
    -------
    float
        Same unit as the uncertainty: ``u·z``.

    Raises
    ------
    OutOfRange
        If the chance is not between 0 and 1.

    References
    ----------
    jcgm_106, section 8.3.2; ilac_g8, for the usual choices.
    """
    check_share("false_acceptance", false_acceptance)
    return -standard_uncertainty * normal_quantile(false_acceptance)
