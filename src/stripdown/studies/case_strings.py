"""Strings of a session, each with what it says, and as the other studies take them."""

from __future__ import annotations

import dataclasses

from stripdown.bench.strings import ChronographSession
from stripdown.core.shot_statistics import LimitVerdict, analyse_string
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
            key=f"{string.file or 'string'}:{number}",
        )
        for number, string in enumerate(session.strings, start=1)
    )


def fired_string(string: StringOfCase) -> FiredString:
    """A string as a limit is held against it."""
    return FiredString(
        speeds=string.reading.speeds,
        conditions=string.reading.conditions,
        set_aside={shot.index: shot.reason for shot in string.statistics.set_aside},
        resolution=string.reading.resolution,
        key=string.key,
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
    balls = () if verdict is None or not string.key else verdict.balls
    return next((ball.measured for ball in balls if ball.string == string.key), None)
