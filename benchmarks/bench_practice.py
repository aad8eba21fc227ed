"""How long planning takes: block, whole practice, planning again, a refusal; growth with drills.

Run: python benchmarks/bench_practice.py. Drills are made up from a fixed seed; each figure is the
median of five runs after one that warms the solver up. Prints seconds and ratios.
"""

from __future__ import annotations

import random
import statistics
import time as clock
from collections.abc import Callable
from datetime import date, time

from tendline.base import Level, PlanError, ScoringSituation
from tendline.practice import (
    Change,
    DrillFacts,
    IceSlot,
    Load,
    Need,
    Order,
    PlanKind,
    Request,
    Roster,
    RosterGoaltender,
    Sides,
    Space,
    plan_practice,
    replan,
)

SEED = 20
THEMES = ("movement", "tracking", "angle", "lateral", "rebound control", "recovery", "rush")
FULL = Space(name="full ice", length=60, width=26, nets=2)
HALF = Space(name="half ice", length=30, width=26, nets=1)
PATCH = Space(name="corner", length=10, width=10, nets=0)


def made_up(count: int) -> tuple[DrillFacts, ...]:
    """Return drills with numbers drawn from a fixed seed: half for the block, half for the team."""
    draw = random.Random(SEED)
    situations = list(ScoringSituation)
    drills = []
    for at in range(count):
        team = at % 2 == 1
        shots = draw.choice((1, 1, 2)) if team else draw.choice((0, 0, 1))
        drills.append(
            DrillFacts(
                id=f"d{at:03d}", name=f"Drill {at}",
                minutes_low=draw.choice((5, 6, 7)) if team else draw.choice((4, 5)),
                minutes_high=draw.choice((8, 9, 10)) if team else 6,
                work=draw.uniform(4, 20), rest=draw.uniform(5, 40),
                load=Load(shots=shots, drops=shots, hard_stops=draw.randint(0, 4)),
                area=(draw.uniform(10, 30), draw.uniform(10, 26)) if team else (5, 5),
                people=draw.randint(2, 6) if team else draw.randint(0, 1), needs_net=team,
                nets_high=2, themes=tuple(draw.sample(THEMES, 2)),
                situations=tuple(draw.sample(situations, 1)), sides=draw.choice(list(Sides)),
                order=draw.choice(list(Order)), choices=draw.choice((0, 0, 2, 3)),
                release_gap=draw.uniform(3, 20), for_block=not team, for_team=team,
            )
        )  # fmt: skip
    return tuple(drills)


def request(kind: PlanKind, minutes: int) -> Request:
    """Return an evening with three goaltenders and three needs."""
    names = ("a", "b", "c")
    goaltenders = tuple(
        RosterGoaltender(id=n, name=n.upper(), level=Level.U15, game_shots=25.0) for n in names
    )
    slot = IceSlot(
        day=date(2026, 1, 13), start=time(18, 0), minutes=minutes, space=FULL, block_space=PATCH
    )
    needs = (
        Need(name="stage", themes=("recovery", "rebound control"), is_stage=True),
        Need(name="set", themes=("movement",), count=5, of=19),
        Need(name="across", situations=(ScoringSituation.EAST_WEST,), count=4, of=19),
    )
    roster = Roster(goaltenders=goaltenders, skaters=16, helpers=1)
    return Request(kind=kind, roster=roster, slot=slot, needs=needs)


def seconds(task: Callable[[], object]) -> float:
    """Return the median of five timed runs after a first one."""
    task()
    times = []
    for _ in range(5):
        begun = clock.perf_counter()
        task()
        times.append(clock.perf_counter() - begun)
    return statistics.median(times)


def refused(drills: tuple[DrillFacts, ...]) -> str:
    """Return the hint of a plan that cannot be made."""
    short = request(PlanKind.PRACTICE, 12)
    try:
        plan_practice(short, drills)
    except PlanError as error:
        return error.hint
    raise AssertionError("a plan was made")


def measured(count: int) -> tuple[dict[str, float], bool]:
    """Return seconds by task for a library of ``count`` drills, and whether the best was proved."""
    drills = made_up(count)
    block, whole = request(PlanKind.BLOCK, 10), request(PlanKind.PRACTICE, 60)
    sheet = plan_practice(whole, drills)
    change = Change(space=HALF, minutes=45)
    found = {
        "block": seconds(lambda: plan_practice(block, drills)),
        "practice": seconds(lambda: plan_practice(whole, drills)),
        "again": seconds(lambda: replan(whole, sheet, change, drills)),
        "refusal": seconds(lambda: refused(drills)),
    }
    return found, sheet.is_proven_best


def main() -> None:
    """Print the table."""
    first: dict[str, float] = {}
    print(f"{'drills':>6} {'block':>9} {'practice':>9} {'again':>9} {'refusal':>9}   (seconds)")
    for count in (30, 110, 300):
        found, proved = measured(count)
        first = first or found
        line = " ".join(f"{one:9.3f}" for one in found.values())
        ratio = ", ".join(f"{name} x{one / first[name]:.1f}" for name, one in found.items())
        print(f"{count:6d} {line}   against 30 drills: {ratio}; best proved: {proved}")


if __name__ == "__main__":
    main()
