"""One step of RODAS (Hairer and Wanner 1996): six stages, order four, L-stable, stiffly accurate, dense output of order three.

Integrals feed nothing back, so their stages need not be solved for: whatever a step makes of them, its end, its error, its
dense output, is a weighted sum of their rates at the stages, corrected by the Jacobian once. The four sets of weights follow
from the tableau.
"""

from __future__ import annotations

import numpy as np

from stripdown.core.numerics.compiled import compiled
from stripdown.core.numerics.rows import Vector
from stripdown.core.numerics.workspace import STAGES, Workspace

# Tableau in the transformed form of Hairer and Wanner, Solving Ordinary Differential Equations II, section IV.7.
_GAMMA = 0.25
_POINT = np.zeros((STAGES, STAGES))
_POINT[1, 0] = 1.544
_POINT[2, :2] = (0.9466785280815826, 0.2557011698983284)
_POINT[3, :3] = (3.314825187068521, 2.896124015972201, 0.9986419139977817)
_POINT[4, :4] = (1.221224509226641, 6.019134481288629, 12.53708332932087, -0.6878860361058950)
_POINT[5, :5] = (*_POINT[4, :4], 1.0)
_COUPLING = np.zeros((STAGES, STAGES))
_COUPLING[1, 0] = -5.6688
_COUPLING[2, :2] = (-2.430093356833875, -0.2063599157091915)
_COUPLING[3, :3] = (-0.1073529058151375, -9.594562251023355, -20.47028614809616)
_COUPLING[4, :4] = (7.496443313967647, -10.24680431464352, -33.99990352819905, 11.70890893206160)
_COUPLING[5, :5] = (8.083246795921522, -7.981132988064893, -31.52159432874371, 16.31930543123136, -6.058818238834054)
_DENSE = np.zeros((2, STAGES))
_DENSE[0, :5] = (10.12623508344586, -7.487995877610167, -34.80091861555747, -7.992771707568823, 1.025137723295662)
_DENSE[1, :5] = (-0.6762803392801253, 6.087714651680015, 16.43084320892478, 24.76722511418386, -6.594389125716872)

# The last stage is the error estimate: its point is the comparison solution, and adding the stage gives the step's end.
_ERROR = np.eye(STAGES)[STAGES - 1]
_END = _POINT[STAGES - 1] + _ERROR
# From weights on the stages to weights on an integral's rates at the stages.
_TO_RATES = _GAMMA * np.linalg.inv(np.eye(STAGES) - _GAMMA * _COUPLING)
_END_RATES = _END @ _TO_RATES
_ERROR_RATES = _ERROR @ _TO_RATES
_DENSE_RATES = _DENSE @ _TO_RATES


@compiled
def factorise(work: Workspace) -> None:
    """Triangular factors of 1/(step·gamma) − Jacobian, dynamic part; the diagonal is kept inverted.

    No rows are exchanged: a choice by size would compare kilograms with joules, and what decays makes the diagonal larger. A
    pivot that vanishes all the same makes the error infinite, and the step is thrown away.
    """
    dynamic = work.shift.shape[0]
    factors = work.factors
    diagonal = 1.0 / (_GAMMA * work.step)
    for j in range(dynamic):
        for i in range(dynamic):
            factors[j, i] = -work.jacobian[j, i]
        factors[j, j] += diagonal
    for k in range(dynamic):
        inverse = 1.0 / factors[k, k]
        factors[k, k] = inverse
        for i in range(k + 1, dynamic):
            factors[k, i] *= inverse
        for j in range(k + 1, dynamic):
            factor = factors[j, k]
            if factor != 0.0:
                for i in range(k + 1, dynamic):
                    factors[j, i] -= factor * factors[k, i]


@compiled
def place_stage(work: Workspace, stage: int) -> None:
    """Write the point at which a stage needs its rates; integrals have no influence and are left out."""
    dynamic = work.shift.shape[0]
    for i in range(dynamic):
        work.point[i] = work.state[i]
    for j in range(stage):
        weight = _POINT[stage, j]
        for i in range(dynamic):
            work.point[i] += weight * work.stage[j, i]


@compiled
def solve_stage(work: Workspace, stage: int, slope: Vector) -> None:
    """Solve the dynamic part of a stage for the rates found at its point; put those of the integrals by."""
    dynamic = work.shift.shape[0]
    for i in range(work.stage_slope.shape[1]):
        work.stage_slope[stage, i] = slope[dynamic + i]
    factors = work.factors
    solution = work.stage[stage]
    inverse_step = 1.0 / work.step
    for i in range(dynamic):
        solution[i] = slope[i]
    for j in range(stage):
        weight = _COUPLING[stage, j] * inverse_step
        for i in range(dynamic):
            solution[i] += weight * work.stage[j, i]
    for j in range(dynamic):
        known = solution[j]
        for i in range(j + 1, dynamic):
            solution[i] -= known * factors[j, i]
    for j in range(dynamic - 1, -1, -1):
        known = solution[j] * factors[j, j]
        solution[j] = known
        for i in range(j):
            solution[i] -= known * factors[j, i]


@compiled
def finish_step(work: Workspace) -> None:
    """Write end and error of the dynamic entries: the last stage's point is the comparison solution."""
    for i in range(work.shift.shape[0]):
        work.error[i] = work.stage[STAGES - 1, i]
        work.end_state[i] = work.point[i] + work.error[i]


@compiled
def finish_integrals(work: Workspace) -> None:
    """Write end and error of the integrals."""
    dynamic = work.shift.shape[0]
    size = work.state.shape[0]
    for i in range(dynamic, size):
        end = 0.0
        error = 0.0
        for j in range(STAGES):
            end += _END_RATES[j] * work.stage_slope[j, i - dynamic]
            error += _ERROR_RATES[j] * work.stage_slope[j, i - dynamic]
        work.end_state[i] = end
        work.error[i] = error
    for k in range(dynamic):
        end = 0.0
        error = 0.0
        for j in range(STAGES):
            end += _END_RATES[j] * work.stage[j, k]
            error += _ERROR_RATES[j] * work.stage[j, k]
        for i in range(dynamic, size):
            work.end_state[i] += end * work.jacobian[k, i]
            work.error[i] += error * work.jacobian[k, i]
    for i in range(dynamic, size):
        work.end_state[i] = work.state[i] + work.step * work.end_state[i]
        work.error[i] *= work.step


@compiled
def interpolate(work: Workspace, part: float, out: Vector) -> None:
    """Write the state inside the last step by its dense output.

    Parameters
    ----------
    work
        Workspace, before it is advanced again.
    part
        Part of the step as far as it was kept, 0 to 1.
    out
        Room for the state, shape (size,), SI.
    """
    dynamic = work.shift.shape[0]
    size = work.state.shape[0]
    whole = part * work.kept
    rest = 1.0 - whole
    interpolate_dynamic(work, part, out)
    for j in range(STAGES):
        work.weight[j] = work.step * (_DENSE_RATES[0, j] + whole * _DENSE_RATES[1, j])
    for i in range(dynamic, size):
        bend = 0.0
        for j in range(STAGES):
            bend += work.weight[j] * work.stage_slope[j, i - dynamic]
        out[i] = work.end_state[i] + rest * bend
    for k in range(dynamic):
        bend = 0.0
        for j in range(STAGES):
            bend += work.weight[j] * work.stage[j, k]
        for i in range(dynamic, size):
            out[i] += rest * bend * work.jacobian[k, i]
    for i in range(dynamic, size):
        out[i] = work.old_state[i] * rest + whole * out[i]


@compiled
def interpolate_dynamic(work: Workspace, part: float, out: Vector) -> None:
    """As `interpolate`, for the dynamic entries only."""
    dynamic = work.shift.shape[0]
    whole = part * work.kept
    rest = 1.0 - whole
    for i in range(dynamic):
        out[i] = work.end_state[i]
    for j in range(STAGES - 1):
        weight = rest * (_DENSE[0, j] + whole * _DENSE[1, j])
        for i in range(dynamic):
            out[i] += weight * work.stage[j, i]
    for i in range(dynamic):
        out[i] = work.old_state[i] * rest + whole * out[i]
