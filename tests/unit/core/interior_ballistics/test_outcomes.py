"""How shots end, healthy and not: every outcome is a result, with events that tell the story."""

from __future__ import annotations

from collections.abc import Mapping

import numpy as np
import pytest

from stripdown.catalogue.guns import load_guns
from stripdown.core.interior_ballistics import simulate
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.interior_ballistics.result import EventKind, Outcome, Shot
from stripdown.core.interior_ballistics.simulate import integrate_shots, run_one, settings_row
from stripdown.errors import NumericalFailure, OutOfRange
from stripdown.quantities import replace_at
from tests.properties.invariants import check_shot

GUNS = {key: gun.parameters for key, gun in load_guns().items()}
RIFLE = GUNS["full_stroke_rifle"]
TOLERANCE = 1e-6

NO_LEAKS: dict[str, object] = {
    "leaks.piston_seal": 0.0,
    "leaks.head_ring": 0.0,
    "leaks.nozzle_tube": 0.0,
    "leaks.hop_lip": 0.0,
    "piston.vented": False,
}


def change(gun: ShotParameters, values: Mapping[str, object]) -> ShotParameters:
    """A gun with some leaves replaced."""
    for path, value in values.items():
        gun = replace_at(gun, path, value)
    return gun


def fire(gun: ShotParameters, *, with_ball: bool = True, until_muzzle: bool = False) -> Shot:
    """One shot that keeps every rule."""
    shot = run_one(gun, settings_row(tolerance=TOLERANCE, with_ball=with_ball, until_muzzle=until_muzzle))
    check_shot(shot, tolerance=TOLERANCE)
    return shot


def kinds(shot: Shot) -> list[EventKind]:
    """What happened, in order."""
    return [event.kind for event in shot.events]


def test_a_healthy_shot_tells_its_story_in_order() -> None:
    """Port passes, ball starts, slips off the mound, leaves; the piston lands, bounces and rests."""
    happened = kinds(fire(GUNS["carbine"]))
    story = [
        EventKind.PORT_1_STARTS,
        EventKind.PORT_1_ENDS,
        EventKind.BALL_STARTS,
        EventKind.PATCH_ENDS,
        EventKind.BALL_LEAVES_MUZZLE,
        EventKind.PISTON_LANDS,
        EventKind.PISTON_RESTS,
    ]
    assert [happened.index(kind) for kind in story] == sorted(happened.index(kind) for kind in story)
    assert happened[-1] is EventKind.PISTON_RESTS


def test_a_gun_without_ports_passes_none() -> None:
    """A port with a count of zero is not there, so the seal passes no edge of it."""
    assert not any(kind.name.startswith("PORT") for kind in kinds(fire(RIFLE)))


def test_a_shot_may_be_watched_to_the_muzzle_only() -> None:
    """Stopped as the ball leaves it has the same muzzle speed, bit for bit, and knows no slam."""
    whole, part = fire(RIFLE), fire(RIFLE, until_muzzle=True)
    assert part.figures.muzzle_speed == whole.figures.muzzle_speed
    assert part.events[-1].kind is EventKind.BALL_LEAVES_MUZZLE
    assert part.figures.time_to_slam is None


def test_without_a_ball_there_is_no_speed_and_no_cushion() -> None:
    """An empty gun's piston comes home fast, and the outcome says that there was no ball."""
    shot = fire(RIFLE, with_ball=False)
    assert shot.outcome is Outcome.NO_BALL
    assert shot.figures.muzzle_energy == 0.0
    assert shot.ledger.ball_flight == 0.0
    assert shot.ledger.slam > 0.3 * shot.ledger.spring_work


def test_a_ball_held_too_hard_does_not_move() -> None:
    """With the hop-up far too tight the ball stays on its seat, and the piston comes home as its air leaks away."""
    shot = fire(change(RIFLE, {"hop_up.normal_force": 40.0}))
    assert shot.outcome is Outcome.DID_NOT_MOVE
    assert EventKind.BALL_STARTS not in kinds(shot)
    assert kinds(shot)[-1] is EventKind.PISTON_RESTS
    assert shot.ledger.hop_up == shot.ledger.ball_flight == 0.0


@pytest.mark.parametrize("key", sorted(GUNS))
def test_time_is_not_up_while_a_piston_creeps_home(key: str) -> None:
    """Behind a held ball the piston of every catalogue gun is home before the shot is given up, for few steps more.

    Given up after 0.2 s such a shot ended as timed out, as though nobody could tell whether the ball moves.
    """
    held = change(GUNS[key], {"hop_up.break_away_force": 100.0})
    shot = fire(held)
    assert shot.outcome is Outcome.DID_NOT_MOVE
    assert shot.figures.time_to_rest is not None
    early = run_one(replace_at(held, "laws.longest_time", 0.2), settings_row(tolerance=1e-4))
    whole = run_one(held, settings_row(tolerance=1e-4))
    assert early.outcome is Outcome.TIMED_OUT
    assert whole.solver.steps <= 1.2 * early.solver.steps


@pytest.mark.parametrize("mass", [0.2e-3, 0.36e-3])
def test_a_ball_may_stay_in_a_barrel_that_is_too_long(mass: float) -> None:
    """A short gun's air cannot push a ball along two metres: it stops on the way, and stays."""
    shot = fire(change(GUNS["submachine_gun"], {"barrel.length": 2.0, "ball.mass": mass, "laws.longest_time": 2.0}))
    assert shot.outcome is Outcome.STAYED_IN_BARREL
    assert EventKind.BALL_STOPS in kinds(shot)
    assert 0.3 < float(shot.ball_position[-1]) < 1.99
    assert shot.figures.muzzle_speed == 0.0


def test_a_spring_weaker_than_the_drag_moves_nothing() -> None:
    """A ring that holds the drawn piston ends the shot before it begins: an outcome, without a step."""
    shot = fire(change(RIFLE, {"piston.seal_drag": 100.0}))
    assert shot.outcome is Outcome.DID_NOT_MOVE
    assert shot.solver.steps == 0
    assert shot.events == ()
    assert shot.ledger.put_in == 0.0


def test_the_ledger_closes_for_a_moving_piston_that_the_ring_holds() -> None:
    """A piston that is pulled back as it is released, against a ring stronger than its spring, has its energy in the ledger."""
    fire(change(RIFLE, {"piston.seal_drag": 100.0, "piston_start_speed": -1.0}))


def test_a_piston_on_trapped_air_is_watched_until_time_is_up() -> None:
    """Held ball, nothing leaks: the piston bounces on its air, never lands, and has no time of rest."""
    gun = change(RIFLE, NO_LEAKS | {"hop_up.break_away_force": 100.0, "piston.seal_drag": 0.0, "laws.longest_time": 0.1})
    shot = fire(gun)
    assert shot.outcome in {Outcome.DID_NOT_MOVE, Outcome.TIMED_OUT}
    assert shot.figures.time_to_slam is None
    assert shot.figures.time_to_rest is None
    assert float(shot.time[-1]) == pytest.approx(0.1, rel=1e-12)
    turns = int((np.diff(np.sign(shot.piston_speed[shot.piston_speed != 0.0])) != 0.0).sum())
    assert turns >= 5


def test_a_bounce_may_open_the_port_again() -> None:
    """A port near the end of the stroke is opened again by the rebound, and lets air out or in each time."""
    late = {"cylinder.port_1.start": 0.030, "cylinder.port_1.length": 0.020, "cylinder.port_1.count": 1}
    happened = kinds(fire(change(RIFLE, late | {"cylinder_head.restitution": 0.6})))
    assert happened.count(EventKind.PORT_1_ENDS) >= 3
    assert happened.index(EventKind.PORT_1_ENDS) < happened.index(EventKind.PISTON_LANDS)


@pytest.mark.parametrize("restitution", [0.1, 0.4, 0.9])
@pytest.mark.parametrize("rate", [520.0, 5e3, 2e4])
def test_the_shortest_hops_end_in_rest(rate: float, restitution: float) -> None:
    """A stiff spring with the least capture speed ends in hops of a tenth of a microsecond: none of them is stepped over.

    The first step of a hop was once never shorter than that, and so left the piston beyond the head.
    """
    hopping = {"spring.rate": rate, "cylinder_head.capture_speed": 1e-3, "cylinder_head.restitution": restitution}
    shot = run_one(change(RIFLE, hopping), settings_row(tolerance=1e-4))
    check_shot(shot, tolerance=1e-4)
    assert EventKind.PISTON_RESTS in kinds(shot)
    assert float(shot.piston_position.max()) <= RIFLE.cylinder.stroke * (1.0 + 1e-4)


def test_a_ball_sucked_back_is_caught_by_its_seat() -> None:
    """A ball that nothing holds creeps off while the piston is still drawn back, returns to its seat, and starts again."""
    gun = change(
        RIFLE,
        NO_LEAKS
        | {
            "hop_up.break_away_force": 0.0,
            "hop_up.normal_force": 0.0,
            "barrel.friction_force": 0.0,
            "laws.annulus_discharge": 0.0,
            "ball.mass": 1e-3,
            "piston_start_speed": -10.0,
        },
    )
    shot = fire(gun)
    assert EventKind.BALL_RETURNS in kinds(shot)
    assert kinds(shot).count(EventKind.BALL_STARTS) >= 2
    assert shot.outcome is Outcome.LEFT_MUZZLE


def test_a_piston_released_backwards_goes_back_first() -> None:
    """A piston still drawn back at release passes behind its drawn position before the spring turns it."""
    shot = fire(change(RIFLE, {"piston_start_speed": -1.5}))
    assert float(shot.piston_position.min()) < -1e-4
    assert shot.ledger.start_energy > 0.0
    assert shot.outcome is Outcome.LEFT_MUZZLE


def test_a_port_at_the_very_start_is_whole_for_a_piston_behind_it() -> None:
    """Behind the drawn position a port that starts there is open whole, not more than whole."""
    at_start = {"cylinder.port_1.length": 0.0104, "piston_start_speed": -10.0, "cylinder.port_1.start": 0.0}
    exactly = change(GUNS["carbine"], at_start)
    nearly = replace_at(exactly, "cylinder.port_1.start", 1e-9)
    assert fire(exactly).ledger.leaked_at_port == pytest.approx(fire(nearly).ledger.leaked_at_port, rel=1e-4)


def test_hop_up_off_gives_no_spin() -> None:
    """Without force of the nub the ball leaves without spin, and only the lips take energy."""
    off, on = fire(replace_at(RIFLE, "hop_up.normal_force", 0.0)), fire(RIFLE)
    assert off.figures.backspin == 0.0
    assert on.figures.backspin > 100.0
    assert off.ledger.hop_up < on.ledger.hop_up
    assert EventKind.PATCH_ENDS not in kinds(off)


def test_backspin_is_fixed_where_the_patch_ends() -> None:
    """Beyond the mound nothing turns the ball: its spin stays what it was there."""
    shot = fire(RIFLE)
    ended = shot.event_time(EventKind.PATCH_ENDS)
    assert ended is not None
    later = shot.ball_spin[shot.time > ended]
    assert later == pytest.approx(np.full_like(later, shot.figures.backspin), rel=1e-12)


def test_a_gripped_ball_rolls_until_it_slips() -> None:
    """From its start until the mound lets go, spin times radius is the ball's speed."""
    shot = fire(RIFLE)
    starts, slips = shot.event_time(EventKind.BALL_STARTS), shot.event_time(EventKind.BALL_SLIPS)
    assert starts is not None
    assert slips is not None
    rolling = (shot.time > starts) & (shot.time <= slips)
    surface = 0.5 * shot.parameters.ball.diameter * shot.ball_spin[rolling]
    assert surface == pytest.approx(shot.ball_speed[rolling], rel=1e-6, abs=1e-9)


@pytest.mark.parametrize("bore", [1.0e-3, 1.5e-3, 2.5e-3])
def test_a_ball_never_runs_out_behind_its_seat(bore: float) -> None:
    """Whatever holds it and however narrow the nozzle, a ball is never found behind its seat by more than a rounding."""
    for force in np.linspace(0.0, 12.0, 9):
        gun = change(RIFLE, {"nozzle.bore": bore, "hop_up.break_away_force": float(force)})
        assert float(run_one(gun, settings_row(tolerance=TOLERANCE)).ball_position.min()) >= -2e-6


@pytest.mark.parametrize(("bore", "force"), [(1.0e-3, 6.0), (1.0e-3, 7.5), (1.5e-3, 7.5)])
def test_a_ball_that_starts_sets_out(bore: float, force: float) -> None:
    """A ball that the pressure has pushed off its seat goes forwards, and takes energy from the lips' hold, not gives it.

    The gap round it once opened whole as it started, and through a narrow nozzle let the pressure go that had moved it.
    """
    shot = fire(change(RIFLE, {"nozzle.bore": bore, "hop_up.break_away_force": force}))
    assert EventKind.BALL_STARTS in kinds(shot)
    assert float(shot.ball_position.max()) > 1e-4


def test_more_force_on_the_ball_ends_in_no_motion() -> None:
    """Tightened step by step the hop-up lets the ball leave, then holds it for good: once held, no greater force frees it."""
    forces = np.linspace(0.0, 40.0, 41)
    gun = replace_at(RIFLE, "laws.longest_time", 2.0)
    batch = integrate_shots(gun, variations={"hop_up.normal_force": forces}, threads=1)
    left = np.array([outcome is Outcome.LEFT_MUZZLE for outcome in batch.outcome])
    assert left[0]
    assert not left[-1]
    assert (np.diff(left.astype(int)) <= 0).all()
    assert set(batch.outcome) <= {Outcome.LEFT_MUZZLE, Outcome.STAYED_IN_BARREL, Outcome.DID_NOT_MOVE}


def test_a_state_that_no_gun_has_ends_the_shot(monkeypatch: pytest.MonkeyPatch) -> None:
    """A piston driven back farther than it was drawn is a failure and no number, alone and in a batch."""
    driven_back = replace_at(RIFLE, "piston_start_speed", -40.0)
    monkeypatch.setattr(simulate, "check", lambda _: None)  # its limits refuse such a speed before
    with pytest.raises(NumericalFailure, match="a state that no gun has"):
        simulate.integrate_shot(driven_back)
    with pytest.raises(NumericalFailure, match=r"Shot 1 of 1: .* a state that no gun has"):
        simulate.integrate_shots(driven_back, variations={"ball.mass": [0.25e-3]})


def test_a_ledger_that_does_not_close_is_no_answer(monkeypatch: pytest.MonkeyPatch) -> None:
    """With an accuracy asked of it that no run has, the very same shot is refused."""
    assert simulate.integrate_shot(RIFLE).outcome is Outcome.LEFT_MUZZLE
    monkeypatch.setattr(simulate, "_LEDGER_CLOSES", 1e-17)
    with pytest.raises(NumericalFailure, match="did not account for the energy"):
        simulate.integrate_shot(RIFLE)


def test_a_piston_faster_than_any_drive_is_refused() -> None:
    """Forty shots a second draw it with less than four metres a second."""
    with pytest.raises(OutOfRange, match="piston speed at release"):
        simulate.integrate_shot(replace_at(RIFLE, "piston_start_speed", -7.0))
