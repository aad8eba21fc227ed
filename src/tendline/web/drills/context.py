"""What the drills pages show."""

from __future__ import annotations

from dataclasses import dataclass
from enum import StrEnum
from typing import TypeVar
from urllib.parse import urlencode

from tendline.base import Level, ScoringSituation, unknown_name
from tendline.draw import drill_svg
from tendline.drill import Drill, Finding, Repair, Run, format_drill, search_drills
from tendline.drill.vocabulary import Family, Theme
from tendline.ice import rink
from tendline.store import Store
from tendline.work.drill_export import player_of
from tendline.work.drill_report import DrillReport, report_of
from tendline.work.drills import all_drills

PLAYER_WIDTH, DIAGRAM_WIDTH = 460.0, 380.0
"""Nominal widths of the pictures in CSS pixels, so that words in them stay readable."""
E = TypeVar("E", bound=StrEnum)


@dataclass(frozen=True, slots=True)
class DrillRow:
    """One drill in the list."""

    id: str
    title: str
    family: str
    purpose: str
    ages: str
    minutes: str
    themes: str
    own: bool


@dataclass(frozen=True, slots=True)
class Filters:
    """What the list was asked for, and what may be asked."""

    words: str
    theme: str
    situation: str
    age: str
    family: str
    themes: tuple[str, ...]
    situations: tuple[str, ...]
    ages: tuple[str, ...]
    families: tuple[str, ...]

    @property
    def query(self) -> str:
        """Return the filters for an address."""
        chosen = [
            ("words", self.words), ("theme", self.theme), ("situation", self.situation),
            ("age", self.age), ("family", self.family),
        ]  # fmt: skip
        return urlencode([pair for pair in chosen if pair[1]])


@dataclass(frozen=True, slots=True)
class DrillsPage:
    """The list of drills."""

    rows: tuple[DrillRow, ...]
    total: int
    filters: Filters
    query: str


@dataclass(frozen=True, slots=True)
class ReleaseRow:
    """One shot as she meets it."""

    number: int
    branch: str
    time: str
    shooter: str
    distance: str
    state: str
    is_set: bool
    ready: str
    depth: str
    gap: str
    goals: str


@dataclass(frozen=True, slots=True)
class Step:
    """A step up or down: an address if it is another drill, and words."""

    id: str
    words: str


@dataclass(frozen=True, slots=True)
class DrillPage:
    """One drill: its card, its run, and what it asks of the goaltender."""

    drill: Drill
    ages: str
    diagram: str
    script: str
    verdict: str
    run: Run
    releases: tuple[ReleaseRow, ...]
    broken: tuple[Finding, ...]
    on_purpose: tuple[Finding, ...]
    notes: tuple[Finding, ...]
    repairs: tuple[Repair, ...]
    easier: tuple[Step, ...]
    harder: tuple[Step, ...]
    player: str
    branches: int


def filters_of(query: dict[str, str]) -> Filters:
    """Return the filters of an address."""
    return Filters(
        words=query.get("words", ""),
        theme=query.get("theme", ""),
        situation=query.get("situation", ""),
        age=query.get("age", ""),
        family=query.get("family", ""),
        themes=tuple(one.value for one in Theme),
        situations=tuple(one.value for one in ScoringSituation),
        ages=tuple(one.value for one in Level),
        families=tuple(one.value for one in Family),
    )


def drills_page(store: Store, filters: Filters) -> DrillsPage:
    """Return the drills that fit the filters."""
    every = all_drills(store)
    found = fitting_drills(store, filters)
    own = {one.id for one in store.drills.list()}
    return DrillsPage(tuple(_row(one, own) for one in found), len(every), filters, filters.query)


def fitting_drills(store: Store, filters: Filters) -> tuple[Drill, ...]:
    """Return the drills that fit the filters."""
    return search_drills(
        all_drills(store),
        words=filters.words,
        theme=_one(Theme, "theme", filters.theme),
        situation=_one(ScoringSituation, "situation", filters.situation),
        level=_one(Level, "age", filters.age),
        family=_one(Family, "family", filters.family),
    )


def _one(kind: type[E], label: str, value: str) -> E | None:
    if not value:
        return None
    try:
        return kind(value)
    except ValueError:
        raise unknown_name(label, value, [one.value for one in kind]) from None


def _row(one: Drill, own: set[str]) -> DrillRow:
    return DrillRow(
        id=one.id,
        title=one.title,
        family=one.family.value,
        purpose=one.purpose,
        ages=ages_of(one),
        minutes=str(one.minutes),
        themes=", ".join(theme.value for theme in one.themes),
        own=one.id in own,
    )


def ages_of(drill: Drill) -> str:
    """Return the ages for which a drill is meant, in words."""
    young, old = drill.ages.youngest, drill.ages.oldest
    if old is None:
        return f"{young.value} and up"
    return young.value if old is young else f"{young.value} to {old.value}"


def drill_page(store: Store, drill: Drill) -> DrillPage:
    """Return one drill's page."""
    report = report_of(store, drill)
    known = {one.id: one.title for one in all_drills(store)}
    sheet = rink(store.club.get().rule_set)
    return DrillPage(
        drill=drill,
        ages=ages_of(drill),
        diagram=drill_svg(drill, rink=sheet, width=DIAGRAM_WIDTH),
        script=format_drill(drill),
        verdict=report.verdict,
        run=report.run,
        releases=_releases(report.run),
        broken=report.broken,
        on_purpose=report.on_purpose,
        notes=report.notes,
        repairs=report.repairs,
        easier=tuple(_step(one.drill, one.words, known) for one in drill.easier),
        harder=tuple(_step(one.drill, one.words, known) for one in drill.harder),
        player=player_of(drill, report.run, sheet, width=PLAYER_WIDTH),
        branches=len(report.run.branches),
    )


def _step(drill: str, words: str, known: dict[str, str]) -> Step:
    name = f"{drill} {known[drill]}" if drill in known else drill
    both = f"{name}: {words}" if name and words else name or words
    return Step(drill if drill in known else "", both)


def _releases(run: Run) -> tuple[ReleaseRow, ...]:
    many = len(run.branches) > 1
    return tuple(
        ReleaseRow(
            number=one.number,
            branch=branch.words if many else "",
            time=f"{one.time:.1f} s",
            shooter=one.shooter,
            distance=f"{one.distance:.1f} m",
            state=one.state.value,
            is_set=one.is_set,
            ready=f"{one.ready_for:.1f} s",
            depth=f"{one.depth:.1f} m",
            gap="-" if one.gap == float("inf") else f"{one.gap:.1f} s",
            goals="-" if one.goal_chance is None else f"{100 * one.goal_chance:.0f}",
        )
        for branch in run.branches
        for one in branch.releases
    )


__all__ = [
    "DrillPage", "DrillReport", "DrillsPage", "Filters", "ages_of", "drill_page", "drills_page",
    "filters_of",
]  # fmt: skip
