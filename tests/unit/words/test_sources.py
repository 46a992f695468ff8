from __future__ import annotations

import dataclasses

from stripdown.procedures.plan import Plan
from stripdown.references import load_references
from stripdown.references.provenance import Footing, Provenance
from stripdown.words.sources import SourceMarks
from tests.synthetic_service import made_plan


def _with_seal_wanted() -> Plan:
    """The made-up plan, in which the label of the battery stands on a source."""
    plan = made_plan()
    known = Provenance(footing=Footing.PUBLISHED, source="iso_3601_1", where="table 1")
    label = dataclasses.replace(plan.procedure.checks["label"], provenance=known)
    procedure = dataclasses.replace(plan.procedure, checks={**plan.procedure.checks, "label": label})
    return dataclasses.replace(plan, procedure=procedure)


def test_what_has_no_source_has_a_dagger_and_what_has_one_its_number() -> None:
    """And what has no figure has no mark."""
    plan = _with_seal_wanted()
    marks = SourceMarks(plan)
    found = {step.step.name: marks.of(step) for step in plan.steps}
    assert found["make:float"] == found["do:bond"] == found["as_found:string"] == "†"
    assert found["make:label"] == "1"
    assert found["make:pack"] == found["take_off:shell"] == ""


def test_marks_are_explained_with_standing_source_and_place() -> None:
    """Once each, as the register has them."""
    explained = {one.name: one.text for one in SourceMarks(_with_seal_wanted()).explained()}
    source = load_references()["iso_3601_1"]
    assert explained["†"] == "common practice, no source"
    assert explained["1"].startswith("published; ")
    assert source.published_in in explained["1"]
    assert explained["1"].endswith(", table 1")
    assert set(explained) == {"†", "1"}
