"""`stripdown catalogue`: what the program knows of parts, materials, limits and faults, and on whose word."""

from __future__ import annotations

import click

from stripdown.catalogue.index import catalogue_entries
from stripdown.cli.ending import Shown, end, shown_options
from stripdown.cli.examples import ExampleCommand
from stripdown.plain.catalogue import entry_fields
from stripdown.words.catalogue import catalogue_answer


@click.command(
    cls=ExampleCommand,
    examples=["stripdown catalogue", "stripdown catalogue spring M100", "stripdown catalogue nitrile --json"],
)
@click.argument("words", nargs=-1)
@shown_options()
def catalogue(*, words: tuple[str, ...], shown: Shown) -> None:
    """List what the catalogue holds, or find entries by WORDS: keys, names, kinds or parts of them, in any case.

    Springs, wires, balls, typical guns, what is assumed, faults, energy limits, materials, fluids, parts, threads and
    screws, each with how well it is known. Of a few entries all is said, and on whose word.
    """
    found = catalogue_entries(" ".join(words))
    end(shown, answer=lambda: catalogue_answer(found), plain=lambda: entry_fields(found))
