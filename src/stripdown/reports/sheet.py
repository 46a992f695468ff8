"""From a whole case to what its sheet says."""

from __future__ import annotations

from collections.abc import Iterator

from stripdown.reports.against_limit import limit_in_short, limit_part, unfired_in_short
from stripdown.reports.before_after import change_in_short, change_part
from stripdown.reports.content import FigureFooting, Named, Sheet
from stripdown.reports.likely_causes import cause_in_short, cause_part
from stripdown.reports.page_head import INVENTED
from stripdown.reports.pictures import change_picture, limit_picture
from stripdown.reports.press import running_title
from stripdown.reports.rests_on import rests_on
from stripdown.studies.service_case import CaseStudy
from stripdown.units import Scale
from stripdown.words.numbers import speed_unit

_SHORT_CHANGES = 2  # lines; the others stand in their table
_FOOTINGS = {
    FigureFooting.MEASURED: "read off the chronograph",
    FigureFooting.COMPUTED: "from measured figures, by statistics",
    FigureFooting.ESTIMATE: "from the model, which rests on assumed values too",
}


def sheet_of(study: CaseStudy, *, scale: Scale = "metric") -> Sheet:
    """Say in words and figures what a case holds."""
    unit = speed_unit(scale)
    return Sheet(
        title=study.title,
        running_title=running_title(study.title, study.gun.name),
        gun=study.gun.name,
        gun_note=study.gun.note,
        is_invented=study.invented or study.gun.invented,
        invented_words=INVENTED,
        short=tuple(_short(study, unit=unit, scale=scale)),
        unsaid=study.unsaid,
        found=study.found,
        done=study.done,
        change=change_part(study, unit=unit, picture=change_picture(study, unit=unit)),
        limit=None if study.limit is None else limit_part(study.verdict, study.limit, unit=unit, picture=limit_picture(study)),
        causes=None if study.explanation is None else cause_part(study.explanation, scale=scale),
        cautions=study.cautions,
        footings=tuple(Named(name=footing.value, text=text) for footing, text in _FOOTINGS.items()),
        rests_on=rests_on(study),
    )


def _short(study: CaseStudy, *, unit: str, scale: Scale) -> Iterator[Named]:
    if study.verdict is not None:
        proved, unfired = limit_in_short(study.verdict), unfired_in_short(study.verdict)
        if proved:
            yield Named(name="limit", text=proved, footing=FigureFooting.MEASURED)
        if unfired:
            yield Named(name="not fired", text=unfired, footing=FigureFooting.ESTIMATE)
    for line in change_in_short(study, unit=unit)[:_SHORT_CHANGES]:
        yield Named(name="change", text=line, footing=FigureFooting.COMPUTED)
    if study.explanation is not None:
        yield Named(name="cause", text=cause_in_short(study.explanation, scale=scale), footing=FigureFooting.ESTIMATE)
