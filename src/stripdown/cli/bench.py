"""`stripdown pad`, `corner`, `screw`, `tooth`: calculators of gears, shell and screws."""

from __future__ import annotations

from pathlib import Path

import click

from stripdown.cli.calculated import end_calculated
from stripdown.cli.ending import Shown, shown_options
from stripdown.cli.examples import ExampleCommand
from stripdown.cli.fired import end_priced, fired_options
from stripdown.cli.record_options import record_options
from stripdown.core.part_condition.parameters import InnerCorner, LoadedTooth, ScrewInBoss, WitnessMark
from stripdown.studies.calculators import Fired


@click.command(
    cls=ExampleCommand,
    examples=['stripdown pad --mark "0.5 mm"', 'stripdown pad my_gun.toml --mark "0.5 mm" --sector-teeth 16'],
)
@click.argument("gun", metavar="[GUN.toml]", required=False, type=click.Path(path_type=Path))
@record_options(
    WitnessMark,
    names={
        "witness_height": "--mark",
        "module": "--module",
        "pressure_angle": "--angle",
        "sector_teeth": "--sector-teeth",
        "sector_tooth_count": "--sector-teeth",
        "is_edge_contact": "--edge",
        "pad_diameter": "--pad-diameter",
        "hole_diameter": "--pad-hole",
    },
)
@fired_options
@shown_options(speeds=True, pictures=True)
def pad(asked: WitnessMark, *, fired: Fired, shown: Shown) -> None:
    """Say how thick a pad brings first contact to the pitch line; with a gun's file also what it costs.

    More than nine tenths of a pitch is suspect: the wrong tooth. A mark of an edge is not computable: measure again.
    """
    end_priced("pad", asked, fired, shown, doing="Shooting without and with the pad")


@click.command(
    cls=ExampleCommand,
    examples=[
        'stripdown corner --bar "6 mm" --radius "0.3 mm" --to "1.5 mm"',
        'stripdown corner --bar "6 mm" --radius "0.5 mm" --step "4 mm" --load bending',
    ],
)
@record_options(
    InnerCorner,
    names={
        "bar_width": "--bar",
        "net_width": "--bar",
        "full_width": "--bar with --step",
        "radius_before": "--radius",
        "radius": "--radius",
        "radius_after": "--to",
        "step": "--step",
        "loading": "--load",
    },
)
@shown_options()
def corner(asked: InnerCorner, *, shown: Shown) -> None:
    """Say how much a square inner corner concentrates stress, and what a larger radius takes off.

    The inner corners of the cylinder window are where shells crack. The gain is a ratio of peaks, good to a tenth either way.
    """
    end_calculated("corner", asked, shown)


@click.command(
    cls=ExampleCommand,
    examples=[
        'stripdown screw M3 --boss zinc --engagement "6 mm"',
        "stripdown screw M2.5 --boss polyamide_glass",
        "stripdown screw M4 --class 8.8",
    ],
)
@record_options(
    ScrewInBoss,
    names={
        "thread": "THREAD",
        "material": "--boss",
        "engagement": "--engagement",
        "property_class": "--class",
        "friction": "--friction",
    },
)
@shown_options()
def screw(asked: ScrewInBoss, *, shown: Shown) -> None:
    """Say how tight a screw may be: what it bears itself, and what strips its boss.

    The manual's or the maker's torque comes first. In plastic the hand decides.
    """
    end_calculated("screw", asked, shown)


@click.command(
    cls=ExampleCommand,
    examples=[
        'stripdown tooth --force "110 N" --width "5 mm" --teeth 16',
        'stripdown tooth --force "110 N" --width "5 mm" --teeth 16 --mate-modulus "3 GPa"',
        'stripdown tooth --force "20 N" --width "4 mm" --module "0.6 mm" --teeth 12 --mate-teeth 30',
    ],
)
@record_options(
    LoadedTooth,
    names={
        "tangential_force": "--force",
        "face_width": "--width",
        "module": "--module",
        "tooth_count": "--teeth",
        "mate_tooth_count": "--mate-teeth",
        "youngs_modulus": "--modulus",
        "mate_youngs_modulus": "--mate-modulus",
    },
)
@shown_options()
def tooth(asked: LoadedTooth, *, shown: Shown) -> None:
    """Say what a tooth bears that carries everything alone: bending at its root and its mate's, pressure on the flank.

    The last tooth of the sector holds the whole spring at its tip. Figures compare one gear with another; eyes decide.
    """
    end_calculated("tooth", asked, shown)
