"""Study a case: strings, comparison, explanation, verdict, and whatever cannot be said."""

from __future__ import annotations

from collections.abc import Sequence

from stripdown import __version__
from stripdown.bench.completion import complete
from stripdown.core.interior_ballistics.result import Shot
from stripdown.core.interior_ballistics.simulate import integrate_shot
from stripdown.core.parts.conditions import Conditions
from stripdown.core.shot_statistics import Occasion
from stripdown.errors import InputError, OutsideValidity
from stripdown.files.case import Case
from stripdown.studies.before_after import compare_occasions
from stripdown.studies.case_strings import strings_of
from stripdown.studies.case_words import cautions_of, sources_of, unsaid_of
from stripdown.studies.faulty_gun import with_fault
from stripdown.studies.loss_causes import LossExplanation
from stripdown.studies.service_case import CaseStudy, ComparisonOfCase, StringOfCase
from stripdown.studies.session_answers import day_said, explain_pairs, judge_strings, strings_on
from stripdown.studies.verdict import GunVerdict


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
    before, after = (strings_on(strings, occasion) for occasion in (Occasion.BEFORE, Occasion.AFTER))
    day = case.day or day_said(after or before)
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
        left_out=case.session.left_out,
        cautions=cautions_of(explanation),
        sources=sources_of(case, strings, comparisons, explanation=explanation, verdict=verdict),
        program_version=__version__,
        input_digest=case.digest,
        notes=(*case.notes, *case.session.notes),
        invented=case.invented,
    )


def _explanation(
    case: Case, comparisons: Sequence[ComparisonOfCase], day: Conditions | None, unsaid: list[str]
) -> LossExplanation | None:
    try:
        return explain_pairs(case.gun, comparisons, case.session, day=day)
    except (InputError, OutsideValidity) as reason:
        unsaid.append(f"What cost the velocity cannot be said. {reason}")
        return None


def _verdict(case: Case, after: Sequence[StringOfCase], day: Conditions | None, unsaid: list[str]) -> GunVerdict | None:
    if case.limit is None or not after:
        return None
    try:
        return judge_strings(
            case.gun,
            after,
            case.session,
            limit=case.limit,
            ball_masses=case.ball_masses,
            can_fire_automatic=case.can_fire_automatic,
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
