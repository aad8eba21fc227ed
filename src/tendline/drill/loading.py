"""Loads added up: one repetition, the whole drill, both sides, and who waits how long."""

from __future__ import annotations

from tendline.drill.goaltending import HerRun
from tendline.drill.run_types import BranchRun, Load, Run, Waiting
from tendline.drill.timeline import Attack
from tendline.drill.types import Drill, actions_of
from tendline.drill.vocabulary import Role, Sides
from tendline.drill.world import World
from tendline.motion import load_of

SHOT_BEFORE, SHOT_AFTER = 0.5, 0.5
"""A shot counts as work from this long before its release until this long after the save [s]; ours.
"""
MIDDLE = 0.5
"""A shot from within this of the middle line comes from neither side [m]; numerical."""


def load_between(run: HerRun, begin: float, end: float, *, shots: int, world: World) -> Load:
    """Return the load of the moves that begin in a span."""
    steps = [step for start, _, step in run.track.moves() if begin <= start < end]
    sums = load_of(steps)
    moves: dict[str, float] = {}
    legs: dict[tuple[str, str], float] = {}
    for step in steps:
        moves[step.move.value] = moves.get(step.move.value, 0.0) + step.count
        if step.drive_leg is not None:
            key = (step.move.value, step.drive_leg.value)
            legs[key] = legs.get(key, 0.0) + step.count
    skated = run.track.skated(begin, end)
    return Load(
        shots=float(shots),
        drops=float(sums.drops),
        hard_stops=float(sums.hard_stops),
        recoveries=float(sums.recoveries + sums.on_ice_recoveries),
        pushes_left=float(sums.pushes_left),
        pushes_right=float(sums.pushes_right),
        metres=sums.metres + skated,
        moves=tuple(sorted(moves.items())),
        by_leg=tuple((move, leg, count) for (move, leg), count in sorted(legs.items())),
    )


def work_between(run: HerRun, attack: Attack, begin: float, end: float) -> float:
    """Return for how long of a span she works [s].

    Moves, her own lines (holding a stance counts), and every shot from half a second before the
    release until the rebound has been followed.
    """
    spans = [(start, finish) for start, finish, _ in run.track.moves()]
    spans += [(one.begin, one.end) for one in attack.scripted]
    spans += [(one.time - SHOT_BEFORE, one.arrives + SHOT_AFTER) for one in run.saves]
    total, reached = 0.0, begin
    for start, finish in sorted(spans):
        low, high = max(start, reached), min(finish, end)
        if high > low:
            total += high - low
            reached = high
    return total


def drawn_share(drill: Drill) -> float:
    """Return the share of repetitions run as drawn; the others are run as the mirror image."""
    repeats = drill.repeats
    if drill.sides is Sides.EACH_SET and repeats.reps:
        return (repeats.sets + 1) // 2 / repeats.sets
    if drill.sides is Sides.EACH_REP and repeats.reps:
        count = repeats.reps * repeats.sets
        return (count + 1) // 2 / count
    if drill.sides in (Sides.EACH_SET, Sides.EACH_REP):
        return 0.5
    return 1.0


def totals(
    drill: Drill,
    world: World,
    branches: tuple[BranchRun, ...],
    *,
    minutes: float | None,
    skaters: int | None,
    untold: int,
    seed: int | None,
) -> Run:
    """Return the run of a drill from its branches."""
    mean = _mean_load(branches)
    period = sum(one.share * one.period for one in branches)
    work = sum(one.share * one.work for one in branches)
    planned = minutes if minutes is not None else 0.5 * (drill.minutes.low + drill.minutes.high)
    repeats = drill.repeats
    count = float(repeats.reps * repeats.sets) if repeats.reps else 60.0 * planned / period
    share = drawn_share(drill)
    balanced = _balanced(mean, share)
    left, right, middle = _sides(branches, share)
    turn = repeats.reps * period if repeats.reps else 60.0 * planned
    rest = period - work + (repeats.rest / repeats.reps if repeats.reps else 0.0)
    return Run(
        drill_id=drill.id,
        level=world.level,
        branches=branches,
        load=mean,
        total=balanced.times(count),
        repetitions=count,
        minutes=planned,
        period=period,
        shots_per_minute=60.0 * mean.shots / period,
        shots_total=mean.shots * count,
        work=work,
        rest=rest,
        turn=turn,
        waiting=_waiting(drill, branches, period, turn, skaters),
        shots_left=left * count,
        shots_right=right * count,
        shots_middle=middle * count,
        drawn_share=share,
        untold_choices=untold,
        seed=seed,
    )


def minutes_needed(drill: Drill, run: Run) -> float:
    """Return the minutes that the planned repetitions take, rest between sets included."""
    repeats = drill.repeats
    if not repeats.reps:
        return run.minutes
    seconds = repeats.sets * repeats.reps * run.period + (repeats.sets - 1) * repeats.rest
    return seconds / 60.0


def _mean_load(branches: tuple[BranchRun, ...]) -> Load:
    total = Load()
    for one in branches:
        total = total.plus(one.load.times(one.share))
    return total


def _balanced(load: Load, share: float) -> Load:
    """Return the load when a share of the repetitions is run as drawn and the rest mirrored."""
    return load.times(share).plus(load.mirrored().times(1.0 - share))


def _sides(branches: tuple[BranchRun, ...], share: float) -> tuple[float, float, float]:
    """Return shots a repetition from her left, from her right and from the middle."""
    left = right = middle = 0.0
    for branch in branches:
        for one in branch.releases:
            if abs(one.y) <= MIDDLE:
                middle += branch.share
            elif one.y > 0.0:
                left += branch.share
            else:
                right += branch.share
    return (
        share * left + (1.0 - share) * right,
        share * right + (1.0 - share) * left,
        middle,
    )


def _waiting(
    drill: Drill,
    branches: tuple[BranchRun, ...],
    period: float,
    turn: float,
    skaters: int | None,
) -> Waiting:
    names = {
        one.who for one in actions_of(drill.play)
        if one.who[0] in (Role.FORWARD.value, Role.DEFENDER.value)
    }  # fmt: skip
    active = max(1, len(names))
    count = skaters if skaters is not None else drill.skaters.high
    busy = max((one.attack.lines[-1].end if one.attack.lines else 0.0) for one in branches)
    busy = min(busy, period) if branches else 0.0
    nets = max(1, drill.nets)
    cycle = max(1.0, count / active / (1 if drill.by_turns else nets)) * (
        period / nets if drill.by_turns else period
    )
    goalies = max(1, drill.goaltenders.high)
    more = max(0.0, goalies / nets - 1.0)
    return Waiting(
        skaters=count,
        active=len(names),
        skater_wait=max(0.0, cycle - busy) if names else 0.0,
        goaltenders=goalies,
        goaltender_wait=more * turn + drill.repeats.rest,
    )
