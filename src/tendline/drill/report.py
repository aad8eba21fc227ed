"""The library in one report: what there is, how much it asks, what it breaks on purpose."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from tendline.base import Level, ScoringSituation
from tendline.drill.check import check_drill, standing
from tendline.drill.registry import library
from tendline.drill.run_types import Run
from tendline.drill.search import suits
from tendline.drill.simulate import simulate
from tendline.drill.types import Drill
from tendline.drill.vocabulary import DrillKind, Family, Theme

AGES = (Level.U9, Level.U11, Level.U13, Level.U15, Level.U18, Level.ADULT)


def library_report(drills: Iterable[Drill] | None = None) -> str:
    """Return the report as Markdown: counts, load ranges by family, marks, one line a drill."""
    every = tuple(library() if drills is None else drills)
    runs = {one.id: simulate(one) for one in every}
    parts = [
        f"# The drills\n\n{len(every)} drills, each run at the youngest level it is meant for. "
        "Loads are for one goaltender and the planned repetitions; they come from the simulation "
        "and move with its settings. Made by `python -m tendline.drill.report`.",
        _counts(every),
        _loads(every, runs),
        _on_purpose(every, runs),
        _lines(every, runs),
    ]
    return "\n\n".join(parts) + "\n"


def _table(head: str, rows: list[str]) -> str:
    columns = head.count("|") - 1
    return "\n".join([head, "|" + "---|" * columns, *rows])


def _counts(drills: tuple[Drill, ...]) -> str:
    themes = Counter(theme for one in drills for theme in one.themes)
    situations = Counter(found for one in drills for found in one.situations)
    kinds = Counter(one.kind for one in drills)
    return "\n\n".join(
        [
            "## Counts",
            _table("| situation | drills |",
                   [f"| {one.value} | {situations[one]} |" for one in ScoringSituation]),
            _table("| theme | drills |", [f"| {one.value} | {themes[one]} |" for one in Theme]),
            _table("| age | drills |",
                   [f"| {one.value} | {sum(suits(d, one) for d in drills)} |" for one in AGES]),
            _table("| kind | drills |", [f"| {one.value} | {kinds[one]} |" for one in DrillKind]),
        ]
    )  # fmt: skip


def _span(values: list[float]) -> str:
    low, high = min(values), max(values)
    return f"{low:.0f}" if round(low) == round(high) else f"{low:.0f} to {high:.0f}"


def _loads(drills: tuple[Drill, ...], runs: dict[str, Run]) -> str:
    rows = []
    for family in Family:
        mine = [runs[one.id] for one in drills if one.family is family and one.play]
        if not mine:
            continue
        rows.append(
            f"| {family.value} | {len(mine)} | {_span([r.shots_total for r in mine])} "
            f"| {_span([r.total.drops for r in mine])} "
            f"| {_span([r.total.hard_stops for r in mine])} "
            f"| {_span([r.total.recoveries for r in mine])} "
            f"| {_span([r.total.metres for r in mine])} |"
        )
    head = "| family | drills | shots | drops | hard stops | recoveries | metres |"
    return "## Load, from least to most\n\n" + _table(head, rows)


def _on_purpose(drills: tuple[Drill, ...], runs: dict[str, Run]) -> str:
    rows = []
    for one in drills:
        found = check_drill(one, runs[one.id])
        broken = sorted({f.rule for f in found if f.on_purpose})
        for mark in one.marks:
            rules = ", ".join(broken) or "nothing at these speeds"
            rows.append(f"| {one.id} | {mark.kind.value} | {rules} | {mark.because} |")
    return "## On purpose\n\n" + _table("| drill | mark | breaks | because |", rows)


def _lines(drills: tuple[Drill, ...], runs: dict[str, Run]) -> str:
    rows = []
    for one in drills:
        run = runs[one.id]
        open_rules = ", ".join(sorted({f.rule for f in standing(check_drill(one, run))})) or "none"
        set_share = f"{100 * run.set_share:.0f} %" if run.load.shots else "-"
        rows.append(
            f"| {one.id} | {one.title} | {one.minutes} | {run.shots_per_minute:.1f} | {set_share} "
            f"| {run.total.drops:.0f} | {run.total.hard_stops:.0f} | {open_rules} |"
        )
    head = "| drill | title | minutes | shots a minute | set | drops | hard stops | open |"
    return "## Every drill\n\n" + _table(head, rows)


if __name__ == "__main__":
    print(library_report(), end="")
