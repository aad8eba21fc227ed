"""A drill on the clock: every branch run twice in a row, measured, and added up.

The second of two repetitions is what counts, since the first begins from a rested start; where
lines wait until she is set, its times are found anew, from where the first has left her. Branches
are weighted by the script. With several nets by turns one goaltender sees every second (or third)
repetition; else each net has its own, with its share of the line.
"""

from __future__ import annotations

import math
from collections.abc import Callable
from dataclasses import replace
from functools import lru_cache

import numpy as np
from numpy.typing import NDArray

from tendline import ice
from tendline.base import DEFAULT_SETTINGS, Level, Settings
from tendline.drill.branches import Path, paths_of
from tendline.drill.goaltending import HerPlay, HerRun
from tendline.drill.loading import load_between, totals, work_between
from tendline.drill.measuring import measure
from tendline.drill.repeating import Again, joined, shifted
from tendline.drill.resolve import Resolver
from tendline.drill.run_types import BranchRun, Load, Release, Run
from tendline.drill.timeline import Attack, PuckKind
from tendline.drill.types import Drill, choices_of
from tendline.drill.vocabulary import Role, TriggerKind
from tendline.drill.waiting import Goaltending, waits_for_her
from tendline.drill.world import World, world_of
from tendline.play.situation import Goaltender

LEAST_PERIOD = 0.5
"""Two repetitions are never closer than this [s]; numerical."""
LEAST_FACTOR, MOST_FACTOR = 0.6, 1.6
"""Bounds of the timing noise; numerical."""


def simulate(
    drill: Drill,
    *,
    level: Level | None = None,
    goaltender: Goaltender | None = None,
    rink: ice.Rink | None = None,
    settings: Settings = DEFAULT_SETTINGS,
    minutes: float | None = None,
    skaters: int | None = None,
    spread: int = 0,
    seed: int = 0,
) -> Run:
    """Return the run of a drill.

    Parameters
    ----------
    level
        Whose speeds to use; the drill's own when None.
    minutes, skaters
        What is planned; the drill's middle minutes and most skaters when None.
    spread
        How many noisy repetitions of each branch to add for the spread of set and goal chance
        (0: none); ``seed`` makes them the same every time.

    Raises
    ------
    InputError
        Somebody acts who is not on the ice, or waits for what never happens.
    """
    world = world_of(level or drill.sim_level, settings, rink, goaltender)
    return _simulate(drill, world, minutes, skaters, spread, seed)


@lru_cache(maxsize=600)
def _simulate(
    drill: Drill, world: World, minutes: float | None, skaters: int | None, spread: int, seed: int
) -> Run:
    her = HerPlay(drill, world)
    branches = tuple(_branch(drill, world, her, path) for path in paths_of(drill))
    if spread:
        branches = tuple(
            _spread(drill, world, her, path, branch, spread, seed + 1000 * k)
            for k, (path, branch) in enumerate(zip(paths_of(drill), branches, strict=True))
        )
    return totals(
        drill, world, branches, minutes=minutes, skaters=skaters,
        untold=sum(_is_untold(one) for one in choices_of(drill.play)),
        seed=seed if spread else None,
    )  # fmt: skip


def _is_untold(choice: object) -> bool:
    return not getattr(choice, "told", True)


def _branch(
    drill: Drill,
    world: World,
    her: HerPlay,
    path: Path,
    jitter: Callable[[int], float] | None = None,
) -> BranchRun:
    resolver = Resolver(drill, world, her, jitter)
    first = resolver.resolve(path.actions)
    turns = max(1, drill.nets) if drill.by_turns else 1
    whistle = period_of(drill, first, resolver, her) * turns
    second, period = first, whistle
    if waits_for_her(path.actions):
        again = Again(her, first, whistle)
        resolver = Resolver(drill, world, again, jitter)
        second = resolver.resolve(path.actions)
        period = period_of(drill, second, resolver, again) * turns
    attack = joined(first, shifted(second, whistle))
    ends = whistle + period
    home = her.start_pose(first)
    run = her.run(attack, until=ends + 5.0, home=home)
    releases = _releases(attack, her, run, whistle, period)
    taken = tuple(
        (one.branch, _decided(second, one.line)) for one in path.decisions
    )  # fmt: skip
    load = load_between(run, whistle, ends, shots=len(releases), world=world)
    return BranchRun(
        key=path.key,
        words=path.words,
        share=path.share,
        releases=releases,
        load=load,
        period=period,
        work=work_between(run, attack, whistle, ends),
        first_whistle=whistle,
        decided=taken,
        decisions=sum(not one.told for one in path.decisions),
        attack=attack,
        her=run,
        ends=_ends(second, world),
        in_vain=her.not_met(run, attack, attack.lines[len(first.lines) :]),
    )


def _decided(attack: Attack, line: int) -> float:
    """Return when a choice shows: the begin of the first line that depends on it."""
    if not attack.lines:
        return 0.0
    return attack.lines[min(line, len(attack.lines) - 1)].begin


def _ends(attack: Attack, world: World) -> float:
    """Return when she is asked for nothing more: last line over, last rebound followed."""
    after = [one.arrives + world.clock.track_rebound for one in attack.shots]
    return max([attack.ends, *after])


def period_of(drill: Drill, attack: Attack, resolver: Resolver, her: Goaltending) -> float:
    """Return the time from one whistle to the next at the skaters' end of the drill [s]."""
    trigger = drill.next_rep
    shots = attack.shots
    ends = attack.ends
    match trigger.kind:
        case TriggerKind.WHISTLE:
            base = 0.0
        case TriggerKind.SHOT if shots:
            mine = [one for one in shots if not trigger.who or one.who == trigger.who]
            base = max((one.time for one in mine), default=ends)
        case TriggerKind.PASS:
            passes = [
                one.time for one in attack.events
                if one.kind is PuckKind.PASS and (not trigger.who or one.who == trigger.who)
            ]  # fmt: skip
            base = max(passes, default=ends)
        case TriggerKind.CLEARED if shots:
            base = max(ends, resolver.cleared(attack, max(one.time for one in shots)))
        case TriggerKind.SET:
            base = her.home_time(attack)
        case TriggerKind.HAS_PUCK:
            got = [
                one.time for one in attack.events
                if one.kind is PuckKind.HELD and one.who == trigger.who
            ]  # fmt: skip
            base = max(got, default=ends)
        case _:
            base = ends
    period = base + trigger.delay
    if not shots:
        period = max(period, her.home_time(attack))
    return max(period + drill.repeats.rest_each, LEAST_PERIOD)


def _releases(
    attack: Attack, her: HerPlay, run: HerRun, whistle: float, period: float
) -> tuple[Release, ...]:
    shots = [one for one in attack.shots if one.rep == 1]
    if not shots:
        return ()
    first_again = shots[0].time + period
    starts = sorted(
        one.begin for one in attack.lines
        if one.begin >= whistle and one.action.who[0] != Role.GOALTENDER.value
    )  # fmt: skip
    found = []
    for number, shot in enumerate(shots, start=1):
        following = shots[number].time if number < len(shots) else first_again
        calm = [one for one in starts if one > shot.time + 1e-6]
        asked = min([*calm, whistle + period])
        found.append(
            measure(
                number, shot, start=whistle, attack=attack, her=her, run=run,
                gap=following - shot.time, after=asked - shot.arrives,
            )
        )  # fmt: skip
    return tuple(found)


def _factor(factors: NDArray[np.float64]) -> Callable[[int], float]:
    return lambda number: float(factors[number])


def _spread(
    drill: Drill,
    world: World,
    her: HerPlay,
    path: Path,
    branch: BranchRun,
    count: int,
    seed: int,
) -> BranchRun:
    """Return the branch with the spread over noisy repetitions in its releases."""
    noise = np.random.default_rng(seed)
    runs = []
    for _ in range(count):
        factors = np.clip(
            noise.normal(1.0, world.clock.timing_spread, size=len(path.actions) or 1),
            LEAST_FACTOR, MOST_FACTOR,
        )  # fmt: skip
        runs.append(_branch(drill, world, her, path, _factor(factors)))
    releases = []
    for k, one in enumerate(branch.releases):
        mine = [run.releases[k] for run in runs if k < len(run.releases)]
        chances = sorted(r.goal_chance for r in mine if r.goal_chance is not None)
        low, high = (
            (chances[len(chances) // 10], chances[-1 - len(chances) // 10])
            if chances else (math.nan, math.nan)
        )  # fmt: skip
        releases.append(
            replace(
                one, set_share=sum(r.is_set for r in mine) / max(1, len(mine)),
                goal_spread=(low, high) if chances else None,
            )
        )  # fmt: skip
    return replace(branch, releases=tuple(releases))


__all__ = ["Load", "simulate"]
