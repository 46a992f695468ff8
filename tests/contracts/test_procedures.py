"""What procedures and catalogue say of parts agrees, and the work of planning stays what it is."""

from __future__ import annotations

import graphlib
import tomllib
from collections.abc import Iterator
from typing import Any

from stripdown.catalogue.part_materials import part_names
from stripdown.procedures.bodies import load_bodies
from stripdown.procedures.documents import packaged_text
from stripdown.procedures.loading import add_own_steps, load_procedures
from stripdown.procedures.plan import plan
from stripdown.procedures.steps import Step, StepKind

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


def test_every_caution_says_whom_it_concerns() -> None:
    """In the packaged files none is left to what is taken where nobody says: a person, a part or a reading."""
    texts = [packaged_text(file) for file in ("parts.toml", "checks.toml", "actions.toml")]
    texts += [body.text for body in load_bodies().values()]
    assert [words for text in texts for words in _plain_cautions(text)] == []


def _plain_cautions(text: str) -> Iterator[str]:
    left: list[Any] = [tomllib.loads(text)]
    while left:
        one = left.pop()
        if isinstance(one, dict):
            for field in ("cautions", "care", "care_back"):
                yield from (words for words in one.get(field, ()) if isinstance(words, str))
            left += one.values()
        elif isinstance(one, list):
            left += one


def test_every_step_has_a_short_form_and_every_check_says_how_a_passed_one_is_seen() -> None:
    """Both ways of each part, each action and each method are said in short, and what one sees in at most four words."""
    packaged = load_procedures()
    guns = [
        packaged.procedure(one)
        for one in ((), "version 3, quick change, pre-cocking, ported, latch deleted, teeth off at release")
    ]
    guns += [add_own_steps(body.text, file=body.key).procedure(()) for body in load_bodies().values()]
    for gun in guns:
        forms = {f"part {key}, off": (one.short_off, one.off) for key, one in gun.parts.items()}
        forms |= {f"part {key}, back": (one.short_back, one.back) for key, one in gun.parts.items()}
        forms |= {f"action {key}": (one.short, one.how) for key, one in gun.actions.items()}
        forms |= {f"check {key}, {way.name}": (way.short, way.how) for key, one in gun.checks.items() for way in one.methods}
        assert [name for name, (short, full) in forms.items() if not 0 < len(short) < len(full)] == []
        assert [key for key, check in gun.checks.items() if not 1 <= len(check.seen.split()) <= 4] == []


def test_a_camera_lies_ready_where_a_stack_or_the_run_of_a_wire_must_be_remembered() -> None:
    """Shims, gears with their shims, washers on guide and piston head, and whatever wires are led through or joined to."""
    parts = load_procedures().procedure("version 3, electronic").parts
    stacks = {key for key in parts if "shims" in key} | {"sector_gear", "spur_gear", "bevel_gear", "guide_bearing", "piston_head"}
    wired = {"wires", "electronic_unit", "motor", "grip", "gearbox", "battery"}
    assert {key for key in stacks | wired if "camera" not in parts[key].tools} == set()


def test_the_first_remedy_stays_outside_where_another_does() -> None:
    """Cheapest first: no check begins with a remedy that opens the box if one of its remedies does not."""
    procedures = load_procedures()
    for variation in procedures.variation(()), procedures.variation("version 3, quick change, electronic, ported"):
        procedure = procedures.procedure(variation)
        for key, check in procedure.checks.items():
            opened = procedure.off(Step(StepKind.MAKE, key))
            opens = [
                "shell_half" in procedure.off(Step(StepKind.DO, one)) - opened
                for one in check.remedies
                if one in procedure.actions
            ]
            assert not opens or not opens[0] or all(opens), key


def test_what_is_fired_is_fired_by_a_whole_gun() -> None:
    """A step that needs the pack in needs every part on but those that it takes off itself; the magazine only if it says so."""
    for variation in "version 2", "version 3, quick change, electronic":
        procedure = load_procedures().procedure(variation)
        for step in procedure.all_steps():
            entry = procedure.actions if step.kind is StepKind.DO else procedure.checks
            if step.kind in {StepKind.TAKE_OFF, StepKind.PUT_BACK} or "battery" not in entry[step.key].on:
                continue
            dry = frozenset(getattr(entry[step.key], "dry", ()))
            assert procedure.parts.keys() - procedure.on(step) - procedure.off(step) - dry <= {"magazine", "battery"}, step


def test_no_two_pieces_of_work_wait_for_each_other() -> None:
    """What the data declare of work, and what follows from its kinds on one part, holds no circle in any of these guns."""
    procedures = load_procedures()
    for variation in (
        "version 2, ported",
        "version 3, quick change, electronic, bushings",
        "teeth off at release, second tooth off",
    ):
        waiting: dict[str, set[str]] = {}
        for order in procedures.procedure(variation).order:
            if order.first.kind is order.then.kind is StepKind.DO:
                waiting.setdefault(order.then.name, set()).add(order.first.name)
        assert len(tuple(graphlib.TopologicalSorter(waiting).static_order())) > 50
