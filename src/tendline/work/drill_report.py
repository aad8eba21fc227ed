"""What a drill asks of the goaltender, for a page or a command: run, findings, repairs."""

from __future__ import annotations

from dataclasses import dataclass

from tendline.drill import (
    Drill,
    Finding,
    Repair,
    Run,
    check_drill,
    repairs,
    simulate,
    standing,
    verdict,
)
from tendline.ice import rink
from tendline.store import Store


@dataclass(frozen=True, slots=True, kw_only=True)
class DrillReport:
    """A drill's run, what stands against it, what it breaks on purpose, and repairs with prices."""

    drill: Drill
    run: Run
    verdict: str
    broken: tuple[Finding, ...]
    on_purpose: tuple[Finding, ...]
    notes: tuple[Finding, ...]
    repairs: tuple[Repair, ...]


def report_of(store: Store, drill: Drill) -> DrillReport:
    """Return the report of a drill under the club's settings and rink."""
    settings = store.choices.settings()
    sheet = rink(store.club.get().rule_set)
    run = simulate(drill, rink=sheet, settings=settings)
    found = check_drill(drill, run, settings=settings, rink=sheet)
    broken = standing(found)
    return DrillReport(
        drill=drill,
        run=run,
        verdict=verdict(run, found),
        broken=broken,
        on_purpose=tuple(one for one in found if one.on_purpose),
        notes=tuple(one for one in found if not one.stands and not one.on_purpose),
        repairs=repairs(drill, settings=settings) if broken else (),
    )
