"""What a drill's page shows."""

from __future__ import annotations

from dataclasses import dataclass

from tendline.draw import drill_svg
from tendline.drill import Drill, Finding, Repair, Run, format_drill
from tendline.ice import rink
from tendline.store import Store
from tendline.work.drill_export import player_of
from tendline.work.drill_report import DrillReport, report_of
from tendline.work.drills import all_drills

PLAYER_WIDTH, DIAGRAM_WIDTH = 460.0, 380.0
"""Nominal widths of the pictures in CSS pixels, so that words in them stay readable."""


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


__all__ = ["DrillPage", "DrillReport", "ages_of", "drill_page"]
