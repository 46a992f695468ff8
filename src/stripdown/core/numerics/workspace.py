"""What an integration owns: one structured row that integrator and discipline write to in turn."""

from __future__ import annotations

from typing import Annotated

from stripdown.core.numerics.rows import Counts, Fields, Rows, Shape, Vector, blank_rows, row_dtype

STAGES = 6  # of the method, RODAS


class Workspace(Fields):
    """Question and answer, where the integration stands, its settings, and its inner workings.

    The state has ``dynamic`` entries followed by ``integrals``, together ``size``.
    """

    # Asked and answered: rates at the point, guards at the point, the Jacobian at the state.
    point: Annotated[Vector, Shape(("size",))]
    slope: Annotated[Vector, Shape(("size",))]
    guard: Annotated[Vector, Shape(("guards",))]
    jacobian: Annotated[
        Vector, Shape(("dynamic", "size"))
    ]  # [j, i] = d rate i / d entry j: by column, so that loops run along memory
    # Where the integration stands.
    time: float
    state: Annotated[Vector, Shape(("size",))]
    rate: Annotated[Vector, Shape(("size",))]
    hit: Annotated[Counts, Shape(("guards",))]
    steps: int
    rejected: int
    evaluations: int
    # Settings.
    end_time: float
    tolerance: float
    scale: Annotated[Vector, Shape(("size",))]
    most_steps: int
    own_jacobian: int  # 1: the discipline fills the Jacobian when asked; 0: differences, by colour and pattern
    colour: Annotated[Counts, Shape(("dynamic",))]
    pattern: Annotated[Vector, Shape(("dynamic", "size"))]
    # The step last taken, whole, and the part of it that was kept: less than all of it if it was cut at an event.
    old_time: float
    old_state: Annotated[Vector, Shape(("size",))]
    end_state: Annotated[Vector, Shape(("size",))]
    step: float
    kept: float
    stage: Annotated[Vector, Shape(("stages", "dynamic"))]
    stage_slope: Annotated[Vector, Shape(("stages", "integrals"))]
    # Inner workings.
    task: int
    count: int
    next_step: float
    last_step: float
    last_error: float
    shift: Annotated[Vector, Shape(("dynamic",))]
    factors: Annotated[Vector, Shape(("dynamic", "dynamic"))]  # by column
    weight: Annotated[Vector, Shape(("stages",))]
    mixed: Annotated[Vector, Shape(("dynamic",))]
    error: Annotated[Vector, Shape(("size",))]
    guard_start: Annotated[Vector, Shape(("guards",))]
    # The search for an event inside a step.
    trial: int
    place: float
    low: float
    at_low: float
    high: float
    at_high: float
    side: int


def workspace(*, dynamic: int, integrals: int, guards: int) -> Rows:
    """Make an empty workspace.

    Parameters
    ----------
    dynamic
        Number of dynamic entries of the state.
    integrals
        Number of integrals that follow them.
    guards
        Number of guards.

    Returns
    -------
    numpy.ndarray
        Shape (1,), zeroed; its dtype carries the sizes, so machine code is made for them.
    """
    sizes = {"dynamic": dynamic, "integrals": integrals, "size": dynamic + integrals, "guards": guards, "stages": STAGES}
    return blank_rows(row_dtype(Workspace, **sizes))
