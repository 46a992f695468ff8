"""Bodies around the box with ready steps: what stands in front, what catches, what must be tight again."""

from __future__ import annotations

import pytest

from stripdown.errors import InputError
from stripdown.procedures.becoming import flaws_of_becoming
from stripdown.procedures.bodies import Body, body_named, load_bodies
from stripdown.procedures.contract import flaws
from stripdown.procedures.loading import add_own_steps
from stripdown.procedures.plan import plan

_GUNS = ("version 2", "version 3", "version 2, quick change, electronic", "version 3, quick change, latch deleted")
_ANSWERS = {
    "two_receivers": (["receiver_pins", "charging_handle", "stock_tube"], ["charging_handle_clear", "stock_tube_tight"]),
    "one_body": (["top_cover", "dummy_bolt", "magazine_catch"], ["dummy_bolt_clear", "barrel_clamped"]),
    "shell_body": (["body_screws", "body_half", "body_catches"], ["body_closed"]),
}
"""By hand, common practice without a source: what must be off before the box comes out, and what is proved once it is back."""


def test_each_usual_body_is_there() -> None:
    """Two receivers, one long body, and one that opens like a shell; found by key or name."""
    assert load_bodies().keys() == _ANSWERS.keys()
    assert body_named("Two receivers joined by pins").key == "two_receivers"
    with pytest.raises(InputError, match="Did you mean shell_body"):
        body_named("shell")


@pytest.mark.parametrize("gun", _GUNS)
@pytest.mark.parametrize("body", load_bodies().values(), ids=lambda one: one.key)
def test_the_box_comes_out_past_the_body_and_the_body_is_proved_again(body: Body, gun: str) -> None:
    """The data keep their contract; the box is opened once; what holds the body is proved before the pack goes in."""
    procedures = add_own_steps("", file="", body=body.key)
    procedure = procedures.procedure(gun)
    assert [*flaws(procedure), *flaws_of_becoming(procedure)] == []
    found = plan(procedures, work=["replace_piston"], variation=gun)
    steps = [step.step.name for step in found.steps]
    last_pack = len(steps) - 1 - steps[::-1].index("put_back:battery")  # the pack goes in for the readings as found too
    in_front, proved = _ANSWERS[body.key]
    assert found.openings == 1
    for part in in_front:
        assert steps.index(f"take_off:{part}") < steps.index("take_off:gearbox")
    for check in proved:
        assert steps.index("put_back:gearbox") < steps.index(f"make:{check}") < last_pack


@pytest.mark.parametrize("body", load_bodies().values(), ids=lambda one: one.key)
def test_a_body_written_out_is_a_file_of_own_steps(body: Body) -> None:
    """As it is printed it can be named in a job; named beside the body itself, what is there twice is refused."""
    assert add_own_steps(body.text, file="mine.toml").parts.keys() == add_own_steps("", file="", body=body.name).parts.keys()
    with pytest.raises(InputError, match="is there already"):
        add_own_steps(body.text, file="mine.toml", body=body.key)
