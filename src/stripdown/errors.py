"""What can go wrong: for the person at the bench, for a model, for the machine.

Physical outcomes (a ball that stays in the barrel) are results, never errors.
"""

from __future__ import annotations


class StripdownError(Exception):
    """Root of everything that this package raises on purpose."""


class InputError(StripdownError, ValueError):
    """Something that the person can put right: it says what, where, and what would be right."""

    def __init__(
        self,
        message: str,
        *,
        field: str | None = None,
        value: object = None,
        unit: str | None = None,
        limits: tuple[float | None, float | None] | None = None,
        hint: str | None = None,
        file: str | None = None,
        line: int | None = None,
    ) -> None:
        self.message = message
        self.field = field
        self.value = value
        self.unit = unit
        self.limits = limits
        self.hint = hint
        self.file = file
        self.line = line
        super().__init__(self.__str__())

    def __str__(self) -> str:
        """One paragraph: where, what is wrong, what would be right."""
        place = ""
        if self.file is not None:
            place = f"{self.file}: " if self.line is None else f"{self.file}, line {self.line}: "
        hint = f" {self.hint}" if self.hint else ""
        return f"{place}{self.message}{hint}"


class UnitError(InputError):
    """A number without its unit, with the wrong kind of unit, or not readable as a number."""


class OutOfRange(InputError):
    """A value outside what is possible, or two values that cannot both be true."""


class CatalogueError(InputError):
    """A catalogue file that breaks its own rules: file, entry, field."""


class OutsideValidity(StripdownError):
    """A model was asked beyond the range for which it is known to hold."""

    def __init__(
        self,
        message: str,
        *,
        model: str,
        quantity: str,
        value: float,
        limits: tuple[float | None, float | None],
        reference: str | None = None,
    ) -> None:
        self.message = message
        self.model = model
        self.quantity = quantity
        self.value = value
        self.limits = limits
        self.reference = reference
        super().__init__(message)


class NumericalFailure(StripdownError, ArithmeticError):
    """An integration that could not go on; carries the state at failure and the work done."""

    def __init__(
        self,
        message: str,
        *,
        time: float,
        state: tuple[float, ...],
        steps: int,
        rejected: int,
        evaluations: int,
    ) -> None:
        self.message = message
        self.time = time
        self.state = state
        self.steps = steps
        self.rejected = rejected
        self.evaluations = evaluations
        super().__init__(message)


class ProcedureError(StripdownError):
    """The act is not allowed now; names the checks that are missing or stale."""


class RenderError(StripdownError, RuntimeError):
    """A chart or document engine failed; its own message is kept."""
