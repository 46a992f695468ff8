"""What the folder of a visit says of the gun and its strings: limit, instrument, readings, what is not counted, findings."""

from __future__ import annotations

import dataclasses
from collections.abc import Collection, Iterator, Mapping
from pathlib import Path
from typing import Any

from stripdown.bench.strings import USUAL_BETWEEN_DAYS, USUAL_OWN_DAY, ChronographSession, flight_of
from stripdown.catalogue.limits import load_limits, own_site_rule
from stripdown.core.parts.conditions import Conditions
from stripdown.core.shot_statistics.chronograph import Chronograph
from stripdown.core.shot_statistics.conditions import REFERENCE, StringConditions
from stripdown.core.shot_statistics.limits import EnergyLimit, LimitScope
from stripdown.errors import InputError
from stripdown.files.chronograph_session import SetAsideLine, check_set_aside, session_of, strings_read_on_both
from stripdown.files.gun import read_gun
from stripdown.files.readings import NothingRead, Readings, load_readings
from stripdown.files.visit_fields import OF_CASE, TABLES, VisitField, read_field
from stripdown.files.visit_folder import existing, files_of, find_gun, find_readings, is_of_reference, occasion_of
from stripdown.tables.nearest import nearest_name
from stripdown.tables.reader import TableReader
from stripdown.tables.toml_file import TomlFile

_ASIDE = "set_aside"


class StringsReader:
    """Reads gun, limit and strings of one folder; `head` is the table with the title, `others` are tables of the work."""

    def __init__(
        self, folder: Path, file: TomlFile, *, head: str, others: Collection[str] = (), no_guns: Collection[str]
    ) -> None:
        fields = {name: field for name, field in TABLES["visit"].items() if head == "visit" or name in OF_CASE}
        tables = {head: fields, **{name: one for name, one in TABLES.items() if name != "visit"}}
        self.head = head
        self.notes: list[str] = []
        self.digests: list[tuple[str, str]] = []
        self._folder = folder
        self._files = files_of(folder)
        self._file = Path(file.path).name
        self._no_guns = no_guns
        self._reader: TableReader[VisitField] = TableReader(file, tables, read_field, noun=f"a {head}'s file")
        self._said: dict[str, dict[str, Any]] = {name: {} for name in tables}
        self._asides: list[dict[str, Any]] = []
        for name, content in self._reader.known_tables([*tables, *others]):
            if name == _ASIDE:
                self._asides = self._reader.tables(name, content, ("line", "reason"))
            elif name in tables:
                self._said[name] = self._reader.table(name, content, (name,))

    def facts(self, *, needs_gun: bool) -> dict[str, Any]:
        """Fields of the visit that stand in this folder's files."""
        limit, source = self._limit()
        gun_path = self._gun_path(needs_gun=needs_gun)
        paths = self._readings_paths(wanted=gun_path is not None)
        self._reader.refuse()
        gun, digest = (None, "") if gun_path is None else read_gun(gun_path)
        if gun is not None:
            self.digests.append((gun.origin, digest))
        readings = tuple(one for path in paths for one in self._readings(path))
        self.digests += [(one.path, one.digest) for one in readings]
        asides = tuple(self._set_aside(readings))
        self._reader.refuse()
        head, day = self._said[self.head], Conditions(**self._said["day"]) if self._said["day"] else None
        instrument = dict(self._said["chronograph"])
        own_day = instrument.pop("own_day", USUAL_OWN_DAY)
        both = self._on_both()
        self._reader.refuse()
        session: ChronographSession = session_of(
            readings,
            set_aside=asides,
            setup_uncertainty=instrument.pop("setup_uncertainty", 0.0),
            between_days=instrument.pop("between_days", USUAL_BETWEEN_DAYS),
            chronograph=Chronograph(**instrument),
            own_day=own_day,
            read_on_both=strings_read_on_both(both),
            ball_mass_uncertainty=self._said["balls"].get("mass_uncertainty", 0.0),
            flight=flight_of(gun, day or Conditions()),
        )
        return {
            "title": head.get("title", ""),
            "invented": bool(head.get("invented", gun is not None and gun.invented)),
            "gun": gun,
            "session": session,
            "limit": limit,
            "limit_source": source,
            "can_fire_automatic": head.get("can_fire_automatic"),
            "ball_masses": self._said["balls"].get("may_bring"),
            "day": day,
            "as_found": self._said["as_found"],
            "found": head.get("found", ()),
            "done": head.get("done", ()),
        }

    def _gun_path(self, *, needs_gun: bool) -> Path | None:
        name, field = self._said[self.head].get("gun"), f"{self.head}.gun"
        if name is None:
            try:
                path = find_gun(self._folder, self._files, file=self._file, field=field, others=self._no_guns)
            except InputError:
                if needs_gun:
                    raise
                return None
            self.notes.append(f"No file was named for the gun; taken: {path.name}.")
            return path
        named = existing(self._folder, name)
        if named is None:
            self._no_such_file("gun", name)
        return named

    def _readings_paths(self, *, wanted: bool) -> tuple[Path, ...]:
        names = self._said[self.head].get("readings")
        if names is None:
            paths = find_readings(self._folder, self._files, file=self._file, field=f"{self.head}.readings")
            if paths:
                words = " and ".join(path.name for path in paths)
                self.notes.append(f"No file was named for the readings; taken: {words}.")
            elif wanted:
                self.notes.append("There is no file of readings.")
            return paths
        found: list[Path] = []
        for name in names:
            path = existing(self._folder, name)
            if path is None:
                self._no_such_file("readings", name)
            elif path in found:
                self._reader.mistake((self.head, "readings"), f'"{name}" is named twice.', "", value=name)
            else:
                found.append(path)
        return tuple(found)

    def _on_both(self) -> list[Readings]:
        """Files of guns that were read on the bench's chronograph and the site's."""
        found: list[Readings] = []
        for name in self._said[self.head].get("read_on_both", ()):
            path = existing(self._folder, name)
            if path is None:
                self._no_such_file("read_on_both", name)
            else:
                found.append(load_readings(path, unit=self._said["strings"].get("unit")))
        self.digests += [(one.path, one.digest) for one in found]
        return found

    def _no_such_file(self, field: str, name: str) -> None:
        message = f'{self.head}.{field} = "{name}": there is no such file in the folder.'
        hint = nearest_name(name, [file.name for file in self._files])
        self._reader.mistake((self.head, field), message, hint, value=name)

    def _readings(self, path: Path) -> Iterator[Readings]:
        """One file of readings, completed with what is said of all strings, and the occasion from its name; or none as yet."""
        strings = self._said["strings"]
        said = StringConditions(
            **{name: strings.get(name) for name in ("ball_mass", "hop", "fire_mode", "distance")},
            temperature=self._said["day"].get("temperature"),
            gun=REFERENCE if is_of_reference(path) else None,
        )
        try:
            readings = load_readings(path, unit=strings.get("unit"), said=said)
        except NothingRead:
            self.notes.append(f"{path.name} has no readings yet.")
            return
        occasion = occasion_of(path)
        if occasion is None or all(string.conditions.occasion is not None for string in readings.strings):
            yield readings
            return
        self.notes.append(f"{path.name}: taken for readings {occasion.value} the work, by its name.")
        told = tuple(
            string
            if string.conditions.occasion is not None
            else dataclasses.replace(string, conditions=dataclasses.replace(string.conditions, occasion=occasion))
            for string in readings.strings
        )
        yield dataclasses.replace(readings, strings=told)

    def _set_aside(self, readings: tuple[Readings, ...]) -> Iterator[SetAsideLine]:
        """Readings that are not to be counted."""
        asides: list[SetAsideLine] = []
        for number, values in enumerate(self._asides):
            with self._reader.at((_ASIDE, number, "line")):
                asides.append(_aside(values, readings))
                check_set_aside(tuple(asides), readings)
        return iter(asides)

    def _limit(self) -> tuple[EnergyLimit | None, str | None]:
        """The limit that is named, and its source."""
        said = self._said["limit"]
        if not said:
            return None, None
        limit: EnergyLimit | None = None
        source: str | None = None
        with self._reader.rule("limit"):
            limit, source = _named_limit(said) if "key" in said else (_own_rule(said), None)
        return limit, source


def _aside(values: Mapping[str, Any], readings: tuple[Readings, ...]) -> SetAsideLine:
    paths = {Path(file.path).name: file.path for file in readings}
    name = Path(values.get("file", "")).name
    if name and name not in paths:
        message = f'"{name}" is no file of this visit\'s readings.'
        raise InputError(message, field="file", value=name, hint=nearest_name(name, paths))
    return SetAsideLine(file=paths.get(name, ""), line=values["line"], reason=values["reason"].strip())


def _named_limit(said: Mapping[str, str]) -> tuple[EnergyLimit, str | None]:
    key = said["key"]
    others = [name for name in said if name != "key"]
    if others:
        message = f"a limit of the catalogue stands alone, but {', '.join(others)} is there too."
        raise InputError(message, field=f"limit.{others[0]}", hint="Keep the key, or the site's own rule.")
    limits = load_limits()
    if key not in limits:
        raise InputError(
            f'limit.key = "{key}" is not in the catalogue.', field="limit.key", value=key, hint=nearest_name(key, limits)
        )
    return limits[key].limit, limits[key].provenance.source


def _own_rule(said: Mapping[str, Any]) -> EnergyLimit:
    amounts = {name: str(value) for name, value in said.items() if name != "scope"}
    try:
        return own_site_rule(**amounts, scope=said.get("scope", LimitScope.EVERY_SHOT))
    except InputError as fault:
        if fault.field in said:
            fault.field = f"limit.{fault.field}"
        raise
