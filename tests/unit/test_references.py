"""The register of sources: what it says, and how it complains."""

from __future__ import annotations

import pytest

from stripdown.errors import InputError
from stripdown.references import Reading, load_references, read_references

_ENTRY = """
[smith_1900]
author = "A. Smith"
title = "On springs"
year = 1900
published_in = "Journal of Springs 1, 2-3"
used_for = "an example"
reading = "read"
"""


def test_a_source_is_cited_in_one_line() -> None:
    """A reader can find the source, and the place in it."""
    reference = read_references(_ENTRY)["smith_1900"]
    assert reference.cite("page 2") == "A. Smith (1900), On springs. Journal of Springs 1, 2-3, page 2."


def test_a_source_without_a_date_is_cited_without_one() -> None:
    """No year is invented."""
    reference = read_references(_ENTRY.replace("year = 1900\n", ""))["smith_1900"]
    assert reference.cite() == "A. Smith, On springs. Journal of Springs 1, 2-3."


def test_only_a_source_that_was_read_may_decide_a_test() -> None:
    """General knowledge can stand as an estimate and no more."""
    assert read_references(_ENTRY)["smith_1900"].may_gate
    assert not read_references(_ENTRY.replace('"read"', '"not read"'))["smith_1900"].may_gate


def test_an_unknown_key_is_answered_with_the_nearest() -> None:
    """A mistyped citation is easily put right."""
    with pytest.raises(KeyError, match="did you mean 'smith_1900'"):
        read_references(_ENTRY)["smyth_1900"]


@pytest.mark.parametrize(
    ("change", "complaint"),
    [
        (('author = "A. Smith"\n', ""), "smith_1900.*author"),
        (('reading = "read"', 'reading = "skimmed"'), "smith_1900.*skimmed"),
        (('reading = "read"', 'reading = "quoted"'), "smith_1900.*not from where"),
        (('reading = "read"', 'reading = "read"\nshelf = 3'), "smith_1900.*shelf"),
        (("year = 1900", "year = "), "not TOML"),
    ],
)
def test_a_broken_register_says_where(change: tuple[str, str], complaint: str) -> None:
    """Entry and field are named."""
    with pytest.raises(InputError, match=complaint) as caught:
        read_references(_ENTRY.replace(*change))
    assert caught.value.file == "references.toml"


def test_the_packaged_register_knows_how_well_each_source_was_read() -> None:
    """It holds sources of every degree, and says so of each."""
    assert {reference.reading for reference in load_references().values()} == set(Reading)
