"""What the drills pages show."""

from __future__ import annotations

from dataclasses import dataclass

from tendline.base import Level, ScoringSituation
from tendline.draw import drill_svg
from tendline.drill import Drill, Family, Theme, format_drill
from tendline.store import Store
from tendline.work.drills import DrillReport, all_drills, report_of, search_drills


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


@dataclass(frozen=True, slots=True)
class DrillsPage:
    """The list of drills."""

    rows: tuple[DrillRow, ...]
    total: int
    filters: Filters


@dataclass(frozen=True, slots=True)
class DrillPage:
    """One drill: its card and what it does to the goaltender."""

    drill: Drill
    report: DrillReport
    diagram: str
    script: str
    ages: str
    easier: tuple[tuple[str, str], ...]
    harder: tuple[tuple[str, str], ...]


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
    found = search_drills(
        every,
        words=filters.words,
        theme=Theme(filters.theme) if filters.theme else None,
        situation=ScoringSituation(filters.situation) if filters.situation else None,
        age=Level(filters.age) if filters.age else None,
        family=Family(filters.family) if filters.family else None,
    )
    own = {one.id for one in store.drills.list()}
    return DrillsPage(tuple(_row(one, own) for one in found), len(every), filters)


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
    return DrillPage(
        drill=drill,
        report=report,
        diagram=drill_svg(drill, report.run),
        script=format_drill(drill),
        ages=ages_of(drill),
        easier=tuple(
            (x.drill if x.drill in known else "", x.words or known.get(x.drill, x.drill))
            for x in drill.easier
        ),
        harder=tuple(
            (x.drill if x.drill in known else "", x.words or known.get(x.drill, x.drill))
            for x in drill.harder
        ),
    )
