"""Records as rows: what becomes of each kind of leaf, how a batch varies, and what is refused."""

from __future__ import annotations

import enum
import os
import subprocess
import sys
from pathlib import Path
from typing import Annotated, Any

import numpy as np
import pytest

from stripdown.core.numerics.compiled import compiled
from stripdown.core.numerics.rows import Counts, Fields, Shape, Vector, blank_rows, pack, pack_many, row_dtype, vary
from stripdown.errors import InputError
from stripdown.quantities import Q, parameters

_FORCE = Q("N", low=0, high=10, usual=(1, 2), label="force")
_COUNT = Q("1", low=0, high=9, usual=(1, 3), label="count")


class Law(enum.IntEnum):
    """Two laws."""

    FIRST = 3
    SECOND = 7


@parameters
class Inner:
    """A record inside another."""

    force: Annotated[float, _FORCE]
    count: Annotated[int, _COUNT]


@parameters
class Outer:
    """A record with every kind of leaf."""

    law: Law
    is_on: bool
    inner: Inner
    other: Inner
    force: Annotated[float, _FORCE]


@parameters
class OuterSwapped:
    """The same leaves with two of one type in the other order."""

    law: Law
    is_on: bool
    other: Inner
    inner: Inner
    force: Annotated[float, _FORCE]


RECORD = Outer(law=Law.SECOND, is_on=True, inner=Inner(force=1.5, count=2), other=Inner(force=2.5, count=4), force=0.25)


@compiled
def read_row(p: Any) -> float:
    """Weigh every leaf differently, so that one read for another shows."""
    number = p.inner.force + 10.0 * p.inner.count + 100.0 * p.other.force + 1e3 * p.other.count + 1e5 * p.force
    return float(number + 1e6 * p.law + 1e7 * p.is_on)


@compiled
def read_rows(rows: Any, out: Any) -> None:
    """The same for every row of a batch."""
    for i in range(rows.shape[0]):
        out[i] = read_row(rows[i])


EXPECTED = 1.5 + 20.0 + 250.0 + 4000.0 + 25000.0 + 7e6 + 1e7


def test_every_leaf_keeps_its_value_and_choices_become_numbers() -> None:
    """Floats stay floats; int, bool and choice become integers; records nest."""
    row = pack(RECORD)[0]
    assert row["law"] == 7
    assert row["is_on"] == 1
    assert row["inner"]["force"] == 1.5
    assert row["inner"]["count"] == 2
    assert row["force"] == 0.25
    dtype = row_dtype(Outer)
    assert dtype["law"] == dtype["is_on"] == dtype["inner"]["count"] == np.int64
    assert dtype["inner"]["force"] == np.float64


def test_rows_are_aligned() -> None:
    """Every field lies at a multiple of eight bytes, so that machine code reads it in one go."""
    fields = row_dtype(Outer).fields
    assert fields is not None
    assert all(entry[1] % 8 == 0 for entry in fields.values())


def test_many_records_become_many_rows() -> None:
    """Each record has its row, in order."""
    rows = pack_many([RECORD, Outer(law=Law.FIRST, is_on=False, inner=RECORD.other, other=RECORD.inner, force=9.0)])
    assert rows.shape == (2,)
    assert rows["force"].tolist() == [0.25, 9.0]
    assert rows["inner"]["count"].tolist() == [2, 4]
    assert rows["is_on"].tolist() == [1, 0]


def test_swapping_two_fields_of_one_type_changes_the_dtype() -> None:
    """Two records that differ in the order of fields only are different types for the compiler."""
    assert row_dtype(Outer) != row_dtype(OuterSwapped)


def test_a_kernel_reads_a_row_by_name() -> None:
    """Compiled code finds every leaf, nested ones too."""
    assert read_row(pack(RECORD)[0]) == EXPECTED


@pytest.mark.skipif(os.environ.get("NUMBA_DISABLE_JIT") == "1", reason="with the compiler off there are no signatures")
def test_single_and_batch_share_one_compiled_signature() -> None:
    """A row alone and a row of a batch are one type, so a kernel is compiled once for both."""
    out = np.zeros(3)
    read_row(pack(RECORD)[0])
    read_rows(vary(RECORD, 3, {"force": [0.25, 0.25, 0.25]}), out)
    read_row(vary(RECORD, 2, {})[1])
    assert out.tolist() == [EXPECTED] * 3
    assert len(read_row.signatures) == 1  # type: ignore[attr-defined]


def test_varied_leaves_differ_and_the_others_repeat() -> None:
    """A path of any depth takes one number a row or one for all."""
    rows = vary(RECORD, 3, {"inner.force": np.array([1.0, 2.0, 3.0]), "inner.count": 5, "force": [7.0, 8.0, 9.0]})
    assert rows["inner"]["force"].tolist() == [1.0, 2.0, 3.0]
    assert rows["inner"]["count"].tolist() == [5, 5, 5]
    assert rows["force"].tolist() == [7.0, 8.0, 9.0]
    assert rows["other"]["force"].tolist() == [2.5, 2.5, 2.5]
    assert rows["law"].tolist() == [7, 7, 7]


def test_varying_leaves_the_record_alone() -> None:
    """A second batch from the same record starts from the record, not from the first batch."""
    vary(RECORD, 2, {"force": [1.0, 2.0]})
    assert vary(RECORD, 2, {})["force"].tolist() == [0.25, 0.25]


@pytest.mark.parametrize("path", ["innr.force", "inner.forc", "force.inner", "inner.force.more", "", "inner."])
def test_an_unknown_path_is_named(path: str) -> None:
    """A path that the record does not have is quoted in the complaint, with how paths look."""
    with pytest.raises(InputError, match="no quantity called") as caught:
        vary(RECORD, 2, {path: [1.0, 2.0]})
    assert caught.value.field == path
    assert repr(path) in str(caught.value)
    assert "spring.rate" in str(caught.value)


@pytest.mark.parametrize("values", [[1.0], [1.0, 2.0, 3.0], [[1.0, 2.0]]])
def test_values_of_another_length_are_refused(values: list[Any]) -> None:
    """As many values as rows, or one: anything else is told apart by both numbers."""
    with pytest.raises(InputError, match="2 shots were asked for") as caught:
        vary(RECORD, 2, {"force": values})
    assert caught.value.field == "force"


_WITHOUT_COMPILER = """
import numpy as np
from tests.unit.core.numerics.test_rows import EXPECTED, RECORD, read_row, read_rows
from stripdown.core.numerics.rows import pack, vary
out = np.zeros(2)
read_rows(vary(RECORD, 2, {}).view(np.recarray), out)
assert not hasattr(read_row, "signatures")
print(read_row(pack(RECORD).view(np.recarray)[0]) == EXPECTED, out.tolist() == [EXPECTED] * 2)
"""


def test_the_same_kernel_reads_rows_with_the_compiler_off() -> None:
    """Uncompiled, the code reads the record view of the same rows and finds the same numbers."""
    root = Path(__file__).resolve().parents[4]
    done = subprocess.run(
        [sys.executable, "-c", _WITHOUT_COMPILER],
        env=os.environ | {"NUMBA_DISABLE_JIT": "1", "PYTHONPATH": os.pathsep.join(filter(None, sys.path))},
        cwd=root,
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.stdout.strip() == "True True", done.stderr


class Constants(Fields):
    """A row that no record stands behind, with arrays of a size told later and a row inside."""

    number: float
    count: int
    table: Annotated[Vector, Shape((3, "wide"))]
    marks: Annotated[Counts, Shape(("wide",))]
    inner: Inner


def test_a_declared_row_has_its_arrays_in_their_shapes() -> None:
    """Sizes are numbers or names that are told; vectors hold floats, counts hold integers."""
    row = blank_rows(row_dtype(Constants, wide=4), 2)[1]
    assert row["table"].shape == (3, 4)
    assert row["table"].dtype == np.float64
    assert row["marks"].shape == (4,)
    assert row["marks"].dtype == np.int64
    assert row["inner"]["force"] == row["number"] == row["count"] == 0


def test_a_size_that_was_not_told_is_no_dtype() -> None:
    """A name that stands for no number is refused when the dtype is made, not read as some size."""
    with pytest.raises(KeyError, match="wide"):
        row_dtype(Constants)
