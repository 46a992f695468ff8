"""The part "what this sheet rests on": assumed values, lines left out, sources, program, digest."""

from __future__ import annotations

from collections.abc import Sequence

from stripdown.bench.gun import Assumed
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.quantities import leaves
from stripdown.references import load_references
from stripdown.references.provenance import Footing
from stripdown.reports.content import Named, RestsOn
from stripdown.studies.service_case import CaseStudy
from stripdown.words.sources import source_in_short

_LABELS = {leaf.path: leaf.quantity.label for leaf in leaves(ShotParameters) if leaf.quantity is not None}
_LAWS = "laws."


def rests_on(study: CaseStudy) -> RestsOn:
    """Say what the sheet rests on."""
    laws = sum(entry.path.startswith(_LAWS) for entry in study.assumed)
    register = load_references()
    return RestsOn(
        assumed=_assumed([entry for entry in study.assumed if not entry.path.startswith(_LAWS)]),
        coefficients=f"{laws} coefficients of the model as the catalogue has them." if laws else "",
        understood=study.notes,
        left_out=tuple(
            Named(name=f"{one.file or 'readings'}, line {one.line}", text=f"“{one.text}”: {one.reason}") for one in study.left_out
        ),
        sources=tuple(source_in_short(register[key]) for key in study.sources),
        program=f"stripdown {study.program_version}",
        input_digest=study.input_digest,
    )


def _assumed(entries: Sequence[Assumed]) -> tuple[Named, ...]:
    """Values by how well they are known, the worst known first, as most of them are."""
    groups: dict[Footing, list[str]] = {}
    for entry in entries:
        groups.setdefault(entry.footing, []).append(f"{_LABELS.get(entry.path, entry.path)} {entry.text}")
    order = sorted(groups, key=list(Footing).index, reverse=True)
    return tuple(Named(name=footing.words, text="; ".join(groups[footing])) for footing in order)
