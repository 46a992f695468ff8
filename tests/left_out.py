"""What a run leaves out, said aloud; with STRIPDOWN_TEST_ALL=1 nothing may be left out.

A technician's machine may lack what a test needs. That test is then skipped and named at the end of the run. Where the
whole suite has to be shown, the same skip is a failure.
"""

from __future__ import annotations

import importlib.util
import os
import shutil
from collections import Counter
from collections.abc import Generator

import pytest

_EVERYTHING = "STRIPDOWN_TEST_ALL"


def pytest_configure(config: pytest.Config) -> None:
    """Explain the marks."""
    config.addinivalue_line("markers", "needs(*, program=None, module=None): what must be on the machine for this test")
    config.addinivalue_line("markers", "slow: statistical suites that `make validate` runs")


def pytest_runtest_setup(item: pytest.Item) -> None:
    """Leave a test out whose needs are not on this machine."""
    for mark in item.iter_markers("needs"):
        program, module = mark.kwargs.get("program"), mark.kwargs.get("module")
        if program is not None and shutil.which(program) is None:
            pytest.skip(f"needs the program {program}")
        if module is not None and importlib.util.find_spec(module) is None:
            pytest.skip(f"needs the Python module {module}")


@pytest.hookimpl(wrapper=True)
def pytest_runtest_makereport(item: pytest.Item) -> Generator[None, pytest.TestReport, pytest.TestReport]:
    """Turn a skipped test into a failure where nothing may be left out."""
    report = yield
    # an expected failure is reported as skipped too; it was run, so it is not left out
    if report.skipped and not hasattr(report, "wasxfail") and _everything():
        report.outcome = "failed"
        report.longrepr = f"{item.nodeid} was left out although {_EVERYTHING} is set: {_reason(report)}"
    return report


@pytest.hookimpl(wrapper=True)
def pytest_make_collect_report(collector: pytest.Collector) -> Generator[None, pytest.CollectReport, pytest.CollectReport]:
    """Turn a skipped file into a failure where nothing may be left out."""
    report = yield
    if report.skipped and _everything():
        reason = _reason(report)
        report.outcome = "failed"
        report.longrepr = f"{collector.nodeid} was left out although {_EVERYTHING} is set: {reason}"
    return report


def pytest_terminal_summary(terminalreporter: pytest.TerminalReporter) -> None:
    """Name what was left out, and why."""
    reasons = Counter(_reason(report) for report in terminalreporter.stats.get("skipped", []))
    if not reasons:
        return
    terminalreporter.section("left out on this machine")
    for reason, count in sorted(reasons.items()):
        terminalreporter.write_line(f"{count} × {reason}")
    terminalreporter.write_line(f"With {_EVERYTHING}=1 each of these is a failure.")


def _everything() -> bool:
    return os.environ.get(_EVERYTHING) == "1"


def _reason(report: pytest.TestReport | pytest.CollectReport) -> str:
    if isinstance(report.longrepr, tuple):
        return report.longrepr[2].removeprefix("Skipped: ")
    return str(report.longrepr)
