"""`stripdown seal leak`: from a timed or gauge test to a leak, and from the leak to velocity."""

from __future__ import annotations

from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from stripdown.cli.examples import ExampleCommand
from stripdown.cli.option_names import options_named
from stripdown.cli.quantity_option import (
    QuantityOption,
    ball_option,
    conditions_of,
    json_option,
    speed_unit_option,
    weather_options,
)
from stripdown.cli.shooting import display_name
from stripdown.cli.terminal import answers, model_at_work
from stripdown.core.part_condition.leak_quantities import (
    AIR_LEFT,
    BORE,
    DISTANCE,
    DRAG,
    DURATION,
    GAUGE_UNCERTAINTY,
    LOAD,
    OVERPRESSURE,
    SHOT_PRESSURE,
    TIME,
    TIME_UNCERTAINTY,
    VOLUME,
    VOLUME_UNCERTAINTY,
)
from stripdown.errors import InputError
from stripdown.plain.seals import seal_fields
from stripdown.plain.si import si_record, written

if TYPE_CHECKING:
    from stripdown.bench.gun import Gun
    from stripdown.core.part_condition.leak_reading import LeakReading
    from stripdown.core.parts.conditions import Conditions
    from stripdown.studies.leak_cost import LeakCost


@click.command(
    cls=ExampleCommand,
    short_help="Leak from a timed or gauge test, and its price in velocity.",
    examples=[
        'stripdown seal leak --load "30 N" --distance "30 mm" --time "1.2 s" --bore "23.8 mm" --drag "4 N"',
        'stripdown seal leak my_gun.toml --volume "30 cm3" --reading "0 s" "2.0 bar" --reading "12 s" "0.5 bar"',
    ],
)
@click.argument("gun", metavar="[GUN.toml]", required=False, type=click.Path(path_type=Path))
@click.option("--load", type=QuantityOption(LOAD), help='Timed test: force on the piston, as "30 N" or "3 kgf".')
@click.option("--load-at-end", type=QuantityOption(LOAD), help="Timed test with a spring: its force at the end of the way.")
@click.option("--trapped", type=QuantityOption(AIR_LEFT), help="Timed test with a spring: length of air at the start.")
@click.option("--distance", type=QuantityOption(DISTANCE), help="Timed test: way of the piston.")
@click.option("--time", type=QuantityOption(DURATION), help="Timed test: time for that way.")
@click.option(
    "--time-uncertainty", type=QuantityOption(TIME_UNCERTAINTY), default="0.2 s", show_default=True, help="Of a hand-held watch."
)
@click.option("--bore", type=QuantityOption(BORE), help="Timed test: bore of the cylinder; the gun's if left out.")
@click.option("--drag", type=QuantityOption(DRAG), help="Timed test: drag of the piston; the gun's if left out.")
@click.option(
    "--reading",
    "readings",
    type=(QuantityOption(TIME), QuantityOption(OVERPRESSURE)),
    multiple=True,
    metavar="TIME PRESSURE",
    help='Gauge test: one line of the log, as --reading "5 s" "1.2 bar"; pressure over the air outside.',
)
@click.option("--volume", type=QuantityOption(VOLUME), help="Gauge test: volume, hose and gauge included.")
@click.option(
    "--gauge-uncertainty", type=QuantityOption(GAUGE_UNCERTAINTY), default="10 mbar", show_default=True, help="Of one reading."
)
@click.option(
    "--volume-uncertainty", type=QuantityOption(VOLUME_UNCERTAINTY), default="5 %", show_default=True, help="Of the volume."
)
@click.option(
    "--shot-pressure", type=QuantityOption(SHOT_PRESSURE), default="4 bar", show_default=True, help="Absolute, in the shot."
)
@ball_option
@weather_options
@speed_unit_option
@json_option
@options_named(
    load="--load",
    load_at_end="--load-at-end",
    trapped_length="--trapped",
    distance="--distance",
    time="--time",
    drag="--drag",
    bore="--bore",
    volume="--volume",
)
def leak(
    gun: Path | None,
    *,
    load: float | None,
    load_at_end: float | None,
    trapped: float | None,
    distance: float | None,
    time: float | None,
    time_uncertainty: float,
    bore: float | None,
    drag: float | None,
    readings: tuple[tuple[float, float], ...],
    volume: float | None,
    gauge_uncertainty: float,
    volume_uncertainty: float,
    shot_pressure: float,
    ball: float | None,
    temperature: float | None,
    pressure: float | None,
    humidity: float | None,
    speed_unit: str,
    as_json: bool,
) -> None:
    """Find a leak by a timed test, a gauge test or both, and with a gun's file what it costs.

    Two pressures well apart tell a hole from a creeping gap. A static test cannot see a ring that seals or flips only in motion.
    """
    from stripdown.core.part_condition.leak_found import find_leak  # noqa: PLC0415  heavy imports belong inside commands

    day = conditions_of(temperature, pressure, humidity)
    loaded = None if gun is None else _load(gun)
    tests: list[LeakReading] = []
    if any(given is not None for given in (load, distance, time)):
        whose = _of_the_gun(loaded, ball, day) if None in {bore, drag} else {}
        tests.append(
            _timed(
                day,
                load=load,
                distance=distance,
                duration=time,
                bore=whose.get("bore") if bore is None else bore,
                drag=whose.get("drag") if drag is None else drag,
                load_at_end=load_at_end,
                trapped_length=trapped,
                duration_uncertainty=time_uncertainty,
            )
        )
    if readings:
        tests += _gauged(day, readings, volume, reading=gauge_uncertainty, of_volume=volume_uncertainty)
    if not tests:
        raise InputError(
            "Neither a timed nor a gauge test was given.",
            field="--load",
            hint="Give --load, --distance and --time, or --volume and two or more --reading.",
        )
    found = find_leak(readings=tests, shot_pressure=shot_pressure)
    cost = None if loaded is None else _cost(loaded, found, ball, day)
    if as_json:
        fields: dict[str, Any] = seal_fields(found)
        if loaded is not None and cost is not None:
            fields |= {"gun": loaded.name, "cost": _cost_fields(cost)}
        click.echo(written(fields))
        return
    from stripdown.cli.printed_leak import print_leak, print_leak_cost  # noqa: PLC0415

    print_leak(answers(), found)
    if loaded is not None and cost is not None:
        print_leak_cost(answers(), display_name(loaded), cost, speed_unit=speed_unit)


def _load(path: Path) -> Gun:
    from stripdown.files.gun import load_gun  # noqa: PLC0415

    return load_gun(path)


def _of_the_gun(gun: Gun | None, ball: float | None, day: Conditions) -> dict[str, float]:
    if gun is None:
        return {}
    from stripdown.bench.completion import complete  # noqa: PLC0415

    parameters = complete(gun, ball_mass=ball, conditions=day).parameters
    return {"bore": parameters.cylinder.bore, "drag": parameters.piston.seal_drag}


def _timed(day: Conditions, **test: float | None) -> LeakReading:
    from stripdown.core.part_condition.timed_leak import timed_leak  # noqa: PLC0415

    names = {"load": "--load", "distance": "--distance", "duration": "--time", "bore": "--bore", "drag": "--drag"}
    missing = [option for name, option in names.items() if test[name] is None]
    if missing:
        raise InputError(
            f"A timed test also needs {' and '.join(missing)}.",
            field=missing[0],
            hint="Bore and drag are taken from a gun's file, if one is given.",
        )
    given: dict[str, Any] = {name: value for name, value in test.items() if value is not None}
    return timed_leak(**given, **_air(day))


def _gauged(
    day: Conditions, readings: tuple[tuple[float, float], ...], volume: float | None, *, reading: float, of_volume: float
) -> tuple[LeakReading, ...]:
    from stripdown.core.part_condition.gauge_leak import gauge_leak  # noqa: PLC0415

    if volume is None:
        raise InputError(
            "A gauge test also needs --volume.", field="--volume", hint="Hose and gauge included: fill it with water."
        )
    return gauge_leak(
        times=[time for time, _ in readings],
        overpressures=[pressure for _, pressure in readings],
        volume=volume,
        reading_uncertainty=reading,
        volume_uncertainty=of_volume,
        **_air(day),
    )


def _air(day: Conditions) -> dict[str, float]:
    return {"temperature": day.temperature, "ambient_pressure": day.pressure}


def _cost(gun: Gun, found: Any, ball: float | None, day: Conditions) -> LeakCost:
    with model_at_work("Shooting with the leak", kernel="run_shots"):
        from stripdown.studies.leak_cost import found_leak_cost  # noqa: PLC0415

        return found_leak_cost(gun, found=found, ball_mass=ball, conditions=day)


def _cost_fields(cost: LeakCost) -> dict[str, Any]:
    cases = {name: getattr(cost, name) for name in ("tight", "as_described", "measured", "at_least", "at_most")}
    shots = {name: {**si_record(case), "speed_lost": cost.speed_lost(case)} for name, case in cases.items()}
    return {**si_record(cost, leave_out=tuple(cases)), **shots, "predicted": True}
