"""A gun that holds energy, on which a plan is carried out: what fires, opens or springs unmeant is an accident.

Written from the trade's rules and mechanics alone, apart from the planner: it knows steps by their names, what they do to a gun,
and which ways to make it safe do what. Whatever nobody has proved may be: a ball, a drawn spring, crossed leads.
"""

from __future__ import annotations

import random
from collections.abc import Collection, Mapping

UNDER_POWER = frozenset(
    {
        "first_power", "first_cycles", "selector_function", "motor_height", "rate_and_current", "sound", "pre_engagement",
        "over_spin",
        "sensor_reading", "feeding", "rubber_run_in", "oil_shot_out", "pad_settled", "string_hop_off", "string_hop_set",
        "string_automatic", "hop_zero", "second_proof", "settle_spring", "set_hop", "set_motor_height", "calibrate_unit",
    }
)  # fmt: skip
"""Checks and work that run the gun, whatever the way."""

FIRST = frozenset({"first_power", "first_cycles"})

NEEDED_TO_FIRE = frozenset(
    {
        "gearbox",
        "shell_half",
        "shell_screws",
        "motor",
        "motor_plate",
        "front_end",
        "hop_up_unit",
        "inner_barrel",
        "fuse",
        "stock",
        "grip",
    }
)

WAYS_TO_CLEAR: Mapping[str, str] = {
    "shots on semi into a trap": "shots",
    "rod and light, for a gun that cannot safely fire": "rod",
    "rod and light, for a gun that cannot fire": "rod",
    "look into the nozzle, for a box alone": "look",
}

WAYS_TO_MAKE_SAFE: Mapping[str, str] = {
    "look, release, prove": "latch",
    "after the last shot on semi": "trust",
    "latch through its hole, grip off": "latch",
    "latch through its hole, box alone": "latch",
    "spring out from behind": "spring out",
    "look and prove": "trust",
    "look and prove, clamped if it is drawn": "clamp",
    "box alone, clamped, a rod through the guide": "clamp",
}

LETS_GO = frozenset(
    {
        "stock", "front_end", "selector_lever", "box_pins", "gearbox", "hop_up_unit", "motor_plate", "motor", "grip",
        "motor_cage",
        "shell_screws", "shell_half", "spring_guide", "main_spring",
    }
)  # fmt: skip
"""Parts behind which a drawn spring, or a ball before it, is in the open or loses its hold."""

FULL_TURN_BY_HAND = frozenset({"pick and flick", "meter and slow turn"})

LEADS = frozenset({"wires", "battery_connector", "trigger_contacts", "electronic_unit"})

ENDS: Mapping[str, frozenset[str]] = {
    "blown_fuse": frozenset({"do:replace_fuse"}),
    "cracked_shell": frozenset({"do:replace_shell", "make:shell_sound"}),
    "stripped_rack": frozenset({"do:replace_piston", "make:rack_mesh"}),
    "loose_pinion": frozenset({"do:replace_pinion", "make:motor_condition"}),
    "heat": frozenset({"make:wiring"}),
    "runaway": frozenset(
        {
            "make:trigger_function", "do:clean_trigger_contacts", "do:replace_trigger_contacts", "do:clean_sensors",
            "do:replace_electronic_unit", "do:replace_trigger_spring",
        }
    ),
    "bad_pack": frozenset({"make:battery_state", "do:replace_battery", "do:change_battery_type"}),
}  # fmt: skip
"""What ends a trouble by which firing harms."""


class Accident(AssertionError):
    """Something fired, opened or sprang that was not meant to."""


class SimulatedGun:
    """One gun: what it is, and what is in it."""

    def __init__(
        self, choices: Mapping[str, str], *, ran: str, troubles: Collection[str], off: Collection[str], chance: random.Random
    ) -> None:
        self._chance = chance
        self._has_latch = choices["latch"] == "latch_present"
        self._is_version_2 = choices["layout"] == "version_2"
        self._has_grip_motor = choices["motor"] == "motor_in_grip"
        self._is_quick = choices["guide"] == "quick_change_guide"
        self._precocks = choices["trigger"] == "precocking_trigger"
        self._off = set(off)
        self._troubles = set(troubles) & ENDS.keys()
        is_drawn = bool({"jam", "left_drawn"} & set(troubles)) or (self._has_latch and self._may())  # without one it runs back
        self.drawn = "main_spring" not in off and is_drawn
        self.jammed = "jam" in troubles and "main_spring" not in off
        self.ball = "hop_up_unit" not in off and self._may()
        self.stuck = bool({"jam", "missing_ball"} & set(troubles))
        self.crossed = "unproved_polarity" in troubles or (ran != "yes" and self._may())
        self.closed_and_not_run = ran != "yes" or bool(set(troubles) - {"missing_ball"})
        self._has_run = self._has_moved = False

    def _may(self) -> bool:
        """Whatever nobody has proved may be, and mostly is."""
        return self._chance.random() < 0.7

    def do(self, name: str, way: str = "") -> None:
        """Do a step by its name ("make:made_safe"), in a way."""
        kind, _, key = name.partition(":")
        if kind == "take_off":
            self._take_off(key)
        elif kind == "put_back":
            self._put_back(key)
        elif key in UNDER_POWER:
            self._run(key)
        elif kind == "do":
            self._work(key)
        else:
            self._prove(key, way)
        self._troubles -= {trouble for trouble, ends in ENDS.items() if name.replace("as_found:", "make:") in ends}

    def end(self) -> None:
        """The job is done: nothing may be left in it."""
        if self._has_run or self._has_moved:
            self._refuse("battery" not in self._off, "the pack was left in")
            self._refuse("magazine" not in self._off, "the magazine was left in")
            self._refuse(self._has_run and self.ball, "a ball was left in")
            self._refuse(self._has_run and self.drawn, "the spring was left drawn")

    def _refuse(self, is_accident: bool, words: str) -> None:  # noqa: FBT001  read as a sentence at every call
        if is_accident:
            raise Accident(words)

    def _take_off(self, part: str) -> None:
        self._has_moved = True
        if part not in {"magazine", "battery"}:
            self._refuse("battery" not in self._off, f"the {part} came off with the pack in")
        if self.drawn and not self._is_held(part):
            self._refuse(self.ball, f"the {part} came off a drawn spring, and it threw a ball")
            raise Accident(f"the {part} came off a drawn spring")
        self._off.add(part)
        if part == "main_spring":
            self.drawn = self.jammed = False
        if part in LEADS or part in {"motor", "motor_cage"} or (part == "grip" and self._has_grip_motor):
            self.crossed = True
        self._touched(part)

    def _is_held(self, part: str) -> bool:
        """Whether a part may come off while the spring is drawn: the latch holds it, or a guide that is held against its push."""
        if self._has_latch and self._is_version_2 and part in {"motor_plate", "motor", "grip"}:
            return True
        if not self._has_latch and self._is_quick and part in {"stock", "spring_guide", "main_spring"}:
            return True
        return part not in LETS_GO

    def _put_back(self, part: str) -> None:
        self._has_moved = True
        self._off.discard(part)
        if part in LEADS:
            self.crossed = True
        self._touched(part)

    def _touched(self, part: str) -> None:
        if part in LEADS | {"shell_half", "gearbox", "motor", "motor_cage", "fuse"}:
            self.closed_and_not_run = True

    def _work(self, key: str) -> None:
        part = key.removeprefix("replace_").removeprefix("resolder_")
        if part in LEADS or key in {"resolder_connector", "dress_leads", "replace_motor", "clean_trigger_contacts"}:
            self.crossed = self.closed_and_not_run = True
        if key in {"replace_battery", "change_battery_type"}:
            self.closed_and_not_run = True

    def _run(self, key: str) -> None:
        self._refuse("battery" in self._off and key != "first_cycles", f"{key} without a pack")  # which is on a test lead
        missing = NEEDED_TO_FIRE & self._off - ({"stock", "spring_guide"} if key == "first_cycles" else set())
        self._refuse(bool(missing), f"{key} with parts off: {sorted(missing)}")
        self._refuse(self.crossed, f"{key} drove the sector backwards")
        self._refuse(self.closed_and_not_run and key not in FIRST, f"{key} before first power")
        self._refuse(bool(self._troubles), f"{key} in spite of {sorted(self._troubles)}")
        if "main_spring" in self._off:
            self._refuse(key != "first_cycles", f"{key} without a spring")
            return
        self._refuse(self.jammed, f"{key} on a jam")
        self._refuse(self.stuck, f"{key} behind a stuck ball")
        self._has_run = True
        if key == "first_power":
            self.closed_and_not_run = False
        self.ball = "magazine" not in self._off and self._may()
        self.drawn = self._has_latch and (self._precocks or self._may())

    def _prove(self, key: str, way: str) -> None:
        if key == "chamber_clear":
            self._clear(WAYS_TO_CLEAR[way])
        elif key == "rod_through":
            self._refuse("battery" not in self._off, "a rod in the barrel with the pack in")
            self.stuck = False
        elif key == "made_safe":
            self._refuse("battery" not in self._off, "made safe with the pack in")
            self._make_safe(WAYS_TO_MAKE_SAFE[way])
        elif key == "nozzle_alignment":
            self._refuse("battery" not in self._off or self.drawn, "a tool in the feed port of a gun that is not safe")
        elif key == "left_unloaded":
            self._refuse("battery" not in self._off, "called unloaded with the pack in")
        elif key == "polarity":
            self._refuse("battery" not in self._off, "polarity with the pack in")
            self.crossed = False
        elif way in FULL_TURN_BY_HAND:
            self._refuse(not self._has_latch and "main_spring" not in self._off, f"{key}: a full turn by hand that nothing holds")

    def _clear(self, way: str) -> None:
        self._refuse("magazine" not in self._off, "cleared with the magazine in")
        if way == "shots":
            self._run("semi shots to clear it")
            self.drawn = False  # pre-cocking was switched off, and the last shot ran its course
        else:
            self._refuse("battery" not in self._off, "hand and rod before the muzzle with the pack in")
            self._refuse(
                self.stuck and way == "rod" and self.drawn and self.jammed and self.ball, "a rod against a ball under a jam"
            )
        self.ball = False

    def _make_safe(self, way: str) -> None:
        self._refuse(self.ball and self.drawn, "the piston threw a ball")
        if way == "latch":
            self._refuse(not self._has_latch, "there is no latch")
            is_hidden = self._is_version_2 and "gearbox" not in self._off and "grip" not in self._off
            self._refuse(is_hidden, "the latch cannot be reached")
            self.drawn = self.jammed = False
        elif way == "spring out":
            self._refuse("main_spring" not in self._off, "the spring is in")
            self.jammed = False
        elif way == "clamp":
            self.drawn = self.jammed = False
        else:
            self._refuse(self.drawn, "called safe with its spring drawn")
