"""Answers of the calculators to a job as plain values for ``--json``: SI, each with its footing and caution."""

from __future__ import annotations

from typing import Any

from stripdown.core.part_condition.engagement import BASIS
from stripdown.plain.si import si_record
from stripdown.studies.job_reckonings import Reckoned, ReckonedPad, ReckonedRing, ReckonedShims

_SHIM_UNITS = dict.fromkeys(("left", "right", "float_left", "middle"), "m")


def reckoned_fields(reckoned: Reckoned) -> dict[str, Any]:
    """Turn the answers into plain values."""
    return {
        "shims": None if reckoned.shims is None else _shims(reckoned.shims),
        "pad": None if reckoned.pad is None else _pad(reckoned.pad),
        "rings": [_ring(ring) for ring in reckoned.rings],
    }


def _shims(shims: ReckonedShims) -> dict[str, Any]:
    split = shims.split
    return {
        "box": shims.sheet.name,
        "gears": [si_record(gear, units=_SHIM_UNITS) for gear in split.gears],
        "buy_m": list(split.buy),
        "rejected": split.rejected,
        "unclosable": None if split.unclosable is None else split.unclosable.sentence,
        "lost_places": [si_record(place) for place in shims.lost],
        "footing": split.footing,
        "caution": split.caution,
    }


def _pad(reckoned: ReckonedPad) -> dict[str, Any]:
    pad = reckoned.pad
    return {
        "thickness_m": None if pad is None else pad.thickness,
        "is_suspect": None if pad is None else pad.is_suspect,
        "refused": reckoned.refused or None,
        "footing": BASIS.footing,
        "caution": BASIS.caution,
    }


def _ring(reckoned: ReckonedRing) -> dict[str, Any]:
    gland = reckoned.gland
    return {
        "name": reckoned.ring.name,
        "squeeze": gland.squeeze,
        "fill": gland.fill,
        "stretch": gland.stretch,
        "is_within_all_bands": gland.is_within_all_bands,
        "footing": gland.basis.footing,
        "caution": gland.basis.caution,
    }
