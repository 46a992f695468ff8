"""Threads, property classes and materials of bosses: what the data must obey, and how mistakes in a file are told."""

from __future__ import annotations

import pytest

from stripdown.catalogue import load_screw_classes, load_shell_materials, load_threads
from stripdown.catalogue.screw_classes import read_screw_classes
from stripdown.catalogue.shell_materials import Family, read_shell_materials
from stripdown.catalogue.threads import Thread, read_threads
from stripdown.errors import CatalogueError


@pytest.mark.parametrize("thread", load_threads().values(), ids=lambda thread: thread.name)
def test_the_limits_of_a_thread_fit_its_size(thread: Thread) -> None:
    """The worst screw is a little thinner than its name, the worst hole a little wider than the thread, and they still meet."""
    basic = thread.diameter - 0.6495 * thread.pitch
    assert 0.90 * thread.diameter < thread.least_major_diameter < thread.diameter
    assert basic < thread.greatest_pitch_diameter < basic + 0.3 * thread.pitch
    assert thread.greatest_pitch_diameter < thread.least_major_diameter


def test_a_class_is_named_for_its_strengths() -> None:
    """In a.b the tensile strength is a hundred a, and the yield strength b tenths of it."""
    named = [one for one in load_screw_classes().values() if "-" not in one.name]
    assert len(named) >= 4
    for one in named:
        hundreds, tenths = map(int, one.name.split("."))
        assert one.tensile_strength == pytest.approx(hundreds * 100e6)
        assert one.yield_strength == pytest.approx(one.tensile_strength * tenths / 10)


def test_a_boss_of_every_family_is_there() -> None:
    """Zinc, aluminium, plastic; and unknown zinc is taken for the weakest."""
    materials = load_shell_materials()
    assert {one.family for one in materials.values()} == set(Family)
    zinc = [one.shear_strength for one in materials.values() if one.family is Family.ZINC]
    assert materials["zinc"].shear_strength == min(zinc)
    assert max(one.shear_strength for one in materials.values() if one.family is Family.PLASTIC) < min(zinc)


def test_a_mistake_in_a_file_is_told_with_its_place() -> None:
    """File, entry, field."""
    rest = 'footing = "estimate"\nwhere = "invented for a test"\n'
    with pytest.raises(CatalogueError, match=r"t\.toml, line 4: \[thread\.x\] pitch"):
        read_threads(f'[thread.x]\nname = "x"\ndiameter = "3 mm"\npitch = "3 N"\n{rest}', file="t.toml")
    with pytest.raises(CatalogueError, match="family = 'cheese' must be one of zinc, aluminium, plastic"):
        read_shell_materials(
            f'[shell_material.x]\nname = "x"\nfamily = "cheese"\nshear_strength = "3 MPa"\n{rest}', file="t.toml"
        )
    with pytest.raises(CatalogueError, match="yield_strength"):
        read_screw_classes(f'[screw_class.x]\nname = "x"\ntensile_strength = "400 MPa"\n{rest}', file="t.toml")
