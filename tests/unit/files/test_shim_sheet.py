from __future__ import annotations

from pathlib import Path

import pytest

from stripdown.bench.shims import ShimSheet
from stripdown.core.shim_selection import GearFace, ShimmedGear, choose_split
from stripdown.errors import InputError
from stripdown.files.shim_sheet import load_shim_sheet

DEMO = Path(__file__).parents[3] / "examples" / "brackenmoor-12" / "shims.toml"
GOOD = """
[float]
low = "0.06 mm"
high = "0.11 mm"
[tray]
"0.10 mm" = 2
"0.004 in" = 1
[spur]
play = "0.47 mm"
[bevel]
play = "0.60 mm"
uncertainty = "5 um"
float_high = "0.15 mm"
height = "0.25 mm"
height_tolerance = "0.15 mm"
[[clearance]]
left = "Bevel"
right = "spur"
measured = "0.3 mm"
least = "0.1 mm"
[[old_shim]]
label = "1"
gear = "bevel"
face = "left"
thickness = "0.10 mm"
[[old_shim]]
label = "2"
gear = "spur"
face = "right"
"""


def _load(tmp_path: Path, text: str) -> ShimSheet:
    file = tmp_path / "box.toml"
    file.write_text(text, encoding="utf-8")
    return load_shim_sheet(file)


def test_a_sheet_is_read_into_si_and_what_is_left_out_is_usual(tmp_path: Path) -> None:
    """Own floats win over the box's; no uncertainty is none; old shims that were measured are at hand too."""
    sheet = _load(tmp_path, GOOD)
    bevel, spur = sorted(sheet.seats, key=lambda seat: seat.gear.value)
    assert (bevel.gear, spur.gear) == (ShimmedGear.BEVEL, ShimmedGear.SPUR)
    assert (spur.gap, spur.gap_uncertainty, spur.float_band) == (0.47e-3, 0.0, (0.06e-3, 0.11e-3))
    assert (bevel.gap_uncertainty, bevel.float_band, bevel.height) == (5e-6, (0.06e-3, 0.15e-3), 0.25e-3)
    assert spur.height is None
    [clearance] = sheet.clearances
    assert (clearance.left, clearance.uncertainty) == (ShimmedGear.BEVEL, 0.0)
    assert sheet.stock == {0.1e-3: 3, 0.1016e-3: 1}
    assert sheet.old_shims.at(ShimmedGear.SPUR, GearFace.RIGHT)[0].thickness is None
    assert sheet.most == 4


def test_the_example_is_invented_and_can_be_shimmed() -> None:
    """Three gears, two clearances, and a proved answer."""
    sheet = load_shim_sheet(DEMO)
    assert sheet.invented
    assert len(sheet.seats) == 3
    found = choose_split(seats=sheet.seats, clearances=sheet.clearances, stock=sheet.stock, most=sheet.most)
    assert len(found.gears) == 3
    assert found.is_proved


@pytest.mark.parametrize(
    ("old", "new", "line", "words"),
    [
        ("[spur]\n", "[spurr]\n", 8, "Did you mean spur"),
        ('play = "0.47 mm"', 'paly = "0.47 mm"', 9, "Did you mean play"),
        ('play = "0.47 mm"', "play = 0.47", 9, "has no unit"),
        ('play = "0.47 mm"', 'play = "0.47"', 9, "has no unit"),
        ('play = "0.47 mm"', 'play = "0.47 g"', 9, "not a length"),
        ('"0.10 mm" = 2', '"0.10 mm" = -2', 6, "no number of shims"),
        ('"0.10 mm" = 2', '"0 mm" = 2', 6, "impossible"),
        ('"0.10 mm" = 2', '"0.10" = 2', 6, "has no unit"),
        ('uncertainty = "5 um"', 'uncertainty = "-5 um"', 12, "impossible"),
        ('low = "0.06 mm"', 'low = "0.2 mm"', 2, "upside down"),
        ('height_tolerance = "0.15 mm"\n', "", 10, "height without tolerance"),
        ('left = "Bevel"', 'left = "sector"', 16, "none of two gears"),
        ('left = "Bevel"', 'left = "motor"', 17, "Choose from"),
        ('least = "0.1 mm"\n', "", 16, "has no least"),
        ('label = "2"', 'label = "1"', 21, "The same shim, 1"),
        ('label = "2"', "label = 2", 27, "words in quotes"),
        ("[[clearance]]", "[clearance]", 16, "two brackets"),
        ("[tray]", "[tray.left]", 5, "no number of shims"),
    ],
)
def test_a_mistake_is_told_with_its_line(tmp_path: Path, old: str, new: str, line: int, words: str) -> None:
    """What, where, and what would be right; one message."""
    assert old in GOOD
    with pytest.raises(InputError, match=words) as caught:
        _load(tmp_path, GOOD.replace(old, new, 1))
    assert caught.value.file is not None
    assert caught.value.line == line
    assert caught.value.hint


def test_a_sheet_without_gears_says_so(tmp_path: Path) -> None:
    """A tray alone is no box."""
    with pytest.raises(InputError, match="No gear was given"):
        _load(tmp_path, '[tray]\n"0.1 mm" = 2\n')
