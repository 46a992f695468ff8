"""The calculators: what each is asked, and where a job's file has it; answer, words and picture are mapped to the same keys."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass, field, fields
from types import MappingProxyType
from typing import Annotated, Any, Final

from stripdown.core.part_condition.parameters import (
    InnerCorner,
    LeakTests,
    LoadedTooth,
    PistonDrag,
    PressedRing,
    RingInGland,
    RingInGroove,
    RingsOnATester,
    ScrewInBoss,
    WitnessMark,
)
from stripdown.core.shim_selection.parameters import PlayOfGear
from stripdown.quantities import parameters


@parameters
class Touching:
    """A material or part, and the fluid that may touch it; without a fluid, all that is rated."""

    thing: str
    fluid: str | None = None
    stressed: Annotated[bool | None, "Clamped, screwed or sprung, or not; taken as stressed if not told."] = None
    soaked: Annotated[bool, "It lies in the fluid, rather than being wiped or filmed with it."] = False
    made_of: Annotated[str | None, "Material of the part, if it is known."] = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Calculator:
    """One calculator, and where a job has what it is asked.

    Parameters
    ----------
    key
        By which answer, words, picture and command are found.
    name
        What it is called.
    record
        The record that it is asked.
    table
        Table of a job's file that holds one; empty for none.
    is_list
        Whether the job may have several, each with a name.
    sheet
        Field of a job that names a file for it; empty for none.
    picture
        Key of its picture; empty for none.
    of_gun
        Fields that count only if a gun is fired too; a job's table does without them.
    spelt
        Names of the table's fields that are not those of the record.
    """

    key: str
    name: str
    record: type
    table: str = ""
    is_list: bool = False
    sheet: str = ""
    picture: str = ""
    of_gun: tuple[str, ...] = ()
    spelt: Mapping[str, str] = field(default_factory=dict)

    @property
    def fields(self) -> Mapping[str, str]:
        """Fields of the record by their names in the table."""
        return {self.spelt.get(one.name, one.name): one.name for one in fields(self.record) if one.name not in self.of_gun}


CALCULATORS: Final[Mapping[str, Calculator]] = MappingProxyType(
    {
        one.key: one
        for one in (
            Calculator(key="shims", name="shims", record=PlayOfGear, sheet="shims", picture="shims"),
            Calculator(
                key="pad",
                name="pad for the angle of engagement",
                record=WitnessMark,
                table="pad",
                picture="witness-mark",
                of_gun=("pad_diameter", "hole_diameter"),
                spelt={"is_edge_contact": "edge"},
            ),
            Calculator(key="gland", name="ring in its gland", record=RingInGland, table="gland", is_list=True, picture="gland"),
            Calculator(key="ring", name="floating ring of a piston head", record=RingInGroove),
            Calculator(key="compression_set", name="compression set of a ring", record=PressedRing),
            Calculator(key="hardness", name="hardness of a ring beside a new one", record=RingsOnATester),
            Calculator(key="leak", name="leak from a timed or gauge test", record=LeakTests),
            Calculator(key="drag", name="price of the piston's drag", record=PistonDrag),
            Calculator(key="corner", name="radius in an inner corner", record=InnerCorner),
            Calculator(key="screw", name="screw in its boss", record=ScrewInBoss),
            Calculator(key="tooth", name="load of a tooth", record=LoadedTooth),
            Calculator(key="rating", name="fluid on a material or part", record=Touching),
        )
    }
)
"""By key, in the order in which a job's answers stand."""

OF_READINGS: Final = frozenset({"string", "compare", "verdict"})
"""What steps also lead to, and is asked with chronograph readings instead of a record."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Asked:
    """What one calculator is asked.

    Parameters
    ----------
    key
        Of the calculator.
    record
        Its record, or a sheet of its own.
    name
        What a job calls it.
    assumed
        Fields that are as usual, because nobody wrote them.
    """

    key: str
    record: Any
    name: str = ""
    assumed: tuple[str, ...] = ()
