"""The command `stripdown`: what every command shares when something goes wrong."""

from __future__ import annotations

import os
import sys
from collections.abc import Sequence
from typing import Any

import click

from stripdown import __version__
from stripdown.cli.case import case
from stripdown.cli.compare import compare
from stripdown.cli.complaint import complaint as complaint_command
from stripdown.cli.corner import corner
from stripdown.cli.examples import ExampleGroup
from stripdown.cli.explain import explain
from stripdown.cli.failures import INTERRUPTED, complaint, exit_code
from stripdown.cli.gun import gun
from stripdown.cli.inspect import inspect
from stripdown.cli.limits import limits
from stripdown.cli.match import match
from stripdown.cli.pad import pad
from stripdown.cli.plan import plan
from stripdown.cli.rating import rating
from stripdown.cli.screw import screw
from stripdown.cli.seal import seal
from stripdown.cli.sensitivity import sensitivity
from stripdown.cli.shims import shims
from stripdown.cli.shot import shot
from stripdown.cli.standing import standing
from stripdown.cli.string import string
from stripdown.cli.sweep import sweep
from stripdown.cli.tooth import tooth
from stripdown.cli.verdict import verdict
from stripdown.cli.why import why
from stripdown.errors import StripdownError

_CLOSED_PIPE = 1


class Commands(ExampleGroup):
    """All commands, with one way to end: an exit code per sort of failure, and no traceback for a mistake at the bench."""

    def main(self, args: Sequence[str] | None = None, prog_name: str | None = None, **settings: Any) -> Any:  # type: ignore[override]
        """Run a command and leave with its exit code."""
        if not settings.pop("standalone_mode", True):
            return super().main(args, prog_name, standalone_mode=False, **settings)
        for stream in (sys.stdout, sys.stderr):
            if hasattr(stream, "reconfigure"):
                stream.reconfigure(errors="replace")  # a terminal that knows no "²" gets a question mark, not a traceback
        sys.exit(self._run(args, prog_name or "stripdown", settings))

    def _run(self, args: Sequence[str] | None, prog_name: str, settings: dict[str, Any]) -> int:
        try:
            code = super().main(args, prog_name, standalone_mode=False, **settings)
            sys.stdout.flush()
        except StripdownError as failure:
            click.echo(f"{prog_name}: {complaint(failure)}", err=True)
            return exit_code(failure)
        except click.ClickException as mistake:
            mistake.show()
            return mistake.exit_code
        except (click.Abort, KeyboardInterrupt):
            click.echo("Stopped.", err=True)
            return INTERRUPTED
        except BrokenPipeError:
            # Whoever read along has gone; without this the interpreter would complain once more while it ends.
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
            return _CLOSED_PIPE
        return code if isinstance(code, int) else 0


@click.group(
    "stripdown",
    cls=Commands,
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


for _command in (
    gun,
    shot,
    sweep,
    sensitivity,
    string,
    compare,
    match,
    explain,
    limits,
    rating,
    verdict,
    case,
    plan,
    standing,
    why,
    inspect,
    complaint_command,
    corner,
    screw,
    tooth,
    pad,
    seal,
    shims,
):
    main.add_command(_command)
