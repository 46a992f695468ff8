"""Where the program begins: an interrupt while the commands are still being imported ends it as any other does."""

from __future__ import annotations

import sys


def main() -> None:
    """Import the commands and run the one that was asked for."""
    try:
        from stripdown.cli.main import main as commands  # noqa: PLC0415  the import itself may be interrupted

        commands()
    except KeyboardInterrupt:
        sys.stderr.write("Stopped.\n")
        sys.exit(130)
