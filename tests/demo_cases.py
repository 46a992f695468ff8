"""The demo case of the invented club, studied as a technician would have it studied; and the same with something missing."""

from __future__ import annotations

import dataclasses
import functools
from pathlib import Path

from stripdown.bench.visit import Visit
from stripdown.core.shot_statistics import Occasion
from stripdown.files.visit import load_case
from stripdown.studies.service_case import CaseStudy
from stripdown.studies.study_case import study_case

_FOLDER = Path(__file__).parents[1] / "examples" / "brackenmoor-07"


@functools.cache
def whole_case() -> CaseStudy:
    """Strings before and after, a limit, findings: nothing is missing."""
    return study_case(_read())


@functools.cache
def without_before() -> CaseStudy:
    """Nobody fired the gun before it was opened."""
    return study_case(_with_strings(_read(), Occasion.AFTER))


@functools.cache
def without_after() -> CaseStudy:
    """Nobody fired the gun after it was closed."""
    return study_case(_with_strings(_read(), Occasion.BEFORE))


@functools.cache
def without_limit() -> CaseStudy:
    """No limit was named."""
    return study_case(dataclasses.replace(_read(), limit=None, limit_source=None))


@functools.cache
def over_the_limit() -> CaseStudy:
    """The site allows no more than 1.02 J, about which the strings lie."""
    case = _read()
    assert case.limit is not None
    strict = dataclasses.replace(case.limit, name="site's own rule: 1.02 J", energy=1.02)
    return study_case(dataclasses.replace(case, limit=strict))


@functools.cache
def _read() -> Visit:
    return load_case(_FOLDER)


def _with_strings(case: Visit, occasion: Occasion) -> Visit:
    """The case as if only the files of one occasion lay in the folder."""
    session = case.session
    strings = tuple(string for string in session.strings if string.conditions.occasion is occasion)
    files = {string.file for string in strings}
    left_out = tuple(one for one in session.left_out if one.file in files)
    notes = tuple(note for note in session.notes if note.partition(":")[0] in files)
    return dataclasses.replace(case, session=dataclasses.replace(session, strings=strings, left_out=left_out, notes=notes))
