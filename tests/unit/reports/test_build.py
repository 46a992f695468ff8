from __future__ import annotations

import dataclasses
import re
import subprocess
from collections.abc import Callable
from pathlib import Path

import pytest

from stripdown.bench.strings import LeftOut
from stripdown.core.shot_statistics import EnergyLimit
from stripdown.errors import RenderError
from stripdown.reports.pictures import Picture
from stripdown.reports.press import PageHead, fonts, press
from stripdown.reports.sheets import build_sheet
from stripdown.studies.service_case import CaseStudy, Unsaid, UnsaidKind
from stripdown.words.case import case_answer
from tests.demo_cases import over_the_limit, whole_case, without_after, without_before, without_limit

# Code for the template, for a chart's expressions, for markup and for a terminal.
_HOSTILE = '#panic("x") $a_b$ *b* [c] <d> @e //f /*g*/ \\h `i` "j" \'k\' &amp; </svg> {{l}} -> =m'


def _text(pdf: bytes, folder: Path) -> str:
    """All words of a PDF, parted by single blanks."""
    file = folder / "sheet.pdf"
    file.write_bytes(pdf)
    found = subprocess.run(["pdftotext", str(file), "-"], capture_output=True, text=True, check=True)  # noqa: S607
    return " ".join(found.stdout.split())


def test_the_same_case_gives_the_same_bytes(printed: bytes) -> None:
    """No clock and no chance goes into a sheet."""
    assert build_sheet(whole_case()) == printed


def test_a_full_case_fits_the_two_sides_of_one_sheet(printed: bytes) -> None:
    """Three pairs of strings, a limit, two selector positions, nine causes; A4."""
    assert len(re.findall(rb"/Type/Page\b", printed)) == 2
    assert set(re.findall(rb"/MediaBox\[([^\]]*)\]", printed)) == {b"0 0 595.2756 841.8898"}


def test_the_sheet_is_tagged_and_names_its_language(printed: bytes) -> None:
    """So that it can be read aloud: structure, language, title, headed tables."""
    for sign in (b"/StructTreeRoot", b"/Marked true", b"/Lang(en)", b"/S/Table", b"/S/TH", b"/S/H1", b"/S/Title"):
        assert sign in printed


def test_every_picture_has_words_for_who_cannot_see_it(printed: bytes) -> None:
    """Before and after, and the limit: two figures, two alternatives with numbers."""
    figures = re.findall(rb"/S/Figure[^>]*?/Alt\(([^)]*)", printed)
    assert len(figures) == printed.count(b"/S/Figure") == 2
    assert all(re.search(rb"\d", words) for words in figures)


def test_text_and_charts_share_one_font(printed: bytes) -> None:
    """Nothing but Inter is embedded, since the printer is given nothing else."""
    assert fonts().families() == ["Inter"]
    faces = {name.split(b"+")[-1] for name in re.findall(rb"/BaseFont/([^/\s]+)", printed)}
    assert faces == {b"Inter-Regular", b"Inter-SemiBold", b"Inter-Regular-Identity-H", b"Inter-SemiBold-Identity-H"}


@pytest.mark.parametrize("case", [without_before, without_after, without_limit, over_the_limit])
@pytest.mark.parametrize("scale", ["metric", "imperial"])
def test_a_case_with_gaps_can_be_printed(case: Callable[[], CaseStudy], scale: str) -> None:
    """Whatever is missing, the sheet says the rest."""
    pdf = build_sheet(case(), scale="imperial" if scale == "imperial" else "metric")
    assert pdf.startswith(b"%PDF-")


def _filled_with(words: str) -> CaseStudy:
    """The demo case with these words in every field that a person types."""
    study = whole_case()
    string = study.after[0]
    pair = study.comparisons[0]
    reading = dataclasses.replace(string.reading, label=words)
    return dataclasses.replace(
        study,
        title=f"title {words}",
        gun=dataclasses.replace(study.gun, name=f"gun {words}", note=f"note {words}"),
        found=(f"found {words}",),
        done=(f"done {words}",),
        comparisons=(dataclasses.replace(pair, obstacles=(f"obstacle {words}",)), *study.comparisons[1:]),
        after=(dataclasses.replace(string, reading=reading), *study.after[1:]),
        limit=EnergyLimit(
            name=f"rule {words}", place=f"place {words}", energy=1.1, source=f"source {words}", date=f"date {words}", remark=words
        ),
        left_out=(LeftOut(line=3, text=f"line {words}", reason=f"reason {words}", file=f"file {words}"),),
        notes=(f"note of the case {words}",),
        unsaid=(Unsaid(kind=UnsaidKind.NO_VERDICT, reason=f"unsaid {words}"),),
    )


@pytest.mark.needs(program="pdftotext")
@pytest.mark.parametrize("words", ["", "Donaudampfschifffahrtsgesellschaft" * 10])
def test_no_word_runs_off_the_page(words: str, tmp_path: Path) -> None:
    """Every word lies between the margins of 18 mm, charts included, whatever was typed without a blank."""
    file = tmp_path / "sheet.pdf"
    file.write_bytes(build_sheet(_filled_with(words)))
    found = subprocess.run(["pdftotext", "-bbox", str(file), "-"], capture_output=True, text=True, check=True)  # noqa: S607
    edges = [(float(left), float(right)) for left, right in re.findall(r'<word xMin="([\d.]+)".*?xMax="([\d.]+)"', found.stdout)]
    margin = 18 / 25.4 * 72
    assert len(edges) > 300
    assert min(left for left, _ in edges) > margin - 2
    assert max(right for _, right in edges) < 595.28 - margin + 2


@pytest.mark.needs(program="pdftotext")
def test_typed_words_print_as_typed(tmp_path: Path) -> None:
    """Words that are code to the printer, in every field, are words on the sheet."""
    text = _text(build_sheet(_filled_with(_HOSTILE)), tmp_path).replace(" ", "")
    typed = _HOSTILE.replace(" ", "")
    fields = ("title", "gun", "note", "found", "done", "unsaid", "rule", "place", "source", "date", "line", "reason", "file")
    for field in (*fields, "noteofthecase", "obstacle"):
        assert f"{field}{typed}" in text, field


@pytest.mark.needs(program="pdftotext")
def test_letters_that_the_font_lacks_are_told_of(tmp_path: Path) -> None:
    """A gun named in other letters is not printed as nothing."""
    study = whole_case()
    text = _text(build_sheet(dataclasses.replace(study, found=("銃 is the gun",))), tmp_path)
    assert "□ is the gun" in text
    assert "U+9283" in text


@pytest.mark.needs(program="pdftotext")
def test_the_sheet_says_what_it_must(printed: bytes, tmp_path: Path) -> None:
    """Findings, change, verdict, causes, cautions, standing of figures, version, digest, and that all of it is invented."""
    study = whole_case()
    text = _text(printed, tmp_path)
    assert study.verdict is not None
    for words in (
        study.title,
        "under the limit",
        "computed",
        "measured",
        "estimate",
        "Invented figures: no real gun",
        f"stripdown {study.program_version}",
        study.input_digest,
        "page 1 of 2",
        "Assumed, because the gun's file leaves it out",
    ):
        assert words in text, words
    assert text.count("Invented figures: no real gun") == 2  # on every page


def test_a_picture_that_cannot_be_read_keeps_the_engines_words() -> None:
    """The complaint of the printer reaches who must act on it."""
    answer = case_answer(whole_case(), scale="metric")
    broken = {"limit": Picture(svg="no drawing", width=100.0, alternative="nothing", title="nothing")}
    with pytest.raises(RenderError, match=r"The sheet could not be printed: .*SVG"):
        press("sheet.typ", answer, head=PageHead(title="", invented="", program="", digest=""), pictures=broken)
