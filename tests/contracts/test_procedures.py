"""What procedures and catalogue say of parts agrees, and the work of planning stays what it is."""

from __future__ import annotations

from stripdown.catalogue.part_materials import part_names
from stripdown.procedures.loading import load_procedures
from stripdown.procedures.plan import plan

# What these are made of differs by gun and by maker, and nothing of a service touches them but hands.
_ASK_THE_PART = {"magazine", "battery", "fuse", "stock", "front_end", "ball_batch", "chronograph"}


def test_the_catalogue_knows_what_the_parts_of_the_procedures_are_made_of() -> None:
    """Every part that a fluid may reach is one that the catalogue has materials for."""
    names = part_names()
    unknown = {key for key in load_procedures().parts if names.key_of(key) is None and not names.named_in(key)}
    assert unknown == _ASK_THE_PART


def test_a_full_service_of_the_largest_variation_takes_one_state() -> None:
    """The least set and one order: nothing is searched. The figure stands in docs/models/service.md."""
    procedures = load_procedures()
    entries = (*procedures.parts.values(), *procedures.checks.values(), *procedures.actions.values())
    largest = max(procedures.variations(), key=lambda one: sum(one.satisfies(entry.condition) for entry in entries))
    job = procedures.named_job("full service", largest)
    found = plan(procedures, work=job.work, wanted=job.wanted, as_found=job.as_found, variation=largest)
    assert (found.visited, found.openings) == (1, 1)
    assert len(found.steps) > 100
