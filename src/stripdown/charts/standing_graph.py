"""The graph of checks: what rests on what, where at the bench each is made, and how each stands."""

from __future__ import annotations

import textwrap
from collections.abc import Collection, Mapping, Sequence

import altair as alt

from stripdown.charts.graph_drawing import LETTER, GraphDrawing, GraphMeasures, box_height
from stripdown.charts.layered_layout import Layout, Node, Spacing, lay_out
from stripdown.charts.standing_key import key_height, key_layers
from stripdown.charts.themes import Theme
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.standing import CheckStanding, Standing
from stripdown.procedures.steps import StepKind
from stripdown.studies.service_job import JobStudy
from stripdown.words.plan import made_or_open
from stripdown.words.signs import GRAPH_TITLE, graph_key, standings_told

_COLUMNS = 4
_PART_LINES = 2


def standing_graph(
    procedure: Procedure,
    standings: Mapping[str, CheckStanding],
    *,
    theme: Theme,
    only: Collection[str] | None = None,
    to_make: Collection[str] = (),
    with_parts: bool = False,
    title: str = GRAPH_TITLE,
) -> alt.LayerChart:
    """Draw checks as boxes with the sign of their standing, by place from top to bottom, what a check rests on to its left."""
    keys = drawn_checks(procedure, only)
    signs = {key: standings[key].standing if key in standings else Standing.NEVER for key in keys}
    layout, measures, lines = _laid_out(procedure, keys, frozenset(to_make), with_parts=with_parts, theme=theme)
    is_broken = any(signs[first] is not Standing.FRESH for first, _ in layout.lines)
    key = graph_key(
        list(signs.values()), has_lines=bool(layout.lines), has_broken_lines=is_broken, has_boxes=bool(set(to_make) & set(keys))
    )
    head = key_height(key, theme)
    drawing = GraphDrawing(
        procedure=procedure,
        standings=standings,
        signs=signs,
        layout=layout,
        measures=measures,
        lines=lines,
        head=head,
        to_make=frozenset(to_make),
    )
    letters = int(theme.width / (theme.font_size * LETTER))
    chart = alt.LayerChart(
        layer=[*drawing.layers(), *key_layers(key, theme)],
        width=theme.width,
        height=round(head + layout.height, 1),
        **theme.heading(title, _wrap(procedure.variation, letters) if procedure.variation else []),
    )
    chart.description = standings_told(procedure, signs, title=title)
    drawn: alt.LayerChart = chart.resolve_scale(color="independent", shape="independent", strokeDash="independent")
    return drawn


def plan_graph(study: JobStudy, *, theme: Theme) -> alt.LayerChart | None:
    """Draw only the checks that a plan makes or leaves open, as all others hold; None if there are none."""
    plan = study.plan
    concerned = made_or_open(plan)
    if not concerned:
        return None
    made = {step.key for step in plan.steps if step.kind is StepKind.MAKE}
    return standing_graph(plan.procedure, study.job.known, theme=theme, only=concerned, to_make=made)


def drawn_checks(procedure: Procedure, only: Collection[str] | None) -> tuple[str, ...]:
    """Which checks are drawn."""
    wanted = set(procedure.checks if only is None else only)
    wanted = wanted.union(*(procedure.bases(key) for key in wanted))
    return tuple(key for key in procedure.checks if key in wanted)


def _laid_out(
    procedure: Procedure, keys: Sequence[str], to_make: frozenset[str], *, with_parts: bool, theme: Theme
) -> tuple[Layout, GraphMeasures, Mapping[str, tuple[list[str], list[str]]]]:
    """The layout depends on how tall the boxes are, these on how wide they are, and that on the number of columns."""
    edges = [(base, key) for key in keys for base in procedure.rests_on(key)]
    places = {key: procedure.checks[key].place for key in keys}
    size = theme.font_size
    spacing = Spacing(between=0.5 * size, passing=0.5 * size, edge=0.6 * size)
    columns = _COLUMNS
    while True:
        measures = GraphMeasures(theme=theme, columns=columns)
        lines = {}
        for key in keys:
            letters = measures.letters(has_box=key in to_make)
            lines[key] = (_wrap(procedure.checks[key].name, letters), _parts(procedure, key, letters) if with_parts else [])
        nodes = [Node(key=key, band=places[key], height=box_height(sum(map(len, lines[key])), theme)) for key in keys]
        bands = list(dict.fromkeys((*procedure.places, *places.values())))
        layout = lay_out(nodes, edges, bands=bands, spacing=spacing, least_columns=columns)
        if layout.columns == columns:
            return layout, measures, lines
        columns = layout.columns


def _parts(procedure: Procedure, key: str, letters: int) -> list[str]:
    """As many parts as some lines hold, and how many more there are."""
    names = [procedure.parts[part].name for part in procedure.checks[key].about if part in procedure.parts]
    for count in range(len(names), 0, -1):
        rest = f" +{len(names) - count}" if count < len(names) else ""
        lines = _wrap(", ".join(names[:count]) + rest, letters)
        if len(lines) <= _PART_LINES or count == 1:
            return lines[:_PART_LINES]
    return []


def _wrap(words: str, letters: int) -> list[str]:
    """Lines that fit a box, whatever was typed; "hop-up" stays whole."""
    return textwrap.wrap(words, letters, break_on_hyphens=False) or [""]
