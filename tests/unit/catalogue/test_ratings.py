"""Ratings are read as they are printed, and refused when they rate what is not there."""

from __future__ import annotations

import pytest

from stripdown.catalogue.compatibility import GRADE_SCALES, Compatibility, worst
from stripdown.catalogue.part_materials import read_part_materials
from stripdown.catalogue.ratings import read_ratings
from stripdown.errors import CatalogueError, InputError
from stripdown.references.provenance import Footing

_CHART = """
[rating.row]
scale = "poor_to_excellent"
grades = { nbr = "F-G", epdm = "P" }
fluids = ["alcohol"]
footing = "published"
source = "moulder_rubber_table"
where = "a row"
"""
_RULE = """
[rating.rule]
verdict = "with_care"
of = ["nbr", "seal", "hop_up_rubber"]
fluids = ["isopropyl_alcohol"]
reason = "wipe, do not soak"
only = "stressed"
soaked = "avoid"
footing = "common_practice"
where = "rule"
"""
_PART = """
[part.widget]
name = "widget"
materials = ["nbr"]
stressed = true
footing = "common_practice"
where = "x"
"""


def test_a_row_of_a_chart_is_read_by_its_scale() -> None:
    """Of a range the worse end counts, and the words keep both."""
    row = read_ratings(_CHART, file="r.toml")["row"]
    assert row.verdicts == {"nbr": Compatibility.WITH_CARE, "epdm": Compatibility.AVOID}
    assert row.grades == {"nbr": "fair to good", "epdm": "poor"}
    assert row.provenance.footing is Footing.PUBLISHED


def test_a_rule_is_taken_at_its_word() -> None:
    """For materials, groups of parts and parts alike."""
    rule = read_ratings(_RULE, file="r.toml")["rule"]
    assert set(rule.verdicts) == {"nbr", "seal", "hop_up_rubber"}
    assert rule.needs_stress
    assert rule.soaked is Compatibility.AVOID


@pytest.mark.parametrize(
    ("text", "old", "new", "complaint"),
    [
        (_CHART, "F-G", "H", "no grade of this scale"),
        (_CHART, "F-G", "F-G-E", "no grade of this scale"),
        (_CHART, "poor_to_excellent", "stars", "must be one of"),
        (_CHART, 'nbr = "F-G"', 'nbrr = "F-G"', "no file of the catalogue"),
        (_CHART, '{ nbr = "F-G", epdm = "P" }', "{}", "table of grades"),
        (_CHART, "moulder_rubber_table", "hearsay", "register of sources"),
        (_CHART, "scale", 'verdict = "avoid"\nscale', "must stand alone"),
        (_RULE, "with_care", "unknown", "suitable, with_care, avoid"),
        (_RULE, '"isopropyl_alcohol"', '"nbr"', "no file of the catalogue"),
        (_RULE, '["isopropyl_alcohol"]', "[]", "at least one"),
        (_RULE, 'only = "stressed"', 'only = "sundays"', '"stressed" or missing'),
        (_RULE, 'soaked = "avoid"', 'soaked = "wet"', "suitable, with_care, avoid"),
        (_RULE, "reason = ", "resaon = ", "resaon"),
        (_RULE, 'reason = "wipe, do not soak"', "", "must be a text"),
    ],
)
def test_a_bad_rating_is_refused(text: str, old: str, new: str, complaint: str) -> None:
    """The complaint names file, entry and field."""
    with pytest.raises(CatalogueError, match=complaint) as caught:
        read_ratings(text.replace(old, new), file="r.toml")
    assert "r.toml" in str(caught.value)


@pytest.mark.parametrize(
    ("old", "new", "complaint"),
    [
        ('["nbr"]', '["nbrr"]', "not in materials.toml"),
        ('["nbr"]', "[]", "at least one"),
        ("stressed = true", 'stressed = "yes"', "true or false"),
    ],
)
def test_a_bad_part_is_refused(old: str, new: str, complaint: str) -> None:
    """A part of nothing, or of a material that nobody knows."""
    with pytest.raises(CatalogueError, match=complaint):
        read_part_materials(_PART.replace(old, new), file="p.toml")


def test_unknown_is_worse_than_care_and_better_than_no() -> None:
    """What nobody has rated is kept off; what is known to do harm stays the stronger word."""
    order = [Compatibility.SUITABLE, Compatibility.WITH_CARE, Compatibility.UNKNOWN, Compatibility.AVOID]
    assert sorted(order, key=lambda verdict: verdict.severity) == order
    assert worst(order) is Compatibility.AVOID
    assert Compatibility("with_care") == "with_care"


@pytest.mark.parametrize("scale", GRADE_SCALES)
def test_a_scale_runs_one_way(scale: str) -> None:
    """A worse grade never reads as a better verdict."""
    grades = list(GRADE_SCALES[scale].words)
    severities = [GRADE_SCALES[scale].read(grade).severity for grade in grades]
    assert severities == sorted(severities)
    with pytest.raises(InputError, match="no grade"):
        GRADE_SCALES[scale].say("Z")
