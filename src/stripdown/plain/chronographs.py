"""What lies between days and between chronographs as plain values for ``--json``."""

from __future__ import annotations

from typing import TYPE_CHECKING, Any

if TYPE_CHECKING:
    from stripdown.core.shot_statistics import DayFactor
    from stripdown.studies.site_chronograph import SiteChronograph


def site_chronograph_fields(found: SiteChronograph) -> dict[str, Any]:
    """Turn the site's chronograph against the bench's into plain values; differences are shares."""
    offset = found.offset
    return {
        "own_chronograph": found.own_name,
        "site_chronograph": found.site_name,
        "ratio": offset.ratio,
        "ratio_interval": offset.interval()._asdict(),
        "standard_uncertainty": offset.standard_uncertainty,
        "between_guns": offset.between_guns,
        "of_next_gun": offset.of_next_gun(),
        "degrees_of_freedom": offset.degrees_of_freedom,
        "guns": [
            {
                "gun": gun.own.reading.conditions.gun or gun.own.reading.label,
                "own_mean_m_per_s": gun.compared[0].mean,
                "site_mean_m_per_s": gun.compared[1].mean,
                "ratio": gun.ratio,
            }
            for gun in found.guns
        ],
        "alone": [string.reading.words for string in found.alone],
    }


def day_factor_fields(factor: DayFactor | None) -> dict[str, Any] | None:
    """Turn what a reference gun takes out into plain values; None without one."""
    if factor is None:
        return None
    return {
        "ratio": factor.ratio,
        "ratio_interval": factor.interval()._asdict(),
        "standard_uncertainty": factor.standard_uncertainty,
        "left_between_days": factor.left_between_days,
    }
