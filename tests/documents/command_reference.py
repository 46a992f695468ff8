"""Make docs/cli.md from the commands themselves: ``python -m tests.documents.command_reference PAGE``."""

from __future__ import annotations

import sys
from collections.abc import Iterator
from pathlib import Path

import click

from stripdown.cli.main import main as stripdown

_HEAD = """# The commands

Made by `make docs` from the commands themselves; `stripdown COMMAND --help` says the same at the bench.
"""
_WIDTH = 100


def page() -> str:
    """The whole page: every command with its help, the groups before what they hold."""
    settings = {**stripdown.context_settings, "terminal_width": _WIDTH, "max_content_width": _WIDTH}
    root = click.Context(stripdown, info_name="stripdown", **settings)
    sections = [f"## {context.command_path}\n\n```text\n{context.get_help().rstrip()}\n```\n" for context in _walk(root)]
    return "\n".join([_HEAD, *sections])


def _walk(context: click.Context) -> Iterator[click.Context]:
    yield context
    group = context.command
    if isinstance(group, click.Group):
        for name in group.list_commands(context):
            command = group.get_command(context, name)
            if command is not None and not command.hidden:
                yield from _walk(click.Context(command, parent=context, info_name=name))


if __name__ == "__main__":
    Path(sys.argv[1]).write_text(page(), encoding="utf-8")
