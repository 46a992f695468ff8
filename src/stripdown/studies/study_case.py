"""Study a case: strings, comparison, explanation, verdict, and whatever cannot be said."""

from __future__ import annotations

from collections.abc import Sequence

from stripdown import __version__
from stripdown.bench.completion import complete
from stripdown.bench.gun import Gun
from stripdown.bench.visit import Visit
from stripdown.core.interior_ballistics.result import Shot
from stripdown.core.interior_ballistics.simulate import integrate_shot
from stripdown.core.parts.conditions import Conditions
from stripdown.core.shot_statistics import Occasion
from stripdown.errors import InputError, OutsideValidity
from stripdown.studies.before_after import compare_occasions
from stripdown.studies.case_strings import strings_of
from stripdown.studies.case_words import cautions_of, sources_of, unsaid_of
from stripdown.studies.faulty_gun import with_fault
from stripdown.studies.loss_causes import LossExplanation
from stripdown.studies.service_case import CaseStudy, ComparisonOfCase, StringOfCase
from stripdown.studies.session_answers import day_said, explain_pairs, judge_strings, strings_on
from stripdown.studies.verdict import GunVerdict


def study_case(visit: Visit) -> CaseStudy:
    """Say all that a case allows: what changed and how sure that is, what explains it, whether the gun may be used.

    Parameters
    ----------
    visit
        With a gun.

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
    gun = visit.gun
    if gun is None:
        raise InputError("this visit has no gun's file.", hint="Write one: stripdown gun new gun.toml.")
    strings = strings_of(visit.session)
    before, after = (strings_on(strings, occasion) for occasion in (Occasion.BEFORE, Occasion.AFTER))
    day = visit.day or day_said(after or before)
    comparisons = compare_occasions(before, after, visit.session)
    unsaid = list(unsaid_of(strings, comparisons, has_limit=visit.limit is not None))
    explanation = _explanation(gun, visit, comparisons, day, unsaid)
    verdict = _verdict(gun, visit, after, day, unsaid)
    shot_before, shot_after = _shots(explanation)
    return CaseStudy(
        title=visit.title,
        gun=gun,
        assumed=complete(gun, conditions=day).assumed,
        found=visit.found,
        done=visit.done,
        before=before,
        after=after,
        comparisons=comparisons,
        explanation=explanation,
        verdict=verdict,
        limit=visit.limit,
        shot_before=shot_before,
        shot_after=shot_after,
        unsaid=tuple(unsaid),
        left_out=visit.session.left_out,
        cautions=cautions_of(explanation),
        sources=sources_of(visit, strings, comparisons, explanation=explanation, verdict=verdict),
        program_version=__version__,
        input_digest=visit.digest,
        notes=(*visit.notes, *visit.session.notes),
        invented=visit.invented,
    )


def _explanation(
    gun: Gun, visit: Visit, comparisons: Sequence[ComparisonOfCase], day: Conditions | None, unsaid: list[str]
) -> LossExplanation | None:
    try:
        return explain_pairs(gun, comparisons, visit.session, day=day)
    except (InputError, OutsideValidity) as reason:
        unsaid.append(f"What cost the velocity cannot be said. {reason}")
        return None


def _verdict(
    gun: Gun, visit: Visit, after: Sequence[StringOfCase], day: Conditions | None, unsaid: list[str]
) -> GunVerdict | None:
    if visit.limit is None or not after:
        return None
    try:
        return judge_strings(
            gun,
            after,
            visit.session,
            limit=visit.limit,
            ball_masses=visit.ball_masses,
            can_fire_automatic=visit.can_fire_automatic,
            day=day,
        )
    except (InputError, OutsideValidity) as reason:
        unsaid.append(f"Whether the gun keeps to the limit cannot be said. {reason}")
        return None


def _shots(explanation: LossExplanation | None) -> tuple[Shot | None, Shot | None]:
    """A shot with the likeliest cause and one without, in the order before, after."""
    standing = [] if explanation is None else [cause for cause in explanation.causes if cause.stands]
    if explanation is None or not standing:
        return None, None
    sound = integrate_shot(explanation.sound_gun)
    ill = integrate_shot(with_fault(explanation.sound_gun, standing[0].fault, standing[0].amount))
    return (ill, sound) if explanation.was_gained else (sound, ill)
