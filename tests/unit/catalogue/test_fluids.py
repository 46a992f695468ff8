"""Fluids and materials belong to wider kinds, and take on what is said of those."""

from __future__ import annotations

import pytest

from stripdown.catalogue.fluids import load_fluids, read_fluids
from stripdown.catalogue.kinds import members, rated_as
from stripdown.catalogue.materials import load_materials, read_materials
from stripdown.errors import CatalogueError

_FLUIDS = """
[fluid.solvent]
name = "solvent"
cautions = ["away from flame"]
footing = "common_practice"
where = "x"

[fluid.alcohol]
name = "alcohol"
kind_of = ["solvent"]
cautions = ["dry it"]
footing = "common_practice"
where = "x"

[fluid.mixture]
name = "mixture"
acts_as = ["alcohol"]
footing = "common_practice"
where = "x"
"""


def test_cautions_of_a_wider_kind_hold_for_all_in_it() -> None:
    """The wider kind's first; and what a mixture is made of counts too."""
    fluids = read_fluids(_FLUIDS, file="f.toml")
    assert fluids["alcohol"].cautions == ("away from flame", "dry it")
    assert fluids["mixture"].cautions == ("away from flame", "dry it")


def test_what_acts_like_a_kind_is_none_of_it() -> None:
    """Its ratings hold for the mixture, but who asks for alcohols does not mean the mixture."""
    fluids = read_fluids(_FLUIDS, file="f.toml")
    assert rated_as(fluids, "mixture") == {"mixture", "alcohol", "solvent"}
    assert [fluid.key for fluid in members(fluids, "solvent")] == ["alcohol"]


@pytest.mark.parametrize(
    ("old", "new", "complaint"),
    [
        ('kind_of = ["solvent"]', 'kind_of = ["solvnt"]', "which is not there"),
        ('kind_of = ["solvent"]', 'kind_of = ["alcohol"]', "belongs to a kind that belongs to it"),
        ('acts_as = ["alcohol"]', 'acts_as = "alcohol"', "list of texts"),
        ('name = "alcohol"', 'nme = "alcohol"', "nme"),
        ('cautions = ["dry it"]', "cautions = [3]", "list of texts"),
    ],
)
def test_a_bad_entry_is_refused(old: str, new: str, complaint: str) -> None:
    """With file, entry and field."""
    with pytest.raises(CatalogueError, match=complaint) as caught:
        read_fluids(_FLUIDS.replace(old, new), file="f.toml")
    assert "f.toml" in str(caught.value)


def test_a_circle_of_kinds_is_refused() -> None:
    """Two kinds cannot each belong to the other."""
    text = "".join(
        f'[material.{one}]\nname = "{one}"\nkind_of = ["{other}"]\nfooting = "common_practice"\nwhere = "x"\n'
        for one, other in (("a", "b"), ("b", "a"))
    )
    with pytest.raises(CatalogueError, match="belongs to a kind that belongs to it"):
        read_materials(text, file="m.toml")


@pytest.mark.parametrize("code", ["NBR", "HNBR", "CR", "EPDM", "VMQ", "FVMQ", "FKM", "AU/EU", "PC", "ABS", "POM", "PA66"])
def test_the_codes_of_the_trade_are_there(code: str) -> None:
    """One material for each code of ISO 1629 and ISO 1043 that is met in a gun."""
    assert [kind.code for kind in load_materials().values()].count(code) == 1


def test_every_solvent_warns_of_flame_and_chlorinated_ones_of_heat() -> None:
    """Whatever else they say."""
    fluids = load_fluids()
    for solvent in members(fluids, "solvent"):
        assert any("flame" in caution for caution in solvent.cautions), solvent.key
    assert any("poisonous gas" in caution for caution in fluids["chlorinated_brake_cleaner"].cautions)
