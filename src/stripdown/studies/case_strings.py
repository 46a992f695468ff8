"""Strings of a session, each with what it says, and as the other studies take them."""

from __future__ import annotations

import dataclasses

from stripdown.bench.strings import ChronographSession
from stripdown.core.shot_statistics import LimitVerdict, Occasion, analyse_string
from stripdown.studies.observation import Observation, instrument_for, observe
from stripdown.studies.service_case import StringOfCase
from stripdown.studies.verdict import FiredString, GunVerdict


def strings_of(session: ChronographSession) -> tuple[StringOfCase, ...]:
    """Reduce every string of a session."""
    return tuple(
        StringOfCase(
            reading=string,
            statistics=analyse_string(
                string.speeds,
                ball_mass=string.conditions.ball_mass,
                ball_mass_uncertainty=session.ball_mass_uncertainty,
                chronograph=instrument_for(session.chronograph, string.resolution),
                set_aside=string.set_aside,
            ),
            file=string.file,
        )
        for string in session.strings
    )


def fired_string(string: StringOfCase) -> FiredString:
    """A string as a limit is held against it."""
    return FiredString(
        speeds=string.reading.speeds,
        conditions=string.reading.conditions,
        set_aside={shot.index: shot.reason for shot in string.statistics.set_aside},
        resolution=string.reading.resolution,
    )


def observation_of(string: StringOfCase, session: ChronographSession, *, in_a_difference: bool) -> Observation:
    """A string brought to the muzzle."""
    conditions = string.reading.conditions
    assert conditions.ball_mass is not None  # noqa: S101  narrows: the caller asks for strings with a ball
    chronograph = instrument_for(session.chronograph, string.reading.resolution)
    if in_a_difference:
        chronograph = dataclasses.replace(chronograph, standard_uncertainty=session.setup_uncertainty, relative_uncertainty=0.0)
    return observe(
        string.reading.speeds,
        ball_mass=conditions.ball_mass,
        distance=conditions.distance or 0.0,
        chronograph=chronograph,
        flight=session.flight,
        hop=conditions.hop,
        fire_mode=conditions.fire_mode,
        set_aside={shot.index: shot.reason for shot in string.statistics.set_aside},
    )


def verdict_on(string: StringOfCase, verdict: GunVerdict | None) -> LimitVerdict | None:
    """Find what a verdict says of one of the strings that it rests on."""
    said, count = string.reading.conditions, string.statistics.count
    if verdict is None or said.occasion is Occasion.BEFORE:
        return None
    found = [
        ball.measured
        for ball in verdict.balls
        if ball.measured is not None
        and (ball.ball_mass, ball.fire_mode, ball.measured.count) == (said.ball_mass, said.fire_mode, count)
    ]
    return found[0] if len(found) == 1 else None
