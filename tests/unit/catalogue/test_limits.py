"""Limits say how much, where measured and on whose word; a site's own rule is typed in."""

from __future__ import annotations

import math

import pytest

from stripdown.catalogue.limits import load_limits, own_site_rule, read_limits
from stripdown.core.shot_statistics.limits import LimitScope
from stripdown.errors import CatalogueError, InputError

_ENTRY = """
[limit.here]
name = "here"
place = "here"
kind = "law"
energy = "1 J"
measured_at = "0 m"
scope = "every_shot"
date = ""
remark = "x"
footing = "published"
source = "italy_law_110_1975"
where = "article 2"
"""


def test_every_packaged_limit_is_whole() -> None:
    """An amount, a place, a source and a remark; laws say where they are measured."""
    for key, entry in load_limits().items():
        limit = entry.limit
        assert limit.energy_for(0.006) > 0.0, key
        assert limit.place, key
        assert limit.source, key
        assert limit.remark, key
        assert not limit.is_law or limit.measuring_distance is not None, key


def test_no_packaged_law_claims_to_have_been_read() -> None:
    """All of them were found in pages that quote them, and the source says so."""
    laws = [entry.limit for entry in load_limits().values() if entry.limit.is_law]
    assert laws
    assert not any(law.was_read for law in laws)


def test_a_rule_in_speed_becomes_an_energy() -> None:
    """350 ft/s on 0.20 g is 1.138 J for every ball."""
    assert load_limits()["site_350"].limit.energy == pytest.approx(0.5 * 0.2e-3 * (350 * 0.3048) ** 2)


def test_a_rule_by_area_follows_the_ball() -> None:
    """3.5 J/cm2 of a circle of 6 mm."""
    japan = load_limits()["japan"].limit
    assert japan.energy_for(0.006) == pytest.approx(3.5 * math.pi * 0.3**2)
    assert japan.measuring_distance == 1.0


@pytest.mark.parametrize(
    ("old", "new", "complaint"),
    [
        ('energy = "1 J"', 'energy = "1"', "has no unit"),
        ('energy = "1 J"', "", "one energy, or one speed"),
        ('energy = "1 J"', 'speed = "350 ft/s"', "on_ball"),
        ('kind = "law"', 'kind = "rumour"', "law, site"),
        ('scope = "every_shot"', 'scope = "sundays"', "automatic_gun"),
        ('source = "italy_law_110_1975"', 'source = "hearsay"', "register of sources"),
        ('measured_at = "0 m"', 'measured_at = "500 m"', "impossible"),
        ('remark = "x"', 'colour = "x"', "colour"),
    ],
)
def test_a_bad_entry_is_refused_with_its_field(old: str, new: str, complaint: str) -> None:
    """The complaint names file and entry."""
    with pytest.raises(CatalogueError, match=complaint) as caught:
        read_limits(_ENTRY.replace(old, new), file="limits.toml")
    assert "limits.toml" in str(caught.value)
    assert "here" in str(caught.value)


def test_the_entry_itself_is_good() -> None:
    """What the bad ones are made from is read."""
    assert read_limits(_ENTRY, file="limits.toml")["here"].limit.energy == 1.0


def test_a_sites_own_rule_is_taken_as_typed() -> None:
    """Energy or speed, with or without a measuring point."""
    by_energy = own_site_rule(energy="1,14 J", measured_at="30 cm", scope=LimitScope.AUTOMATIC_FIRE, place="Brackenmoor")
    assert by_energy.energy == pytest.approx(1.14)
    assert by_energy.measuring_distance == pytest.approx(0.3)
    assert by_energy.scope is LimitScope.AUTOMATIC_FIRE
    by_speed = own_site_rule(speed="350 fps", ball_mass="0.20 g")
    assert by_speed.energy == pytest.approx(1.13806, abs=1e-5)
    assert by_speed.measuring_distance is None
    assert not by_speed.is_law


@pytest.mark.parametrize(
    ("typed", "complaint"),
    [
        ({}, "one energy or one speed"),
        ({"energy": "1 J", "speed": "350 ft/s"}, "one energy or one speed"),
        ({"speed": "350 ft/s"}, "without its ball"),
        ({"energy": "1 J", "ball_mass": "0.2 g"}, "holds for every ball"),
        ({"energy": "1.14"}, "has no unit"),
        ({"speed": "350 ft/s", "ball_mass": "2 g"}, '"2 g" .* is impossible'),
    ],
)
def test_half_a_rule_is_refused(typed: dict[str, str], complaint: str) -> None:
    """A speed without its ball, two amounts, none, no unit, a ball off by ten."""
    with pytest.raises(InputError, match=complaint):
        own_site_rule(**typed)  # type: ignore[arg-type]
