"""Questions put to the strings of a session: which model fits, what cost the velocity, do they keep to a limit?"""

from __future__ import annotations

import statistics
from collections.abc import Sequence

from stripdown.bench.gun import Gun
from stripdown.bench.strings import ChronographSession
from stripdown.core.parts.conditions import Conditions
from stripdown.core.shot_statistics import EnergyLimit, FireMode, Occasion
from stripdown.errors import InputError
from stripdown.studies.case_strings import fired_string, observation_of
from stripdown.studies.explain_loss import explain_loss
from stripdown.studies.loss_causes import LossExplanation
from stripdown.studies.match_chronograph import ChronographMatch, match_chronograph
from stripdown.studies.service_case import ComparisonOfCase, StringOfCase
from stripdown.studies.verdict import USUAL_BALLS, GunVerdict, gun_verdict


def strings_on(strings: Sequence[StringOfCase], occasion: Occasion) -> tuple[StringOfCase, ...]:
    """Strings of one occasion."""
    return tuple(string for string in strings if string.reading.conditions.occasion is occasion)


def latest(strings: Sequence[StringOfCase]) -> tuple[StringOfCase, ...]:
    """Strings that show a gun as it is now: those after the work if there are such, else those that do not say, else all."""
    after = strings_on(strings, Occasion.AFTER)
    silent = tuple(string for string in strings if string.reading.conditions.occasion is None)
    return after or silent or tuple(strings)


def with_their_ball(strings: Sequence[StringOfCase]) -> tuple[StringOfCase, ...]:
    """Strings that say their ball."""
    known = tuple(string for string in strings if string.reading.conditions.ball_mass is not None)
    if not known:
        message = "No string says which ball it was fired with."
        raise InputError(message, field="ball_mass", hint="Write the ball's mass beside the readings, such as 0.20 g.")
    return known


def day_said(strings: Sequence[StringOfCase]) -> Conditions | None:
    """Air of the day, as far as strings say it."""
    temperatures = [string.reading.conditions.temperature for string in strings]
    said = [temperature for temperature in temperatures if temperature is not None]
    return Conditions(temperature=statistics.fmean(said)) if said else None


def match_strings(
    gun: Gun, strings: Sequence[StringOfCase], session: ChronographSession, *, day: Conditions | None
) -> ChronographMatch:
    """Fit a gun's model to strings of one day."""
    known = with_their_ball(strings)
    single = [string for string in known if string.reading.conditions.fire_mode is not FireMode.AUTOMATIC]
    observed = [observation_of(string, session, in_a_difference=False) for string in single or known]
    return match_chronograph(gun, strings=observed, conditions=day)


def telling_pairs(comparisons: Sequence[ComparisonOfCase]) -> tuple[ComparisonOfCase, ...]:
    """Pairs that can explain a loss: they compare and say their ball; of these those on semi, which the model fires."""
    usable = [
        pair
        for pair in comparisons
        if pair.comparison is not None
        and pair.before.reading.conditions.ball_mass is not None
        and pair.after.reading.conditions.ball_mass is not None
    ]
    single = [
        pair
        for pair in usable
        if FireMode.AUTOMATIC not in (pair.before.reading.conditions.fire_mode, pair.after.reading.conditions.fire_mode)
    ]
    return tuple(single or usable)


def explain_pairs(
    gun: Gun, comparisons: Sequence[ComparisonOfCase], session: ChronographSession, *, day: Conditions | None
) -> LossExplanation:
    """Explain what lies between strings before and after."""
    pairs = telling_pairs(comparisons)
    if not pairs:
        message = "That needs the same ball, fired before and after the work in the same way."
        raise InputError(message, field="ball_mass", hint="Fire the same weighed balls, hop-up and selector alike.")
    return explain_loss(
        gun,
        before=[observation_of(pair.before, session, in_a_difference=True) for pair in pairs],
        after=[observation_of(pair.after, session, in_a_difference=True) for pair in pairs],
        conditions=day,
    )


def judge_strings(
    gun: Gun,
    strings: Sequence[StringOfCase],
    session: ChronographSession,
    *,
    limit: EnergyLimit,
    ball_masses: Sequence[float] | None = None,
    can_fire_automatic: bool | None = None,
    day: Conditions | None = None,
) -> GunVerdict:
    """Hold strings of one day against a limit."""
    return gun_verdict(
        gun,
        strings=[fired_string(string) for string in with_their_ball(strings)],
        limit=limit,
        ball_masses=USUAL_BALLS if ball_masses is None else ball_masses,
        can_fire_automatic=can_fire_automatic,
        chronograph=session.chronograph,
        ball_mass_uncertainty=session.ball_mass_uncertainty,
        flight=session.flight,
        conditions=day,
    )
