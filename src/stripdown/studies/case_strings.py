"""Strings of a session, each with what it says, and as the other studies take them."""

from __future__ import annotations

import dataclasses

import numpy as np

from stripdown.bench.strings import ChronographSession, ReadingString
from stripdown.core.shot_statistics import (
    Chronograph,
    DayFactor,
    LimitVerdict,
    StringStatistics,
    analyse_string,
    move_speeds,
    muzzle_from_reading,
)
from stripdown.studies.observation import Observation, instrument_for, observe
from stripdown.studies.service_case import StringOfCase
from stripdown.studies.verdict import FiredString, GunVerdict


def strings_of(session: ChronographSession) -> tuple[StringOfCase, ...]:
    """Reduce every string of a session."""
    return tuple(
        StringOfCase(
            reading=string,
            statistics=statistics_of(string, session),
            key=f"{string.file or 'string'}:{number}",
        )
        for number, string in enumerate(session.strings, start=1)
    )


def statistics_of(string: ReadingString, session: ChronographSession) -> StringStatistics:
    """Reduce one string."""
    return analyse_string(
        string.speeds,
        ball_mass=string.conditions.ball_mass,
        ball_mass_uncertainty=session.ball_mass_uncertainty,
        chronograph=instrument_for(session.chronograph, string.resolution),
        set_aside=string.set_aside,
    )


def at_muzzle(string: StringOfCase, session: ChronographSession, ball_mass: float) -> StringStatistics:
    """What a string says at the muzzle, bias off."""
    instrument = dataclasses.replace(instrument_for(session.chronograph, string.reading.resolution), bias=0.0)
    start, flight = string.reading.conditions.distance or 0.0, session.flight
    mean = muzzle_from_reading(string.statistics.mean, ball_mass=ball_mass, distance=start, chronograph=instrument, flight=flight)
    speeds = move_speeds(
        np.array(string.statistics.readings), ball_mass=ball_mass, start=start, end=0.0, chronograph=instrument, flight=flight
    )
    return analyse_string(
        [float(speed) for speed in speeds],
        ball_mass=ball_mass,
        ball_mass_uncertainty=session.ball_mass_uncertainty,
        chronograph=Chronograph(standard_uncertainty=mean.standard_uncertainty, resolution=instrument.resolution * mean.ratio),
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


def observation_of(
    string: StringOfCase, session: ChronographSession, *, in_a_difference: bool, factor: DayFactor | None = None
) -> Observation:
    """A string brought to the muzzle, and to the day before by what a reference gun says of both days."""
    conditions = string.reading.conditions
    assert conditions.ball_mass is not None  # noqa: S101  narrows: the caller asks for strings with a ball
    chronograph = instrument_for(session.chronograph, string.reading.resolution)
    if in_a_difference:
        # a reference gun was read on the same set-up
        setup = session.setup_uncertainty if factor is None else 0.0
        chronograph = dataclasses.replace(chronograph, standard_uncertainty=setup, relative_uncertainty=0.0)
    ratio = 1.0 if factor is None else factor.ratio
    return observe(
        [speed / ratio for speed in string.reading.speeds],
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
