"""Make docs/validation.md from what the tests compared: ``python -m tests.documents.validation_table RECORDS PAGE``."""

from __future__ import annotations

import itertools
import json
import sys
from collections import Counter
from collections.abc import Iterable, Iterator
from pathlib import Path

from stripdown.references import Reading, Register, load_references
from tests.published import DERIVED, Comparison

_HEAD = """# Checks against published figures

Made by `make docs` from the marks and the results of `tests/validation`; not written by hand. Every line is asserted by
`make test`; the slow suites of `make validate` write tables of their own, `docs/validation-*.md`. *Found* is what this
version computes, *apart* the error that leaves, *allowed* what the test tolerates and why. How a test names its source:
[tests/validation/README.md](../tests/validation/README.md).
"""


def load_records(folder: Path) -> list[Comparison]:
    """Read what the test processes wrote, in the order of the tests."""
    rows = [Comparison(**row) for file in folder.glob("*.json") for row in json.loads(file.read_text(encoding="utf-8"))]
    return sorted(rows, key=lambda row: row.test)


def page(rows: Iterable[Comparison], references: Register) -> str:
    """The whole page."""
    rows = list(rows)
    parts = [_HEAD, _count(rows, references)]
    for file, group in itertools.groupby(rows, key=lambda row: row.test.partition("::")[0]):
        parts.append("\n".join(_section(file, list(group))))
    parts.append("\n".join(_sources(rows, references)))
    return "\n".join(parts)


def listed_tests(text: str) -> set[str]:
    """Which tests a page lists, by file and name."""
    listed, file = set(), ""
    for line in text.splitlines():
        if line.startswith("## tests/"):
            file = line.removeprefix("## ")
        elif file and line.startswith("| `test_"):
            listed.add(f"{file}::{line.split('`')[1]}")
    return listed


def _count(rows: list[Comparison], references: Register) -> str:
    """How many comparisons rest on what."""
    words = {
        Reading.READ: "figures read in their source",
        Reading.QUOTED: "figures quoted from it",
        Reading.RUN: "programs and data that were run",
    }
    readings = Counter(references[row.key].reading for row in rows if row.key != DERIVED)
    parts = [f"{readings[reading]} with {meaning}" for reading, meaning in words.items() if readings[reading]]
    derived = sum(row.key == DERIVED for row in rows)
    parts += [f"{derived} with closed forms derived in the test"] * bool(derived)
    return f"{len(rows)} comparisons in {len({row.test for row in rows})} tests: {', '.join(parts)}.\n"


def _section(file: str, rows: list[Comparison]) -> Iterator[str]:
    yield f"## {file}\n"
    yield "| test | source, place | what | expected | found | apart | allowed, because |"
    yield "|---|---|---|---|---|---|---|"
    for row in rows:
        unit = "" if row.unit == "1" else f" {row.unit}"
        test = row.test.partition("::")[2]
        cells = [f"{row.key}, {row.place}", row.what, f"{row.expected}{unit}", f"{row.found:.6g}{unit}", row.error]
        cells.append(f"{row.tolerance}: {row.because}")
        yield " | ".join([f"| `{test}`", *(cell.replace("|", "∣") for cell in cells)]) + " |"
    yield ""


def _sources(rows: list[Comparison], references: Register) -> Iterator[str]:
    yield "## Sources\n"
    keys = {row.key for row in rows}
    if DERIVED in keys:
        yield f"- `{DERIVED}`: a closed form that is derived in the test itself."
    for key in sorted(keys - {DERIVED}):
        reference = references[key]
        via = f" in: {reference.via}" if reference.reading is Reading.QUOTED else f": {reference.via}" if reference.via else ""
        yield f"- `{key}`: {reference.cite()} ({reference.reading.value}{via})"
    yield ""


def main(records: str, target: str) -> None:
    """Write the page."""
    rows = load_records(Path(records))
    if not rows:
        raise SystemExit(f"{records} holds no records; run the validation tests with --records {records} first")
    Path(target).write_text(page(rows, load_references()), encoding="utf-8")


if __name__ == "__main__":
    main(*sys.argv[1:])
