"""What is said of a material and a fluid, and how the grades of published charts are read."""

from __future__ import annotations

import enum
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from types import MappingProxyType

from stripdown.errors import InputError


class Compatibility(enum.StrEnum):
    """Whether a fluid may touch a material, from the best to the worst."""

    SUITABLE = "suitable"
    """It may."""
    WITH_CARE = "with_care"
    """It may, in the way that the reason says."""
    UNKNOWN = "unknown"
    """Nobody has said: it is kept off."""
    AVOID = "avoid"
    """It may not."""

    @property
    def severity(self) -> int:
        """Place in the order from the best, 0, to the worst."""
        return list(Compatibility).index(self)

    @property
    def words(self) -> str:
        """As a reader sees it."""
        return self.value.replace("_", " ")


def worst(verdicts: Iterable[Compatibility]) -> Compatibility:
    """Worst of several verdicts."""
    return max(verdicts, key=lambda verdict: verdict.severity)


@dataclass(frozen=True, slots=True, kw_only=True)
class GradeScale:
    """How a family of charts grades, and how that is read here."""

    words: Mapping[str, str]
    verdicts: Mapping[str, Compatibility]

    def read(self, grade: str) -> Compatibility:
        """Read a grade as the chart prints it."""
        return worst(self.verdicts[end] for end in self._ends(grade))

    def say(self, grade: str) -> str:
        """Put a grade into words."""
        return " to ".join(self.words[end] for end in self._ends(grade))

    def _ends(self, grade: str) -> list[str]:
        ends = grade.split("-")
        if len(ends) > 2 or any(end not in self.words for end in ends):
            raise InputError(f'"{grade}" is no grade of this scale; it has {", ".join(self.words)}, and ranges such as "F-G".')
        return ends


def _scale(**grades: tuple[str, Compatibility]) -> GradeScale:
    return GradeScale(
        words=MappingProxyType({grade.lstrip("_"): words for grade, (words, _) in grades.items()}),
        verdicts=MappingProxyType({grade.lstrip("_"): verdict for grade, (_, verdict) in grades.items()}),
    )


GRADE_SCALES: Mapping[str, GradeScale] = MappingProxyType(
    {
        "poor_to_excellent": _scale(
            E=("excellent", Compatibility.SUITABLE),
            G=("good", Compatibility.SUITABLE),
            F=("fair", Compatibility.WITH_CARE),
            P=("poor", Compatibility.AVOID),
        ),
        # The source says of E that it is not recommended; what stands between is read evenly.
        "a_to_e": _scale(
            A=("A, the best", Compatibility.SUITABLE),
            B=("B", Compatibility.SUITABLE),
            C=("C", Compatibility.WITH_CARE),
            D=("D", Compatibility.AVOID),
            E=("E, not recommended", Compatibility.AVOID),
        ),
        # oring_handbook, section VII: 2 is usually fine for a seal at rest, to be avoided for one that moves; ours move.
        "one_to_four": _scale(
            _1=("1, satisfactory", Compatibility.SUITABLE),
            _2=("2, fair: usually good at rest, not where it moves", Compatibility.WITH_CARE),
            _3=("3, doubtful even at rest", Compatibility.AVOID),
            _4=("4, unsatisfactory", Compatibility.AVOID),
        ),
    }
)
"""Scales of published charts, by the name that ratings.toml uses."""
