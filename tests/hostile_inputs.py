"""Inputs that nobody should send and somebody will: made up from a seed, sent to the commands, and what came of each.

Whatever is sent, a command ends with one of its exit codes; what it prints steers no terminal, and no word that was typed
fills the screen. An absurd gun, every number anywhere in its declared limits, ends with a shot that keeps every rule, or is
refused.
"""

from __future__ import annotations

import contextlib
import enum
import random
import re
import unicodedata
from collections.abc import Callable, Mapping
from pathlib import Path
from types import MappingProxyType
from typing import Any, Final

import click
from click.testing import CliRunner

from stripdown.cli.main import main
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.interior_ballistics.result import EnergyLedger, Outcome
from stripdown.core.interior_ballistics.simulate import run_one, settings_row
from stripdown.errors import NumericalFailure, OutOfRange
from stripdown.quantities import Leaf, check, leaves
from stripdown.tables.values import assemble
from tests.properties.invariants import check_air, check_arrays, check_mass

_EXAMPLES = Path(__file__).parents[1] / "examples"
_TOLERANCE = 1e-4
_LEDGER_CLOSES = 0.01  # of its largest entry, as the program promises for any gun; usual guns keep 5e-4 (`check_shot`)
_BESIDE = 1e-3  # of stroke and travel: the integrator may stand so far beside an end
_LONGEST_WORD = 200
_FAILED = 4

EXIT_CODES: Final[Mapping[int, str]] = MappingProxyType(
    {0: "answered", 2: "refused, with what is wrong", 3: "beyond the model", 4: "could not be computed", 5: "not possible"}
)

NUMBERS = (
    "1e999 -1e999 nan inf -inf 0 -0.0 1e-320 1_000 0x1F 0b1 ٣٫٥ 1,5 1.5.5 --3 + . 1e 9007199254740993 ½ ² 1/0 true 1979-13-45 "
    + "9" * 400
    + " 1e"
    + "9" * 40
).split()
WORDS = (
    "",
    " ",
    "\x00",
    "\x1b[31mred\x1b[0m",
    "\u202eesrever",
    "\ufeff",
    "a" * 300,
    "w" * 20_000,
    "'; --",
    "<b>bold</b>",
    "=1+1",
    "#set page()",
    "../../etc/passwd",
    "/dev/stdin/x",
    "%s%n{0}",
    "naïve Größe",
    "零",
    "\udcff",
    '"""',
    "[[",
    "]]",
    "{}",
    "\\u0000",
    "0.20 g",
    "1.14 J",
    "12 N 13 N",
    "as_found",
    "piston",
    "do:fit_pad",
    "--json",
    "-",
)
_NUMBER = re.compile(r"\d+(?:[.,]\d+)?")
_WORD = re.compile(r"[A-Za-z_]{3,}")


def hostile_text(chance: random.Random, text: str) -> str:
    """A text that somebody may have written, spoilt in one to five places."""
    for _ in range(chance.choice((1, 1, 1, 2, 3, 5))):
        text = chance.choice(_SPOILERS)(chance, text)
    return text


def _put(chance: random.Random, text: str) -> str:
    place = chance.randrange(len(text) + 1)
    return text[:place] + chance.choice((*WORDS, *NUMBERS, "\n", "\t", ";", '"', "=")) + text[place:]


def _cut(chance: random.Random, text: str) -> str:
    first = chance.randrange(len(text) + 1)
    return text[:first] + text[first + chance.choice((1, 10, 100, len(text))) :]


def _double(chance: random.Random, text: str) -> str:
    lines = text.splitlines(keepends=True) or [""]
    first = chance.randrange(len(lines))
    last = min(len(lines), first + chance.randint(1, 6))
    return "".join((*lines[:last], *lines[first:last] * chance.choice((1, 2, 40)), *lines[last:]))


def _other_number(chance: random.Random, text: str) -> str:
    return _in_place(chance, text, _NUMBER, (*NUMBERS, *WORDS))


def _other_word(chance: random.Random, text: str) -> str:
    return _in_place(chance, text, _WORD, (*WORDS, *NUMBERS))


def _in_place(chance: random.Random, text: str, pattern: re.Pattern[str], instead: tuple[str, ...]) -> str:
    found = list(pattern.finditer(text))
    if not found:
        return text
    one = chance.choice(found)
    return text[: one.start()] + chance.choice(instead) + text[one.end() :]


def _other_byte(chance: random.Random, text: str) -> str:
    if not text:
        return text
    place = chance.randrange(len(text))
    return (
        text[:place]
        + chr(chance.choice((0, 7, 13, 27, 127, 0x85, 0xA0, 0x200B, 0x2028, 0xFFFE, chance.randrange(0x3000))))
        + text[place + 1 :]
    )


_SPOILERS: tuple[Callable[[random.Random, str], str], ...] = (
    _put,
    _cut,
    _double,
    _other_number,
    _other_word,
    _other_word,
    _other_byte,
)


def readings(chance: random.Random, folder: Path) -> tuple[str, ...]:
    """A readings file, to be summed up or compared."""
    file = _written(
        folder / "readings.csv", hostile_text(chance, (_EXAMPLES / "brackenmoor-07" / "before.csv").read_text(encoding="utf-8"))
    )
    return (chance.choice(("string", "compare")), str(file))


def gun(chance: random.Random, folder: Path) -> tuple[str, ...]:
    """A gun's file, to be checked."""
    text = (_EXAMPLES / "brackenmoor-07-as-found.toml").read_text(encoding="utf-8")
    return ("gun", "check", str(_written(folder / "gun.toml", hostile_text(chance, text))))


def log(chance: random.Random, folder: Path) -> tuple[str, ...]:
    """A job with its log, to be planned or judged."""
    text = (_EXAMPLES / "brackenmoor-12" / "job.toml").read_text(encoding="utf-8")
    file = _written(folder / "job.toml", hostile_text(chance, text))
    _written(folder / "shims.toml", (_EXAMPLES / "brackenmoor-12" / "shims.toml").read_text(encoding="utf-8"))
    return (chance.choice(("plan", "standing")), str(file))


def answers(chance: random.Random, folder: Path) -> tuple[str, ...]:
    """Something to be entered into a log."""
    job = _EXAMPLES / "brackenmoor-12"
    file = _written(folder / "job.toml", (job / "job.toml").read_text(encoding="utf-8"))
    _written(folder / "shims.toml", (job / "shims.toml").read_text(encoding="utf-8"))
    act = chance.choice(("done", "failed", "touched", "graded", "note", "undo"))
    known = ("1", "2-4", "1,3", "piston", "pick_up_tooth", "sound", "clean", "make:lip_seal", "note=x", "string=x", "3 N")
    some = [chance.choice((*known, *known, *WORDS, *NUMBERS)) for _ in range(chance.randint(0, 4))]
    return ("log", str(file), act, "--", *(hostile_text(chance, one) if chance.random() < 0.3 else one for one in some))


def shims(chance: random.Random, folder: Path) -> tuple[str, ...]:
    """A shim sheet, to be filled."""
    text = (_EXAMPLES / "brackenmoor-12" / "shims.toml").read_text(encoding="utf-8")
    return ("shims", str(_written(folder / "shims.toml", hostile_text(chance, text))))


_ASKED = tuple(main.list_commands(click.Context(main)))
_OPTIONS = tuple(
    f"--{name}"
    for name in ("ball", "limit", "json", "help", "force", "radius", "drag", "gap", "job", "variation", "tools", "for")
)


def words(chance: random.Random, folder: Path) -> tuple[str, ...]:
    """A command with words and options that it may not know."""
    del folder
    some = [
        chance.choice((*WORDS, *NUMBERS, *_OPTIONS, *_OPTIONS, "piston", "ring", "gland", "new"))
        for _ in range(chance.randint(1, 5))
    ]
    return (chance.choice(_ASKED), *some)


COMMANDS: Final[Mapping[str, Callable[[random.Random, Path], tuple[str, ...]]]] = MappingProxyType(
    {
        "readings files": readings,
        "gun files": gun,
        "logs and requests": log,
        "answers": answers,
        "shim sheets": shims,
        "words and options": words,
    }
)


def sent(kind: str, seed: int, folder: Path) -> str:
    """Send one made-up input of a kind; what came of it, or an `AssertionError` that says what must not be."""
    chance = random.Random(f"{kind} {seed}")  # noqa: S311  not for secrets
    own = folder / kind.replace(" ", "-")
    own.mkdir(exist_ok=True)
    arguments = COMMANDS[kind](chance, own)
    with contextlib.chdir(own):  # a command that writes, writes here
        done = CliRunner().invoke(main, [one.replace("\x00", "\N{SYMBOL FOR NULL}") for one in arguments])
    told = f"{kind}, seed {seed}: {[one[:80] for one in arguments]}"
    assert done.exception is None or isinstance(done.exception, SystemExit), f"{told}: {done.exception!r}"
    assert done.exit_code in EXIT_CODES, f"{told}: exit code {done.exit_code}"
    assert done.exit_code != _FAILED, f"{told}: {done.stderr}"
    steering = {sign for sign in done.output if sign != "\n" and unicodedata.category(sign) in {"Cc", "Cf"}}
    assert not steering, f"{told}: prints {steering}"
    longest = max((len(word) for word in done.stderr.split()), default=0)
    assert longest <= _LONGEST_WORD, f"{told}: a word of {longest} letters"
    assert done.exit_code == 0 or done.output, f"{told}: ends with {done.exit_code} and says nothing"
    return EXIT_CODES[done.exit_code]


def fired(seed: int) -> str:
    """Fire a gun whose every number lies anywhere in its limits; what came of it."""
    chance = random.Random(f"absurd gun {seed}")  # noqa: S311  not for secrets
    gun_drawn = assemble(ShotParameters, {leaf.path: _anywhere(leaf, chance) for leaf in leaves(ShotParameters)})
    try:
        check(gun_drawn)
    except OutOfRange:
        return "refused, its parts contradict each other"
    try:
        shot = run_one(gun_drawn, settings_row(tolerance=_TOLERANCE))
    except NumericalFailure:
        return EXIT_CODES[_FAILED]
    for rule in (check_mass, check_air, check_arrays):
        rule(shot)
    entries = [abs(getattr(shot.ledger, name)) for name in (*EnergyLedger.ENTRIES, "put_in")]
    assert abs(shot.ledger.residual) <= _LEDGER_CLOSES * max(entries)
    stroke, travel = gun_drawn.cylinder.stroke, gun_drawn.barrel.length - gun_drawn.barrel.seat_depth
    assert (
        -stroke < shot.piston_position.min()
    )  # thrown back by its own cushion it may draw the spring further than the gears did
    assert shot.piston_position.max() <= (1.0 + _BESIDE) * stroke
    assert -_BESIDE * travel <= shot.ball_position.min() <= shot.ball_position.max() <= (1.0 + _BESIDE) * travel
    assert (shot.figures.muzzle_speed > 0.0) == (shot.outcome is Outcome.LEFT_MUZZLE)
    return "a shot that keeps every rule"


def _anywhere(leaf: Leaf, chance: random.Random) -> Any:
    if leaf.type is bool:
        return chance.random() < 0.5
    if issubclass(leaf.type, enum.Enum):
        return chance.choice(list(leaf.type))
    quantity = leaf.quantity
    assert quantity is not None
    assert quantity.low is not None
    assert quantity.high is not None
    usual = quantity.usual or (quantity.low, quantity.high)
    # Each number is usual more often than not: with forty absurd ones at once no gun is ever fired.
    low, high = usual if chance.random() < 0.8 else (quantity.low, quantity.high)
    value = chance.choice((low, high)) if chance.random() < 0.1 else chance.uniform(low, high)
    return int(value) if leaf.type is int else value


def _written(file: Path, text: str) -> Path:
    with contextlib.suppress(OSError):
        file.write_bytes(text.encode("utf-8", errors="surrogatepass"))
    return file
