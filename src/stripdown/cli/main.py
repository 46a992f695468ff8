"""The command `stripdown`: what every command shares when something goes wrong."""

from __future__ import annotations

import contextlib
import io
import os
import sys
from collections.abc import Mapping, Sequence
from types import MappingProxyType
from typing import IO, Any, Final

import click

from stripdown import __version__
from stripdown.cli.failures import INTERRUPTED, exit_code, plain_line, said_of
from stripdown.cli.lazy import LazyGroup
from stripdown.errors import StripdownError

_NOT_WRITTEN = 1
_TABLE: Final[Mapping[str, tuple[str, str]]] = MappingProxyType(
    {
        "gun": ("gun", "Start a gun's file, or check one."),
        "shot": ("shot", "Fire a gun, or two side by side."),
        "sweep": ("shot", "Speed and energy over ball mass (joule creep)."),
        "sensitivity": ("shot", "Which dimension moves the speed, and by how much."),
        "flight": ("flight", "Where a gun's ball goes, and what it can hurt."),
        "range": ("flight", "How far a gun hits a target."),
        "balls": ("flight", "Which ball suits a gun: energy, carry, limit."),
        "string": ("readings", "What chronograph readings say."),
        "compare": ("readings", "What changed between before and after."),
        "chronographs": ("readings", "How the site's chronograph reads against the bench's."),
        "match": ("readings", "Fit a gun's model to its readings."),
        "explain": ("readings", "What may have cost the velocity."),
        "limits": ("limit", "List the energy limits of the catalogue."),
        "catalogue": ("catalogue", "List or search what is known of parts, materials, limits and faults."),
        "rating": ("rating", "Whether this cleaner or lubricant may touch that part."),
        "verdict": ("limit", "Hold a gun against an energy limit."),
        "case": ("case", "A whole case: before, after, why, and against the limit."),
        "visit": ("visit", "Start the folder of a visit."),
        "log": ("log", "Enter what was done, what failed, and what was seen."),
        "plan": ("service", "Plan a job so that nothing is checked twice."),
        "standing": ("service", "Which checks still hold, from the log alone."),
        "why": ("service", "Why one step comes before another."),
        "inspect": ("looks", "Say what to look at on a part, and when to keep, watch or replace it."),
        "complaint": ("looks", "Go from a complaint to work, the cheapest look first."),
        "corner": ("bench", "What a radius in a square inner corner gains."),
        "screw": ("bench", "How tight a screw may be in its boss."),
        "tooth": ("bench", "What one tooth bears: bending and pressure."),
        "pad": ("bench", "Pad for the angle of engagement, and its price."),
        "seal": ("seals", "Rings, glands, leaks, and their price in velocity."),
        "shims": ("shims", "Which shims leave the right float."),
    }
)
"""Module and short help by name of the command, in the order of the help."""


class Commands(LazyGroup):
    """All commands, with one way to end: an exit code per sort of failure, and no traceback for a mistake at the bench."""

    def main(self, args: Sequence[str] | None = None, prog_name: str | None = None, **settings: Any) -> Any:  # type: ignore[override]
        """Run a command and leave with its exit code."""
        if not settings.pop("standalone_mode", True):
            return super().main(args, prog_name, standalone_mode=False, **settings)
        for name in ("stdout", "stderr"):
            stream = getattr(sys, name)
            if stream is None:  # closed by whoever started the program: what would be said there is said nowhere
                setattr(sys, name, open(os.devnull, "w", encoding="utf-8"))  # noqa: PTH123, SIM115  it stays open to the end
            elif hasattr(stream, "reconfigure"):
                stream.reconfigure(errors="replace")  # a terminal that knows no "²" gets a question mark, not a traceback
        sys.exit(self._run(args, prog_name or "stripdown", settings))

    def _run(self, args: Sequence[str] | None, prog_name: str, settings: dict[str, Any]) -> int:
        try:
            code = super().main(args, prog_name, standalone_mode=False, **settings)
            sys.stdout.flush()
        except StripdownError as failure:
            _say(f"{prog_name}: {said_of(failure)}")
            return exit_code(failure)
        except click.ClickException as mistake:
            shown = io.StringIO()
            mistake.show(file=shown)
            _say(plain_line(shown.getvalue().rstrip("\n")))
            return mistake.exit_code
        except (click.Abort, KeyboardInterrupt):
            _say("Stopped.")
            return INTERRUPTED
        except BrokenPipeError:
            _let_go(sys.stdout)  # whoever read along has gone
            return _NOT_WRITTEN
        except OSError as reason:  # what a file does is told as an `InputError` where it happens: this is the answer itself
            _let_go(sys.stdout)
            _say(f"{prog_name}: The answer could not be written: {reason.strerror or reason}.")
            return _NOT_WRITTEN
        finally:
            if "stripdown.core.numerics.machine_code" in sys.modules:
                trouble = sys.modules["stripdown.core.numerics.machine_code"].cache_trouble()
                if trouble:
                    _say(f"{prog_name}: {trouble}")
        return code if isinstance(code, int) else 0


def _say(words: str) -> None:
    """Say something beside the answer; where nobody listens, nothing happens."""
    try:
        click.echo(words, err=True)
    except OSError:
        _let_go(sys.stderr)


def _let_go(stream: IO[str]) -> None:
    """Point a stream that can no longer be written to nowhere, or the interpreter would complain once more while it ends."""
    with contextlib.suppress(OSError, ValueError):
        os.dup2(os.open(os.devnull, os.O_WRONLY), stream.fileno())


@click.group(
    "stripdown",
    cls=Commands,
    table=_TABLE,
    short_help="Bench tool for spring-piston AEG gearboxes.",
    context_settings={"help_option_names": ["-h", "--help"], "max_content_width": 96},
    examples=["stripdown gun new my_gun.toml", 'stripdown shot my_gun.toml --ball "0.25 g"'],
)
@click.version_option(__version__, "-V", "--version", prog_name="stripdown", message="%(prog)s %(version)s")
def main() -> None:
    """Bench tool for spring-piston AEG gearboxes: what the gun should do, and where its energy goes.

    Values carry their unit: "0.25 g", "12 degC", "23.8 mm". Exit codes: 2 something to put right, 3 beyond the range of the
    model, 4 the integration failed, 5 not allowed or not possible in any order, 6 a picture failed.
    """
