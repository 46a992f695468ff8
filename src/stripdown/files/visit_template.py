"""The folder of a visit to start from: a gun's file, a visit's file and two files of readings, each with what belongs in it."""

from __future__ import annotations

import textwrap
from collections.abc import Iterator, Mapping

from stripdown.files.gun_template import gun_template
from stripdown.files.toml_text import quoted
from stripdown.files.visit_folder import GUN_FILE, VISIT_FILE
from stripdown.procedures.description import Procedures
from stripdown.procedures.loading import load_procedures
from stripdown.procedures.variations import told_choices

_WIDTH = 100
_VISIT = """\
# A visit for stripdown. What stands behind # is not read: take the # away where you have something to say.
# Values are text with their unit: "0.25 g". All fields: docs/visit-folder.md and docs/job-file.md.

[visit]
title = {title}
gun = "gun.toml"
readings = ["before.csv", "after.csv"]
# What was complained of, in your own words, one paragraph each.
# found = ["Sounds dull, and shoots low."]
# done = ["New ring, new rubber."]
# Tools at hand: of several ways to make a check the first that these allow is taken. Left out, the best.
# tools = ["feeler gauges", "chronograph", "trap"]

# What is asked for: a job that has a name (stripdown plan --jobs), what was found in the tree of a complaint
# (stripdown complaint), single work, checks to be fresh at the end (stripdown plan --names).
[request]
{request}
# work = ["bond the bevel's left bearing"]
# wanted = ["seal of cylinder, ring and head"]

# How the gun arrives: whether it has run since it was last opened or rewired, what ails it, which parts are off.
# [arrival]
# ran = "yes"
# troubles = ["jam"]
# off = ["magazine", "battery"]

# The limit that counts where the gun is used: without it there is no verdict. Or key = "…" (stripdown limits).
# [limit]
# energy = "1.1 J"
# measured_at = "0.3 m"
# place = "Our wood"

# What holds for every string that does not say it itself.
# [strings]
# ball_mass = "0.20 g"
# distance = "0.3 m"
# hop = "off"

# The log stands below: stripdown log {{this folder}} done 1-12 appends to it, and what you have written stays as it is.
"""
_READINGS = """\
# Readings {occasion} the work: ten shots at least, the same weighed balls, pack and distance before and after.
# One line a shot, as in: 1;0.20 g;semi;81.2
{occasion}
temperature: 20 °C
distance: 0.3 m
hop-up: off

shot;ball;mode;speed m/s
"""


def visit_template(*, name: str = "My gun", layout: str | None = None, variation: str = "", job: str = "") -> Mapping[str, str]:
    """Write the files of a visit's folder to start from.

    Parameters
    ----------
    name
        What the gun is called.
    layout
        Key of a typical gun of the catalogue whose figures are written in as typical; None writes none.
    variation
        What sort of gun it is, as far as that is known, in words: ``"version 3, quick-change"``.
    job
        A job that has a name; empty for none yet.

    Returns
    -------
    mapping of str to str
        Text by name of the file.

    Raises
    ------
    InputError
        For a layout, a variation or a job that is not known.
    """
    procedures = load_procedures()
    chosen = procedures.variation(variation)
    request = '# job = "full service"'
    if job:
        request = f"job = {quoted(procedures.named_job(job, chosen).name)}"
    gun = gun_template(name=name, layout=layout) + "\n".join(_variation(procedures, variation)) + "\n"
    return {
        GUN_FILE: gun,
        VISIT_FILE: _VISIT.format(title=quoted(name), request=request),
        "before.csv": _READINGS.format(occasion="before"),
        "after.csv": _READINGS.format(occasion="after"),
    }


def _variation(procedures: Procedures, variation: str) -> Iterator[str]:
    """What sort of gun it is: of each feature the choices, and the one that was told or will be assumed."""
    told = told_choices(procedures.features, variation)
    assumed = procedures.variation(variation)
    yield from ("", *_comment("What sort of gun it is: the work goes by it. What stays commented out is assumed."), "[variation]")
    for feature in procedures.features:
        names = {choice.key: choice.name for choice in feature.choices}
        yield from _comment(f"{feature.name[:1].upper()}{feature.name[1:]}: {'; '.join(names.values())}.")
        yield f"{'' if feature.key in told else '# '}{feature.key} = {quoted(names[assumed.choices[feature.key]])}"


def _comment(words: str) -> list[str]:
    return textwrap.wrap(words, width=_WIDTH, initial_indent="# ", subsequent_indent="# ")
