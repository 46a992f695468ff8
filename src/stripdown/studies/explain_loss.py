"""Why a gun shot slower before than after: how much of each single cause would do it, is that believable, and what else shows?

The sound gun is the model matched to the faster string. Each fault of the catalogue is then grown until the model loses what the
strings lost; several ball masses must be lost with one amount. Causes that the strings leave standing are told apart by what they
would do with another ball, or to the sound of the shot.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence

from stripdown.bench.gun import Gun
from stripdown.bench.strings import USUAL_BETWEEN_DAYS
from stripdown.catalogue.faults import Fault, load_faults
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.interior_ballistics.result import EnergyLedger
from stripdown.core.interior_ballistics.simulate import integrate_shot, integrate_shots
from stripdown.core.parts.conditions import Conditions
from stripdown.studies.as_found import held_against
from stripdown.studies.faulty_gun import fault_of, with_fault
from stripdown.studies.loss_causes import Cause, LossExplanation, Plausibility, Signature
from stripdown.studies.loss_curves import Amount, doubts, grow, needed, own_run
from stripdown.studies.loss_pairs import LossPairs, pair_losses
from stripdown.studies.match_chronograph import match_chronograph
from stripdown.studies.observation import Observation, as_observations
from stripdown.studies.telling_tests import telling_tests

_CONTRADICTED = 0.01
LIGHT_BALL, HEAVY_BALL = 0.20e-3, 0.40e-3


def explain_loss(
    gun: Gun,
    *,
    before: Iterable[float | Observation],
    after: Iterable[float | Observation],
    ball_mass: float | None = None,
    distance: float = 0.0,
    conditions: Conditions | None = None,
    between_days: float = USUAL_BETWEEN_DAYS,
    as_found: Mapping[str, float] | None = None,
) -> LossExplanation:
    """Explain the difference between the strings before and after by one cause at a time.

    Parameters
    ----------
    gun
        The sound gun, as loaded from its file.
    before, after
        Observations, or one string of speeds in m/s each.
    ball_mass
        Of bare strings, in kg; None for the ball of the gun's file.
    distance
        Of bare strings: from the muzzle to the middle between the screens, in m.
    conditions
        The day; None is a workshop at 20 °C.
    between_days
        What two days differ by in themselves, as a standard deviation, share of the speed.
    as_found
        What was measured before the work, SI, by the keys of `AS_FOUND_READINGS`.

    Returns
    -------
    LossExplanation
        Without causes where the strings show no change.

    Raises
    ------
    InputError
        If a string is missing, or both occasions share no ball mass.

    Notes
    -----
    One cause at a time: several small ones together do the same, and no string can count them. What is common to all
    strings of a gun cancels in the difference. The interval of an amount is where the misfit rises by the 95 % point, with
    the scatter of the strings, the tolerances of the gun's dimensions and the model's own doubt in it.
    """
    if ball_mass is None:
        written = gun.written.get("ball.mass")
        ball_mass = float(written.value) if written is not None and isinstance(written.value, float) else LIGHT_BALL
    first = as_observations(before, ball_mass=ball_mass, distance=distance, what="before")
    second = as_observations(after, ball_mass=ball_mass, distance=distance, what="after")
    loss = pair_losses(first, second, between_days=between_days)
    was_gained = loss.change.share >= 0.0
    if not was_gained:
        loss = loss.turned()
    sound = match_chronograph(gun, strings=second if was_gained else first, conditions=conditions).parameters
    reference = integrate_shot(sound)
    signature = _signature(sound, sound)
    causes = _causes(gun, sound, loss, reference.ledger) if loss.change.is_certain else ()
    standing = [cause for cause in causes if cause.stands]
    tests = telling_tests(sound, signature, standing, [string.ball_mass for string in loss.strings])
    return LossExplanation(
        sound_gun=sound,
        was_gained=was_gained,
        loss=tuple((string.ball_mass, 1.0 - math.exp(-value)) for string, value in zip(loss.strings, loss.values, strict=True)),
        change=loss.change,
        causes=causes,
        sound_signature=signature,
        sound_ledger=reference.ledger,
        tests=tests,
        held=held_against(sound, loss, standing, (as_found or {}) if was_gained and causes else {}),
        notes=_notes(loss, standing, is_past=was_gained and bool(tests)) if causes else (),
    )


def _causes(gun: Gun, sound: ShotParameters, loss: LossPairs, reference: EnergyLedger) -> tuple[Cause, ...]:
    """Every fault of the catalogue as the single cause: those that the strings leave first, by how well they fit."""
    curves = [grow(sound, fault_of(sound, fault), loss) for fault in load_faults().values()]
    first_amounts = [(curve.fault, needed(curve, loss).value) for curve in curves]
    left_open = doubts(sound, loss.strings, first_amounts)
    amounts = [needed(curve, loss, doubt) for curve, doubt in zip(curves, left_open, strict=True)]
    ill = [(curve.fault, amount.value) for curve, amount in zip(curves, amounts, strict=True)]
    causes = []
    for (fault, value), amount, (fit, meets) in zip(ill, amounts, own_run(sound, loss, ill, left_open), strict=True):
        gun_with_it = with_fault(sound, fault, value)
        ledger = integrate_shot(gun_with_it).ledger
        causes.append(
            Cause(
                fault=fault,
                amount=value,
                low=amount.low,
                high=amount.high,
                plausibility=_plausibility(gun, fault, amount, fit, meets=meets),
                share_explained=amount.share,
                fit=fit,
                signature=_signature(sound, gun_with_it),
                ledger=ledger,
                carried_off=_carried_off(fault, reference, ledger),
                returned=reference.ball_flight - ledger.ball_flight,
            )
        )
    return tuple(sorted(causes, key=_place))


def _place(cause: Cause) -> tuple[int, float, bool, float]:
    """Where a cause stands in the list: what the strings leave, what they fit best, one fault before several together."""
    fit = 0.0 if cause.fit is None else cause.fit
    fallen = (Plausibility.NOT_ALONE, Plausibility.CONTRADICTED)
    return (
        1 + fallen.index(cause.plausibility) if cause.plausibility in fallen else 0,
        -fit,
        cause.fault.heap == "several",
        cause.amount / cause.fault.ordinary,
    )


def _plausibility(gun: Gun, fault: Fault, amount: Amount, fit: float | None, *, meets: bool) -> Plausibility:
    if amount.low is None:
        return Plausibility.NOT_ALONE
    if not meets or (fit is not None and fit < _CONTRADICTED):
        return Plausibility.CONTRADICTED
    # Whoever looked and found no port would have to have changed the cylinder: possible, and not what commonly happens.
    ported = gun.written.get("cylinder.ported")
    is_unusual = fault.heap == "port" and ported is not None and ported.value is False
    return Plausibility.ORDINARY if amount.value <= fault.ordinary and not is_unusual else Plausibility.LARGE


def _signature(sound: ShotParameters, ill: ShotParameters) -> Signature:
    runs = [
        integrate_shots(parameters, variations={"ball.mass": [LIGHT_BALL, HEAVY_BALL]}, tolerance=1e-6).rows
        for parameters in (sound, ill)
    ]
    (light_sound, heavy_sound), (light, heavy) = (run["muzzle_speed"] for run in runs)
    home_sound, home = (float(run["time_to_slam"][0]) for run in runs)
    muzzle = float(runs[1]["time_to_muzzle"][0])
    return Signature(
        light_loss=float(1.0 - light / light_sound),
        heavy_loss=float(1.0 - heavy / heavy_sound),
        piston_home_shift=home - home_sound if min(home, home_sound) >= 0.0 else None,
        muzzle_to_slam=home - muzzle if min(home, muzzle) >= 0.0 else None,
    )


def _carried_off(fault: Fault, sound: EnergyLedger, ill: EnergyLedger) -> float:
    change = float(getattr(ill, fault.entry)) - float(getattr(sound, fault.entry))
    return -change if fault.entry == "put_in" else change


def _notes(loss: LossPairs, standing: Sequence[Cause], *, is_past: bool) -> tuple[str, ...]:
    notes = ["One cause at a time: several small ones together do the same, and no string can count them."]
    if len(loss.values) == 1:
        notes.append("One ball mass tells amounts, not causes: nearly every cause fits it, and their order says nothing.")
    if is_past:
        notes.append("The work is done, so what would tell the causes apart is for the next gun that comes in like this one.")
    if not standing:
        notes.append("No single fault of the catalogue explains the loss: look for two at once, or for a wrong reading.")
    return tuple(notes)
