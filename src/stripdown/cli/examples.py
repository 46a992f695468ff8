"""Commands that show in their help how they are called."""

from __future__ import annotations

from collections.abc import Sequence
from typing import Any

import click


def write_examples(formatter: click.HelpFormatter, examples: Sequence[str]) -> None:
    """Write examples below the options, as they are to be typed."""
    formatter.write_paragraph()
    formatter.write_heading("Examples")
    for example in examples:
        formatter.write(f"  {example}\n")


class ExampleCommand(click.Command):
    """A command with examples."""

    def __init__(self, *args: Any, examples: Sequence[str], **settings: Any) -> None:
        super().__init__(*args, **settings)
        self.examples = tuple(examples)

    def format_epilog(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the examples where click has its last words."""
        super().format_epilog(ctx, formatter)
        write_examples(formatter, self.examples)


class ExampleGroup(click.Group):
    """A group of commands with examples."""

    command_class = ExampleCommand

    def __init__(self, *args: Any, examples: Sequence[str], **settings: Any) -> None:
        super().__init__(*args, **settings)
        self.examples = tuple(examples)

    def format_epilog(self, ctx: click.Context, formatter: click.HelpFormatter) -> None:
        """Write the examples where click has its last words."""
        super().format_epilog(ctx, formatter)
        write_examples(formatter, self.examples)
