"""V5, V6, V16: sides, turns and rest, minutes."""

from __future__ import annotations

from tendline.base import Level
from tendline.drill.check_timing import purpose
from tendline.drill.findings import Finding, finding
from tendline.drill.loading import minutes_needed
from tendline.drill.rules import (
    OLDER_MINUTES,
    REST_PER_WORK,
    SIDE_TOLERANCE,
    TURN_LIMIT,
    YOUNG_MINUTES,
    DrillLimits,
    RuleLevel,
)
from tendline.drill.run_types import Run
from tendline.drill.types import Drill
from tendline.drill.vocabulary import DrillKind, Sides

FEW = 4.0
"""With fewer pushes or shots than this in all, sides are not compared; numerical."""
TURN_BREAK = 10.0
"""A rest as long as this after each repetition makes every repetition a turn [s]; ours."""
SIDED = 0.2
"""Share of shots from the sides below which a drill counts as straight in front; numerical."""


def sides_alike(drill: Drill, run: Run, limits: DrillLimits) -> tuple[Finding, ...]:
    """V5: shots from both sides alike, or, without shots, pushes with both legs alike."""
    pairs = []
    sided = run.shots_left + run.shots_right
    if run.shots_total and sided > max(FEW, SIDED * run.shots_total):
        pairs.append(("shots from her left and right", run.shots_left, run.shots_right))
    pushes = run.total.pushes_left + run.total.pushes_right
    if not run.shots_total and pushes > FEW:
        pairs.append(
            ("pushes with the left and right leg", run.total.pushes_left, run.total.pushes_right)
        )
    found = []
    for words, left, right in pairs:
        if abs(left - right) <= limits.side_tolerance * max(left, right) + 1e-9:
            continue
        found.append(
            finding(
                "V5", RuleLevel.WARN, f"{words} differ: {left:.0f} and {right:.0f}",
                evidence=f"sides: {drill.sides.value}",
                limit=SIDE_TOLERANCE, value=limits.side_tolerance,
                on_purpose=purpose(drill, "V5"),
            )
        )  # fmt: skip
    if drill.sides is Sides.ONE and not found and not purpose(drill, "V5"):
        found.append(
            finding("V5", RuleLevel.WARN, "the drill runs on one side only",
                    limit=SIDE_TOLERANCE, value=limits.side_tolerance)
        )  # fmt: skip
    return tuple(found)


def turn_and_rest(drill: Drill, run: Run, limits: DrillLimits) -> tuple[Finding, ...]:
    """V6: work in one turn, and rest for it."""
    if drill.kind is DrillKind.ROUTINE:
        return ()
    reps = drill.repeats.reps
    why = purpose(drill, "V6")
    found = []
    together = reps if drill.repeats.rest_each < TURN_BREAK else 1
    work = run.work * together if reps else 0.0
    if reps and work > limits.turn_limit:
        found.append(
            finding(
                "V6", RuleLevel.WARN, f"{work:.0f} s of work in one turn of {together} repetitions",
                evidence=f"{run.work:.1f} s a repetition",
                limit=TURN_LIMIT, value=limits.turn_limit, on_purpose=why,
            )
        )  # fmt: skip
    two = drill.goaltenders.high >= 2 * max(1, drill.nets)
    rest = run.rest + (run.period if two else 0.0)
    needed = limits.rest_per_work * run.work
    if rest < needed - 1e-9 and run.work > 0.0:
        found.append(
            finding(
                "V6", RuleLevel.WARN,
                f"{run.work:.1f} s of work and {rest:.1f} s of rest in each repetition",
                evidence="two goaltenders by turns counted" if two else "one goaltender in the net",
                limit=REST_PER_WORK, value=limits.rest_per_work, on_purpose=why,
            )
        )  # fmt: skip
    return tuple(found)


def minutes_by_age(drill: Drill, run: Run, limits: DrillLimits) -> tuple[Finding, ...]:
    """V16: planned minutes by age, and whether the planned repetitions fit into them."""
    found = []
    young = drill.ages.oldest in (Level.U9, Level.U11)
    limit, most = (
        (YOUNG_MINUTES, limits.young_minutes) if young else (OLDER_MINUTES, limits.older_minutes)
    )
    if run.minutes > most:
        found.append(
            finding("V16", RuleLevel.INFORM, f"{run.minutes:g} minutes is long for one drill",
                    limit=limit, value=most)
        )  # fmt: skip
    needed = minutes_needed(drill, run)
    if drill.repeats.reps and needed > run.minutes * 1.1:
        found.append(
            finding(
                "V16", RuleLevel.INFORM,
                f"the planned repetitions take {needed:.1f} of {run.minutes:g} minutes "
                "for each goaltender",
            )
        )  # fmt: skip
    return tuple(found)
