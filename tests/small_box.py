"""A box with nine parts, written for the tests: small enough to know every answer by heart."""

from __future__ import annotations

from stripdown.procedures.description import Procedures
from stripdown.procedures.loading import read_procedures

SMALL_BOX = """
[feature.guide]
name = "guide"
[[feature.guide.choice]]
key = "fixed_guide"
name = "fixed guide"
words = ["fixed"]
[[feature.guide.choice]]
key = "quick_guide"
name = "quick-change guide"

[feature.latch]
name = "latch"
[[feature.latch.choice]]
key = "latch_present"
name = "latch present"
[[feature.latch.choice]]
key = "latch_deleted"
name = "latch deleted"
[[feature.latch.default]]
when = { guide = "quick_guide" }
choice = "latch_deleted"

[place.mat]
name = "mat"
[place.train]
name = "gear train"

[part.battery]
name = "battery"
place = "mat"
off = "Out."
back = "In."

[part.shell]
name = "shell"
place = "mat"
in_front = ["battery"]
off = "Screws out."
back = "Screws in."
care = ["The spring flies."]
tools = ["screwdriver"]
minutes = 5
needs = ["made_safe"]
[[part.shell.varied]]
when = { guide = "quick_guide" }
in_front = ["spring"]

[part.spring]
name = "spring"
place = "mat"
in_front = ["battery"]
off = "Out."
back = "In."
needs = ["made_safe"]
[[part.spring.varied]]
when = { guide = "fixed_guide" }
in_front = ["shell"]

[part.piston]
name = "piston"
place = "mat"
in_front = ["shell", "spring"]
off = "Out."
back = "In."

[part.gear]
name = "gear"
place = "train"
in_front = ["shell"]
off = "Out."
back = "In."

[part.gear_shims_left]
name = "gear's left shims"
place = "train"
in_front = ["gear"]
off = "Out, with their labels."
back = "In, where they came from."

[part.gear_shims_right]
name = "gear's right shims"
place = "train"
in_front = ["shell"]
off = "Out, with their labels."
back = "In, where they came from."

[part.bearing]
name = "gear's left bearing"
place = "train"
in_front = ["gear_shims_left"]
off = "Out."
back = "In."

[part.latch]
name = "latch"
when = { latch = "latch_present" }
place = "train"
in_front = ["shell"]
off = "Out."
back = "In."

[check.made_safe]
name = "gun made safe"
fact = "No pack, no ball, spring at rest."
place = "mat"
about = ["battery"]
off = ["battery"]
expect = "Piston home."
footing = "common_practice"
[[check.made_safe.method]]
name = "look"
how = "Look."

[check.shim_pack]
name = "shim pack"
proved = "chosen"
fact = "The shims leave the float wanted."
place = "train"
about = ["shell", "gear", "gear_shims_left", "gear_shims_right", "bearing"]
exempt = [
  { part = "shell", kinds = ["refit", "clean"], reason = "the halves come together in one place" },
  { part = "gear", kinds = ["refit", "clean", "lubricate"], reason = "the same gear" },
  { part = "gear_shims_left", kinds = ["refit", "clean"], reason = "same shim, same face" },
  { part = "gear_shims_right", kinds = ["refit", "clean"], reason = "same shim, same face" },
  { part = "bearing", kinds = ["clean", "lubricate"], reason = "the seat stays" },
]
off = ["piston"]
on = ["shell", "gear", "bearing"]
dry = ["shell"]
remedies = ["choose_shims"]
expect = "Float within the band."
footing = "common_practice"
[check.shim_pack.reading]
label = "axial float"
unit = "mm"
low = 0.05
high = 0.15
[[check.shim_pack.method]]
name = "feeler gauge"
how = "Measure."
tools = ["feeler gauges"]
minutes = 10
[[check.shim_pack.method]]
name = "dial gauge"
how = "Measure."
tools = ["dial gauge"]
minutes = 8

[check.closed_float]
name = "closed-box float"
fact = "The gears float in the closed box."
place = "train"
about = ["shell", "gear", "gear_shims_left", "gear_shims_right", "bearing"]
rests_on = ["shim_pack"]
on = ["shell"]
release = true
remedies = ["choose_shims"]
expect = "A little play."
footing = "common_practice"
[[check.closed_float.method]]
name = "by hand"
how = "Feel."

[check.seal]
name = "cylinder seal"
fact = "The piston holds air."
place = "mat"
about = ["piston"]
exempt = [{ part = "piston", kinds = ["refit"], reason = "the ring floats" }]
off = ["shell"]
release = true
remedies = ["replace_piston"]
expect = "Holds."
footing = "common_practice"
[[check.seal.method]]
name = "finger"
how = "Push."
tools = ["finger"]
[[check.seal.method]]
name = "gauge"
how = "Log."
tools = ["gauge"]

[check.string]
name = "chronograph string"
fact = "The speed is known."
place = "mat"
about = ["shell", "spring", "piston", "gear", "battery"]
exempt = [{ part = "battery", kinds = ["refit"], reason = "the same pack" }]
on = ["shell", "spring", "piston", "gear", "battery"]
release = true
remedies = ["replace_spring"]
cautions = ["Eye protection."]
expect = "As before."
footing = "common_practice"
[[check.string.method]]
name = "ten shots"
how = "Shoot."

[action."replace_{each}"]
each = ["spring", "piston", "gear", "bearing"]
name = "replace the {name}"
touches = [["{each}", "replace"]]
off = ["{each}"]
how = "New one in."

[action.bond_bearing]
name = "bond the {name}"
each = ["bearing"]
touches = [["{each}", "bond"]]
off = ["gear_shims_left"]
how = "A trace."
consumables = ["bearing adhesive"]
wait = "24 h"
wait_for = "until the bond has cured"
excludes = ["replace_bearing"]

[action.choose_shims]
name = "choose the shims"
touches = [["gear_shims_left", "replace"], ["gear_shims_right", "replace"]]
off = ["gear_shims_left", "gear_shims_right"]
how = "Measure and choose."

[action.replace_latch]
name = "replace the latch"
when = { latch = "latch_present" }
touches = [["latch", "replace"]]
off = ["latch"]
how = "New one in."

[[pair]]
first = "do:bond_*"
then = ["make:shim_pack"]
why = "the bond must be hard before a float is measured"
cure = true

[job.service]
name = "whole service"
words = ["everything"]
for = "Once a year."
work = ["bond_bearing", "replace_latch"]
wanted = ["seal"]
as_found = ["string"]
"""


def small_box(more: str = "") -> Procedures:
    """The procedures of the small box, with more tables if wanted."""
    return read_procedures({"small.toml": SMALL_BOX + more})
