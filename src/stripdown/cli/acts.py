"""The next act that a sentence leads to, worded as a command; a page words the same keys as buttons."""

from __future__ import annotations

from collections.abc import Mapping
from types import MappingProxyType

ACTS: Mapping[str, str] = MappingProxyType(
    {
        "list_assumed": "(--assumed lists them.)",
        "give_radius": '(--to "1.5 mm")',
        "name_both": "(stripdown rating MATERIAL FLUID)",
        "calculator:gland": "stripdown seal gland",
        "calculator:ring": "stripdown seal ring",
        "calculator:compression_set": "stripdown seal set",
        "calculator:hardness": "stripdown seal hardness",
        "calculator:leak": "stripdown seal leak",
        "calculator:drag": "stripdown seal drag",
        "after_check": "(stripdown shot GUN.toml)",
        "after_shot": "(stripdown sensitivity GUN.toml; stripdown match GUN.toml READINGS.csv)",
        "after_match": "(stripdown explain GUN.toml READINGS.csv; stripdown verdict GUN.toml READINGS.csv)",
        "show_rows": "(--rows shows them.)",
        "plan_job": "(docs/job-file.md shows the job file, `stripdown plan` the order.)",
        "ask_complaint": 'stripdown complaint "does not feed".',
        "inspect_part": 'stripdown inspect "piston head", stripdown inspect seals.',
        "own_limits": "Limits of your own: --limits FILE.toml; docs/models/inspection.md shows its form.",
        "own_limit": "A rule of your own: --limit '1.14 J at 0.3 m' or '350 ft/s on 0.20 g at 1 m'.",
        "tell_seen": "Tell what you see of it: --elevation '0 deg' --seen 'flat to 35 m', or two sightings.",
        "give_group": "--group '120 by 150 mm, 10 shots at 20 m' tells.",
        "name_limit": "--limit '1.14 J at 0.3 m', with readings behind the gun's file.",
        "tell_sources": "(`stripdown catalogue injury`, `protection` and `engagement` tell whose word each is.)",
        "search_catalogue": "Words behind the command find some, and of a few all is said.",
    }
)
"""Words by key of the act."""


def calculator_command(calculator: str) -> str:
    """The command of a calculator, or of what is asked with readings: it is called as its key is, if nothing else is said."""
    return ACTS.get(f"calculator:{calculator}", f"stripdown {calculator}")
