"""The only door of the tests to the shot's kernel: one gun's constants, a mode and a state of one's own choice, and calls.

Whatever changes in how the kernel is called is changed here and nowhere else.
"""

from __future__ import annotations

import copy
from typing import Any

import numpy as np
from numpy.typing import NDArray

from stripdown.core.interior_ballistics import kernel
from stripdown.core.interior_ballistics.flows import CONSTANTS
from stripdown.core.interior_ballistics.parameters import ShotParameters
from stripdown.core.interior_ballistics.run import begin_shot
from stripdown.core.interior_ballistics.simulate import settings_row
from stripdown.core.numerics import stiff
from stripdown.core.numerics.rows import pack

Vector = NDArray[np.float64]


class ShotProblem:
    """One shot at its start; ``mode`` and ``state`` may then be set at will, and the kernel asked."""

    def __init__(
        self,
        parameters: ShotParameters,
        *,
        one_volume: bool = False,
        piston_held: bool = False,
        reservoir_pressure: float = 0.0,
        reservoir_temperature: float = 0.0,
        tolerance: float = 1e-4,
    ) -> None:
        self.parameters = parameters
        self.one_volume = one_volume
        # Record views, so that the same rows serve with the compiler off.
        self.constants: Any = np.zeros(1, dtype=CONSTANTS).view(np.recarray)[0]
        self.mode: Any = np.zeros(1, dtype=kernel.MODE).view(np.recarray)[0]
        works = stiff.workspace(dynamic=kernel.DYNAMIC, integrals=kernel.SIZE - kernel.DYNAMIC, guards=kernel.GUARDS)
        self.work: Any = works.view(np.recarray)[0]
        settings = settings_row(
            tolerance=tolerance,
            one_volume=one_volume,
            piston_held=piston_held,
            reservoir_pressure=reservoir_pressure,
            reservoir_temperature=reservoir_temperature,
        )
        row = pack(parameters).view(np.recarray)[0]
        begin_shot(row, self.constants, self.mode, self.work, settings.view(np.recarray)[0])
        self.state: Vector = np.array(self.work.state)
        self._forces = np.zeros(6)

    def copy(self) -> ShotProblem:
        """The same gun with a mode and a state of its own."""
        other = copy.copy(self)
        other.mode = np.array([self.mode]).view(np.recarray)[0]
        other.state = self.state.copy()
        return other

    def rates(self, state: Vector | None = None) -> Vector:
        """Time derivatives of the state and its integrals."""
        out = np.full(kernel.SIZE, np.nan)
        kernel.rates(self.constants, self.mode, self.state if state is None else state, out, self._forces)
        return out

    def guards(self, state: Vector | None = None) -> Vector:
        """Numbers that are negative until their event."""
        out = np.full(kernel.GUARDS, np.nan)
        kernel.guards(self.constants, self.mode, self.state if state is None else state, out, self._forces)
        return out

    def act(self, event: int) -> float:
        """Do what an event does to mode and state; return the longest step to go on with."""
        return float(kernel.act(self.constants, self.mode, self.state, event, self._forces))
