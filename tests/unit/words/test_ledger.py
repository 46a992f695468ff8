from __future__ import annotations

import dataclasses

import pytest

from stripdown.core.interior_ballistics.result import Shot
from stripdown.words.ledger import Group, bands, escaped
from tests.synthetic_shots import LEDGER


def test_bands_add_up_to_what_was_put_in() -> None:
    """No entry is left out and none is counted twice: only the ledger's own residual is missing."""
    assert sum(band.energy for band in bands(LEDGER)) == pytest.approx(LEDGER.put_in - LEDGER.residual, abs=1e-12)


def test_every_entry_counts_once() -> None:
    """A joule more in any of the fourteen entries is a joule more in exactly one band."""
    before = [band.energy for band in bands(LEDGER)]
    for name in LEDGER.ENTRIES:
        more = dataclasses.replace(LEDGER, **{name: getattr(LEDGER, name) + 1.0})
        gained = [after.energy - energy for after, energy in zip(bands(more), before, strict=True)]
        assert sorted(gained) == pytest.approx([0.0] * (len(before) - 1) + [1.0], abs=1e-12), name


def test_the_ball_comes_first_and_the_air_last() -> None:
    """The order is the order of the bar: what was wanted, what was lost, and the air's four entries as one."""
    drawn = bands(LEDGER)
    assert drawn[0].label == "ball, flight"
    assert drawn[-1].group is Group.AIR
    assert drawn[-1].energy == pytest.approx(0.190 + 0.330 + 0.180 - 0.076)


def test_shares_are_of_what_was_put_in(healthy: Shot) -> None:
    """Of 2.19 J put in, the ball's 1.000 J are 45.66 %."""
    share = bands(healthy.ledger)[0].share
    assert share is not None
    assert share == pytest.approx(1.0 / 2.19)


def test_what_escaped_leaves_out_port_and_muzzle() -> None:
    """A port and an open muzzle let air out by design; seals, lips and the gap round the ball do not."""
    seals, ball = escaped(LEDGER)
    assert seals.energy == pytest.approx(0.050 + 0.020)
    assert ball.energy == pytest.approx(0.080)
    by_design = dataclasses.replace(LEDGER, leaked_at_port=1.0, leaked_at_muzzle=1.0)
    assert escaped(by_design) == escaped(LEDGER)


def test_nothing_put_in_has_no_shares() -> None:
    """A piston that is held puts nothing in; there is nothing to be a share of."""
    held = dataclasses.replace(LEDGER, spring_work=0.0)
    assert all(band.share is None for band in bands(held))
