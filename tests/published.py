"""The mark `source` and the fixture `published`: a published figure, what we found, and how far apart they are.

Every test under tests/validation carries the mark and uses the fixture; otherwise the run refuses to start. With
``--records FOLDER`` each process writes what it compared, and docs/validation.md is made from that.
"""

from __future__ import annotations

import dataclasses
import json
import math
import shutil
from collections.abc import Generator, Iterator
from dataclasses import dataclass
from pathlib import Path

import pytest

from stripdown.references import Register, load_references

DERIVED = "derived"
_ROUNDING = 1e-12
VALIDATION = Path(__file__).parent / "validation"


@dataclass(frozen=True, slots=True)
class Source:
    """What the mark says: where the expected figures come from, and how near is near enough."""

    key: str
    place: str
    because: str
    rtol: float | None = None
    atol: float | None = None


@dataclass(frozen=True, slots=True)
class Comparison:
    """One published figure beside ours."""

    test: str
    key: str
    place: str
    what: str
    unit: str
    expected: str
    found: float
    tolerance: str
    error: str
    because: str


_SOURCE = pytest.StashKey[Source]()
_COMPARISONS = pytest.StashKey[list[Comparison]]()


class Published:
    """Compare with a published figure, and keep the comparison."""

    def __init__(self, test: str, source: Source, comparisons: list[Comparison]) -> None:
        self._test = test
        self._source = source
        self._comparisons = comparisons

    def __call__(
        self,
        what: str,
        *,
        found: float,
        expected: float,
        unit: str,
        rtol: float | None = None,
        atol: float | None = None,
    ) -> None:
        """Assert that what we found is near the published figure; the mark's tolerance holds unless one is given here."""
        if rtol is None and atol is None:
            rtol, atol = self._source.rtol, self._source.atol
        if rtol is None and atol is None:
            pytest.fail(f"{what}: no tolerance, neither in the mark nor in the call")
        found, expected = float(found), float(expected)
        allowed = (atol or 0.0) + (rtol or 0.0) * abs(expected)
        parts = [f"{rtol * 100:g} %" if rtol else "", _with_unit(f"{atol:g}", unit) if atol else ""]
        tolerance = " + ".join(part for part in parts if part) or "exact"
        difference = found - expected
        error = _apart(difference, expected, unit)
        self._keep(what, unit=unit, expected=f"{expected:.10g}", found=found, tolerance=tolerance, error=error)
        assert abs(difference) <= allowed, (
            f"{what}: found {found:.10g} {unit}, expected {expected:.10g} ({self._source.key}, {self._source.place}), "
            f"{error} apart where {tolerance} is allowed"
        )

    def within(self, what: str, *, found: float, low: float, high: float, unit: str) -> None:
        """Assert that what we found lies in a published range, ends included."""
        found = float(found)
        place = "inside" if low <= found <= high else "outside"
        self._keep(what, unit=unit, expected=f"{low:g} to {high:g}", found=found, tolerance="range", error=place)
        assert low <= found <= high, f"{what}: found {found:.10g} {unit}, published range {low:g} to {high:g}"

    def _keep(self, what: str, *, unit: str, expected: str, found: float, tolerance: str, error: str) -> None:
        source = self._source
        self._comparisons.append(
            Comparison(
                test=self._test,
                key=source.key,
                place=source.place,
                what=what,
                unit=unit,
                expected=expected,
                found=found,
                tolerance=tolerance,
                error=error if math.isfinite(found) else "not finite",
                because=source.because,
            )
        )


@pytest.fixture
def published(request: pytest.FixtureRequest) -> Published:
    """Comparison with the source named in this test's mark."""
    source = request.node.stash.get(_SOURCE, None)
    if source is None:
        pytest.fail("the fixture `published` needs the mark `source` on the test")
    return Published(request.node.nodeid, source, request.node.stash.setdefault(_COMPARISONS, []))


def pytest_addoption(parser: pytest.Parser) -> None:
    """Where to write what was compared."""
    parser.addoption("--records", type=Path, default=None, help="folder for the comparisons with published figures, as JSON")


def pytest_configure(config: pytest.Config) -> None:
    """Explain the mark, and clear the records of an earlier run."""
    config.addinivalue_line(
        "markers", "source(key, place, *, because, rtol=None, atol=None): where the figures stand (tests/validation/README.md)"
    )
    folder: Path | None = config.option.records
    if folder is not None and not hasattr(config, "workerinput"):
        shutil.rmtree(folder, ignore_errors=True)


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """Refuse to run while a test under tests/validation does not name its source."""
    known = load_references()
    complaints = [f"{item.nodeid}: {complaint}" for item in items for complaint in _complaints(item, known)]
    if complaints:
        raise pytest.UsageError("\n".join(["validation tests without a proper source:", *complaints]))


@pytest.hookimpl(wrapper=True)
def pytest_pyfunc_call(pyfuncitem: pytest.Function) -> Generator[None, object, object]:
    """Fail a validation test that compared nothing."""
    result = yield
    if _is_validation(pyfuncitem) and not pyfuncitem.stash.get(_COMPARISONS, []):
        pytest.fail("this validation test compared nothing: call published(…) at least once")
    return result


def pytest_sessionfinish(session: pytest.Session) -> None:
    """Write what this process compared."""
    folder: Path | None = session.config.option.records
    comparisons = [row for item in session.items for row in item.stash.get(_COMPARISONS, [])]
    if folder is None or not comparisons:
        return
    folder.mkdir(parents=True, exist_ok=True)
    worker = getattr(session.config, "workerinput", {"workerid": "one"})["workerid"]
    text = json.dumps([dataclasses.asdict(row) for row in comparisons], indent=1)
    (folder / f"{worker}.json").write_text(text, encoding="utf-8")


def _complaints(item: pytest.Item, known: Register) -> Iterator[str]:
    marks = list(item.iter_markers("source"))
    if not marks:
        if _is_validation(item):
            yield 'no mark: @pytest.mark.source("key", "place", rtol=…, because="…")'
        return
    for mark in marks:
        try:
            source = Source(*mark.args, **mark.kwargs)
        except TypeError as reason:
            yield f"cannot read the mark: {reason}"
            continue
        if not source.place.strip() or not source.because.strip():
            yield "the mark needs the place in the source, and because=… for the tolerance"
        if source.key != DERIVED and source.key not in known:
            yield f"no source {source.key!r} in src/stripdown/references/references.toml{known.nearest(source.key)}"
        elif source.key != DERIVED and not known[source.key].may_gate:
            yield f"{source.key!r} was not read by anybody here, so its figures may not decide a test"
        item.stash.setdefault(_SOURCE, source)  # the mark nearest to the test comes first
    if "published" not in getattr(item, "fixturenames", ()):
        yield "does not use the fixture `published`"


def _is_validation(item: pytest.Item) -> bool:
    return VALIDATION in item.path.parents


def _apart(difference: float, expected: float, unit: str) -> str:
    """The error as a reader wants it; what is left of rounding differs between machines and is called nothing."""
    if abs(difference) <= _ROUNDING * abs(expected):
        return "0"
    return f"{difference / expected * 100:+.2g} %" if expected else _with_unit(f"{difference:+.2g}", unit)


def _with_unit(number: str, unit: str) -> str:
    return number if unit == "1" else f"{number} {unit}"
