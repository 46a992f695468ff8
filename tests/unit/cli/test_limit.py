from __future__ import annotations

import json

import pytest
from click.testing import CliRunner

from stripdown.catalogue.limits import load_limits
from stripdown.cli.limit import typed_limit
from stripdown.cli.main import main
from stripdown.errors import InputError


def test_a_key_names_a_limit_of_the_catalogue() -> None:
    """As `stripdown limits` lists it."""
    assert typed_limit(" italy ") == load_limits()["italy"].limit


@pytest.mark.parametrize(
    ("text", "energy", "at"),
    [
        ("1.14 J at 0.3 m", 1.14, 0.3),
        ("1,14 J", 1.14, None),
        ("1.14 J at muzzle", 1.14, 0.0),
        ("1.14 J at the muzzle", 1.14, 0.0),
        ("350 ft/s on 0.20 g", 0.5 * 0.2e-3 * (350 * 0.3048) ** 2, None),
        ("350fps on 0.20g at 1 ft", 0.5 * 0.2e-3 * (350 * 0.3048) ** 2, 0.3048),
        ("107 m/s ON 0.20 g AT 1 m", 0.5 * 0.2e-3 * 107**2, 1.0),
    ],
)
def test_a_sites_rule_is_read_from_one_line(text: str, energy: float, at: float | None) -> None:
    """Energy, or speed with its ball, and where it is measured."""
    limit = typed_limit(text)
    assert limit.energy == pytest.approx(energy)
    assert limit.measuring_distance == (None if at is None else pytest.approx(at))


@pytest.mark.parametrize(
    ("text", "complaint"),
    [
        (None, "No limit was named"),
        ("  ", "No limit was named"),
        ("itlay", "no limit of the catalogue. Did you mean italy"),
        ("1.14", "has no unit"),
        ("350 ft/s", "means nothing without its ball"),
        ("350 ft/s at 1 m", "means nothing without its ball"),
        ("1.14 J on 0.20 g", "1.14 J"),
        ("1.14 J at 3", "has no unit"),
        ("1.14 J at 3 kg", "3 kg"),
        ("1.14 J at -1 m", "impossible"),
        ("500 J", "impossible"),
    ],
)
def test_a_rule_that_cannot_be_read_says_what_would_be_right(text: str | None, complaint: str) -> None:
    """Nothing, a mistyped key, no unit, a speed without its ball, a place that is none."""
    with pytest.raises(InputError, match=complaint):
        typed_limit(text)


def test_the_limits_are_listed_with_whose_word_they_are(runner: CliRunner) -> None:
    """Key, amount, measuring point, source, read or quoted; and that this is no advice."""
    result = runner.invoke(main, ["limits"])
    assert result.exit_code == 0
    for words in ("uk_automatic", "1.30 J", "quoted: the rule itself was not read", "No legal advice"):
        assert words in result.stdout
    answer = json.loads(runner.invoke(main, ["limits", "--json"]).stdout)["limits"]
    assert answer["italy"]["energy_J"] == 1.0
    assert answer["italy"]["measuring_distance_m"] == 1.0
    assert answer["japan"]["energy_per_area_J_per_m2"] == pytest.approx(3.5e4)
    assert answer["site_350"]["was_read"] is False
