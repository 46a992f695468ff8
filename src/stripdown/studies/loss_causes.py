"""What an explained loss consists of: causes, how believable they are, what else they show, and what would tell them apart."""

from __future__ import annotations

import enum
from dataclasses import dataclass

from stripdown.catalogue.faults import Fault
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.interior_ballistics.result import EnergyLedger

GROWTH_DISCREPANCY = 0.10
"""How far the model's own word on a loss may be off in its growth per factor e of ball mass, share of the loss (estimate)."""

BALL_DISCREPANCY = 0.02
"""The same for each ball mass by itself, share of the loss: balls of another mass are another make and diameter (estimate)."""


class Plausibility(enum.Enum):
    """How believable the amount of a cause is."""

    ORDINARY = "ordinary amount"
    LARGE = "large amount, but possible"
    NOT_ALONE = "cannot do it alone"
    CONTRADICTED = "does not fit all strings"


@dataclass(frozen=True, slots=True, kw_only=True)
class Signature:
    """What else a cause shows, at the amount that explains the loss."""

    light_loss: float
    heavy_loss: float
    piston_home_shift: float | None
    muzzle_to_slam: float | None

    @property
    def loss_ratio(self) -> float | None:
        """Loss with 0.40 g over loss with 0.20 g; None without a loss."""
        return self.heavy_loss / self.light_loss if self.light_loss > 0.0 else None


@dataclass(frozen=True, slots=True, kw_only=True)
class Cause:
    """One fault as the single cause of the loss.

    Parameters
    ----------
    fault
        From the catalogue.
    amount
        How much of it explains the loss, SI; the largest believable if that is not enough.
    low, high
        Interval of amounts that the strings leave, SI; both None if it cannot do it alone.
    plausibility
        Whether that is believable.
    share_explained
        Share of the loss that it can explain, 0 to 1.
    fit
        Chance of strings that scatter as much around this cause; None with one ball mass, where anything fits.
    signature
        What else it shows.
    ledger
        Where the energy goes with it, the gun's ball.
    carried_off
        Energy that its own entry of the ledger takes more than in the sound gun, in J.
    returned
        Energy that the ball gains when it is repaired: a second run, in J.
    """

    fault: Fault
    amount: float
    low: float | None
    high: float | None
    plausibility: Plausibility
    share_explained: float
    fit: float | None
    signature: Signature
    ledger: EnergyLedger
    carried_off: float
    returned: float

    @property
    def stands(self) -> bool:
        """Whether the strings leave it as the single cause."""
        return self.plausibility in (Plausibility.ORDINARY, Plausibility.LARGE)


@dataclass(frozen=True, slots=True, kw_only=True)
class TellingTest:
    """A test that would tell causes apart."""

    ball_masses: tuple[float, ...]
    separated: tuple[tuple[str, str], ...]
    undecided: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class LossExplanation:
    """What may have cost the velocity.

    Parameters
    ----------
    sound_gun
        Model matched to the faster string.
    was_gained
        True if the gun is faster after than before: the service took the cause away.
    loss
        Share of muzzle speed between the slower and the faster string, by ball mass in kg.
    is_certain
        Whether the loss is larger than its 95 % uncertainty with some ball.
    causes
        Those that stand first, ordinary before large.
    sound_signature
        The sound gun's own times.
    sound_ledger
        Where the energy goes in the sound gun.
    tests
        Most telling first; empty if at most one cause stands, or nothing would tell them apart.
    notes
        Sentences that must stand beside the numbers.
    """

    sound_gun: ShotParameters
    was_gained: bool
    loss: tuple[tuple[float, float], ...]
    is_certain: bool
    causes: tuple[Cause, ...]
    sound_signature: Signature
    sound_ledger: EnergyLedger
    tests: tuple[TellingTest, ...]
    notes: tuple[str, ...]
