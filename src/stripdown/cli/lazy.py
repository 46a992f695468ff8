"""Groups whose commands are imported when they are called: the help of the whole needs names and one line each, no more."""

from __future__ import annotations

import importlib
from collections.abc import Mapping
from typing import Any

import click

from stripdown.cli.examples import ExampleGroup


class LazyGroup(ExampleGroup):
    """A group that knows of each command its module and its short help, and imports it when somebody calls it."""

    def __init__(self, *args: Any, table: Mapping[str, tuple[str, str]], **settings: Any) -> None:
        super().__init__(*args, **settings)
        self.table = table

    def list_commands(self, ctx: click.Context) -> list[str]:  # noqa: ARG002  click's
        """Names in the order of the table."""
        return list(self.table)

    def get_command(self, ctx: click.Context, cmd_name: str) -> click.Command | None:  # noqa: ARG002  click's
        """Import a command; its function is named as the command is, or so with an underscore behind it."""
        if cmd_name not in self.table:
            return None
        module_name, short_help = self.table[cmd_name]
        module = importlib.import_module(f"stripdown.cli.{module_name}")
        command = getattr(module, cmd_name, None)
        if not isinstance(command, click.Command):
            command = getattr(module, f"{cmd_name}_")
        assert isinstance(command, click.Command)  # noqa: S101  narrows: the table names commands
        command.short_help = short_help
        return command

    def format_commands(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:  # noqa: ARG002  click's
        """List names and short helps without importing anything."""
        with formatter.section("Commands"):
            formatter.write_dl([(name, short_help) for name, (_, short_help) in self.table.items()])
