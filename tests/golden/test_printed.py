"""What the commands print for people, as it was last accepted.

Goldens: this program printed them from made-up shots, and they prove nothing but that words and layout did not change
unseen. To accept new ones: ``python -m tests.golden.test_printed`` with ``src`` on the path, and a line in the changelog.
"""

from __future__ import annotations

import io
from collections.abc import Callable, Mapping
from pathlib import Path

import pytest
from rich.console import Console

from stripdown.bench.completion import CompleteGun
from stripdown.bench.gun import Assumed, Gun
from stripdown.cli.printed_sensitivity import print_sensitivity
from stripdown.cli.printed_shot import print_shots
from stripdown.cli.printed_sweep import print_sweep
from stripdown.cli.shooting import Shooting
from stripdown.core.interior_ballistics.result import Outcome, Shot
from stripdown.references.provenance import Footing
from tests.synthetic_shots import AS_FOUND_LEDGER, PARAMETERS, make_shot
from tests.synthetic_studies import make_creep, make_sensitivity

_FOLDER = Path(__file__).parent / "printed"
_COMPLETE = CompleteGun(
    parameters=PARAMETERS,
    assumed=(
        Assumed(path="piston.vent_area", value=6e-6, text="6 mm²", footing=Footing.ESTIMATE, source=None, reason="holes"),
        Assumed(path="laws.barrel_heat", value=1.0, text="1", footing=Footing.ESTIMATE, source=None, reason="unscaled"),
    ),
    notes=("spring.preload = 55.00 mm, 170 mm free less 115 mm fitted.",),
)


def _shooting(name: str, shot: Shot) -> Shooting:
    gun = Gun(name=name, note="", invented=True, origin="rack.toml", written={})
    return Shooting(name=f"{name} (invented)", path=Path("rack.toml"), gun=gun, complete=_COMPLETE, shot=shot)


def _prints() -> Mapping[str, Callable[[Console], None]]:
    healthy = _shooting("Rack 7, healthy", make_shot())
    as_found = _shooting("Rack 7, as found", make_shot(ball_speed=80.0, ledger=AS_FOUND_LEDGER))
    stuck = _shooting("Rack 7, stuck", make_shot(outcome=Outcome.DID_NOT_MOVE))
    creep = make_creep([0.20e-3, 0.25e-3, 0.40e-3], [1.0, 1.05, 0.0], [Outcome.LEFT_MUZZLE] * 2 + [Outcome.STAYED_IN_BARREL])
    return {
        "shot-one": lambda console: print_shots(console, [healthy], speed_unit="m/s"),
        "shot-two": lambda console: print_shots(console, [healthy, as_found], speed_unit="ft/s"),
        "shot-three": lambda console: print_shots(console, [healthy, as_found, stuck], speed_unit="m/s"),
        "sweep": lambda console: print_sweep(console, healthy.name, _COMPLETE, creep, speed_unit="m/s"),
        "sensitivity": lambda console: print_sensitivity(console, healthy.name, make_sensitivity(), speed_unit="m/s", rows=16),
    }


def _printed(name: str) -> str:
    out = io.StringIO()
    _prints()[name](Console(file=out, width=80, highlight=False, markup=False, emoji=False))
    return "".join(f"{line.rstrip()}\n" for line in out.getvalue().splitlines())


@pytest.mark.parametrize("name", sorted(_prints()))
def test_a_print_says_what_was_accepted(name: str) -> None:
    """Figures, ledger, remarks and layout, line by line."""
    assert _printed(name) == (_FOLDER / f"{name}.txt").read_text(encoding="utf-8")


if __name__ == "__main__":
    _FOLDER.mkdir(exist_ok=True)
    for _name in _prints():
        (_FOLDER / f"{_name}.txt").write_text(_printed(_name), encoding="utf-8")
