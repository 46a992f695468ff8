"""The pictures of an answer: for each kind of study what there is to draw, by the key that its words name."""

from __future__ import annotations

import functools
from collections.abc import Mapping
from dataclasses import dataclass
from typing import TYPE_CHECKING

from stripdown.charts.themes import SCREEN, Theme

if TYPE_CHECKING:
    from stripdown.charts.render import AnyChart
    from stripdown.units import Scale


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """How pictures are drawn: theme, and the scale in which their figures are written."""

    theme: Theme = SCREEN
    scale: Scale = "metric"


@functools.singledispatch
def pictures_of(study: object, look: Look) -> Mapping[str, AnyChart]:  # noqa: ARG001  each kind of study registers its own
    """Charts by key; of a study that has nothing to draw, none."""
    return {}
