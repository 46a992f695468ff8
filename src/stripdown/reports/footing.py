"""The part "what this sheet rests on": assumed values, lines left out, sources, program, digest."""

from __future__ import annotations

from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.files.gun_values import Assumed
from stripdown.quantities import leaves
from stripdown.references import load_references
from stripdown.reports.content import Footing, Named
from stripdown.studies.service_case import CaseStudy

_LABELS = {leaf.path: leaf.quantity.label for leaf in leaves(ShotParameters) if leaf.quantity is not None}
_LAWS = "laws."


def footing(study: CaseStudy) -> Footing:
    """Say what the sheet rests on.

    Parameters
    ----------
    study
        The case.

    Returns
    -------
    Footing

    Raises
    ------
    KeyError
        If the case names a source that is not in the register.
    """
    laws = sum(entry.path.startswith(_LAWS) for entry in study.assumed)
    register = load_references()
    return Footing(
        assumed=tuple(_assumed(entry) for entry in study.assumed if not entry.path.startswith(_LAWS)),
        coefficients=f"{laws} coefficients of the model as the catalogue has them." if laws else "",
        left_out=tuple(
            Named(name=f"{one.file or 'readings'}, line {one.line}", text=f"“{one.text}”: {one.reason}") for one in study.left_out
        ),
        sources=tuple(register[key].cite() for key in study.sources),
        program=f"stripdown {study.program_version}",
        input_digest=study.input_digest,
    )


def _assumed(entry: Assumed) -> Named:
    return Named(name=_LABELS.get(entry.path, entry.path), text=f"{entry.text} ({entry.standing.words})")
