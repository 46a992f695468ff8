"""All procedures: one description, of which each gun is a variation."""

from __future__ import annotations

import functools
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field, replace

from stripdown.errors import InputError
from stripdown.procedures.entries import Entry
from stripdown.procedures.jobs import NamedJob
from stripdown.procedures.procedure import Procedure
from stripdown.procedures.records import read_action, read_check, read_part
from stripdown.procedures.same_part import orders_on_one_part
from stripdown.procedures.steps import DeclaredOrder, Step, StepKind
from stripdown.procedures.troubles import Trouble
from stripdown.procedures.variations import Feature, Variation, all_variations, choose_variation
from stripdown.tables.nearest import nearest_entry
from stripdown.tables.table import Table


@dataclass(frozen=True, kw_only=True, eq=False)
class Procedures:
    """One description of how such guns are serviced, before it is known which gun.

    Parameters
    ----------
    features
        In what ways guns differ.
    places
        Name of each place at the bench by its key, in the order of work.
    parts, checks, actions, jobs
        Entries by key.
    order
        Declared orders.
    troubles
        What guns may bring with them, by key.
    """

    features: tuple[Feature, ...]
    places: Mapping[str, str]
    parts: Mapping[str, Entry]
    checks: Mapping[str, Entry]
    actions: Mapping[str, Entry]
    jobs: Mapping[str, Entry]
    order: tuple[Entry, ...]
    troubles: Mapping[str, Trouble] = field(default_factory=dict)

    def variation(self, wanted: Variation | Mapping[str, str] | str | Iterable[str]) -> Variation:
        """Read a variation from what a person says of the gun.

        Parameters
        ----------
        wanted
            Feature to choice; or choices alone, in a row or in one text. What is not said is assumed.

        Returns
        -------
        Variation

        Raises
        ------
        InputError
            If a feature or choice is unknown, or two choices of one feature are asked for.
        """
        return choose_variation(self.features, wanted)

    def variations(self) -> Iterator[Variation]:
        """Every variation.

        Yields
        ------
        Variation
        """
        return all_variations(self.features)

    def procedure(self, variation: Variation | Mapping[str, str] | str | Iterable[str]) -> Procedure:
        """The procedures of one variation.

        Parameters
        ----------
        variation
            As for `variation`.

        Returns
        -------
        Procedure

        Raises
        ------
        InputError
            If a feature or choice is unknown.
        """
        return _fixed(self, self.variation(variation))

    def named_jobs(self, variation: Variation | Mapping[str, str] | str | Iterable[str]) -> Mapping[str, NamedJob]:
        """The named jobs of one variation: what they ask for and this gun does not have is left out.

        Parameters
        ----------
        variation
            As for `variation`.

        Returns
        -------
        mapping
            Job by key.

        Raises
        ------
        InputError
            If a feature or choice is unknown.
        """
        chosen = self.variation(variation)
        procedure = self.procedure(chosen)
        found = {}
        for key, entry in self.jobs.items():
            table = entry.fixed(chosen, {})
            if table is not None:
                found[key] = read_job(key, table, procedure)
        return found

    def named_job(self, words: str, variation: Variation | Mapping[str, str] | str | Iterable[str]) -> NamedJob:
        """The job that is meant by some words.

        Parameters
        ----------
        words
            Key, name, or another word for it.
        variation
            As for `variation`.

        Returns
        -------
        NamedJob

        Raises
        ------
        InputError
            If no job is called so, with the nearest ones.
        """
        jobs = self.named_jobs(variation)
        plain = " ".join(words.lower().replace("_", " ").split())
        for job in jobs.values():
            if plain in {job.key.replace("_", " "), job.name.lower(), *(word.lower() for word in job.words)}:
                return job
        raise InputError(
            f'no job is called "{words}".',
            field="job",
            value=words,
            hint=nearest_entry(words, {one.key: one.name for one in jobs.values()}),
        )


def read_job(key: str, table: Table, procedure: Procedure) -> NamedJob:
    """Read a named job."""
    return NamedJob(
        key=key,
        name=table.text("name"),
        purpose=table.text("for"),
        words=table.texts("words"),
        work=tuple(one for one in table.texts("work") if one in procedure.actions),
        wanted=tuple(one for one in table.texts("wanted") if one in procedure.checks),
        as_found=tuple(one for one in table.texts("as_found") if one in procedure.checks),
        is_graded=table.flag("graded", default=False),
    )


def read_orders(table: Table, steps: Mapping[str, Step]) -> Iterator[DeclaredOrder]:
    """Read a declared order: every step of one list before every step of another."""
    why, is_cure = table.text("why"), table.flag("cure", default=False)
    for first in _steps(table, "first", steps):
        for then in _steps(table, "then", steps):
            if first != then:
                yield DeclaredOrder(first=first, then=then, why=why, is_cure=is_cure)


def _steps(table: Table, field: str, steps: Mapping[str, Step]) -> list[Step]:
    found = []
    for pattern in step_patterns(table, field):
        if pattern.endswith("*"):
            found += [step for name, step in steps.items() if name.startswith(pattern[:-1])]
        elif pattern in steps:
            found.append(steps[pattern])
    return list(dict.fromkeys(found))


def step_patterns(table: Table, field: str) -> tuple[str, ...]:
    """Names of steps, with or without a star at the end."""
    patterns = (table.text(field),) if isinstance(table.fields.get(field), str) else table.texts(field)
    kinds = tuple(f"{kind.value}:" for kind in StepKind)
    for pattern in patterns:
        if not pattern.startswith(kinds):
            raise table.wrong(field, pattern, f"must begin with one of {', '.join(kinds)}")
    return patterns


@functools.lru_cache(maxsize=64)
def _fixed(procedures: Procedures, variation: Variation) -> Procedure:
    part_tables = {key: table for key, entry in procedures.parts.items() if (table := entry.fixed(variation, {})) is not None}
    names = {key: table.text("name") for key, table in part_tables.items()}
    checks = {key: table for key, entry in procedures.checks.items() if (table := entry.fixed(variation, names)) is not None}
    actions = {key: table for key, entry in procedures.actions.items() if (table := entry.fixed(variation, names)) is not None}
    parts = {key: read_part(key, _in_front(key, table, part_tables)) for key, table in part_tables.items()}
    read = {key: read_action(key, table) for key, table in actions.items()}
    bare = Procedure(
        parts=parts,
        checks={key: read_check(key, table) for key, table in checks.items()},
        actions={
            key: action for key, action in read.items() if action.becomes or any(part in parts for part, _ in action.touches)
        },
    )
    steps = {step.name: step for step in bare.all_steps()}
    orders = [table for entry in procedures.order if (table := entry.fixed(variation, names)) is not None]
    declared = replace(
        bare,
        order=tuple(dict.fromkeys(pair for table in orders for pair in read_orders(table, steps))),
        places=procedures.places,
        variation=variation.name,
        choices={
            one.key: next(choice for choice in one.choices if choice.key == variation.choices[one.key])
            for one in procedures.features
        },
        with_choices=functools.partial(_with_choices, procedures, variation),
        troubles={key: one.among(frozenset(steps)) for key, one in procedures.troubles.items()},
    )
    return replace(declared, order=(*declared.order, *orders_on_one_part(declared)))


def _with_choices(procedures: Procedures, variation: Variation, others: Mapping[str, str]) -> Procedure:
    return procedures.procedure({**variation.choices, **others})


def _in_front(key: str, table: Table, tables: Mapping[str, Table]) -> Table:
    """Its own table, with the parts that say of themselves that they are in front of it."""
    others = [other for other, one in tables.items() if key in one.texts("in_front_of")]
    fields = {**table.fields, "in_front": [*table.texts("in_front"), *others]}
    return replace(table, fields=fields)
