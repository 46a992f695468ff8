"""Study a case: strings, comparison, explanation, verdict, and whatever cannot be said."""

from __future__ import annotations

import dataclasses
import statistics
from collections.abc import Sequence
from pathlib import PurePath

from stripdown import __version__
from stripdown.core.interior_ballistics.result import Shot
from stripdown.core.interior_ballistics.simulate import integrate_shot
from stripdown.core.parts.conditions import Conditions
from stripdown.core.shot_statistics import FireMode, Occasion
from stripdown.errors import InputError, OutsideValidity
from stripdown.files.case import Case
from stripdown.studies.before_after import compare_occasions
from stripdown.studies.case_strings import fired_string, observation_of, strings_of
from stripdown.studies.case_words import cautions_of, sources_of, unsaid_of
from stripdown.studies.completion import complete
from stripdown.studies.explain_loss import explain_loss
from stripdown.studies.faulty_gun import with_fault
from stripdown.studies.loss_causes import LossExplanation
from stripdown.studies.service_case import CaseStudy, ComparisonOfCase, StringOfCase
from stripdown.studies.verdict import USUAL_BALLS, GunVerdict, gun_verdict


def study_case(case: Case) -> CaseStudy:
    """Say all that a case allows: what changed and how sure that is, what explains it, whether the gun may be used.

    Parameters
    ----------
    case
        As read from its folder.

    Returns
    -------
    CaseStudy
        What cannot be said stands in `unsaid`, with the reason.

    Raises
    ------
    InputError
        For a gun whose ball stays in the barrel, or a value that is impossible.
    OutsideValidity
        If gun or day lie beyond the range of the model.
    NumericalFailure
        If a shot cannot be integrated.
    """
    strings = strings_of(case.session)
    before = tuple(string for string in strings if string.reading.conditions.occasion is Occasion.BEFORE)
    after = tuple(string for string in strings if string.reading.conditions.occasion is Occasion.AFTER)
    day = day_of(case, after or before)
    comparisons = compare_occasions(before, after, case.session)
    unsaid = list(unsaid_of(strings, comparisons, has_limit=case.limit is not None))
    explanation = _explanation(case, comparisons, day, unsaid)
    verdict = _verdict(case, after, day, unsaid)
    shot_before, shot_after = _shots(explanation)
    return CaseStudy(
        title=case.title,
        gun=case.gun,
        assumed=complete(case.gun, conditions=day).assumed,
        found=case.found,
        done=case.done,
        before=before,
        after=after,
        comparisons=comparisons,
        explanation=explanation,
        verdict=verdict,
        limit=case.limit,
        shot_before=shot_before,
        shot_after=shot_after,
        unsaid=tuple(unsaid),
        left_out=tuple(
            dataclasses.replace(one, file=PurePath(file.path).name) for file in case.session.readings for one in file.left_out
        ),
        cautions=cautions_of(explanation),
        sources=sources_of(case, strings, comparisons, explanation=explanation, verdict=verdict),
        program_version=__version__,
        input_digest=case.digest,
        notes=case.notes,
        invented=case.invented,
    )


def day_of(case: Case, strings: Sequence[StringOfCase]) -> Conditions | None:
    """Air of the day: as the case says, else the temperature that the strings say.

    Parameters
    ----------
    case
        The case.
    strings
        Of the day that counts.

    Returns
    -------
    Conditions or None
        None if nobody said anything.
    """
    if case.day is not None:
        return case.day
    temperatures = [string.reading.conditions.temperature for string in strings]
    said = [temperature for temperature in temperatures if temperature is not None]
    return Conditions(temperature=statistics.fmean(said)) if said else None


def telling_pairs(comparisons: Sequence[ComparisonOfCase]) -> tuple[ComparisonOfCase, ...]:
    """Pairs that can explain a loss: they compare and say their ball; on semi if there are such, as the model fires single shots.

    Parameters
    ----------
    comparisons
        All pairs.

    Returns
    -------
    tuple of ComparisonOfCase
    """
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


def _explanation(
    case: Case, comparisons: Sequence[ComparisonOfCase], day: Conditions | None, unsaid: list[str]
) -> LossExplanation | None:
    pairs = telling_pairs(comparisons)
    if not pairs:
        unsaid.append("What cost the velocity cannot be said: that needs the same ball, fired before and after.")
        return None
    try:
        return explain_loss(
            case.gun,
            before=[observation_of(pair.before, case.session, in_a_difference=True) for pair in pairs],
            after=[observation_of(pair.after, case.session, in_a_difference=True) for pair in pairs],
            conditions=day,
        )
    except (InputError, OutsideValidity) as reason:
        unsaid.append(f"What cost the velocity cannot be said: {reason}")
        return None


def _verdict(case: Case, after: Sequence[StringOfCase], day: Conditions | None, unsaid: list[str]) -> GunVerdict | None:
    known = [string for string in after if string.reading.conditions.ball_mass is not None]
    if case.limit is None or not known:
        return None
    try:
        return gun_verdict(
            case.gun,
            strings=[fired_string(string) for string in known],
            limit=case.limit,
            ball_masses=USUAL_BALLS if case.ball_masses is None else case.ball_masses,
            can_fire_automatic=case.can_fire_automatic,
            chronograph=case.session.chronograph,
            ball_mass_uncertainty=case.session.ball_mass_uncertainty,
            flight=case.session.flight,
            conditions=day,
        )
    except (InputError, OutsideValidity) as reason:
        unsaid.append(f"Whether the gun keeps to the limit cannot be said: {reason}")
        return None


def _shots(explanation: LossExplanation | None) -> tuple[Shot | None, Shot | None]:
    """A shot with the likeliest cause and one without, in the order before, after."""
    standing = [] if explanation is None else [cause for cause in explanation.causes if cause.stands]
    if explanation is None or not standing:
        return None, None
    sound = integrate_shot(explanation.sound_gun)
    ill = integrate_shot(with_fault(explanation.sound_gun, standing[0].fault, standing[0].amount))
    return (ill, sound) if explanation.was_gained else (sound, ill)
