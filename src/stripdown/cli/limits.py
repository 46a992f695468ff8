"""`stripdown limits`: the energy limits of the catalogue."""

from __future__ import annotations

from typing import TYPE_CHECKING

import click

from stripdown.cli.examples import ExampleCommand
from stripdown.cli.quantity_option import json_option
from stripdown.cli.terminal import answers
from stripdown.plain.limits import limit_fields
from stripdown.plain.si import written

if TYPE_CHECKING:
    from stripdown.catalogue.limits import CatalogueLimit


@click.command(
    cls=ExampleCommand,
    examples=["stripdown limits", "stripdown limits --json"],
)
@json_option
def limits(*, as_json: bool) -> None:
    """List the energy limits of the catalogue, with place, source and date, and whether the rule itself was read.

    No legal advice: laws change, and the site's own rule, chronograph and marshal decide.
    """
    from stripdown.catalogue.limits import load_limits  # noqa: PLC0415  the catalogue's room loads SciPy

    found = load_limits()
    if as_json:
        click.echo(written({"limits": {key: _fields(limit) for key, limit in found.items()}}))
        return
    from stripdown.cli.printed_limits import print_limits  # noqa: PLC0415

    print_limits(answers(), tuple(found.values()))


def _fields(limit: CatalogueLimit) -> dict[str, object]:
    return {
        **limit_fields(limit.limit),
        "footing": limit.provenance.footing.value,
        "source_key": limit.provenance.source,
        "where": limit.provenance.where,
    }
