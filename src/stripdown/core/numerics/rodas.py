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
    """Triangular factors of 1/(step·gamma) − Jacobian, dynamic part, with row exchanges; the diagonal is kept inverted."""
    dynamic = work.pivot.shape[0]
    factors = work.factors
    diagonal = 1.0 / (_GAMMA * work.step)
    for j in range(dynamic):
        for i in range(dynamic):
            factors[j, i] = -work.jacobian[j, i]
        factors[j, j] += diagonal
    for k in range(dynamic):
        chosen = k
        largest = abs(factors[k, k])
        for i in range(k + 1, dynamic):
            if abs(factors[k, i]) > largest:
                largest = abs(factors[k, i])
                chosen = i
        work.pivot[k] = chosen
        if chosen != k:
            for j in range(dynamic):
                kept = factors[j, k]
                factors[j, k] = factors[j, chosen]
                factors[j, chosen] = kept
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
    dynamic = work.pivot.shape[0]
    for i in range(dynamic):
        work.point[i] = work.state[i]
    for j in range(stage):
        weight = _POINT[stage, j]
        for i in range(dynamic):
            work.point[i] += weight * work.stage[j, i]


@compiled
def solve_stage(work: Workspace, stage: int, slope: Vector) -> None:
    """Solve the dynamic part of a stage for the rates found at its point; put those of the integrals by."""
    dynamic = work.pivot.shape[0]
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
    for k in range(dynamic):
        chosen = work.pivot[k]
        kept = solution[k]
        solution[k] = solution[chosen]
        solution[chosen] = kept
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
    """Write the step's end and its error, from all stages."""
    dynamic = work.pivot.shape[0]
    for i in range(dynamic):
        work.error[i] = work.stage[STAGES - 1, i]
        work.end_state[i] = work.point[i] + work.error[i]
    for j in range(STAGES):
        work.weight[j] = _ERROR_RATES[j]
    _integrate(work, work.error)
    for j in range(STAGES):
        work.weight[j] = _END_RATES[j]
    _integrate(work, work.end_state)
    for i in range(dynamic, work.state.shape[0]):
        work.end_state[i] += work.state[i]


@compiled
def _integrate(work: Workspace, out: Vector) -> None:
    """Write step · Σ weight · (rate at the stage + Jacobian · stage) for every integral."""
    dynamic = work.pivot.shape[0]
    integrals = work.stage_slope.shape[1]
    for i in range(dynamic):
        work.mixed[i] = 0.0
    for i in range(dynamic, dynamic + integrals):
        out[i] = 0.0
    for j in range(STAGES):
        weight = work.weight[j]
        for i in range(dynamic):
            work.mixed[i] += weight * work.stage[j, i]
        for i in range(integrals):
            out[dynamic + i] += weight * work.stage_slope[j, i]
    for j in range(dynamic):
        mixed = work.mixed[j]
        for i in range(dynamic, dynamic + integrals):
            out[i] += mixed * work.jacobian[j, i]
    for i in range(dynamic, dynamic + integrals):
        out[i] *= work.step


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
    dynamic = work.pivot.shape[0]
    whole = part * work.kept
    rest = 1.0 - whole
    for j in range(STAGES):
        work.weight[j] = _DENSE_RATES[0, j] + whole * _DENSE_RATES[1, j]
    _integrate(work, out)
    for i in range(dynamic):
        out[i] = 0.0
    for j in range(STAGES - 1):
        weight = _DENSE[0, j] + whole * _DENSE[1, j]
        for i in range(dynamic):
            out[i] += weight * work.stage[j, i]
    for i in range(work.state.shape[0]):
        out[i] = work.old_state[i] * rest + whole * (work.end_state[i] + rest * out[i])
