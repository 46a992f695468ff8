"""What a gun may bring with it that decides what is safe."""

from __future__ import annotations

from dataclasses import dataclass, replace

from stripdown.procedures.cautions import Caution, read_cautions
from stripdown.tables.table import Table

TROUBLE_FIELDS = ("name", "says", "no_clearing_shot", "no_shot", "rod", "drawn", "until", "asked", "failed", "rejects", "care")


@dataclass(frozen=True, slots=True, kw_only=True)
class Trouble:
    """One trouble.

    Parameters
    ----------
    key
        Stable name (``"blown_fuse"``).
    name
        What it is called.
    says
        What is the matter, after "since".
    forbids_clearing_shot
        Whether the gun cannot safely fire, not even to clear its chamber.
    forbids_shot
        Whether firing harms, so that nothing can be read as found by a shot.
    asks_for_rod
        Whether a ball may be stuck in the barrel.
    may_be_drawn
        Whether the spring may have been left drawn.
    until
        Names of the steps any one of which ends it, the likeliest first.
    asked, failed, rejects
        Keys of the work and checks that nobody asks for on a gun without it, of the checks whose failing and of the looks whose
        reject say that the gun has it.
    care
        What to say wherever such a gun is fired.
    """

    key: str
    name: str = ""
    says: str = ""
    forbids_clearing_shot: bool = False
    forbids_shot: bool = False
    asks_for_rod: bool = False
    may_be_drawn: bool = False
    until: tuple[str, ...] = ()
    asked: tuple[str, ...] = ()
    failed: tuple[str, ...] = ()
    rejects: tuple[str, ...] = ()
    care: tuple[Caution, ...] = ()

    @property
    def keeps_from_running(self) -> bool:
        """Whether no first power comes before it is over."""
        return self.forbids_clearing_shot or self.forbids_shot

    def among(self, steps: frozenset[str]) -> Trouble:
        """The same with those steps that a variation has.

        Parameters
        ----------
        steps
            Names of the steps.

        Returns
        -------
        Trouble
        """
        return replace(self, until=tuple(one for one in self.until if one in steps))


def read_trouble(key: str, table: Table) -> Trouble:
    """Read a trouble."""
    return Trouble(
        key=key,
        name=table.text("name"),
        says=table.text("says"),
        forbids_clearing_shot=table.flag("no_clearing_shot", default=False),
        forbids_shot=table.flag("no_shot", default=False),
        asks_for_rod=table.flag("rod", default=False),
        may_be_drawn=table.flag("drawn", default=False),
        until=table.texts("until", least=1),
        asked=table.texts("asked"),
        failed=table.texts("failed"),
        rejects=table.texts("rejects"),
        care=read_cautions(table, "care"),
    )
