"""What the terminal can do, the interface can do: each command calls what `stripdown.api` offers."""

from __future__ import annotations

import ast
import importlib.util
import typing
from collections.abc import Iterator, Mapping
from pathlib import Path

import click
import pytest

import stripdown.api
import stripdown.cli
from stripdown.cli.main import main

DOORS: Mapping[str, tuple[str, ...]] = {
    "balls": ("load_gun", "load_session", "study_balls"),
    "case": ("load_case", "study_case", "build_sheet"),
    "catalogue": ("catalogue_entries",),
    "chronographs": ("load_session", "study_site_chronograph"),
    "compare": ("load_session", "study_comparison"),
    "complaint": ("complaint_trees",),
    "corner": ("calculate",),
    "explain": ("load_gun", "load_session", "study_loss"),
    "flight": ("load_gun", "study_flight"),
    "gun check": ("check_gun",),
    "gun new": ("gun_template",),
    "inspect": ("add_own_limits", "inspect_parts"),
    "limits": ("load_limits",),
    "log": (
        "append_to_log",
        "load_visit",
        "log_done",
        "log_failed",
        "log_graded",
        "log_note",
        "log_touched",
        "log_undo",
        "study_job",
    ),
    "match": ("load_gun", "load_session", "study_match"),
    "pad": ("calculate", "load_gun", "priced"),
    "plan": ("build_service_sheet", "load_job", "named_jobs", "names_for_jobs", "study_job"),
    "range": ("load_gun", "study_range"),
    "rating": ("calculate",),
    "screw": ("calculate",),
    "seal drag": ("calculate", "load_gun", "priced"),
    "seal gland": ("calculate",),
    "seal hardness": ("calculate",),
    "seal leak": ("calculate", "load_gun", "priced"),
    "seal ring": ("calculate",),
    "seal set": ("calculate",),
    "sensitivity": ("load_gun", "speed_sensitivity"),
    "shims": ("calculate", "load_shim_sheet"),
    "shot": ("load_gun", "shoot"),
    "standing": ("load_job", "study_job"),
    "string": ("load_session", "study_strings"),
    "sweep": ("load_gun", "sweep_ball_masses"),
    "tooth": ("calculate",),
    "verdict": ("load_gun", "load_session", "study_verdict"),
    "visit new": ("visit_template",),
    "why": ("load_job", "study_job", "why_in_order"),
}
"""For each command the names of `stripdown.api` that do the same."""


def _commands(command: click.Command, context: click.Context, name: str = "") -> Iterator[tuple[str, click.Command]]:
    if not isinstance(command, click.Group):
        yield name, command
        return
    for key in command.list_commands(context):
        found = command.get_command(context, key)
        assert found is not None
        yield from _commands(found, context, f"{name} {key}".strip())


_COMMANDS = dict(_commands(main, click.Context(main)))


def _names_in(module: str, seen: set[str]) -> Iterator[str]:
    """What a module of the terminal, and those that it imports from there, take from the rooms below."""
    found = importlib.util.find_spec(module)
    if module in seen or found is None or found.origin is None:
        return
    seen.add(module)
    for node in ast.walk(ast.parse(Path(found.origin).read_text(encoding="utf-8"))):
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith("stripdown.cli."):
            yield from _names_in(str(node.module), seen)
        elif isinstance(node, ast.ImportFrom):
            yield from (alias.name for alias in node.names)
        elif isinstance(node, ast.Attribute):
            yield node.attr


def test_every_command_has_its_door_in_the_interface() -> None:
    """A new command comes with what a program would call instead of it."""
    assert sorted(DOORS) == sorted(_COMMANDS)


@pytest.mark.parametrize("name", sorted(_COMMANDS))
def test_a_command_calls_what_the_interface_offers(name: str) -> None:
    """The names are public, and the command's module takes them from below: no answer is put together for the terminal alone."""
    callback = _COMMANDS[name].callback
    assert callback is not None
    used = set(_names_in(callback.__module__, set()))
    offered = set(stripdown.api.__all__)
    assert DOORS[name]
    assert [door for door in DOORS[name] if door not in offered] == []
    assert [door for door in DOORS[name] if door not in used] == []


@pytest.mark.parametrize("module", sorted(Path(str(stripdown.cli.__file__)).parent.glob("*.py")), ids=lambda path: path.stem)
def test_the_terminal_takes_nothing_from_below_that_the_interface_has_not(module: Path) -> None:
    """Whatever a command reads, asks, draws or prints, a program can."""
    rooms = ("stripdown.studies", "stripdown.files.", "stripdown.reports", "stripdown.charts", "stripdown.bench.calculators")
    taken = {
        alias.name
        for node in ast.walk(ast.parse(module.read_text(encoding="utf-8")))
        if isinstance(node, ast.ImportFrom) and (node.module or "").startswith(rooms)
        for alias in node.names
    }
    assert taken - {"AnyChart"} <= set(stripdown.api.__all__)


@pytest.mark.parametrize("name", sorted(name for name, command in _COMMANDS.items() if "pdf" in {p.name for p in command.params}))
def test_a_sheet_is_to_be_had_as_bytes(name: str) -> None:
    """What a command writes to a file, a program gets in its hands."""
    returned = [typing.get_type_hints(getattr(stripdown.api, door)).get("return") for door in DOORS[name]]
    assert bytes in returned


def test_pictures_are_to_be_had_without_the_terminal() -> None:
    """Every command that draws finds its charts where a page would."""
    assert any("pictures" in {parameter.name for parameter in command.params} for command in _COMMANDS.values())
    assert "pictures_of" in stripdown.api.__all__
