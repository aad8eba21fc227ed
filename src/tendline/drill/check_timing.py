"""V1 to V4: is she set, one puck, time between shots, time after the save."""

from __future__ import annotations

from tendline.drill.constants import SIGHT_TIME
from tendline.drill.findings import PURPOSE_OF, Finding, finding
from tendline.drill.measuring import plain_name
from tendline.drill.play_lines import show_action
from tendline.drill.rules import (
    AFTER_PART,
    LEAST_GAP,
    ONE_PUCK,
    REBOUND_GAP,
    DrillLimits,
    RuleLevel,
)
from tendline.drill.run_types import BranchRun, HerState, Release, Run
from tendline.drill.types import Drill
from tendline.drill.vocabulary import Theme

_STATE_WORDS = {
    HerState.MOVING: "still moving",
    HerState.RISING: "getting up",
    HerState.SLIDING: "still going down or sliding",
    HerState.DOWN: "down on her knees",
}


def purpose(drill: Drill, rule: str) -> str:
    """Return why the drill breaks a rule on purpose; empty if it does not say so."""
    for kind in PURPOSE_OF.get(rule, ()):
        for mark in drill.marks:
            if mark.kind is kind:
                return f"{kind.value}, {mark.because}"
    return ""


def set_before_shot(
    drill: Drill, run: Run, limits: DrillLimits, *, sight_time: float
) -> tuple[Finding, ...]:
    """V1 for every release of every branch."""
    failing: list[tuple[BranchRun, Release, str]] = []
    for branch in run.branches:
        for one in branch.releases:
            words = _not_ready(one, sight_time, limits.stay_down)
            if words:
                failing.append((branch, one, words))
    shots = sum(len(branch.releases) for branch in run.branches)
    always = bool(shots) and len(failing) == shots
    level = RuleLevel.HARD if always and not purpose(drill, "V1") else RuleLevel.WARN
    limit = SIGHT_TIME[run.level]
    waits = tuple(
        finding(
            "V1", RuleLevel.WARN,
            f"{plain_name(line.action.who)} waits for her{_of(branch)}, and she is not set on the "
            "puck's line when he goes on",
            evidence=f"'{show_action(line.action)}' at {line.begin - branch.first_whistle:.1f} s",
            branch=branch.key, on_purpose=purpose(drill, "V1"),
        )
        for branch in run.branches for line in branch.in_vain
    )  # fmt: skip
    return waits + tuple(
        finding(
            "V1", level,
            f"shot {one.number}{_of(branch)} is released while she is {words}",
            evidence=_evidence(one), limit=limit, value=sight_time, branch=branch.key,
            release=one.number, on_purpose=purpose(drill, "V1"),
        )
        for branch, one, words in failing
    )  # fmt: skip


def _not_ready(one: Release, sight_time: float, stay_down: float) -> str:
    """Return what is wrong with her at a release, in words; empty if she is ready.

    Down, sealed and still counts as ready for a shot from near by.
    """
    sealed = one.state is HerState.DOWN and one.distance <= stay_down
    if not one.is_set and not sealed:
        return f"not set ({_STATE_WORDS.get(one.state, one.state.value)})"
    if not one.on_line:
        return f"{abs(one.offset):.1f} m off the line"
    if one.placed + 1e-6 < sight_time:
        return f"only {one.placed:.1f} s on the line"
    if one.sight + 1e-6 < sight_time:
        return f"only {one.sight:.1f} s in sight of the puck"
    return ""


def _evidence(one: Release) -> str:
    return (
        f"{one.shooter} from {one.distance:.1f} m at {one.time:.1f} s: "
        f"{one.state.value}, {abs(one.offset):.1f} m off the line, "
        f"{one.placed:.1f} s placed, {one.sight:.1f} s sight"
    )


def _of(branch: BranchRun) -> str:
    return "" if branch.key == "play" else f" of '{branch.key}'"


def one_puck(drill: Drill, run: Run, limits: DrillLimits) -> tuple[Finding, ...]:
    """V2: another puck shot before the one before is dead."""
    found = []
    for branch in run.branches:
        for k, one in enumerate(branch.releases):
            last = k + 1 == len(branch.releases)
            another = last or branch.releases[k + 1].puck != one.puck
            flight = one.distance / one.speed
            if another and one.gap < flight + limits.one_puck:
                found.append(
                    finding(
                        "V2", RuleLevel.HARD,
                        f"a second puck is shot {one.gap:.1f} s after shot {one.number}"
                        f"{_of(branch)}",
                        evidence=f"the save comes {flight:.1f} s after the release",
                        limit=ONE_PUCK, value=limits.one_puck, branch=branch.key,
                        release=one.number, on_purpose=purpose(drill, "V2"),
                    )
                )  # fmt: skip
    return tuple(found)


def time_between(drill: Drill, run: Run, limits: DrillLimits) -> tuple[Finding, ...]:
    """V3: gap from release to release."""
    played = bool({Theme.REBOUND_CONTROL, Theme.RECOVERY} & set(drill.themes))
    found = []
    for branch in run.branches:
        for one in branch.releases:
            inside = one.number < len(branch.releases)
            why = purpose(drill, "V3") if inside else ""
            if one.gap < limits.least_gap - 1e-9:
                level = RuleLevel.HARD if one.gap < 0.5 * limits.least_gap else RuleLevel.WARN
                found.append(
                    finding(
                        "V3", level,
                        f"{one.gap:.1f} s from shot {one.number}{_of(branch)} to the next",
                        evidence=f"{run.shots_per_minute:.0f} shots a minute",
                        limit=LEAST_GAP, value=limits.least_gap, branch=branch.key,
                        release=one.number, on_purpose=why,
                    )
                )  # fmt: skip
            elif played and one.gap < limits.rebound_gap - 1e-9:
                found.append(
                    finding(
                        "V3", RuleLevel.INFORM,
                        f"{one.gap:.1f} s to the next shot leave little of the rebound",
                        limit=REBOUND_GAP, value=limits.rebound_gap, branch=branch.key,
                        release=one.number,
                    )
                )  # fmt: skip
    return tuple(found)


def after_part(drill: Drill, run: Run, limits: DrillLimits) -> tuple[Finding, ...]:
    """V4: time after each save until the next line of the play."""
    found = []
    for branch in run.branches:
        for one in branch.releases:
            last = one.number == len(branch.releases)
            if one.after >= limits.after_part - 1e-9:
                continue
            found.append(
                finding(
                    "V4", RuleLevel.WARN,
                    f"no after-part: {max(0.0, one.after):.1f} s from save {one.number}"
                    f"{_of(branch)} to the next {'repetition' if last else 'action'}",
                    limit=AFTER_PART, value=limits.after_part, branch=branch.key,
                    release=one.number, on_purpose=purpose(drill, "V4"),
                )
            )  # fmt: skip
    return tuple(found)
