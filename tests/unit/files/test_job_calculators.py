"""What a job file holds for the calculators: what is read, what is assumed, and how slips are told."""

from __future__ import annotations

import math
from collections.abc import Callable
from pathlib import Path

import pytest

from stripdown.bench.visit import Visit
from stripdown.errors import InputError
from stripdown.files.visit import load_job

Load = Callable[[str], Visit]

_SHIMS = '[tray]\n"0.10 mm" = 4\n[bevel]\nplay = "0.30 mm"\n'
_PAD = '[pad]\nwitness_height = "0,4 mm"\n'
_GLAND = """
[[gland]]
name = "cylinder head"
cross_section = "2.4 mm"
gland_depth = "2 mm"
gland_width = "3.2 mm"
"""
_DIAMETERS = 'inner_diameter = "19.4 mm"\ngland_inner_diameter = "19.8 mm"\ntolerance = "0.05 mm"\n'


@pytest.fixture
def load(tmp_path: Path) -> Load:
    """Write a job file with a shim sheet beside it, and read it."""
    (tmp_path / "box.toml").write_text(_SHIMS, encoding="utf-8")

    def read(text: str) -> Visit:
        file = tmp_path / "job.toml"
        file.write_text(text, encoding="utf-8")
        return load_job(file)

    return read


def test_what_the_calculators_need_is_read_into_si(load: Load) -> None:
    """Box, mark and rings; a ring's diameters and its tolerance may be left out."""
    asked = load('[job]\nshims = "box.toml"\n' + _PAD + _GLAND + _DIAMETERS + _GLAND.replace("head", "tube")).asked
    assert [one.key for one in asked] == ["shims", "pad", "gland", "gland"]
    box, mark, first, second = (one.record for one in asked)
    assert [seat.gap for seat in box.seats] == [0.3e-3]
    assert mark.witness_height == pytest.approx(0.4e-3)
    assert [one.name for one in asked[2:]] == ["cylinder head", "cylinder tube"]
    assert (first.cross_section, first.gland_depth, first.gland_width) == pytest.approx((2.4e-3, 2e-3, 3.2e-3))
    assert (first.inner_diameter, first.gland_inner_diameter, first.tolerance) == pytest.approx((19.4e-3, 19.8e-3, 0.05e-3))
    assert (second.inner_diameter, second.gland_inner_diameter, second.tolerance) == (None, None, None)


def test_a_job_without_them_asks_nothing(load: Load) -> None:
    """And assumes nothing."""
    job = load('[job]\ntitle = "Rack 9"\n')
    assert job.asked == ()
    assert job.notes == ()


def test_the_usual_rack_is_assumed_and_said(load: Load) -> None:
    """20 degrees and 1 mm, each only if it was left out."""
    [asked] = load(_PAD).asked
    assert (asked.record.pressure_angle, asked.record.module) == (math.radians(20.0), 1e-3)
    assert asked.assumed == ("pressure_angle", "module")
    [said] = load(_PAD + 'pressure_angle = "20 deg"\nmodule = "0.95 mm"\n').asked
    assert said.record.module == pytest.approx(0.95e-3)
    assert said.assumed == ()


def test_the_mark_of_an_edge_is_no_slip_of_the_pen(load: Load) -> None:
    """Neither one that says so, nor one that a gear of so few teeth cannot reach: the job is read."""
    assert [one.record.is_edge_contact for one in load(_PAD + "edge = true\n").asked] == [True]
    assert [one.record.sector_teeth for one in load(_PAD.replace("0,4", "0.9") + "sector_teeth = 10\n").asked] == [10.0]


def test_the_digest_is_that_of_all_files(load: Load, tmp_path: Path) -> None:
    """A change in the shim sheet is a change of the job; the same files give the same digest."""
    text = '[job]\nshims = "box.toml"\n'
    before = load(text).digest
    assert load(text).digest == before
    (tmp_path / "box.toml").write_text(_SHIMS.replace("0.30", "0.31"), encoding="utf-8")
    assert load(text).digest != before


@pytest.mark.parametrize(
    ("text", "line", "mistake"),
    [
        ('[job]\nshims = "bax.toml"\n', 2, 'job.shims names "bax.toml", and there is no such file beside the job. TOML files'),
        ('[job]\nshims = ""\n', 2, "there is no such file"),
        ("[job]\nshims = 3\n", 2, "job.shims must be a text"),
        ('[job]\nown_steps = "mine.toml"\n', 2, 'job.own_steps names "mine.toml"'),
        ("[[pad]]\n", 1, "pad must be a table"),
        ("[pad]\n", 1, 'pad.witness_height is missing. Write witness_height = "0.3 mm"'),
        ("[pad]\nwitness_hight = 1\n", 2, "pad.witness_hight is no field. Did you mean witness_height"),
        ("[pad]\nwitness_height = 0.4\n", 2, "has no unit"),
        ('[pad]\nwitness_height = "0.4 N"\n', 2, "is a force, not a length"),
        ('[pad]\nwitness_height = "-0.4 mm"\n', 2, 'pad.witness_height = "-0.4 mm" (height of the witness mark) is impossible'),
        (_PAD + 'module = "0.3 mm"\n', 2, "lies beyond the rack's tip"),
        (_PAD + 'edge = "yes"\n', 3, 'pad.edge = "yes" is neither yes nor no. Write true or false'),
        (_PAD + "sector_teeth = 3\n", 3, "is impossible. It must lie between 6 and 500"),
        ("[gland]\n", 1, "gland must be a list of tables. Write [[gland]]"),
        ("[[gland]]\n", 1, 'gland.name is missing. Write name = "cylinder head"'),
        (_GLAND + 'depth = "2 mm"\n', 7, "gland.depth is no field. Did you mean gland_depth"),
        (_GLAND.replace('"cylinder head"', '" "'), 3, "gland.name must be a text"),
        (_GLAND.replace('"2 mm"', '"0 mm"'), 5, "is impossible. It must lie between"),
        (_GLAND.replace("3.2 mm", "2 mm"), 6, "The ring is larger than its gland"),
        (_GLAND + 'inner_diameter = "19.4 mm"\n', 2, "gland_inner_diameter is missing, so the stretch is not known"),
        (_GLAND.replace("2.4 mm", "9 mm").replace('"2 mm"', '"8 mm"').replace("3.2", "12"), 2, "give the tolerance yourself"),
        (_GLAND + _GLAND.replace("2.4 mm", "2.4"), 10, "has no unit"),
    ],
)
def test_a_slip_is_told_with_its_line(load: Load, text: str, line: int, mistake: str) -> None:
    """One message: file, line, what, and what would be right."""
    with pytest.raises(InputError) as caught:
        load(text)
    assert mistake in str(caught.value)
    assert (Path(str(caught.value.file)).name, caught.value.line) == ("job.toml", line)


@pytest.mark.parametrize(
    ("box", "line", "mistake"),
    [
        (_SHIMS.replace("play", "paly"), 4, "Did you mean play"),
        (_SHIMS.replace(" = 4", " = 0"), 1, "There are no shims at hand"),
        (_SHIMS.replace("0.30", "-0.30"), 4, "is negative beyond its uncertainty"),
        (_SHIMS + "[box]\nmost = 99\n", 5, "most = 99 is no number of shims"),
    ],
)
def test_a_slip_in_the_shim_sheet_names_that_sheet(load: Load, tmp_path: Path, box: str, line: int, mistake: str) -> None:
    """Its own file and line, not the job's."""
    (tmp_path / "box.toml").write_text(box, encoding="utf-8")
    with pytest.raises(InputError) as caught:
        load('[job]\nshims = "box.toml"\n')
    assert mistake in str(caught.value)
    assert (Path(str(caught.value.file)).name, caught.value.line) == ("box.toml", line)
