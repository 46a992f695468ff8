"""Requests that no single opening can serve, on the packaged data with steps of a technician's own."""

from __future__ import annotations

import pytest

from stripdown.errors import ProcedureError
from stripdown.procedures.description import Procedures
from stripdown.procedures.loading import add_own_steps
from stripdown.procedures.needed import Situation
from stripdown.procedures.plan import plan
from stripdown.procedures.search import find_steps
from stripdown.procedures.standing import Standing, standing
from tests.packaged_requests import Replay, as_events

_OWN = """
[check.settled_rubber]
name = "settled rubber"
proved = "seen"
fact = "The new rubber keeps its place when the barrel is pressed home."
place = "front"
about = ["hop_up_rubber"]
exempt = [{ part = "hop_up_rubber", kinds = ["refit"], reason = "it goes back onto the same barrel" }]
off = ["battery"]
on = ["front_end", "hop_up_rubber"]
expect = "No step at the window of the barrel."
footing = "common_practice"
[[check.settled_rubber.method]]
name = "by eye"
how = "Torch into the feed port."
minutes = 1

[action.mark_rubber]
name = "mark the place of the rubber"
place = "front"
off = ["front_end"]
touches = [["hop_up_unit", "inspect"]]
how = "Front end off again, a line across rubber and barrel."
minutes = 2
footing = "common_practice"

[[pair]]
first = "make:settled_rubber"
then = "do:mark_rubber"
why = "the place that it found by itself is the one to mark"
"""

_AGAINST_ITSELF = """
[[pair]]
first = "do:replace_piston"
then = "do:replace_main_spring"
why = "the piston comes first on this bench"

[[pair]]
first = "do:replace_main_spring"
then = "do:replace_piston"
why = "the spring comes first on this bench"
"""


def _own(text: str) -> Procedures:
    return add_own_steps(text, file="own.toml")


def test_what_must_be_proved_closed_before_it_is_looked_at_open_is_opened_twice() -> None:
    """New rubber, front end on and seen, front end off again for the mark: each step possible, and all proved at the end."""
    procedures = _own(_OWN)
    work, ran = ["replace_hop_up_rubber", "mark_rubber"], {"ran": "yes"}
    found = plan(procedures, work=work, wanted=["settled_rubber"], variation="version 2", arrival=ran)
    names = [step.step.name for step in found.steps]
    assert (found.openings, found.visited > 1) == (2, True)
    order = ["do:replace_hop_up_rubber", "put_back:front_end", "make:settled_rubber", "do:mark_rubber"]
    assert [name for name in names if name in order] == [*order, "put_back:front_end"]
    book = Replay(found.procedure, off=(), fresh=())
    for step in found.steps:
        book.do(step.step)
    assert book.off == found.procedure.left_out
    after = standing(procedures, as_events([step.step for step in found.steps], first=1), variation="version 2")
    due = {"settled_rubber", *(found.procedure.release_list & book.spoiled)}
    assert {after[check].standing for check in due} == {Standing.FRESH}
    proofs = [name for name in names if name.removeprefix("make:") in due]
    assert len(proofs) == len(set(proofs))  # nothing is proved before the second opening and again after it


def test_orders_against_each_other_are_refused_with_the_shortest_circle() -> None:
    """Two rules of the bench that cannot both hold: both are told, each with its reason, and nothing else."""
    circle = (
        r"^This cannot be done in any order: "
        r'"replace the main spring" before "replace the piston" \(The spring comes first on this bench\); '
        r'"replace the piston" before "replace the main spring" \(The piston comes first on this bench\)\.$'
    )
    turned = (
        r"^This cannot be done in any order: "
        r'"replace the piston" before "replace the main spring" \(The piston comes first on this bench\); '
        r'"replace the main spring" before "replace the piston" \(The spring comes first on this bench\)\.$'
    )
    with pytest.raises(ProcedureError, match=f"{circle}|{turned}"):
        plan(_own(_AGAINST_ITSELF), work=["replace_piston", "replace_main_spring"], variation="version 2")


def test_a_circle_that_is_not_asked_for_hinders_nobody() -> None:
    """The same bench plans either work alone."""
    for work in ("replace_piston", "replace_main_spring"):
        assert plan(_own(_AGAINST_ITSELF), work=[work], variation="version 2").visited == 1


def test_a_search_that_finds_nothing_ends_with_the_circle() -> None:
    """The work is bounded, and what stands in the way is told."""
    procedure = _own(_OWN).procedure("version 2")
    situation = Situation(work=frozenset({"replace_hop_up_rubber", "mark_rubber"}), wanted=frozenset({"settled_rubber"}))
    with pytest.raises(ProcedureError, match=r"^No order was found after 2 states\. Ask for less at once: .*mark the place"):
        find_steps(procedure, situation, most_states=2)
