"""The house rules for tests are themselves tested: sources, what is left out, what is compared."""

from __future__ import annotations

import json

import pytest

_SETTINGS = """
[pytest]
addopts = -p tests.published -p tests.left_out -p no:cacheprovider
"""


@pytest.fixture
def suite(pytester: pytest.Pytester, monkeypatch: pytest.MonkeyPatch) -> pytest.Pytester:
    """A suite of its own, in which tests/validation is the folder of validation tests."""
    pytester.makeini(_SETTINGS)
    monkeypatch.delenv("STRIPDOWN_TEST_ALL", raising=False)
    monkeypatch.setattr("tests.published.VALIDATION", pytester.path)
    return pytester


def _run(suite: pytest.Pytester, mark: str, body: str, *options: str) -> pytest.RunResult:
    suite.makepyfile(f"import pytest\n{mark}\ndef test_it(published):\n    {body}\n")
    return suite.runpytest_inprocess(*options)


_GOOD = '@pytest.mark.source("fox_mcdonald", "example 12.2", rtol=0.01, because="printed to three figures")'
_NEAR = 'published("mass flow", found=2.201, expected=2.20, unit="kg/s")'


def test_a_marked_comparison_passes_and_is_recorded(suite: pytest.Pytester) -> None:
    """What was compared is written with source, place, tolerance and the error found."""
    folder = suite.path / "records"
    _run(suite, _GOOD, _NEAR, f"--records={folder}").assert_outcomes(passed=1)
    [row] = json.loads((folder / "one.json").read_text(encoding="utf-8"))
    assert row["key"] == "fox_mcdonald"
    assert row["place"] == "example 12.2"
    assert row["expected"] == "2.2"
    assert row["found"] == 2.201
    assert row["tolerance"] == "1 %"
    assert row["error"] == "+0.045 %"


@pytest.mark.parametrize(
    ("body", "complaint"),
    [
        ('published("mass flow", found=2.30, expected=2.20, unit="kg/s")', "found 2.3 kg/s, expected 2.2"),
        ('published("mass flow", found=float("nan"), expected=2.20, unit="kg/s")', "found nan"),
        ('published.within("coefficient", found=0.5, low=0.6, high=0.7, unit="1")', "published range 0.6 to 0.7"),
        ("pass", "compared nothing"),
    ],
)
def test_a_comparison_that_fails_or_is_missing_fails_the_test(suite: pytest.Pytester, body: str, complaint: str) -> None:
    """A figure out of tolerance, not a number, out of its range, or no figure at all."""
    result = _run(suite, _GOOD, body)
    result.assert_outcomes(failed=1)
    result.stdout.fnmatch_lines([f"*{complaint}*"])


@pytest.mark.parametrize(
    ("mark", "complaint"),
    [
        ("", "no mark"),
        ('@pytest.mark.source("fox_macdonald", "p. 1", rtol=0.01, because="digits")', "did you mean 'fox_mcdonald'"),
        ('@pytest.mark.source("bell_bergelin_1957", "p. 1", rtol=0.01, because="digits")', "was not read by anybody here"),
        ('@pytest.mark.source("fox_mcdonald", " ", rtol=0.01, because="digits")', "needs the place"),
        ('@pytest.mark.source("fox_mcdonald", "p. 1", rtol=0.01)', "cannot read the mark"),
    ],
)
def test_a_validation_test_without_a_proper_source_stops_the_run(suite: pytest.Pytester, mark: str, complaint: str) -> None:
    """No mark, a mistyped key, a source that nobody read, no place, no reason for the tolerance."""
    result = _run(suite, mark, _NEAR)
    assert result.ret == pytest.ExitCode.USAGE_ERROR
    result.stderr.fnmatch_lines([f"*{complaint}*"])


def test_what_the_machine_lacks_is_named(suite: pytest.Pytester) -> None:
    """A technician's machine may lack a program: the test is left out, and the run says so."""
    result = _run(suite, f'{_GOOD}\n@pytest.mark.needs(program="no-such-program")', _NEAR)
    result.assert_outcomes(skipped=1)
    result.stdout.fnmatch_lines(["*left out on this machine*", "1 × needs the program no-such-program"])


@pytest.mark.parametrize(
    ("mark", "body"),
    [
        ('@pytest.mark.needs(program="no-such-program")', _NEAR),
        ('@pytest.mark.needs(module="no_such_module")', _NEAR),
        ("", 'pytest.skip("not today")'),
    ],
)
def test_nothing_is_left_out_where_all_is_wanted(
    suite: pytest.Pytester, monkeypatch: pytest.MonkeyPatch, mark: str, body: str
) -> None:
    """With STRIPDOWN_TEST_ALL=1 a skip, for whatever reason, fails the run."""
    monkeypatch.setenv("STRIPDOWN_TEST_ALL", "1")
    result = _run(suite, f"{_GOOD}\n{mark}", body)
    assert result.ret == pytest.ExitCode.TESTS_FAILED
    result.stdout.fnmatch_lines(["*was left out although STRIPDOWN_TEST_ALL is set*"])


def test_a_file_that_skips_itself_is_not_left_out_either(suite: pytest.Pytester, monkeypatch: pytest.MonkeyPatch) -> None:
    """A skip at import would otherwise hide every test of the file."""
    monkeypatch.setenv("STRIPDOWN_TEST_ALL", "1")
    suite.makepyfile('import pytest\npytest.skip("whole file", allow_module_level=True)\n')
    assert suite.runpytest_inprocess().ret != pytest.ExitCode.NO_TESTS_COLLECTED
