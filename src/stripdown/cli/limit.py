"""`stripdown limits`, `verdict`: energy limits, and whether a gun keeps to one with every ball that a player may bring."""

from __future__ import annotations

import re
from pathlib import Path
from typing import TYPE_CHECKING, Final

import click

from stripdown.bench.strings import FIRED_BALL_MASS
from stripdown.catalogue.limits import load_limits, own_site_rule
from stripdown.cli.ending import Shown, end, shown_options
from stripdown.cli.examples import ExampleCommand
from stripdown.cli.quantity_option import QuantitiesOption, day_options
from stripdown.cli.readings import GUN, READINGS, SessionOptions, load_session, session_options
from stripdown.cli.terminal import model_at_work
from stripdown.errors import InputError, UnitError
from stripdown.files.gun import load_gun
from stripdown.plain.limits import catalogue_fields, session_verdict_fields
from stripdown.studies.session_answers import study_verdict
from stripdown.tables.nearest import nearest_name
from stripdown.units import parse
from stripdown.words.limit import limits_answer, verdict_answer

if TYPE_CHECKING:
    from stripdown.core.parts.conditions import Conditions
    from stripdown.core.shot_statistics import EnergyLimit

_RULE: Final = re.compile(r"(?P<amount>\S.*?)(?:\s+on\s+(?P<ball>\S.*?))?(?:\s+at\s+(?:the\s+)?(?P<place>\S.*?))?", re.IGNORECASE)
_WAYS: Final = "Write '1.14 J at 0.3 m', '350 ft/s on 0.20 g at 1 m', or a key that `stripdown limits` lists."


@click.command(
    cls=ExampleCommand,
    examples=["stripdown limits", "stripdown limits --json"],
)
@shown_options()
def limits(*, shown: Shown) -> None:
    """List the energy limits of the catalogue, with place, source and date, and whether the rule itself was read.

    No legal advice: laws change, and the site's own rule, chronograph and marshal decide.
    """
    found = load_limits()
    end(shown, answer=lambda: limits_answer(found), plain=lambda: catalogue_fields(found))


@click.command(
    cls=ExampleCommand,
    examples=[
        "stripdown verdict my_gun.toml after.csv --limit '1.14 J at 0.3 m'",
        "stripdown verdict my_gun.toml after.csv --limit '350 ft/s on 0.20 g' --balls '0.20 g, 0.25 g, 0.28 g'",
        "stripdown verdict my_gun.toml after.csv --limit uk_automatic --can-fire-automatic",
    ],
)
@GUN
@READINGS
@click.option(
    "--limit",
    metavar="LIMIT",
    help="One of `stripdown limits`, or the site's own rule with its measuring point: '1.14 J at 0.3 m', '350 ft/s on 0.20 g'.",
)
@click.option(
    "--balls",
    type=QuantitiesOption(FIRED_BALL_MASS),
    metavar="MASSES",
    help="Masses that a player may bring; left out, the usual ones.",
)
@click.option(
    "--read-on-both",
    type=click.Path(path_type=Path),
    metavar="BOTH.csv",
    help="Guns that were read on the bench's chronograph and on the site's: the gun is judged as the site's would read it.",
)
@click.option("--can-fire-automatic/--single-shots-only", default=None, help="What the gun can do; some limits depend on it.")
@session_options
@day_options
@shown_options(speeds=True, assumed=True, pictures=True)
def verdict(
    gun: Path,
    readings: tuple[Path, ...],
    *,
    limit: str | None,
    balls: tuple[float, ...] | None,
    can_fire_automatic: bool | None,
    read_on_both: Path | None,
    said: SessionOptions,
    day: Conditions | None,
    shown: Shown,
) -> None:
    """Say what strings prove against a limit, and which balls that were not fired are worth firing.

    Of readings before and after the work those after are judged. A gun over its limit is a result: the exit code is 0. A
    predicted speed proves nothing, and never counts as under the limit.
    """
    meant = typed_limit(limit)
    loaded = load_gun(gun)
    session = load_session(readings, said, gun=loaded, read_on_both=() if read_on_both is None else (read_on_both,))
    with model_at_work("Holding the gun against the limit", kernel="run_shots"):
        study = study_verdict(loaded, session, limit=meant, ball_masses=balls, can_fire_automatic=can_fire_automatic, day=day)
    end(
        shown,
        answer=lambda: verdict_answer(study, scale=shown.scale),
        plain=lambda: session_verdict_fields(study),
        drawn={gun.stem: study},
    )


def typed_limit(text: str | None) -> EnergyLimit:
    """Understand a limit: a key of the catalogue, or the site's own rule in one line."""
    if text is None or not text.strip():
        raise InputError("No limit was named, so there is nothing to hold the gun against.", field="--limit", hint=_WAYS)
    limits = load_limits()
    if text.strip() in limits:
        return limits[text.strip()].limit
    if not text.strip()[0].isdigit():
        hint = f"{nearest_name(text.strip(), limits)} {_WAYS}"
        raise InputError(f'--limit: "{text}" is no limit of the catalogue.', field="--limit", value=text, hint=hint)
    found = _RULE.fullmatch(text.strip())
    assert found is not None  # noqa: S101  narrows: whatever begins with a digit has an amount
    amount, ball, place = found["amount"], found["ball"], found["place"]
    place = "0 m" if place is not None and place.lower() == "muzzle" else place
    try:
        by_speed = ball is not None or _is_speed(amount)
        return own_site_rule(
            energy=None if by_speed else amount, speed=amount if by_speed else None, ball_mass=ball, measured_at=place
        )
    except UnitError as reason:
        hint = f"{reason.hint or ''} {_WAYS}".strip()
        raise UnitError(f"--limit: {reason.message}", field="--limit", value=text, unit=reason.unit, hint=hint) from None


def _is_speed(amount: str) -> bool:
    try:
        parse(amount, "m/s")
    except UnitError:
        return False
    return True
