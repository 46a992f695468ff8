from __future__ import annotations

import dataclasses
import re
import subprocess
from pathlib import Path

import pytest

from stripdown.bench.calculators import Asked
from stripdown.core.part_condition.parameters import RingInGland
from stripdown.files.visit import load_job
from stripdown.procedures.cautions import Caution
from stripdown.procedures.procedure import Procedure
from stripdown.reports.sheets import build_service_sheet
from stripdown.studies.calculators import calculate_all
from stripdown.studies.service_job import JobStudy, study_job
from tests.synthetic_service import made_plan, made_standings, made_study

_DEMO = Path(__file__).parents[3] / "examples" / "brackenmoor-12" / "job.toml"

# Code for the template, for a chart's expressions, for markup and for a terminal.
_HOSTILE = '#panic("x") $a_b$ *b* [c] <d> @e //f /*g*/ \\h `i` "j" \'k\' &amp; </svg> {{l}} -> =m'


@pytest.fixture(scope="module")
def pdf() -> bytes:
    """The sheet of the made-up job."""
    return build_service_sheet(made_study())


def _text(pdf: bytes, folder: Path) -> str:
    """All words of a PDF, parted by single blanks."""
    file = folder / "sheet.pdf"
    file.write_bytes(pdf)
    found = subprocess.run(["pdftotext", str(file), "-"], capture_output=True, text=True, check=True)  # noqa: S607
    return " ".join(found.stdout.split())


def test_the_same_job_gives_the_same_bytes(pdf: bytes) -> None:
    """No clock and no chance goes into a sheet."""
    assert build_service_sheet(made_study()) == pdf


def test_the_sheet_is_tagged_in_one_font_on_a4(pdf: bytes) -> None:
    """So that it can be read aloud: structure, language, title, headed tables, words for the picture."""
    for sign in (b"/StructTreeRoot", b"/Marked true", b"/Lang(en)", b"/S/Table", b"/S/TH", b"/S/H1", b"/S/Title"):
        assert sign in pdf
    assert pdf.count(b"/S/Figure") == 1
    assert re.search(rb"/S/Figure[^>]*?/Alt\(How the checks stand", pdf)
    assert {name.split(b"+")[-1].split(b"-")[0] for name in re.findall(rb"/BaseFont/([^/\s]+)", pdf)} == {b"Inter"}
    assert set(re.findall(rb"/MediaBox\[([^\]]*)\]", pdf)) == {b"0 0 595.2756 841.8898"}


def _filled_with(words: str) -> JobStudy:
    """The made-up job with these words in every field that a person types, own steps included."""
    plan = made_plan()
    procedure = _renamed(plan.procedure, words)
    steps = tuple(
        dataclasses.replace(
            step, name=f"step {words}", how=f"how {words}", cautions=(Caution(f"caution {words}"),), place=f"place {words}"
        )
        for step in plan.steps
    )
    ring = RingInGland(cross_section=2.4e-3, gland_depth=2e-3, gland_width=3.2e-3)
    return made_study(
        title=f"title {words}",
        gun=f"gun {words}",
        notes=(f"understood {words}",),
        known={key: dataclasses.replace(one, reason=f"because {words}") for key, one in made_standings().items()},
        plan=dataclasses.replace(plan, procedure=procedure, steps=steps),
        answered=calculate_all([Asked(key="gland", record=ring, name=f"gland {words}")]),
        labels=f"shim {words}",
        said=f" {words}",
    )


def _renamed(procedure: Procedure, words: str) -> Procedure:
    checks = {
        key: dataclasses.replace(check, name=f"check {words}", expect=f"expect {words}")
        for key, check in procedure.checks.items()
    }
    return dataclasses.replace(procedure, checks=checks, variation=f"variation {words}")


@pytest.mark.needs(program="pdftotext")
def test_typed_words_print_as_typed(tmp_path: Path) -> None:
    """Words that are code to the printer, in every field, are words on the sheet."""
    text = re.sub(r"\s|\u200b", "", _text(build_service_sheet(_filled_with(_HOSTILE)), tmp_path)).lower()
    typed = re.sub(r"\s", "", _HOSTILE).lower()
    for field in ("title", "gun", "reject", "passed", "who", "shim", "understood", "because", "gland"):
        assert f"{field}{typed}" in text, field
    for field in ("step", "how", "caution", "place", "check", "expect", "variation"):
        assert f"{field}{typed}" in text, field


@pytest.mark.needs(program="pdftotext")
@pytest.mark.parametrize("words", ["", "Donaudampfschifffahrtsgesellschaft" * 6])
def test_no_word_runs_off_the_page(words: str, tmp_path: Path) -> None:
    """Every word lies between the margins of 18 mm, the picture included, whatever was typed without a blank."""
    file = tmp_path / "sheet.pdf"
    file.write_bytes(build_service_sheet(_filled_with(words)))
    found = subprocess.run(["pdftotext", "-bbox", str(file), "-"], capture_output=True, text=True, check=True)  # noqa: S607
    edges = [(float(left), float(right)) for left, right in re.findall(r'<word xMin="([\d.]+)".*?xMax="([\d.]+)"', found.stdout)]
    margin = 18 / 25.4 * 72
    assert len(edges) > 200
    assert min(left for left, _ in edges) > margin - 2
    assert max(right for _, right in edges) < 595.28 - margin + 2


@pytest.mark.needs(program="pdftotext")
def test_the_sheet_says_what_it_must(pdf: bytes, tmp_path: Path) -> None:
    """Head, steps, blanks, shim map, release, who decides, version, digest, and that it is invented."""
    text = _text(pdf, tmp_path)
    for words in (
        "made-up bearing",
        "rounds fired",
        "Readings as found",
        "Shim map",
        "Prove: axial float in the trial closing",
        "limits: 0.05 to 0.15 mm",
        "Trial closing: upper shell half on for this check, and off again.",
        "Wait 24 h, until the bond has cured",
        "Rejects that stay in the gun, and why",
        "not fresh: blocks release",
        "local rules",
        "common practice, no source",
        "stripdown 0.1.0",
        made_study().job.digest,
    ):
        assert words in text, words
    pages = len(re.findall(rb"/Type/Page\b", pdf))
    assert text.count("Invented figures: no real gun") == pages


@pytest.mark.needs(program="pdftotext")
def test_what_was_calculated_stands_on_the_sheet_with_its_pictures(tmp_path: Path) -> None:
    """Each answer of the demo's job with range, footing, source and caution, and a figure with words for who cannot see it."""
    pdf = build_service_sheet(study_job(load_job(_DEMO)))
    text = _text(pdf, tmp_path)
    for words in (
        "Calculated for this job",
        "Shims at hand leave every gear its float (0.05 to 0.12 mm).",
        "Pad 1.24 mm as pressed, on top of what is there.",
        "A ring of 2.40 mm suits its gland.",
        "To be calculated, above for what was measured: ",
    ):
        assert words in text, words
    for words in ("Holds for:", "Source:"):
        assert text.count(words) == 3, words
    for alternative in (rb"Shims and the float that they leave", rb"Witness mark and pad", rb"O-ring in its gland"):
        assert re.search(rb"/S/Figure[^>]*?/Alt\(" + alternative, pdf), alternative
