"""Can the chain be closed at all? Every demand on the gears as a greatest difference of two places along the axles.

A gear pushed left stands at p, the thickness of its left shims; pushed right at q, its play less its right shims. Float,
height, clearance and the bearings each say how far one such place may lie to the right of another. Such demands contradict
each other exactly if going round some circle of them adds up to less than nothing, and that circle names the culprits.
"""

from __future__ import annotations

from collections.abc import Iterator, Sequence
from dataclasses import dataclass, replace

from stripdown.core.shim_selection.play import Play, play_of
from stripdown.core.shim_selection.seats import GearClearance, GearSeat, Unclosable
from stripdown.core.shim_selection.tray import metres, millimetres, nanometres

BEARING = 0  # number of the place from which all are counted


@dataclass(frozen=True, slots=True, kw_only=True)
class Demand:
    """Place `other` lies at most so far to the right of place `one`.

    Parameters
    ----------
    one, other
        Numbers of the places.
    most
        In nm.
    fact
        Where it comes from, in words.
    is_mesh
        Whether it is a height or a clearance, and not of one gear's play alone.
    """

    one: int
    other: int
    most: int
    fact: str
    is_mesh: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class Chain:
    """All demands on a gear train.

    Parameters
    ----------
    plays
        Of each gear, in the order of the seats.
    demands
        Of all of them.
    """

    plays: tuple[Play, ...]
    demands: tuple[Demand, ...]

    def room(self) -> list[list[int | None]]:
        """The tightest consequence of all demands together, for a chain that can be closed.

        Returns
        -------
        list of list of int or None
            ``room[i][j]``: place j lies at most so many nm to the right of place i; None for no limit.
        """
        count = 1 + 2 * len(self.plays)
        room: list[list[int | None]] = [[0 if i == j else None for j in range(count)] for i in range(count)]
        for demand in self.demands:
            known = room[demand.one][demand.other]
            room[demand.one][demand.other] = demand.most if known is None else min(known, demand.most)
        for via in range(count):
            for one in range(count):
                for other in range(count):
                    first, second, known = room[one][via], room[via][other], room[one][other]
                    if first is not None and second is not None and (known is None or first + second < known):
                        room[one][other] = first + second
        return room

    def contradiction(self) -> tuple[Demand, ...]:
        """Demands that cannot all be met, and of which none is idle.

        Returns
        -------
        tuple of Demand
            In a circle; empty if the chain can be closed.
        """
        count = 1 + 2 * len(self.plays)
        place, reason = [0] * count, [self.demands[0]] * count
        moved = BEARING
        for _ in range(count):
            moved = -1
            for demand in self.demands:
                if place[demand.one] + demand.most < place[demand.other]:
                    place[demand.other] = place[demand.one] + demand.most
                    reason[demand.other] = demand
                    moved = demand.other
            if moved < 0:
                return ()
        for _ in range(count):  # back far enough to be on the circle, not on the way to it
            moved = reason[moved].one
        circle = [reason[moved]]
        while circle[-1].one != moved:
            circle.append(reason[circle[-1].one])
        return tuple(circle)


def chain_of(seats: Sequence[GearSeat], clearances: Sequence[GearClearance], *, blur: int = 0) -> Chain:
    """Write down every demand on a gear train.

    Parameters
    ----------
    seats
        One for each gear.
    clearances
        Between them.
    blur
        What else the thickness of one gear's shims may be wrong by, in nm.

    Returns
    -------
    Chain

    Raises
    ------
    OutOfRange
        For an impossible play or band.
    """
    plays = tuple(play_of(gap=seat.gap, gap_uncertainty=seat.gap_uncertainty, float_band=seat.float_band) for seat in seats)
    demands = [demand for number in range(len(seats)) for demand in _of_gear(number, seats[number], plays[number], blur)]
    number_of = {seat.gear: number for number, seat in enumerate(seats)}
    for clearance in clearances:
        left, right = number_of[clearance.left], number_of[clearance.right]
        spare = nanometres(clearance.measured) - nanometres(clearance.uncertainty) - nanometres(clearance.least)
        most = spare - plays[left].uncertainty - 2 * blur
        demands.append(Demand(one=pushed_left(right), other=pushed_right(left), most=most, fact=clearance.words, is_mesh=True))
    return Chain(plays=plays, demands=tuple(demands))


def why_unclosable(seats: Sequence[GearSeat], clearances: Sequence[GearClearance], chain: Chain) -> Unclosable | None:
    """Say why a chain cannot be closed.

    Parameters
    ----------
    seats
        One for each gear.
    clearances
        Between them.
    chain
        Their demands.

    Returns
    -------
    Unclosable or None
        None if it can be closed.
    """
    circle = chain.contradiction()
    if not circle:
        return None
    exact = chain_of(
        [replace(seat, gap_uncertainty=0.0) for seat in seats], [replace(clearance, uncertainty=0.0) for clearance in clearances]
    )
    closes = not exact.contradiction()
    facts = tuple(dict.fromkeys(demand.fact for demand in circle))
    short = -sum(demand.most for demand in circle)
    clash = (
        f"{_listed(facts)} contradict each other by {millimetres(short)}" if len(facts) > 1 else f"The {facts[0]} cannot be had"
    )
    if closes:
        advice = "as uncertain as they were measured; taken as exact they would agree. Measure again before anything else."
    elif any(demand.is_mesh for demand in circle):
        advice = (
            "whatever shims are put in: the bearing seats are wrong, or a measurement is. "
            "Do not split the difference at the teeth."
        )
    else:
        advice = "whatever shims are put in: look at the bearings' seats and the axle's ends, and measure again."
    return Unclosable(facts=facts, short_by=metres(short), closes_as_measured=closes, sentence=f"{clash}, {advice}")


def pushed_left(number: int) -> int:
    """Place of a gear that is pushed left.

    Parameters
    ----------
    number
        Of the gear's seat, a count from 0.

    Returns
    -------
    int
    """
    return 1 + 2 * number


def pushed_right(number: int) -> int:
    """Place of a gear that is pushed right, if its play is as measured.

    Parameters
    ----------
    number
        Of the gear's seat, a count from 0.

    Returns
    -------
    int
    """
    return 2 + 2 * number


def _of_gear(number: int, seat: GearSeat, play: Play, blur: int) -> Iterator[Demand]:
    left, right = pushed_left(number), pushed_right(number)
    name = f"{seat.gear.value} gear"
    doubt = play.uncertainty + blur

    def demand(one: int, other: int, most: int, fact: str, *, is_mesh: bool = False) -> Demand:
        return Demand(one=one, other=other, most=most, fact=f"{fact} of the {name}", is_mesh=is_mesh)

    yield demand(left, BEARING, 0, "left bearing")
    yield demand(BEARING, right, play.gap, "right bearing")
    yield demand(left, right, play.high - doubt, "greatest float")
    yield demand(right, left, -play.low - doubt, "least float")
    if seat.height is not None and seat.height_tolerance is not None:
        height, tolerance = nanometres(seat.height), nanometres(seat.height_tolerance)
        yield demand(left, BEARING, tolerance - height - blur, "height", is_mesh=True)
        yield demand(BEARING, right, height + tolerance - doubt, "height", is_mesh=True)


def _listed(facts: Sequence[str]) -> str:
    words = f"{', '.join(facts[:-1])} and {facts[-1]}"
    return words[0].upper() + words[1:]
