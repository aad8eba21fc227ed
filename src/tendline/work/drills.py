"""The drills a club can use, and what each does on the clock; runs are remembered on disk.

A run asks the engine many questions, so its few numbers are kept in the data folder, under a key
that holds the script, the level, the settings and the state of the program itself. Nothing but
time is lost when that file is deleted or cannot be written.
"""

from __future__ import annotations

import hashlib
import json
from collections.abc import Mapping, Sequence
from functools import cache
from pathlib import Path
from typing import Any

import tendline
from tendline.base import DEFAULT_SETTINGS, Level, Settings, TendlineError
from tendline.drill import Drill, format_drill, library, parse_drill, simulate
from tendline.drill.vocabulary import Family
from tendline.ice import Rink, rink
from tendline.practice import DrillFacts, Load, PracticeRules, Request
from tendline.practice.adapter import (
    Measured,
    measured,
    on_the_ice,
    static_facts,
    with_run,
)
from tendline.practice.fitting import misfits
from tendline.store import Store, data_folder

KEPT = "drill-runs.json"


def all_drills(store: Store) -> tuple[Drill, ...]:
    """Return the library and the coach's own drills; an own drill replaces one of the same id.

    A script of the coach's that cannot be read is passed over here; ``tendline drill check`` says
    what is wrong with it.
    """
    found = {one.id: one for one in library()}
    for own in store.drills.list():
        try:
            drill = parse_drill(own.script)
        except TendlineError:
            continue
        found[drill.id] = drill
    return tuple(found.values())


def planning_facts(
    store: Store,
    request: Request,
    *,
    rules: PracticeRules,
    also: frozenset[Family] = frozenset(),
    settings: Settings = DEFAULT_SETTINGS,
) -> tuple[DrillFacts, ...]:
    """Return every drill as the planner takes it.

    Drills that could stand on the sheet are run on the clock at the youngest goaltender's level;
    those that the request rules out anyway keep what the script says. ``also``: families for
    special evenings that are wanted tonight.
    """
    sheet = rink(store.club.get().rule_set)
    runs = _Kept.load()
    found = []
    for drill in on_the_ice(all_drills(store), also=also):
        facts = static_facts(drill, sheet)
        parts = [p for p, ours in ((False, facts.for_block), (True, facts.for_team)) if ours]
        fits = any(not misfits(facts, request, rules, with_team=part) for part in parts)
        if fits:
            level = request.roster.youngest
            facts = with_run(facts, runs.of(drill, level, sheet, settings))
        found.append(facts)
    runs.save()
    return tuple(found)


class _Kept:
    """Measured runs by key, read once and written once."""

    def __init__(self, known: dict[str, Any], path: Path) -> None:
        self._known = known
        self._path = path
        self._new = False

    @classmethod
    def load(cls) -> _Kept:
        path = data_folder() / KEPT
        try:
            document = json.loads(path.read_text("utf-8"))
            known = document["runs"] if document["program"] == program_state() else {}
        except (OSError, ValueError, KeyError, TypeError):
            known = {}
        return cls(known, path)

    def of(self, drill: Drill, level: Level, sheet: Rink, settings: Settings) -> Measured:
        """Return the measured run of a drill, from the file or by running it now."""
        key = run_key(drill, level, sheet, settings)
        if key not in self._known:
            run = simulate(drill, level=level, rink=sheet, settings=settings)
            found = measured(drill, run, sheet, settings=settings)
            self._known[key] = _to_dict(found)
            self._new = True
        return _from_dict(self._known[key])

    def save(self) -> None:
        """Write the file if there is anything new; a folder that cannot be written is no fault."""
        if not self._new:
            return
        document = {"program": program_state(), "runs": self._known}
        try:
            self._path.parent.mkdir(parents=True, exist_ok=True)
            draft = self._path.with_suffix(".draft")
            draft.write_text(json.dumps(document), "utf-8")
            draft.replace(self._path)
        except OSError:
            return


def run_key(drill: Drill, level: Level, sheet: Rink, settings: Settings) -> str:
    """Return a key that changes whenever the run of a drill could change."""
    parts = (format_drill(drill), level.value, sheet.rule_set.value, repr(settings.changed))
    return hashlib.sha256("\0".join(parts).encode()).hexdigest()


@cache
def program_state() -> str:
    """Return a fingerprint of the program: names, sizes and times of its files."""
    root = Path(tendline.__file__).parent
    state = [
        (str(one.relative_to(root)), one.stat().st_size, one.stat().st_mtime_ns)
        for one in sorted(root.rglob("*"))
        if one.suffix in (".py", ".toml")
    ]
    return hashlib.sha256(repr(state).encode()).hexdigest()


def _to_dict(found: Measured) -> dict[str, Any]:
    load = found.load
    return {
        "work": found.work,
        "rest": found.rest,
        "load": [load.shots, load.drops, load.hard_stops, load.recoveries],
        "release_gap": None if found.release_gap == float("inf") else found.release_gap,
        "after_part": None if found.after_part == float("inf") else found.after_part,
        "moves": sorted(found.moves),
        "faults": found.faults,
    }


def _from_dict(document: Mapping[str, Any]) -> Measured:
    shots, drops, hard_stops, recoveries = document["load"]
    gap, after = document["release_gap"], document["after_part"]
    return Measured(
        work=document["work"],
        rest=document["rest"],
        load=Load(shots=shots, drops=drops, hard_stops=hard_stops, recoveries=recoveries),
        release_gap=float("inf") if gap is None else gap,
        after_part=float("inf") if after is None else after,
        moves=frozenset(document["moves"]),
        faults=tuple((rule, words) for rule, words in document["faults"]),
    )


def find_drill(drills: Sequence[Drill], name: str) -> Drill:
    """Return a drill by id or title; raises ``NotFoundError`` with the nearest."""
    from tendline.base import NotFoundError, nearest_name

    wanted = name.strip().lower()
    for one in drills:
        if wanted in (one.id.lower(), one.title.lower()):
            return one
    names = [one.title for one in drills] + [one.id for one in drills]
    raise NotFoundError(
        "no drill of that name", came=f"'{name}'",
        hint=f"{nearest_name(name, names)} List them: tendline drill list".strip(),
    )  # fmt: skip
