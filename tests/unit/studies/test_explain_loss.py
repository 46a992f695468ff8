from __future__ import annotations

import dataclasses
import tempfile
from pathlib import Path

import numpy as np
import pytest

from stripdown.bench.completion import complete
from stripdown.bench.gun import Gun, Written
from stripdown.catalogue.faults import load_faults
from stripdown.catalogue.guns import load_guns
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.shot_statistics import FireMode, HopState
from stripdown.errors import InputError
from stripdown.files.gun import load_gun
from stripdown.files.gun_template import gun_template
from stripdown.studies.explain_loss import explain_loss
from stripdown.studies.faulty_gun import with_fault
from stripdown.studies.loss_causes import LossExplanation, Plausibility
from stripdown.studies.loss_curves import grow, needed
from stripdown.studies.loss_pairs import pair_losses
from stripdown.studies.observation import Observation
from tests.fired_strings import HEAVY, LIGHT, fire, muzzle_speeds, sound_gun, sound_parameters

FAULTS = load_faults()


def _explained(key: str, share: float = 1.0, masses: tuple[float, ...] = (LIGHT, HEAVY)) -> LossExplanation:
    """What strings say that lie exactly where the model has them: before with a share of a fault's ordinary amount."""
    ill = with_fault(sound_parameters(), FAULTS[key], share * FAULTS[key].ordinary)
    return explain_loss(sound_gun(), before=fire(ill, masses, None), after=fire(sound_parameters(), masses, None))


def _ill(key: str) -> ShotParameters:
    return with_fault(sound_parameters(), FAULTS[key], FAULTS[key].ordinary)


def _slowed(string: Observation, share: float) -> Observation:
    return dataclasses.replace(string, muzzle_speed=share * string.muzzle_speed)


@pytest.fixture(scope="module")
def leak() -> LossExplanation:
    """Before with an ordinary leak at the cylinder, after sound, two ball masses."""
    return _explained("cylinder_leak")


def test_the_fault_that_was_there_is_found_with_its_amount(leak: LossExplanation) -> None:
    """It stands, its interval holds the truth, and repairing it returns what the ball lost."""
    cause = next(cause for cause in leak.causes if cause.fault.key == "cylinder_leak")
    assert cause.stands
    assert cause.low is not None
    assert cause.high is not None
    assert cause.low < cause.fault.ordinary < cause.high
    assert cause.amount == pytest.approx(cause.fault.ordinary, rel=0.03)
    light = [0.5 * LIGHT * float(muzzle_speeds(gun, [LIGHT])[0]) ** 2 for gun in (sound_parameters(), _ill("cylinder_leak"))]
    assert cause.returned == pytest.approx(light[0] - light[1], rel=0.05)
    assert leak.was_gained
    assert leak.is_certain
    assert [mass for mass, _ in leak.loss] == [LIGHT, HEAVY]


def test_what_carries_energy_off_is_not_what_a_repair_returns(leak: LossExplanation) -> None:
    """A leak carries off more than the ball lost by it, or less: the ledger says where energy went, a second run what it cost."""
    cause = next(cause for cause in leak.causes if cause.fault.key == "cylinder_leak")
    assert cause.carried_off > 0.0
    assert cause.carried_off != pytest.approx(cause.returned, rel=0.2)


def test_two_masses_contradict_causes_that_lose_otherwise(leak: LossExplanation) -> None:
    """A leak costs a heavy ball more: drag, spring and a choked nozzle do not; a loss that only heavy balls show is no leak."""
    plausibility = {cause.fault.key: cause.plausibility for cause in leak.causes}
    for key in ("seal_drag", "spring_weak", "choked_nozzle", "hop_too_hard", "break_away"):
        assert plausibility[key] is Plausibility.CONTRADICTED, key
    assert plausibility["worn_bore"] is Plausibility.NOT_ALONE


def test_one_mass_leaves_nearly_every_cause_standing() -> None:
    """Amounts, not causes: and the heavy ball is named as the test that would tell them apart."""
    found = _explained("cylinder_leak", masses=(LIGHT,))
    assert sum(cause.stands for cause in found.causes) >= 8
    assert all(cause.fit is None for cause in found.causes)
    assert any("One ball mass tells amounts, not causes" in note for note in found.notes)
    best = next(test for test in found.tests if test.ball_masses)
    assert max(best.ball_masses) == HEAVY
    apart = {frozenset(pair) for pair in best.separated}
    assert frozenset(("cylinder_leak", "seal_drag")) in apart
    assert frozenset(("cylinder_leak", "lip_leak")) not in apart


def test_leaks_stay_together_in_one_heap(leak: LossExplanation) -> None:
    """Ring, tube and lips cannot be told apart by shooting, nor by the sound of the shot."""
    standing = {cause.fault.key for cause in leak.causes if cause.stands}
    assert {"cylinder_leak", "lip_leak"} <= standing
    for test in leak.tests:
        assert frozenset(("cylinder_leak", "lip_leak")) not in {frozenset(pair) for pair in test.separated}


def test_a_gun_that_lost_is_read_the_other_way_round(leak: LossExplanation) -> None:
    """Before sound and after ill asks for the same amounts; what returns them is then still to be done."""
    masses = (LIGHT, HEAVY)
    lost = explain_loss(
        sound_gun(), before=fire(sound_parameters(), masses, None), after=fire(_ill("cylinder_leak"), masses, None)
    )
    assert not lost.was_gained
    assert leak.was_gained
    amounts = [{cause.fault.key: cause.amount for cause in found.causes} for found in (leak, lost)]
    assert amounts[0] == pytest.approx(amounts[1], rel=1e-6)
    assert any("The work is done" in note for note in leak.notes)
    assert not any("The work is done" in note for note in lost.notes)


def test_the_hop_up_cannot_have_slowed_balls_that_were_fired_without_it() -> None:
    """Strings with the hop-up off leave it out as a cause."""
    ill = with_fault(sound_parameters(), FAULTS["seal_drag"], FAULTS["seal_drag"].ordinary)
    before, after = (fire(gun, [LIGHT, HEAVY], None, hop=HopState.OFF) for gun in (ill, sound_parameters()))
    found = explain_loss(sound_gun(), before=before, after=after)
    pressed = next(cause for cause in found.causes if cause.fault.key == "hop_too_hard")
    assert pressed.plausibility is Plausibility.NOT_ALONE
    assert pressed.share_explained == pytest.approx(0.0, abs=0.01)
    drag = next(cause for cause in found.causes if cause.fault.key == "seal_drag")
    assert drag.amount == pytest.approx(FAULTS["seal_drag"].ordinary, rel=0.03)


def test_a_string_counts_once_and_only_beside_its_like() -> None:
    """Semi is held against semi, automatic against automatic: two masses stay two losses."""
    before = [*fire(_ill("seal_drag"), [LIGHT], None, fire_mode=FireMode.SEMI)]
    before += fire(_ill("seal_drag"), [LIGHT], None, fire_mode=FireMode.AUTOMATIC)
    after = [*fire(sound_parameters(), [LIGHT], None, fire_mode=FireMode.AUTOMATIC)]
    after += fire(sound_parameters(), [LIGHT], None, fire_mode=FireMode.SEMI)
    found = explain_loss(sound_gun(), before=before, after=after)
    assert len(found.loss) == 2


def test_no_difference_names_no_cause() -> None:
    """Two sound strings have nothing to explain: no cause, no test, no note."""
    strings = fire(sound_parameters(), [LIGHT, HEAVY], None)
    found = explain_loss(sound_gun(), before=strings, after=strings)
    assert not found.is_certain
    assert found.causes == ()
    assert found.tests == ()
    assert found.held == ()


def test_what_a_day_does_to_all_strings_is_no_change() -> None:
    """Strings that all moved by half a per cent show none, unless it is known that days do not differ."""
    before = fire(sound_parameters(), [LIGHT, HEAVY], None)
    after = [_slowed(string, 0.995) for string in before]
    assert explain_loss(sound_gun(), before=before, after=after).causes == ()
    known = explain_loss(sound_gun(), before=before, after=after, between_days=0.0)
    assert known.is_certain
    assert not known.was_gained


def test_causes_stand_by_how_well_they_fit(leak: LossExplanation) -> None:
    """First those that stand, the best fit before others; the leak that was there before the dry box that is like it."""
    stands = [cause.stands for cause in leak.causes]
    assert stands == sorted(stands, reverse=True)
    fits = [cause.fit for cause in leak.causes if cause.stands and cause.fit is not None]
    assert fits == sorted(fits, reverse=True)
    keys = [cause.fault.key for cause in leak.causes]
    assert keys[0] == "cylinder_leak"
    assert keys.index("dry_box") > keys.index("lip_leak")


def test_one_ball_puts_no_cause_before_another_by_its_fit() -> None:
    """Nothing fits better than anything; what is several faults at once does not lead."""
    found = _explained("cylinder_leak", masses=(LIGHT,))
    assert [cause.fault.heap for cause in found.causes if cause.stands][-1] == "several"


def test_a_standing_cause_loses_by_its_own_run_what_was_lost(leak: LossExplanation) -> None:
    """Each cause that stands, run anew, loses with each ball what was lost, but for what is left open."""
    for cause in leak.causes:
        speeds = muzzle_speeds(with_fault(leak.sound_gun, cause.fault, cause.amount), [LIGHT, HEAVY])
        lost = 1.0 - speeds / muzzle_speeds(leak.sound_gun, [LIGHT, HEAVY])
        if cause.stands:
            assert lost == pytest.approx([share for _, share in leak.loss], abs=0.025), cause.fault.key


@pytest.fixture(scope="module")
def carbine() -> Gun:
    """The short carbine, which has a port that ends 15.6 mm forward, as the template writes it."""
    with tempfile.TemporaryDirectory() as folder:
        file = Path(folder) / "gun.toml"
        file.write_text(gun_template(name="short", layout="short_carbine"), encoding="utf-8")
        return load_gun(file)


def test_a_port_that_no_cylinder_has_is_no_cause(carbine: Gun) -> None:
    """A port that ended 23 mm further forward would cost a quarter of the speed, but lies beyond half of the stroke."""
    sound = complete(carbine).parameters
    before = fire(with_fault(sound, FAULTS["wrong_port"], 0.023), (LIGHT, HEAVY), None)
    found = explain_loss(carbine, before=before, after=fire(sound, (LIGHT, HEAVY), None))
    assert found.was_gained
    port = next(cause for cause in found.causes if cause.fault.key == "wrong_port")
    assert not port.stands
    assert port.fault.largest == pytest.approx(FAULTS["wrong_port"].largest - 0.0156)


def test_a_search_that_falls_over_a_cliff_is_bracketed(carbine: Gun) -> None:
    """Far forward such a port costs nothing, then everything within a millimetre: the amount found still loses what was lost."""
    sound = complete(carbine).parameters
    fault = FAULTS["wrong_port"]
    after = fire(sound, [LIGHT], None)
    before = [_slowed(after[0], 0.90)]
    loss = pair_losses(before, after)
    amount = needed(grow(sound, fault, loss), loss).value
    speeds = [float(muzzle_speeds(gun, [LIGHT])[0]) for gun in (sound, with_fault(sound, fault, amount))]
    assert 1.0 - speeds[1] / speeds[0] == pytest.approx(0.10, abs=0.01)


def test_a_port_that_the_file_rules_out_is_never_ordinary() -> None:
    """Whoever looked and found none would have to have changed the cylinder: large, but possible."""
    gun = sound_gun()
    assert gun.written["cylinder.ported"].value is False
    short = dataclasses.replace(gun, written={**gun.written, "barrel.length": Written(value=0.590, text="590 mm")})
    silent = dataclasses.replace(short, written={key: one for key, one in short.written.items() if key != "cylinder.ported"})
    found = {}
    for name, one in (("written", short), ("silent", silent)):
        sound = complete(one).parameters
        before = fire(with_fault(sound, FAULTS["wrong_port"], 0.022), (LIGHT, HEAVY), None)
        explained = explain_loss(one, before=before, after=fire(sound, (LIGHT, HEAVY), None))
        found[name] = next(cause for cause in explained.causes if cause.fault.key == "wrong_port").plausibility
    assert found == {"written": Plausibility.LARGE, "silent": Plausibility.ORDINARY}


def test_what_was_measured_before_is_held_against_what_causes_need() -> None:
    """The drag that did it agrees with the drag that was found; a drag that was found sound explains nothing."""
    amount = FAULTS["seal_drag"].ordinary
    before = fire(_ill("seal_drag"), (LIGHT, HEAVY), None)
    after = fire(sound_parameters(), (LIGHT, HEAVY), None)
    was = sound_parameters().piston.seal_drag
    [read] = explain_loss(sound_gun(), before=before, after=after, as_found={"piston_drag": was + amount}).held
    assert read.share == pytest.approx(1.0, abs=0.03)
    needs = {need.fault.key: need for need in read.needs}
    assert needs["seal_drag"].agrees
    assert needs["seal_drag"].needed == pytest.approx(was + amount, rel=0.03)
    [nothing] = explain_loss(sound_gun(), before=before, after=after, as_found={"piston_drag": was}).held
    assert nothing.share == pytest.approx(0.0, abs=1e-6)
    assert not any(need.agrees or need.found_is_more for need in nothing.needs)
    # A gun that lost in the work had its as-found reading while it was sound: nothing to hold against.
    assert explain_loss(sound_gun(), before=after, after=before, as_found={"piston_drag": was}).held == ()


def test_bare_speeds_take_the_ball_of_the_gun() -> None:
    """Two plain lists are enough; the ball is that of the gun's file."""
    slow, fast = ([speed - 0.4, speed, speed + 0.4] for speed in (90.0, 100.0))
    found = explain_loss(sound_gun(), before=slow, after=fast)
    [(mass, share)] = found.loss
    assert mass == 0.2e-3
    assert share == pytest.approx(0.10, abs=0.001)


def test_different_balls_explain_nothing() -> None:
    """A message says what to fire."""
    before, after = fire(sound_parameters(), [LIGHT], None), fire(sound_parameters(), [HEAVY], None)
    with pytest.raises(InputError, match="No ball mass was fired both before and after"):
        explain_loss(sound_gun(), before=before, after=after)
    with pytest.raises(InputError, match="There is no string before"):
        explain_loss(sound_gun(), before=[], after=after)


def test_a_wrong_reading_is_no_fault_of_the_catalogue() -> None:
    """A heavy ball that lost nothing while the light one lost a fifth fits no single cause."""
    before, after = fire(sound_parameters(), [LIGHT, HEAVY], None), fire(sound_parameters(), [LIGHT, HEAVY], None)
    found = explain_loss(sound_gun(), before=[_slowed(before[0], 0.8), before[1]], after=after)
    assert not any(cause.stands for cause in found.causes)
    assert any("No single fault of the catalogue explains the loss" in note for note in found.notes)
    assert found.tests == ()


@pytest.mark.parametrize("layout", list(load_guns()))
def test_every_typical_gun_can_be_explained(layout: str, tmp_path: Path) -> None:
    """Short or long barrel, ported or not: a loss of a tenth finds causes, and none makes the model fail."""
    file = tmp_path / "gun.toml"
    file.write_text(gun_template(name="any", layout=layout), encoding="utf-8")
    gun = load_gun(file)
    after = fire(complete(gun).parameters, [LIGHT], None)
    found = explain_loss(gun, before=[_slowed(after[0], 0.9)], after=after)
    assert sum(cause.stands for cause in found.causes) >= 5


@pytest.fixture(scope="module")
def twentieth() -> LossExplanation:
    """A loss of 5 % with the light ball."""
    string = fire(sound_parameters(), [LIGHT], None)[0]
    return explain_loss(sound_gun(), before=[_slowed(string, 0.95)], after=[string])


# Signs from a sketch of such a gun, for a loss of 5 % with 0.20 g (an estimate, no source): how much more a ball of 0.40 g loses,
# and whether the piston comes home earlier (-1) or later (+1).
@pytest.mark.parametrize(
    ("key", "low", "high", "home"),
    [
        ("spring_weak", 0.9, 1.2, +1),
        ("spring_set", 0.9, 1.2, +1),
        ("seal_drag", 0.8, 1.1, +1),
        ("cylinder_leak", 1.3, 2.0, -1),
        ("lip_leak", 1.3, 2.0, -1),
        ("bore_friction", 1.2, 1.7, +1),
        ("choked_nozzle", 0.3, 0.9, +1),
        ("hop_too_hard", 1.5, 6.0, +1),
        ("break_away", 1.5, 6.0, +1),
    ],
)
def test_causes_show_as_a_sketch_has_them(twentieth: LossExplanation, key: str, low: float, high: float, home: int) -> None:
    """Heavy balls lose more by leaks and by the hop-up, less by a choked nozzle; leaks bring the piston home early."""
    signature = next(cause for cause in twentieth.causes if cause.fault.key == key).signature
    assert signature.light_loss == pytest.approx(0.05, abs=0.003)
    assert signature.loss_ratio is not None
    assert low < signature.loss_ratio < high
    assert signature.piston_home_shift is not None
    assert np.sign(signature.piston_home_shift) == home
