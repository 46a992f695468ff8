"""Questions put to the strings of a session: which model fits, what cost the velocity, do they keep to a limit?"""

from __future__ import annotations

import statistics
from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from stripdown.bench.completion import complete
from stripdown.bench.gun import Assumed, Gun
from stripdown.bench.strings import ChronographSession
from stripdown.core.parts.conditions import Conditions
from stripdown.core.shot_statistics import EnergyLimit, FireMode, HopState, Occasion
from stripdown.errors import InputError
from stripdown.studies.before_after import compare_occasions
from stripdown.studies.case_strings import fired_string, observation_of, strings_of
from stripdown.studies.explain_loss import explain_loss
from stripdown.studies.loss_causes import LossExplanation
from stripdown.studies.match_chronograph import ChronographMatch, SpeedPrediction, match_chronograph, predict_speeds
from stripdown.studies.service_case import ComparisonOfCase, StringOfCase
from stripdown.studies.site_chronograph import SiteChronograph, as_the_site_reads, study_site_chronograph
from stripdown.studies.verdict import USUAL_BALLS, GunVerdict, gun_verdict


@dataclass(frozen=True, eq=False, slots=True, kw_only=True)
class SessionStrings:
    """Strings of a session, each with what it says.

    Parameters
    ----------
    session
        As it was read.
    strings
        Those that the question was put to.
    """

    session: ChronographSession
    strings: tuple[StringOfCase, ...]


@dataclass(frozen=True, eq=False, slots=True, kw_only=True)
class SessionComparison(SessionStrings):
    """Strings before held against strings after.

    Parameters
    ----------
    pairs
        One string before beside one after.
    """

    pairs: tuple[ComparisonOfCase, ...]


@dataclass(frozen=True, eq=False, slots=True, kw_only=True)
class SessionMatch(SessionStrings):
    """A gun's model fitted to the latest strings of a session.

    Parameters
    ----------
    gun
        As written.
    assumed
        What it leaves out.
    match
        The fitted model.
    expected
        Of the balls that players bring.
    hop
        Hop-up of what is expected; None as in the gun's file.
    """

    gun: Gun
    assumed: tuple[Assumed, ...]
    match: ChronographMatch
    expected: SpeedPrediction
    hop: HopState | None


@dataclass(frozen=True, eq=False, slots=True, kw_only=True)
class SessionExplanation(SessionComparison):
    """What lies between the strings before and after.

    Parameters
    ----------
    gun
        As written: it describes the sound gun.
    assumed
        What it leaves out.
    explanation
        Causes, one at a time.
    """

    gun: Gun
    assumed: tuple[Assumed, ...]
    explanation: LossExplanation


@dataclass(frozen=True, eq=False, slots=True, kw_only=True)
class SessionVerdict(SessionStrings):
    """The latest strings of a session against a limit.

    Parameters
    ----------
    gun
        As written.
    assumed
        What it leaves out.
    verdict
        What strings prove, and what the model only suggests.
    site
        The site's chronograph, as which the strings were read; None if no gun was read on both.
    """

    gun: Gun
    assumed: tuple[Assumed, ...]
    verdict: GunVerdict
    site: SiteChronograph | None = None

    @property
    def is_before_the_work(self) -> bool:
        """Whether these strings show how the gun came, and nothing of how it leaves."""
        return {string.reading.conditions.occasion for string in self.strings} == {Occasion.BEFORE}


def study_strings(session: ChronographSession) -> SessionStrings:
    """Reduce every string of a session.

    Parameters
    ----------
    session
        As it was read.

    Returns
    -------
    SessionStrings

    Raises
    ------
    OutOfRange
        For impossible readings or masses.
    """
    return SessionStrings(session=session, strings=strings_of(session))


def study_comparison(session: ChronographSession) -> SessionComparison:
    """Hold the strings of a session before the work against those after it.

    Parameters
    ----------
    session
        As it was read.

    Returns
    -------
    SessionComparison

    Raises
    ------
    InputError
        If one of the sides is missing.
    """
    strings = strings_of(session)
    sides = {occasion: strings_on(strings, occasion) for occasion in Occasion}
    for occasion, found in sides.items():
        if not found:
            raise InputError(
                f"No string says that it was fired {occasion.value} the work, so there is nothing to compare.",
                field="occasion",
                hint=f'Write "{occasion.value}" above those readings or in a column, or give two files, before and after.',
            )
    pairs = compare_occasions(sides[Occasion.BEFORE], sides[Occasion.AFTER], session)
    return SessionComparison(session=session, strings=strings, pairs=pairs)


def study_match(gun: Gun, session: ChronographSession, *, day: Conditions | None = None) -> SessionMatch:
    """Fit a gun's model to the strings that show it as it is now, and say what it expects of other balls.

    Parameters
    ----------
    gun
        As written.
    session
        As it was read.
    day
        The air; None is as the strings say it.

    Returns
    -------
    SessionMatch

    Raises
    ------
    InputError
        If no string says its ball, or the ball stays in the barrel.
    OutsideValidity
        If gun or day lie beyond the range of the model.
    """
    strings = latest(strings_of(session))
    day = day or day_said(strings)
    match = match_strings(gun, strings, session, day=day)
    # As they were fired: with the hop-up off, what it would do pressed is another question.
    hop = HopState.OFF if {string.hop for string in match.strings} == {HopState.OFF} else None
    return SessionMatch(
        session=session,
        strings=strings,
        gun=gun,
        assumed=complete(gun, conditions=day).assumed,
        match=match,
        expected=predict_speeds(match, ball_masses=USUAL_BALLS, hop=hop),
        hop=hop,
    )


def study_loss(gun: Gun, session: ChronographSession, *, day: Conditions | None = None) -> SessionExplanation:
    """Explain what lies between the strings of a session before and after.

    Parameters
    ----------
    gun
        As written: it describes the sound gun.
    session
        As it was read.
    day
        The air; None is as the strings after the work say it.

    Returns
    -------
    SessionExplanation

    Raises
    ------
    InputError
        If one of the sides is missing, or no pair can explain anything.
    OutsideValidity
        If gun or day lie beyond the range of the model.
    """
    compared = study_comparison(session)
    day = day or day_said(strings_on(compared.strings, Occasion.AFTER))
    return SessionExplanation(
        session=session,
        strings=compared.strings,
        pairs=compared.pairs,
        gun=gun,
        assumed=complete(gun, conditions=day).assumed,
        explanation=explain_pairs(gun, compared.pairs, session, day=day),
    )


def study_verdict(
    gun: Gun,
    session: ChronographSession,
    *,
    limit: EnergyLimit,
    ball_masses: Sequence[float] | None = None,
    can_fire_automatic: bool | None = None,
    day: Conditions | None = None,
) -> SessionVerdict:
    """Hold the strings that show a gun as it is now against a limit.

    Parameters
    ----------
    gun
        As written.
    session
        As it was read.
    limit
        The limit.
    ball_masses
        That a player may bring, in kg; None for those that players usually bring.
    can_fire_automatic
        Whether the gun can fire more than one shot for one pull; None if not said.
    day
        The air; None is as the strings say it.

    Returns
    -------
    SessionVerdict

    Raises
    ------
    InputError
        If no string says its ball, or none was fired in a way that the limit is for.
    OutsideValidity
        If gun or day lie beyond the range of the model.
    """
    strings = latest(strings_of(session))
    day = day or day_said(strings)
    verdict = judge_strings(
        gun, strings, session, limit=limit, ball_masses=ball_masses, can_fire_automatic=can_fire_automatic, day=day
    )
    return SessionVerdict(
        session=session,
        strings=strings,
        gun=gun,
        assumed=complete(gun, conditions=day).assumed,
        verdict=verdict,
        site=study_site_chronograph(session) if session.read_on_both else None,
    )


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
    gun: Gun,
    comparisons: Sequence[ComparisonOfCase],
    session: ChronographSession,
    *,
    day: Conditions | None,
    as_found: Mapping[str, float] | None = None,
) -> LossExplanation:
    """Explain what lies between strings before and after."""
    pairs = telling_pairs(comparisons)
    if not pairs:
        message = "That needs the same ball, fired before and after the work in the same way."
        raise InputError(message, field="ball_mass", hint="Fire the same weighed balls, hop-up and selector alike.")
    return explain_loss(
        gun,
        before=[observation_of(pair.before, session, in_a_difference=True) for pair in pairs],
        after=[observation_of(pair.after, session, in_a_difference=True, factor=pair.reference) for pair in pairs],
        conditions=day,
        between_days=session.between_days if pairs[0].reference is None else pairs[0].between_days,
        as_found=as_found,
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
    known = with_their_ball(strings)
    for string in known:
        if string.reading.doubt:
            of = string.file or string.reading.words
            message = f"Nothing is said of the limit by {of}: {string.reading.doubt}."
            hint = "Write the unit behind each reading or in the head of its column, or read the string in again."
            raise InputError(message, field="readings", hint=hint)
    fired, chronograph = [fired_string(string) for string in known], session.chronograph
    if session.read_on_both:
        fired, chronograph = as_the_site_reads(fired, chronograph, study_site_chronograph(session).offset)
    return gun_verdict(
        gun,
        strings=fired,
        limit=limit,
        ball_masses=USUAL_BALLS if ball_masses is None else ball_masses,
        can_fire_automatic=can_fire_automatic,
        chronograph=chronograph,
        ball_mass_uncertainty=session.ball_mass_uncertainty,
        flight=session.flight,
        conditions=day,
    )
