"""What strings, causes and predictions claim of guns whose truth comes from other laws, hidden numbers and makes of ball.

Few derandomised guns and services run always; the large study, which writes docs/validation-explain.md, only by `make validate`.
What it finds of each gun is kept outside the repository (`STRIPDOWN_STUDIES`), so that it can be stopped and resumed.
"""

from __future__ import annotations

import itertools
from collections.abc import Sequence
from pathlib import Path
from typing import Any

import numpy as np
import pytest
from scipy.integrate import solve_ivp

from stripdown.studies.loss_pairs import pair_losses
from stripdown.studies.observation import Observation, observe
from tests.fired_strings import HEAVY, LIGHT, SCATTER, fire, sound_parameters
from tests.foreign_corpus import DIAMETER_SPREAD, FAMILIES, MASS_SPREAD
from tests.foreign_guns import Batch, draw_laws, foreign_speeds
from tests.foreign_studies import DAY, FAULTS, SPREAD_OF_LIMITS, Predicted, chances, explained, in_bins, predictions
from tests.published import Published

PAGE = Path(__file__).parents[3] / "docs" / "validation-explain.md"
SET, JUDGED = "orifice", ("gap", "own")
MIDDLE = 0.28e-3
MEANS = {LIGHT: 101.0, MIDDLE: 87.0, HEAVY: 71.5}
SERVICES, FEW_SERVICES, GUNS_WITH_A_FAULT = 2500, 300, 3
SOUND_GUNS = {(LIGHT,): 120, (LIGHT, HEAVY): 60, (HEAVY,): 40}
# Balls, shots in each string, steps of the display in m/s.
STRINGS: tuple[tuple[tuple[float, ...], int, float], ...] = (
    ((LIGHT,), 10, 0.0),
    ((LIGHT, HEAVY), 10, 0.0),
    ((LIGHT, MIDDLE, HEAVY), 5, 0.0),
    ((LIGHT, HEAVY), 3, 0.0),
    ((LIGHT, HEAVY), 10, 1.0),
)


def _services(count: int, masses: Sequence[float], shots: int, step: float, *, change: float = 0.0, day: float = DAY) -> float:
    """Share of services that are called certain to have changed something; days differ in themselves, and scatter is usual."""
    generator = np.random.default_rng((41, len(masses), shots, round(10 * step), round(1e4 * change), round(1e4 * day)))

    def side(faster: float) -> list[Observation]:
        alike = faster * (1.0 + day * float(generator.standard_normal()))
        strings = []
        for mass in masses:
            speeds = MEANS[mass] * alike * (1.0 + SCATTER * generator.standard_normal(shots))
            strings.append(observe(np.round(speeds / step) * step if step else speeds, ball_mass=mass))
        return strings

    certain = [pair_losses(side(1.0), side(1.0 + change)).change.is_certain for _ in range(count)]
    return float(np.mean(certain))


@pytest.mark.source(
    "derived", "services that change nothing, days that differ by 0.5 %", because="promised 5 %, binomial scatter"
)
@pytest.mark.parametrize(("masses", "shots", "step"), STRINGS)
def test_a_service_that_changes_nothing_is_seldom_called_a_change(
    published: Published, masses: tuple[float, ...], shots: int, step: float
) -> None:
    """Three hundred services, whatever was fired; a loss of a twentieth is seen in all but a few."""
    words = f"{len(masses)} balls, {shots} shots, steps of {step:g} m/s"
    published.within(
        f"called certain: {words}", found=_services(FEW_SERVICES, masses, shots, step), low=0.0, high=0.085, unit="1"
    )
    found = _services(100, masses, shots, step, change=0.05)
    published.within(f"a twentieth seen: {words}", found=found, low=0.97, high=1.0, unit="1")


@pytest.mark.source("derived", "guns of other laws, three of each family", because="binomial scatter of few guns")
def test_predictions_from_one_ball_cover_guns_of_other_laws(
    published: Published, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Bands are wide enough for laws that share nothing with the model, and still say something."""
    monkeypatch.setenv("STRIPDOWN_STUDIES", str(tmp_path))
    found = [one for family in JUDGED for one in predictions(family, 3, (LIGHT,), of=3)]
    published.within("share of predictions that hold", found=_held(found), low=0.80, high=1.0, unit="1")
    published.within("median half-width of a band", found=_half_width(found), low=0.0, high=0.06, unit="1")


@pytest.mark.source(
    "derived", "the same equations by SciPy's solve_ivp", because="its tolerance, and the smoothed corners of friction"
)
@pytest.mark.parametrize("family", ["orifice", "gap"])
def test_the_foreign_model_is_integrated_well(published: Published, family: str) -> None:
    """Fixed steps of fourth order meet an adaptive method of a general library; and a healthy gun shoots as healthy guns do."""
    gun = sound_parameters()
    law = draw_laws(family, np.random.default_rng(5), written=gun)
    batch = Batch([gun], [law], np.array([LIGHT]), np.array([gun.ball.diameter]))

    def leaves(_time: float, state: np.ndarray) -> float:
        return float(state[4] - batch.travel[0])

    leaves.terminal = True  # type: ignore[attr-defined]
    found = solve_ivp(
        lambda _time, state: batch.rates(batch.kept(state[:, np.newaxis].copy()))[:, 0],
        (0.0, 0.045),
        batch.at_rest()[:, 0],
        events=leaves,
        rtol=1e-7,
        atol=1e-10,
        max_step=5e-5,
    )
    fixed = float(foreign_speeds([gun], [law], ball_mass=[LIGHT], ball_diameter=[gun.ball.diameter])[0])
    published(f"muzzle speed, {family}", found=fixed, expected=float(found.y[5, -1]), unit="m/s", rtol=5e-4)
    published.within(f"muzzle speed of a healthy gun, {family}", found=fixed, low=75.0, high=120.0, unit="m/s")


def _held(found: Sequence[Predicted]) -> float:
    return float(np.mean([one.holds for one in found]))


def _half_width(found: Sequence[Predicted]) -> float:
    """Half of a 95 % band, the median, as a share of speed."""
    return float(np.median([1.96 * one.uncertainty / one.expected for one in found]))


@pytest.mark.slow
@pytest.mark.source("derived", "guns of other laws, services that change nothing", because="see each claim")
def test_every_claim_holds_beyond_the_model(published: Published) -> None:
    """Tolerances were set on one family of foreign laws; here the others judge. What is found is written to its page."""
    nothing = [(one, _services(SERVICES, *one)) for one in STRINGS]
    power = [(one, [_services(400, *one, change=change) for change in (0.01, 0.02, 0.03)]) for one in STRINGS]
    balls = {
        (fired, family): predictions(family, count, fired) for fired, count in SOUND_GUNS.items() for family in (SET, *JUDGED)
    }
    judged = [one for (_, family), found in balls.items() if family in JUDGED for one in found]
    light = [one for family in JUDGED for one in balls[(LIGHT,), family]]
    bins = in_bins(chances(light, seed=43))
    causes = {(family, key): explained(family, key, GUNS_WITH_A_FAULT) for family in FAMILIES for key in FAULTS}
    PAGE.write_text(_page(nothing, power, balls, bins, causes), encoding="utf-8")
    for (masses, shots, step), share in nothing:
        words = f"called certain: {len(masses)} balls, {shots} shots, steps of {step:g} m/s"
        published.within(words, found=share, low=0.0, high=0.06, unit="1")
    for (fired, family), found in balls.items():
        if family in JUDGED:
            words = f"{family} guns from {_grams(fired)}"
            published.within(f"bands that hold, {words}", found=_held(found), low=0.90, high=1.0, unit="1")
            published.within(f"half-width, {words}", found=_half_width(found), low=0.0, high=WIDEST[fired], unit="1")
    published.within("bands that hold, all", found=_held(judged), low=0.90, high=1.0, unit="1")
    for low, high, _, expected, exceeded in bins:
        words = f"shots over, of those expected, chances {low:.2f} to {high:.2f}"
        published.within(words, found=exceeded / expected, low=1 / 1.3, high=1.3, unit="1")
    told = [one for found in causes.values() for one in found if one["certain"]]
    inside = [one["interval"][0] <= one["true"] <= one["interval"][2] for one in told if one["interval"]]
    published.within("amounts in their intervals", found=float(np.mean(inside)), low=0.90, high=1.0, unit="1")
    ranks = _ranks(causes)
    published.within("true cause stands", found=float(np.mean([rank > 0 for rank in ranks])), low=0.90, high=1.0, unit="1")
    published.within("true cause first", found=float(np.mean([rank == 1 for rank in ranks])), low=0.30, high=1.0, unit="1")
    first = float(np.mean([0 < rank <= _THREE for rank in ranks]))
    published.within("true cause among the first three", found=first, low=0.70, high=1.0, unit="1")
    leads = float(np.mean([rank == 1 for rank in _heap_ranks(causes)]))
    published.within("heap of the true cause first", found=leads, low=0.55, high=1.0, unit="1")


_THREE = 3
WIDEST = {(LIGHT,): 0.06, (LIGHT, HEAVY): 0.025, (HEAVY,): 0.06}
_Causes = dict[tuple[str, str], list[dict[str, Any]]]


def _ranks(causes: _Causes) -> list[int]:
    """Place of the true cause in each list, 0 where it does not stand; of guns that lost anything at all for certain."""
    return [
        one["order"].index(key) + 1 if key in one["order"] else 0
        for (_, key), found in causes.items()
        for one in found
        if one["certain"]
    ]


def _heap_ranks(causes: _Causes) -> list[int]:
    """The same for heaps of causes that shooting cannot tell apart: place of the true one among those that stand."""
    places = []
    for (_, key), found in causes.items():
        for one in found:
            if one["certain"]:
                heaps = list(dict.fromkeys(FAULTS[other].heap for other in one["order"]))
                places.append(heaps.index(FAULTS[key].heap) + 1 if FAULTS[key].heap in heaps else 0)
    return places


def _grams(masses: Sequence[float]) -> str:
    return ", ".join(f"{mass * 1e3:.2f} g" for mass in masses)


def _strings(one: tuple[tuple[float, ...], int, float]) -> str:
    masses, shots, step = one
    return f"{_grams(masses)}; {shots} shots" + (f"; display of {step:g} m/s" if step else "")


def _page(
    nothing: list[tuple[tuple[tuple[float, ...], int, float], float]],
    power: list[tuple[tuple[tuple[float, ...], int, float], list[float]]],
    balls: dict[tuple[tuple[float, ...], str], list[Predicted]],
    bins: list[tuple[float, float, int, float, int]],
    causes: _Causes,
) -> str:
    seen = dict(power)
    services = [
        f"| {_strings(one)} | {share:.1%} | {' | '.join(f'{found:.0%}' for found in seen[one])} |" for one, share in nothing
    ]
    speeds = [
        f"| {_grams(fired)} | {family}{' (set on it)' if family == SET else ''} | {SOUND_GUNS[fired]} | {_held(found):.1%} "
        f"| ± {_half_width(found):.1%} |"
        for (fired, family), found in balls.items()
    ]
    chance = [
        f"| {low:.2f} to {high:.2f} | {count} | {expected:.0f} | {exceeded} | {exceeded / expected:.2f} |"
        for low, high, count, expected, exceeded in bins
    ]
    ranks = _ranks(causes)
    stands, first, three = _places(ranks)
    rows = [_cause_row(key, [one for family in FAMILIES for one in causes[family, key]]) for key in FAULTS]
    families = [_family_row(family, causes) for family in FAMILIES]
    return f"""# How often causes and predictions are right

Made by `make validate` (tests/validation/studies/test_foreign_truth.py). Guns whose truth comes from **other laws** than
those that explain them:

| family | what it is |
|---|---|
| orifice | independent model: energy balance, ideal orifices, lips that let go evenly or exponentially |
| gap | no law in common with it: polytropes, Bernoulli nozzle, laminar gaps, sound ahead, lips that let go at once |
| own | the program's kernel with each of its laws of flow and heat, hidden numbers off by factors (tests/foreign_corpus.py) |

Every dimension lies off its written value by its tolerance, every mass is a make of balls of its own (diameter
{DIAMETER_SPREAD * 1e3:.3f} mm, mean mass {MASS_SPREAD:.1%}, standard deviations), strings of ten have {SCATTER:.1%} scatter,
days differ by {DAY:.1%}. What a prediction takes to be open was set on the
*orifice* family, but for two of its terms (the mass of a make of ball, the doubt of a leak), which were
widened after early results of the others: these judge it, not wholly apart.
Laws, coefficients and spreads are estimates: how far real guns are from all of them is not in here.

## Did anything change?

Share of {SERVICES} services that changed nothing and were called a change (promised 5 %), and of 400 that changed the speed
by as much, how many were seen.

| before and after | nothing changed | 1 % | 2 % | 3 % |
|---|---|---|---|---|
{chr(10).join(services)}

Before this test (any string beyond 1.96 of its own standard deviations; version of 29 November 2026, 1000 services each) the
first column was 65, 74, 75, 61 and 67 %; with days that do not differ at all 7, 13, 20, 24 and 10 %.

## Balls that were not fired

0.12 to 0.43 g, hop-up as in the file: how often the 95 % band of the mean speed holds it, and its median half-width.

| fired | family | guns | holds | band |
|---|---|---|---|---|
{chr(10).join(speeds)}

Before (40 to 60 guns of each family, tolerances of parts alone): from 0.20 g 65 % (orifice), 63 % (gap), 81 % (own), with
bands of ± 2.2 %; from 0.40 g 53, 55 and 64 %, with ± 1.2 %.

Chances that one shot exceeds a limit that lies {SPREAD_OF_LIMITS:.0%} off the ball's own energy (standard deviation), from
one string with 0.20 g, both judging families, in bins of a hundred expected shots:

| stated chance | shots | expected over | were over | ratio |
|---|---|---|---|---|
{chr(10).join(chance)}

## Causes

0.20 g and 0.40 g, ten shots each, before with a fault of half to one and a half times its ordinary amount, after without;
{GUNS_WITH_A_FAULT} guns of each family for each fault. Of {len(ranks)} guns whose change was certain the true cause stood in
{stands}, came first in {first}, and was among the
first three in {three}.

| family | guns certain | stands | first | first three | its heap first | amount in its interval |
|---|---|---|---|---|---|---|
{chr(10).join(families)}

| true fault | median loss | certain | stands | first | first three | its heap first | in interval | found / true | standing |
|---|---|---|---|---|---|---|---|---|---|
{chr(10).join(rows)}

Listed by amount over ordinary amount, as before, 55 of these guns had the true cause first in 22 %, in the first three in 53 %.

A loss that is not certain is a fault too small to be told from two days: there no cause is named. A port costs speed only
behind a long barrel (0.59 m here).
"""


def _inside(found: Sequence[dict[str, Any]]) -> str:
    told = [one["interval"][0] <= one["true"] <= one["interval"][2] for one in found if one["interval"]]
    return f"{np.mean(told):.0%}" if told else ""


def _share(found: Sequence[bool]) -> str:
    return f"{np.mean(found):.0%}" if found else ""


def _places(ranks: Sequence[int]) -> list[str]:
    """How often the true cause stands, is first, is among the first three."""
    return [_share([low <= rank <= high for rank in ranks]) for low, high in ((1, len(FAULTS)), (1, 1), (1, _THREE))]


def _family_row(family: str, causes: _Causes) -> str:
    of_family = {pair: found for pair, found in causes.items() if pair[0] == family}
    ranks = _ranks(of_family)
    told = [one for one in itertools.chain.from_iterable(of_family.values()) if one["certain"]]
    shares = (
        _share([rank > 0 for rank in ranks]),
        _share([rank == 1 for rank in ranks]),
        _share([0 < rank <= _THREE for rank in ranks]),
    )
    return f"| {family} | {len(told)} | {' | '.join(shares)} | {_inside(told)} |"


def _cause_row(key: str, found: list[dict[str, Any]]) -> str:
    told = [one for one in found if one["certain"]]
    ranks = _ranks({("", key): found})
    shares = (
        _share([rank > 0 for rank in ranks]),
        _share([rank == 1 for rank in ranks]),
        _share([0 < rank <= _THREE for rank in ranks]),
    )
    ratios = [one["interval"][1] / one["true"] for one in told if one["interval"]]
    ratio = f"{np.median(ratios):.2f}" if ratios else ""
    standing = f"{np.mean([len(one['order']) for one in told]):.1f}" if told else ""
    return (
        f"| {FAULTS[key].name} | {np.median([one['loss'] for one in found]):.1%} | {_share([one['certain'] for one in found])} "
        f"| {' | '.join(shares)} | {_inside(told)} | {ratio} | {standing} |"
    )


@pytest.mark.source("derived", "two services in a row", because="what is known of days decides")
def test_half_a_per_cent_between_days_is_no_change_by_omission(published: Published) -> None:
    """Strings that all moved by half a per cent: a change only where somebody says that days do not differ."""
    before = fire(sound_parameters(), [LIGHT, HEAVY], None)
    after = [observe([0.995 * string.muzzle_speed] * 10, ball_mass=string.ball_mass) for string in before]
    chance = {days: pair_losses(before, after, between_days=days).change.chance for days in (DAY, 0.0)}
    published.within("chance, days differ by 0.5 %", found=chance[DAY], low=0.3, high=0.7, unit="1")
    published.within("chance, days that do not differ", found=chance[0.0], low=0.0, high=0.05, unit="1")
