"""`stripdown seal`: O-rings in their glands, what is left of them, and what their leak or drag costs."""

from __future__ import annotations

import click

from stripdown.cli.examples import ExampleGroup
from stripdown.cli.seal_drag import drag
from stripdown.cli.seal_gland import gland
from stripdown.cli.seal_hardness import hardness
from stripdown.cli.seal_leak import leak
from stripdown.cli.seal_ring import ring
from stripdown.cli.seal_set import ring_set


@click.group(
    cls=ExampleGroup,
    examples=['stripdown seal gland --section "1.78 mm" --depth "1.42 mm" --width "2.4 mm"'],
)
def seal() -> None:
    """Rings and their glands: does it suit, is it still good, what does its leak or drag cost?"""


for _command in (gland, ring, ring_set, hardness, leak, drag):
    seal.add_command(_command)
