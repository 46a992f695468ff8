"""Left for the commands that still take it from here."""

from stripdown.bench.gun import Gun


def display_name(gun: Gun) -> str:
    """What to call a gun on a sheet."""
    return gun.shown_name
