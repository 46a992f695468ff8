"""What an explained loss consists of: causes, how believable they are, what else they show, and what would tell them apart."""

from __future__ import annotations

import enum
from dataclasses import dataclass

from stripdown.catalogue.faults import Fault
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.interior_ballistics.result import EnergyLedger
from stripdown.quantities import Q

GROWTH_DISCREPANCY = 0.10
"""How far the model's own word on a loss may be off in its growth per factor e of ball mass, share of the loss (estimate)."""

BALL_DISCREPANCY = 0.02
"""The same for each ball mass by itself, share of the loss: balls of another mass are another make and diameter (estimate)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class JointChange:
    """What all strings together say of whether anything changed.

    Parameters
    ----------
    share
        Change of speed, the mean of all strings, as a share; positive where the gun is faster after.
    low, high
        Its 95 % interval.
    chance
        Of a change as large between two days on which nothing was done.
    degrees_of_freedom
        Of Student's t, after Welch.
    between_days
        What two days differ by in themselves, as a standard deviation, share of the speed; in the interval.
    """

    share: float
    low: float
    high: float
    chance: float
    degrees_of_freedom: float
    between_days: float

    @property
    def is_certain(self) -> bool:
        """Whether the interval leaves zero out."""
        return self.low > 0.0 or self.high < 0.0


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
class AsFoundNeed:
    """What a reading would have had to show if one fault were the cause: `needed`, SI; `agrees` within its interval."""

    fault: Fault
    needed: float
    found_is_more: bool
    agrees: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class AsFoundReading:
    """One measurement from before the work.

    Parameters
    ----------
    key
        Of the reading (``"piston_drag"``).
    path, quantity
        Parameter of a shot that it shows.
    sound, found
        Of the sound gun, and as found, SI.
    share
        Share of the loss that it explains by itself.
    needs
        What each cause that stands and moves it would need.
    """

    key: str
    path: str
    quantity: Q
    sound: float
    found: float
    share: float
    needs: tuple[AsFoundNeed, ...]


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
    change
        Whether anything changed at all: one test over all strings.
    causes
        Those that stand first, those that fit best before others; none without a change.
    sound_signature
        The sound gun's own times.
    sound_ledger
        Where the energy goes in the sound gun.
    held
        What was measured before the work, held against the causes that stand.
    tests
        Most telling first; empty if at most one cause stands, or nothing would tell them apart.
    notes
        Sentences that must stand beside the numbers.
    """

    sound_gun: ShotParameters
    was_gained: bool
    loss: tuple[tuple[float, float], ...]
    change: JointChange
    causes: tuple[Cause, ...]
    sound_signature: Signature
    sound_ledger: EnergyLedger
    held: tuple[AsFoundReading, ...]
    tests: tuple[TellingTest, ...]
    notes: tuple[str, ...]

    @property
    def is_certain(self) -> bool:
        """Whether there is anything to explain."""
        return self.change.is_certain

    @property
    def standing(self) -> tuple[Cause, ...]:
        """Causes that the strings leave."""
        return tuple(cause for cause in self.causes if cause.stands)

    @property
    def leading(self) -> tuple[Cause, ...]:
        """The same, those of an ordinary amount before others: what to draw and to name in short."""
        return tuple(sorted(self.standing, key=lambda cause: cause.plausibility is not Plausibility.ORDINARY))
