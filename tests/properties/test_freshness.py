"""Standing on logs that are made up at random: what the definition promises, whatever happened."""

from __future__ import annotations

import random
from collections.abc import Mapping

from hypothesis import given
from hypothesis import strategies as st

from stripdown.procedures.events import Event
from stripdown.procedures.happenings import happenings
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.standing import CheckStanding, Standing, standings
from stripdown.procedures.touches import PartTouch
from tests.made_up_procedures import made_up_log, made_up_procedure

_SEEDS = st.integers(0, 10**9)


def _drawn(seed: int, *, entries: int = 14) -> tuple[Procedure, list[Event]]:
    chance = random.Random(seed)  # noqa: S311  not for secrets
    procedure = made_up_procedure(chance)
    return procedure, made_up_log(procedure, chance, entries=entries)


def _standing(procedure: Procedure, log: list[Event]) -> Mapping[str, CheckStanding]:
    return standings(procedure, happenings(procedure, log))


def _plainly(procedure: Procedure, log: list[Event]) -> dict[str, Standing]:
    """Standing by the words of the definition, each check from the whole log: slow, and written apart."""
    found: dict[str, Standing] = {}
    for check in procedure.checks:
        made = [event for event in log if event.check == check]
        if not made:
            found[check] = Standing.NEVER
            continue
        last = made[-1]
        later = [event for event in log if event.number > last.number]
        is_spoiled = any(check in _spoiled(procedure, event) for event in later)
        if not last.passed:
            found[check] = Standing.STALE if is_spoiled else Standing.FAILED
            continue
        at_that_moment = _plainly(procedure, [event for event in log if event.number < last.number]) if log else {}
        spoiled_by_making = procedure.spoiled_by(_touches(procedure, last))
        bases = procedure.checks[check].rests_on
        held = all(at_that_moment[base] is Standing.FRESH and base not in spoiled_by_making for base in bases)
        found[check] = Standing.FRESH if held and not is_spoiled else Standing.STALE
    return found


def _touches(procedure: Procedure, event: Event) -> list[PartTouch]:
    [*_, last] = happenings(procedure, [event], parts_off=_everything_that_lets(procedure, event))
    return [deed.touch for deed in last.deeds]


def _everything_that_lets(procedure: Procedure, event: Event) -> set[str]:
    """Parts off with which an event can happen, alone."""
    if event.check is not None:
        return set(procedure.close(procedure.checks[event.check].off))
    if event.action in procedure.actions:
        return set(procedure.close(procedure.actions[str(event.action)].off))
    off = set(procedure.close((str(event.part),)))
    return off - {str(event.part)} if event.action == "take_off" else off


def _spoiled(procedure: Procedure, event: Event) -> frozenset[str]:
    by_touch = procedure.spoiled_by(_touches(procedure, event))
    by_failure = procedure.resting_on(event.check) if event.check is not None and event.passed is False else frozenset()
    return by_touch | by_failure


@given(_SEEDS)
def test_standing_is_what_the_definition_says(seed: int) -> None:
    """The running book and the definition, read word for word on the whole log, agree on every check."""
    procedure, log = _drawn(seed, entries=8)
    found = _standing(procedure, log)
    assert {key: one.standing for key, one in found.items()} == _plainly(procedure, log)


@given(_SEEDS)
def test_a_touch_never_freshens(seed: int) -> None:
    """An event that makes no check leaves no check fresh that was not fresh before."""
    procedure, log = _drawn(seed)
    for length, event in enumerate(log):
        if event.check is None:
            before, after = _standing(procedure, log[:length]), _standing(procedure, log[: length + 1])
            assert not [key for key in after if after[key].standing is Standing.FRESH is not before[key].standing]


@given(_SEEDS)
def test_a_touch_always_spoils_what_is_about_it(seed: int) -> None:
    """After an event no check is fresh that is about what it touched, or rests on one that is."""
    procedure, log = _drawn(seed)
    done = happenings(procedure, log)
    for length, happening in enumerate(done, start=1):
        spoiled = procedure.spoiled_by(deed.touch for deed in happening.deeds) - {happening.event.check}
        after = standings(procedure, done[:length])
        assert not [key for key in spoiled if after[key].standing in {Standing.FRESH, Standing.FAILED}]


@given(_SEEDS)
def test_unrelated_events_commute(seed: int) -> None:
    """Two neighbours of which neither moves a part, nor spoils or carries what the other makes, do as well turned round."""
    procedure, log = _drawn(seed)
    for place in range(len(log) - 1):
        one, two = log[place], log[place + 1]
        if _are_related(procedure, one, two):
            continue
        turned = [*log]
        turned[place], turned[place + 1] = _renumbered(two, one.number), _renumbered(one, two.number)
        assert _without_numbers(procedure, turned) == _without_numbers(procedure, log)


def _are_related(procedure: Procedure, one: Event, two: Event) -> bool:
    moves = {event.part for event in (one, two) if event.part is not None and event.action is not None}
    if moves:
        return True  # taking a part off decides whether the other can happen
    for first, second in ((one, two), (two, one)):
        made = set() if first.check is None else {first.check, *procedure.resting_on(first.check), *procedure.bases(first.check)}
        if made & (_spoiled(procedure, second) | {second.check}):
            return True
    return False


def _renumbered(event: Event, number: int) -> Event:
    return Event(number=number, action=event.action, check=event.check, part=event.part, kind=event.kind, passed=event.passed)


def _without_numbers(procedure: Procedure, log: list[Event]) -> dict[str, Standing]:
    return {key: one.standing for key, one in _standing(procedure, log).items()}


@given(_SEEDS)
def test_replay_is_the_same(seed: int) -> None:
    """The same log gives the same standing, to the word; and a correction by the same words changes no standing."""
    procedure, log = _drawn(seed)
    assert _standing(procedure, log) == _standing(procedure, log)
    same = Event(**{**{name: getattr(log[0], name) for name in Event.__slots__}, "number": len(log) + 1, "supersedes": 1})
    corrected = _without_numbers(procedure, [*log, same])
    assert corrected == _without_numbers(procedure, log)


@given(_SEEDS)
def test_a_base_made_anew_spoils_nothing(seed: int) -> None:
    """Making a check again that passes, and touches nothing, leaves all others as they stood."""
    procedure, log = _drawn(seed)
    off = happenings(procedure, log)[-1].off_after
    before = _standing(procedure, log)
    for key in procedure.checks:
        making = Event(number=len(log) + 1, check=key, passed=True)
        if _lets(procedure, key, off) and not _spoiled(procedure, making):
            after = _standing(procedure, [*log, making])
            assert {other: after[other] for other in after if other != key} == {
                other: before[other] for other in before if other != key
            }


def _lets(procedure: Procedure, check: str, off: frozenset[str]) -> bool:
    one = procedure.checks[check]
    return procedure.close(one.off) <= off and not (set(one.on) - set(one.dry)) & off
