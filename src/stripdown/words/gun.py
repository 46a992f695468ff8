"""What is said of a gun: of its file, of what was assumed of it, how a shot of it ended, and what a prediction is."""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from typing import TYPE_CHECKING

from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.interior_ballistics.result import Outcome
from stripdown.quantities import leaves
from stripdown.references.provenance import Footing
from stripdown.words.answer import Answer, Cell, Column, Sentence, Table
from stripdown.words.numbers import dimension_name

if TYPE_CHECKING:
    from stripdown.bench.gun import Assumed
    from stripdown.files.gun import GunCheck

PREDICTION = Sentence(
    key="prediction",
    full="Predicted from the parts as described, not measured: the site's chronograph and marshal have the last word.",
)
INVENTED = Sentence(key="invented", full="Invented figures: no real gun")
_LABELS = {leaf.path: leaf.quantity.label for leaf in leaves(ShotParameters) if leaf.quantity is not None}
_LAWS = "laws."
_NO_BREAK = "\u00a0"
_OUTCOMES = {
    Outcome.LEFT_MUZZLE: "the ball leaves the muzzle",
    Outcome.STAYED_IN_BARREL: "the ball stays in the barrel",
    Outcome.DID_NOT_MOVE: "the ball does not move",
    Outcome.TIMED_OUT: "the shot was given up before it ended",
    Outcome.NO_BALL: "fired without a ball",
}


def outcome_words(outcome: Outcome) -> str:
    """Say how a shot ended for the ball."""
    return _OUTCOMES[outcome]


def assumed_sentence(entries: Sequence[Assumed]) -> Sentence | None:
    """Name what the catalogue filled in, the worst known first; in short, how many there are. None for nothing."""
    groups: dict[Footing, list[str]] = {}
    typical = [_named(entry) for entry in entries if entry.is_typical]
    left_out = [entry for entry in entries if not entry.is_typical]
    laws = 0
    for entry in left_out:
        if entry.path.startswith(_LAWS):
            laws += 1
        else:
            groups.setdefault(entry.footing, []).append(_named(entry))
    if not entries:
        return None
    order = sorted(groups, key=list(Footing).index, reverse=True)
    told = ". ".join(f"{footing.words}: {'; '.join(groups[footing])}" for footing in order)
    full = [f"Assumed, because the gun's file leaves it out: {told}."] if told else []
    if laws:
        full.append(f"{'Also assumed' if told else 'Assumed'}: {_coefficients(laws)} as the catalogue has them.")
    if typical:
        full.append(f"Assumed, because the gun's file has it as typical and nobody measured it: {'; '.join(typical)}.")
    count = len(left_out) - laws
    counts = [f"{count} of the gun's dimensions"] if count else []
    counts += [_coefficients(laws)] if laws else []
    short = [f"because the gun's file leaves them out: {' and '.join(counts)}"] if counts else []
    if typical:
        short.append(f"because it has them as typical and nobody measured them: {len(typical)}")
    return Sentence(
        key="assumed",
        full=" ".join(full),
        short=f"Assumed, {'; '.join(short)}.",
        about=tuple(entry.path for entry in entries),
        act="list_assumed",
    )


def _named(entry: Assumed) -> str:
    """A dimension with its figure."""
    return f"{dimension_name(entry.path, _LABELS.get(entry.path, entry.path))} {entry.text.replace(' ', _NO_BREAK)}"


def _coefficients(count: int) -> str:
    return f"{count} coefficient{'' if count == 1 else 's'} of the model"


def gun_check_answer(check: GunCheck) -> Answer:
    """Say what is wrong, doubtful, reworded, computed and assumed in a gun's file."""
    if check.gun is None:
        mistakes = "1 mistake" if len(check.wrong) == 1 else f"{len(check.wrong)} mistakes"
        title = f"{check.path}: {mistakes}; the gun cannot be used as it stands."
    else:
        title = f"{check.path}: {check.gun.shown_name}, can be used."
    return Answer(key="gun_check", title=title, parts=tuple(_check_parts(check)))


def _check_parts(check: GunCheck) -> Iterator[Answer]:
    if check.wrong:
        yield _list("wrong", "Wrong", [Sentence(full=str(fault), about=(fault.field or "",)) for fault in check.wrong])
    if check.doubtful:
        doubts = [
            Sentence(full=f"{'' if one.line is None else f'line {one.line}: '}{one.message}", about=(one.path,))
            for one in check.doubtful
        ]
        yield _list("doubtful", "Doubtful: possible, and unusual; look again", doubts)
    if check.reworded:
        commas = [
            Sentence(full=f'line {found.line}: {path} = "{found.text}" is read as {found.understood}', about=(path,))
            for path, found in check.reworded.items()
        ]
        yield _list("reworded", "Read with a decimal comma", commas)
    if check.derived:
        computed = [Sentence(full=f"{one.path} = {one.text}: {one.reason}", about=(one.path,)) for one in check.derived]
        yield _list("computed", "Computed from what is written", computed)
    typical = [entry for entry in check.missing if entry.is_typical]
    if typical:
        yield _assumed("typical", "Typical, so assumed until you measure them or take the word away", typical)
    parts = [entry for entry in check.missing if not entry.is_typical and not entry.path.startswith(_LAWS)]
    if parts:
        yield _assumed("missing", "Missing, so assumed", parts)
    laws = len(check.missing) - len(parts) - len(typical)
    if laws:
        title = f"Coefficients of the model, as the catalogue has them: {laws}"
        yield Answer(key="laws", title=title, lead=(Sentence(full="Write a table [laws] to change one."),))
    again = Sentence(key="next", full="Next: put right what is wrong, and check again.")
    fire = Sentence(key="next", full="Next: what this gun should do.", act="after_check")
    yield Answer(key="next", title="", lead=(again if check.gun is None else fire,))


def _assumed(key: str, title: str, entries: Sequence[Assumed]) -> Answer:
    rows = tuple(
        (Cell(text=one.path, key=one.path), Cell(text=one.text), Cell(text=f"{one.footing.words}: {one.reason}"))
        for one in entries
    )
    table = Table(key="assumed", columns=(Column(head=""), Column(head=""), Column(head="")), rows=rows)
    return Answer(key=key, title=title, tables=(table,))


def _list(key: str, title: str, notes: Sequence[Sentence]) -> Answer:
    return Answer(key=key, title=title, notes=tuple(notes))
