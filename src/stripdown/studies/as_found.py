"""What was measured before the work, held against what each cause would need, and how much of the loss it explains by itself."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from stripdown.bench.as_found import AS_FOUND_READINGS
from stripdown.catalogue.defaults import load_defaults
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.quantities import leaves, replace_at, value_at
from stripdown.studies.faulty_gun import with_fault
from stripdown.studies.loss_causes import AsFoundNeed, AsFoundReading, Cause
from stripdown.studies.loss_curves import mean_loss
from stripdown.studies.loss_pairs import LossPairs

_QUANTITIES = {leaf.path: leaf.quantity for leaf in leaves(ShotParameters) if leaf.quantity is not None}


def held_against(
    sound: ShotParameters, loss: LossPairs, causes: Sequence[Cause], as_found: Mapping[str, float]
) -> tuple[AsFoundReading, ...]:
    """Hold what was measured before the work against the causes that stand."""
    held = []
    for key, read in as_found.items():
        path = AS_FOUND_READINGS[key].path
        was = float(value_at(sound, path))
        found = was - read if AS_FOUND_READINGS[key].is_lost else read
        # A reading is worth no more than parts of its kind differ: a spring scale by a newton, a bore by some hundredths.
        doubt = load_defaults()[path].tolerance or 0.0
        needs = []
        for cause in causes:
            ends = [amount for amount in (cause.low, cause.amount, cause.high) if amount is not None]
            values = [float(value_at(with_fault(sound, cause.fault, amount), path)) for amount in ends]
            if any(value != was for value in values):
                agrees = min(values) - doubt <= found <= max(values) + doubt
                needs.append(
                    AsFoundNeed(
                        fault=cause.fault, needed=values[1], found_is_more=abs(found - was) > abs(values[1] - was), agrees=agrees
                    )
                )
        held.append(
            AsFoundReading(
                key=key,
                path=path,
                quantity=_QUANTITIES[path],
                sound=was,
                found=found,
                share=mean_loss(sound, replace_at(sound, path, found), loss.strings) / float(loss.values.mean()),
                needs=tuple(needs),
            )
        )
    return tuple(held)
