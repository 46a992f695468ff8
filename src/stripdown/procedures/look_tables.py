"""From a table of an inspection file to a look, its limits, or a word for how a surface looks."""

from __future__ import annotations

from stripdown.errors import InputError
from stripdown.procedures.documents import needed_provenance
from stripdown.procedures.looks import AppearanceTerm, Grade, GradeLimits, Look, Vocabulary
from stripdown.references.provenance import Provenance
from stripdown.tables.table import PROVENANCE, Table
from stripdown.units import unit_named

LOOK_FIELDS = (
    "parts", "name", "see", "how", "tools", "sound", "watch", "reject", "measure", "vocabulary", "grids", "work", "prove",
    "set_by", *PROVENANCE,
)  # fmt: skip
SPEAKING_FIELDS = frozenset({"sound", "watch", "reject", "measure", "grade"})
"""Fields that say when a part is kept: whoever changes one says on whose word."""
TERM_FIELDS = ("vocabulary", "name", "family", "grade", "note", "set_by", *PROVENANCE)
_MEASURE_FIELDS = ("label", "unit", "watch_below", "watch_above", "reject_below", "reject_above")


def read_look(key: str, part: str, table: Table, vocabulary: Vocabulary | None) -> Look:
    """Read one look at one part."""
    provenance = needed_provenance(table)
    work, prove = table.texts("work"), table.texts("prove")
    if not work and not prove:
        raise table.wrong("work", None, "is missing: a reject asks for some work, or at least for a check.")
    return Look(
        key=key,
        part=part,
        name=table.text("name"),
        see=table.text("see"),
        how=table.text("how", default=""),
        tools=table.texts("tools"),
        sound=table.text("sound"),
        watch=table.text("watch", default=""),
        reject=table.text("reject"),
        limits=_limits(table, provenance),
        vocabulary=vocabulary,
        grids=table.texts("grids"),
        work=work,
        prove=prove,
        set_by=table.text("set_by", default=""),
        provenance=provenance,
    )


def read_term(key: str, table: Table) -> tuple[str, AppearanceTerm]:
    """Read one word of a vocabulary."""
    term = AppearanceTerm(
        key=key,
        name=table.text("name"),
        family=table.text("family"),
        grade=table.choice("grade", {one.value: one for one in Grade}),
        note=table.text("note", default=""),
        set_by=table.text("set_by", default=""),
    )
    return table.text("vocabulary"), term


def _limits(table: Table, provenance: Provenance) -> GradeLimits | None:
    if "measure" not in table.fields:
        return None
    one = table.table("measure", holding="label, unit and limits")
    one.only(*_MEASURE_FIELDS)
    try:
        unit_named(one.text("unit"))
    except InputError as reason:
        raise one.blamed(reason, "unit", one.text("unit")) from reason
    limits = GradeLimits(
        label=one.text("label"),
        unit=one.text("unit"),
        watch_below=one.number("watch_below"),
        watch_above=one.number("watch_above"),
        reject_below=one.number("reject_below"),
        reject_above=one.number("reject_above"),
        provenance=provenance,
    )
    order = [limits.reject_below, limits.watch_below, limits.watch_above, limits.reject_above]
    given = [limit for limit in order if limit is not None]
    if not given:
        raise one.wrong("reject_above", None, "is missing: a measured value has at least one limit.")
    if given != sorted(given):
        raise one.wrong("limits", given, "must grow: reject_below, watch_below, watch_above, reject_above.")
    return limits
