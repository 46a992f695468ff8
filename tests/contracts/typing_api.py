"""How a program uses the public Python interface: type-checked, never run.

What stands here is a promise: a change that breaks this file breaks somebody's script.
"""

from __future__ import annotations

from pathlib import Path
from typing import assert_type

import stripdown.api as sd

gun = sd.load_gun(Path("gun.toml"))
assert_type(gun, sd.Gun)
assert_type(sd.load_gun("gun.toml"), sd.Gun)
assert_type(sd.check_gun("gun.toml"), sd.GunCheck)
assert_type(sd.check_gun("gun.toml").gun, sd.Gun | None)
assert_type(sd.gun_template(name="Rack 7", layout="full_stroke_rifle"), str)

shot = sd.simulate_shot(gun)
assert_type(shot, sd.Shot)
assert_type(sd.simulate_shot(gun, ball_mass=0.25e-3, tolerance=1e-6), sd.Shot)
assert_type(shot.outcome, sd.Outcome)
assert_type(shot.ledger, sd.EnergyLedger)
assert_type(shot.ledger.residual, float)

fired = sd.shoot([gun, gun], ball_mass=0.25e-3, conditions=sd.Conditions(), tolerance=1e-6)
assert_type(fired, sd.FiredAlike)
assert_type(fired.shootings[0].shot, sd.Shot)
assert_type(fired.shootings[0].name, str)
assert_type(fired.shootings[0].input_digest, str)

summary = shot.summary()
assert_type(summary, sd.ShotSummary)
assert_type(summary.muzzle_speed, float)
assert_type(summary.muzzle_energy, float)
assert_type(summary.peak_pressure, float)
assert_type(summary.time_to_muzzle, float | None)
assert_type(summary.spin_ratio, float)

launch = sd.simulate_reservoir_launch(
    reservoir_pressure=5e5,
    reservoir_volume=25e-6,
    bore_diameter=6.05e-3,
    travel=0.35,
    ball_mass=0.20e-3,
    pressure_ahead=0.0,
    passage_area=None,
    heat=False,
)
assert_type(launch, sd.Shot)

squeezed = sd.closed_cylinder_compression(volume=25e-6, pressure=101325.0, temperature=293.15, work=2.0)
assert_type(squeezed.volume_ratio, float)
assert_type(squeezed.pressure, float)
assert_type(squeezed.temperature, float)

assert_type(
    sd.mass_flow_rate(upstream_pressure=2e5, upstream_temperature=293.15, downstream_pressure=1e5, flow_area=1e-6),
    float,
)
assert_type(
    sd.mass_flow_rate_iso6358(
        upstream_pressure=2e5, upstream_temperature=293.15, downstream_pressure=1e5, sonic_conductance=1e-8, critical_ratio=0.4
    ),
    float,
)
assert_type(sd.spring_rate(wire_diameter=1.4e-3, mean_diameter=12e-3, active_coils=20.0, shear_modulus=81.5e9), float)
assert_type(sd.wahl_factor(8.0), float)
assert_type(sd.air_density(temperature=293.15, pressure=101325.0, relative_humidity=0.5), float)

leak = sd.pressure_decay_leak(
    volume=30e-6, pressure_start=3.0e5, pressure_end=2.9e5, temperature_start=293.15, temperature_end=293.15, duration=10.0
)
assert_type(leak.mass_rate, float)
assert_type(leak.molar_rate, float)
assert_type(leak.leak_area, float)

assert_type(sd.catalogue_entries("spring M100"), tuple[sd.CatalogueEntry, ...])

touch = sd.rating("NBR", "isopropyl alcohol", stressed=None)
assert_type(touch, sd.Rating)
assert_type(touch.verdict, sd.Compatibility)
assert_type(touch.reason, str)
assert_type(touch.source, str)
assert_type(sd.forbidden_touches([{"number": 1, "part": "nozzle", "kind": "clean", "fluid": "IPA"}]), tuple[sd.TouchFinding, ...])
assert_type(sd.penetration_grade(280), str | None)
assert_type(sd.viscosity_grade(32e-6, temperature=313.15), sd.ViscosityGrade | None)

choice = sd.choose_shims(
    gap=0.47e-3, gap_uncertainty=0.01e-3, float_band=(0.05e-3, 0.15e-3), stock={0.1e-3: 4, 0.3e-3: 2}, most=4
)
assert_type(choice, sd.ShimChoice)
assert_type(choice.packs, tuple[sd.ShimPack, ...])
assert_type(choice.packs[0].thicknesses, tuple[float, ...])
assert_type(choice.packs[0].float_left, float)
assert_type(choice.nearest_miss, sd.NearestMiss | None)
assert_type(choice.buy, tuple[float, ...])
assert_type(choice.rejected, str | None)
seat = sd.GearSeat(gear=sd.ShimmedGear.SPUR, gap=0.5e-3, gap_uncertainty=0.0, float_band=(0.05e-3, 0.15e-3))
assert_type(sd.choose_split(seats=[seat], stock={0.1e-3: 4}), sd.ShimSplit)
assert_type(sd.lost_places(sd.shim_map([]), sd.shim_map([])), tuple[sd.LostPlace, ...])
assert_type(sd.bearing_end_play(radial_clearance=8e-6, ball_diameter=1.588e-3).end_play, float)

try:
    sd.load_gun("missing.toml")
except sd.InputError as complaint:
    assert_type(complaint.line, int | None)
    assert_type(complaint.field, str | None)

assert_type(sd.stress_concentration(full_width=20e-3, net_width=10e-3, radius=1e-3).factor, float)
assert_type(sd.stress_concentration(full_width=10e-3, net_width=8e-3, radius=1e-3, shape=sd.CornerShape.EDGE_NOTCH).high, float)
assert_type(sd.corner_radius_gain(bar_width=6e-3, radius_before=0.3e-3, radius_after=1.5e-3).ratio, float)
assert_type(sd.screw_torque(thread="M3", property_class="8.8", friction=0.12), float)
assert_type(sd.torque_by_nut_factor(clamp_force=1e3, diameter=3e-3, nut_factor=0.2), float)
assert_type(sd.thread_stripping_force(thread="M3", engagement=3e-3, material="zamak_3"), float)
assert_type(sd.screw_tightening(thread="M3", material="zinc", engagement=6e-3).torque, float)
assert_type(sd.lewis_stress(tangential_force=1e2, face_width=5e-3, module=1e-3, form_factor=sd.lewis_form_factor(16)), float)
assert_type(sd.tooth_load(tangential_force=1e2, face_width=5e-3, module=1e-3, tooth_count=16).contact_pressure, float)

assert_type(sd.engagement_pad(witness_height=0.5e-3, pressure_angle=0.349, module=1e-3).thickness, float)
assert_type(sd.engagement_pad(witness_height=0.5e-3, pressure_angle=0.349, module=1e-3, sector_teeth=16).is_suspect, bool)
assert_type(sd.o_ring_gland(cross_section=1.78e-3, gland_depth=1.42e-3, gland_width=2.4e-3).squeeze, float)
assert_type(sd.o_ring_gland(cross_section=1.78e-3, gland_depth=1.42e-3, gland_width=2.4e-3).stretch, float | None)
assert_type(sd.compression_set(original=3.53e-3, compressed=2.65e-3, recovered=3.30e-3), float)
assert_type(sd.compare_hardness(new=[70.0], used=[80.0], scale=sd.HardnessScale.IRHD).finding, sd.HardnessChange)
leak_tests = sd.gauge_leak(times=[0.0, 5.0, 12.0], overpressures=[2e5, 1.2e5, 0.5e5], volume=30e-6)
assert_type(leak_tests, tuple[sd.LeakReading, ...])
assert_type(sd.timed_leak(load=30.0, distance=0.03, duration=1.2, bore=0.0238, drag=4.0), sd.LeakReading)
assert_type(sd.find_leak(readings=leak_tests).nature, sd.LeakNature)
assert_type(sd.pad_cost(gun, thickness=1e-3).speed_lost, float)
assert_type(sd.leak_cost(gun, leak_area=0.5e-6).measured.shot, sd.FiredVariant)
assert_type(sd.drag_cost(gun, drag=8.0).speed_lost, float)

procedures = sd.load_procedures()
assert_type(procedures, sd.Procedures)
log = [{"number": 1, "check": "cylinder_seal", "passed": True}]
standings = sd.standing(procedures, log, variation="version 2")
assert_type(standings["cylinder_seal"], sd.CheckStanding)
assert_type(standings["cylinder_seal"].standing, sd.Standing)
planned = sd.plan(
    procedures, work=("replace_piston_ring",), events=log, variation={"layout": "version_3"}, parts_off=("battery",)
)
assert_type(planned, sd.Plan)
assert_type(planned.steps[0], sd.PlannedStep)
assert_type(sd.why_before(planned, "1", "2"), sd.Why)
assert_type(sd.study_job(sd.load_job("job.toml")).release, sd.Release)
assert_type(sd.study_job(sd.load_job("job.toml")).answered[0], sd.Answered)
_SESSION = sd.load_session(["before.csv", "after.csv"], in_turn=True)
assert_type(_SESSION, sd.ChronographSession)
assert_type(sd.study_strings(_SESSION).strings, tuple[sd.StringOfCase, ...])
assert_type(sd.study_comparison(_SESSION).pairs, tuple[sd.ComparisonOfCase, ...])
assert_type(sd.study_match(sd.load_gun("gun.toml"), _SESSION).match, sd.ChronographMatch)
assert_type(sd.study_loss(sd.load_gun("gun.toml"), _SESSION).explanation, sd.LossExplanation)
assert_type(sd.study_verdict(sd.load_gun("gun.toml"), _SESSION, limit=sd.load_limits()["italy"].limit).verdict, sd.GunVerdict)
assert_type(sd.build_sheet(sd.study_case(sd.load_case("case"))), bytes)
assert_type(sd.study_case(sd.load_case("case")).unsaid, tuple[sd.Unsaid, ...])
_FLOWN = sd.study_flight(gun, stance=sd.Stance(elevation=0.0), sightings=[sd.flat_to(35.0)], distances=(0.0, 20.0))
assert_type(_FLOWN, sd.FlightStudy)
assert_type(_FLOWN.path.at_distance(20.0), sd.FlightState)
assert_type(_FLOWN.impact.lenses[0].is_enough, bool | None)
assert_type(sd.study_balls(gun).balls[0], sd.BallOfChoice)
assert_type(sd.energy_limit_at(1.0, ball_mass=0.2e-3, distance=1.0), sd.SpeedAtPoint)
assert_type(sd.air_state(temperature=293.15), sd.FlightAir)
_ASKED = sd.Asked(key="pad", record=sd.WitnessMark(witness_height=0.4e-3))
assert_type(sd.calculate(_ASKED), sd.Answered)
assert_type(sd.to_svg(sd.pictures_of(sd.calculate(_ASKED), sd.PictureLook())["witness-mark"]), str)
