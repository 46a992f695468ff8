"""Study a case: strings, comparison, explanation, verdict, and whatever cannot be said."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

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
from stripdown.studies.faulty_gun import with_fault
from stripdown.studies.loss_causes import LossExplanation
from stripdown.studies.service_case import CaseStudy, ComparisonOfCase, StringOfCase, Unsaid, UnsaidKind
from stripdown.studies.session_answers import day_said, explain_pairs, judge_strings, strings_on
from stripdown.studies.verdict import GunVerdict

# Sources of what is always used when a question is answered at all; those of the limit and of assumed values come on top.
_STRING_SOURCES = ("nist_handbook", "young_1941", "engelman_hartigan_1969")
_COMPARISON_SOURCES = ("welch_1947", "jcgm_100")
_VERDICT_SOURCES = ("jcgm_106", "jcgm_100")
_WAY_SOURCES = ("clift_gauvin_1970",)
_MODEL_SOURCES = ("iso_6358_1", "dittus_boelter_1930", "us_standard_atmosphere_1976", "picard_2008")


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
    unsaid = list(_unsaid(strings, comparisons, has_limit=visit.limit is not None))
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
        sources=_sources(visit, strings, comparisons, explanation=explanation, verdict=verdict),
        program_version=__version__,
        input_digest=visit.digest,
        notes=(*visit.notes, *visit.session.notes),
        invented=visit.invented,
    )


def _explanation(
    gun: Gun, visit: Visit, comparisons: Sequence[ComparisonOfCase], day: Conditions | None, unsaid: list[Unsaid]
) -> LossExplanation | None:
    try:
        return explain_pairs(gun, comparisons, visit.session, day=day, as_found=visit.read_as_found)
    except (InputError, OutsideValidity) as reason:
        unsaid.append(Unsaid(kind=UnsaidKind.NO_CAUSE, reason=str(reason)))
        return None


def _verdict(
    gun: Gun, visit: Visit, after: Sequence[StringOfCase], day: Conditions | None, unsaid: list[Unsaid]
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
        unsaid.append(Unsaid(kind=UnsaidKind.NO_VERDICT, reason=str(reason)))
        return None


def _shots(explanation: LossExplanation | None) -> tuple[Shot | None, Shot | None]:
    """A shot with the cause that is named first and one without, in the order before, after."""
    leading = () if explanation is None else explanation.leading
    if explanation is None or not leading:
        return None, None
    sound = integrate_shot(explanation.sound_gun)
    ill = integrate_shot(with_fault(explanation.sound_gun, leading[0].fault, leading[0].amount))
    return (ill, sound) if explanation.was_gained else (sound, ill)


def _unsaid(strings: Sequence[StringOfCase], comparisons: Sequence[ComparisonOfCase], *, has_limit: bool) -> Iterator[Unsaid]:
    """What a case cannot say, before anything is computed."""
    occasions = [string.reading.conditions.occasion for string in strings]
    if Occasion.BEFORE not in occasions:
        yield Unsaid(kind=UnsaidKind.NO_STRING_BEFORE)
    if Occasion.AFTER not in occasions:
        yield Unsaid(kind=UnsaidKind.NO_STRING_AFTER)
    for string in strings:
        if string.reading.conditions.occasion is None:
            yield Unsaid(kind=UnsaidKind.NO_OCCASION, string=string)
    if Occasion.BEFORE in occasions and Occasion.AFTER in occasions and all(pair.comparison is None for pair in comparisons):
        yield Unsaid(kind=UnsaidKind.NOTHING_COMPARES)
    paired = [string for pair in comparisons if pair.comparison is not None for string in (pair.before, pair.after)]
    if paired:
        for string, occasion in zip(strings, occasions, strict=True):
            if occasion is not None and all(string is not other for other in paired):
                yield Unsaid(kind=UnsaidKind.NO_PARTNER, string=string)
    for string, occasion in zip(strings, occasions, strict=True):
        if occasion is not None and string.reading.conditions.ball_mass is None:
            yield Unsaid(kind=UnsaidKind.NO_BALL, string=string)
    if not has_limit:
        yield Unsaid(kind=UnsaidKind.NO_LIMIT)


def _sources(
    visit: Visit,
    strings: Sequence[StringOfCase],
    comparisons: Sequence[ComparisonOfCase],
    *,
    explanation: LossExplanation | None,
    verdict: GunVerdict | None,
) -> tuple[str, ...]:
    """Keys of the register that a case rests on."""
    keys: list[str] = []
    if verdict is not None and visit.limit_source is not None:
        keys.append(visit.limit_source)
    if strings:
        keys.extend(_STRING_SOURCES)
    if any(pair.comparison is not None for pair in comparisons):
        keys.extend(_COMPARISON_SOURCES)
    if verdict is not None:
        keys.extend(_VERDICT_SOURCES)
    if any(string.reading.conditions.distance for string in strings):
        keys.extend(_WAY_SOURCES)
    if explanation is not None or (verdict is not None and verdict.match is not None):
        keys.extend(_MODEL_SOURCES)
    if explanation is not None:
        keys.extend(cause.fault.provenance.source for cause in explanation.causes if cause.fault.provenance.source is not None)
    return tuple(dict.fromkeys(keys))
