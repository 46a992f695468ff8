"""Makes docs/validation-doors.md: what came of many made-up inputs, and of writings that were killed half-way.

``python -m tests.documents.hostile_input_counts docs/validation-doors.md`` takes some minutes and stops at the first
that ends as none may.
"""

from __future__ import annotations

import sys
import tempfile
from collections import Counter
from pathlib import Path

from tests.hostile_inputs import COMMANDS, fired, sent

TRIALS = 1_000
SLOW = {"answers": 250}  # each plans a job and appends to its log

_HEAD = f"""\
# Hostile inputs

Made by `python -m tests.documents.hostile_input_counts`: seeds from 0, {TRIALS} of each kind in
`tests/hostile_inputs.py`, but {SLOW["answers"]} answers for a log. An input is what somebody may have written (the
files of the examples), spoilt in one to five places: letters, numbers and words put in, cut, doubled or replaced by
others that are too long, too large, no number, no text, or steer a terminal. An absurd gun has every number anywhere
in its declared limits, one in five outside what is usual.

The page is written only if **none** ended with a traceback, with an exit code of no meaning, with a character that
steers the terminal, with a word above 200 letters, or, of guns, with air below nothing, a piston or a ball out of its
way, or a ledger open by more than a hundredth. `tests/properties/test_hostile_inputs.py` sends a few in every run and
others in `make validate`, where 200 writings are killed at random moments too (`tests/unit/cli/test_whole_file.py`).

| kind | what came of it | how often |
|---|---|---|"""


def main(target: str) -> None:
    """Send them all, and write the page."""
    lines = [_HEAD]
    with tempfile.TemporaryDirectory() as folder:
        for kind in COMMANDS:
            lines += _rows(kind, Counter(sent(kind, seed, Path(folder)) for seed in range(SLOW.get(kind, TRIALS))))
    lines += _rows("absurd guns", Counter(fired(seed) for seed in range(TRIALS)))
    Path(target).write_text("\n".join((*lines, "")), encoding="utf-8")


def _rows(kind: str, came: Counter[str]) -> list[str]:
    return [f"| {kind} | {what} | {count} |" for what, count in sorted(came.items())]


if __name__ == "__main__":
    main(*sys.argv[1:])
