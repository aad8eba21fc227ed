"""What to run and for how long: the first of the two choices behind a sheet.

The order needs no choosing: drills run in the order of a warm-up (:class:`Order`), the block's two
first. So a variable is a drill for some whole minutes, in the block or in the team part.
"""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from tendline.base import Level
from tendline.practice.constants import PlanWeights, PracticeRules
from tendline.practice.fitting import (
    Misfit,
    able,
    minutes_allowed,
    misfits,
    nets_used,
    segment_range,
)
from tendline.practice.program import Builder, Program
from tendline.practice.repetitions import stint
from tendline.practice.types import LEVEL_ORDER, DrillFacts, Need, Order, PlanKind, Request

BLOCK_DRILLS = 2
_MOST_TEAM_SEGMENTS = 7
_LEAST_REPETITIONS = 2
_LIVE_BRANCHES = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """One drill for some minutes, in the block or with the team: a variable of the program."""

    drill: DrillFacts
    with_team: bool
    minutes: int
    shots: float
    points: int


@dataclass(frozen=True, slots=True, kw_only=True)
class Menu:
    """The program, what its variables stand for, and why drills are kept out."""

    program: Program
    candidates: tuple[Candidate, ...]
    kept_out: tuple[tuple[str, bool, tuple[Misfit, ...]], ...]
    team_places: int
    minutes_taken: int


def fixed_minutes(request: Request, rules: PracticeRules) -> int:
    """Return the minutes of the slot that no drill may use."""
    if request.kind is PlanKind.BLOCK:
        return 0
    other = round(rules.settle_minutes + rules.water_minutes + rules.closing_minutes)
    fixed = sum(one.minutes for one in request.fixed)
    return other + fixed + request.slot.other_minutes


def team_places(request: Request, rules: PracticeRules) -> int:
    """Return the most team segments the slot could hold."""
    if request.kind is PlanKind.BLOCK or request.fixed:
        return 0
    left = request.slot.minutes - fixed_minutes(request, rules) - round(rules.block_minutes)
    short, _ = segment_range(request.roster.youngest, rules)
    return max(1, min(_MOST_TEAM_SEGMENTS, left // max(1, short)))


def make_menu(
    request: Request, drills: Sequence[DrillFacts], rules: PracticeRules, weights: PlanWeights
) -> Menu:
    """Return the program of all choices for a request."""
    builder = Builder()
    places = team_places(request, rules)
    candidates: list[Candidate] = []
    kept_out: list[tuple[str, bool, tuple[Misfit, ...]]] = []
    barred: dict[str, list[int]] = defaultdict(list)
    for drill in drills:
        for with_team in (False, True):
            if not (drill.for_team if with_team else drill.for_block):
                continue
            if with_team and not places:
                continue
            found = misfits(drill, request, rules, with_team=with_team)
            if found:
                kept_out.append((drill.id, with_team, found))
            made = _candidates(drill, request, rules, weights, with_team=with_team)
            for one in made:
                index = builder.variable(one.points)
                candidates.append(one)
                for misfit in found:
                    barred[misfit.rule].append(index)
    for rule, indices in barred.items():
        for index in indices:
            builder.row(rule, ((index, 1),), high=0)
    _form_rows(builder, candidates, request, rules, places)
    _wish_rows(builder, candidates, request, rules, weights, places)
    return Menu(
        program=builder.program(),
        candidates=tuple(candidates),
        kept_out=tuple(kept_out),
        team_places=places,
        minutes_taken=fixed_minutes(request, rules),
    )


def in_order(chosen: Iterable[Candidate], request: Request) -> tuple[Candidate, ...]:
    """Return chosen drills as they run: block first, each part in the order of a warm-up.

    Among equals a new technique comes first, then the drill that is worth most.
    """
    return tuple(
        sorted(
            chosen,
            key=lambda one: (
                one.with_team,
                one.drill.order,
                one.drill.id not in request.fresh,
                -one.points,
                one.drill.id,
            ),
        )
    )


def need_points(
    drill: DrillFacts, needs: Sequence[Need], weights: PlanWeights
) -> tuple[float, tuple[Need, ...]]:
    """Return points a minute for the needs a drill meets, and those needs."""
    counted = sum(one.count for one in needs if not one.is_stage)
    met = tuple(one for one in needs if one.met_by(drill))
    points = 0.0
    for one in met:
        if one.is_stage:
            points += weights.stage
        else:
            share = one.count / counted if counted else 1.0
            points += weights.need * (0.5 + 0.5 * share)
    return points, met


def _candidates(
    drill: DrillFacts,
    request: Request,
    rules: PracticeRules,
    weights: PlanWeights,
    *,
    with_team: bool,
) -> list[Candidate]:
    count = len(able(drill, request)) or len(request.roster.goaltenders)
    points, _ = need_points(drill, request.needs, weights)
    points += weights.time
    if drill.choices >= _LIVE_BRANCHES:
        points += weights.choice
    paired = drill.id in request.week_pair
    if drill.id in request.recent and not paired:
        points -= weights.recent
    if drill.id in request.keep or (paired and not with_team):
        points += weights.keep
    made = []
    for minutes in minutes_allowed(drill, request, rules, with_team=with_team):
        if with_team:
            nets = max(1, nets_used(drill, request.slot.space, count))
            sharing = max(1, min(-(-count // nets), drill.goaltenders_high))
        else:
            sharing = max(1, min(count, drill.goaltenders_high))
        done = stint(drill, minutes=minutes, sharing=sharing, with_team=with_team, rules=rules)
        if done.repetitions < _LEAST_REPETITIONS:
            continue
        shots = done.load.shots * (min(count, nets * sharing) if with_team else count)
        made.append(
            Candidate(
                drill=drill,
                with_team=with_team,
                minutes=minutes,
                shots=shots,
                points=round(points * minutes),
            )
        )
    return made


def _form_rows(
    builder: Builder,
    candidates: Sequence[Candidate],
    request: Request,
    rules: PracticeRules,
    places: int,
) -> None:
    of_drill: dict[str, list[int]] = defaultdict(list)
    for index, one in enumerate(candidates):
        of_drill[one.drill.id].append(index)
    every = list(enumerate(candidates))
    builder.row(
        "V7", ((i, 1) for i, one in every if not one.with_team), low=BLOCK_DRILLS, high=BLOCK_DRILLS
    )
    if places:
        builder.row("segment", ((i, 1) for i, one in every if one.with_team), low=1, high=places)
    for indices in of_drill.values():
        builder.row("once", ((i, 1) for i in indices), high=1)
    minutes = [(i, one.minutes) for i, one in enumerate(candidates)]
    block = [(i, one.minutes) for i, one in enumerate(candidates) if not one.with_team]
    builder.row("block time", block, high=round(rules.block_minutes))
    builder.row("V15", minutes, high=request.slot.minutes - fixed_minutes(request, rules))
    shots = [(i, round(one.shots)) for i, one in enumerate(candidates)]
    count = len(request.roster.goaltenders)
    builder.row("V11", shots, high=round(rules.shots_red) * count)


def _wish_rows(
    builder: Builder,
    candidates: Sequence[Candidate],
    request: Request,
    rules: PracticeRules,
    weights: PlanWeights,
    places: int,
) -> None:
    penalty = round(weights.penalty)
    every = list(enumerate(candidates))
    for need in request.needs:
        met = [(i, 1) for i, one in every if not one.with_team and need.met_by(one.drill)]
        builder.row("need", met, low=1, penalty=penalty)
        if places:
            team = [(i, 1) for i, one in every if one.with_team and need.met_by(one.drill)]
            builder.row("need", team, low=1, penalty=penalty // 2)
    if places:
        opens = [
            (i, 1) for i, one in every if one.with_team and one.drill.order <= Order.CLEAR_SHOTS
        ]
        builder.row("V8", opens, low=1, penalty=penalty)
        if LEVEL_ORDER.index(request.roster.youngest) >= LEVEL_ORDER.index(Level.U11):
            read = [(i, 1) for i, one in every if one.drill.choices >= _LIVE_BRANCHES]
            builder.row("V10", read, low=1, penalty=penalty)
        late = [(i, 1) for i, one in every if one.with_team and one.drill.id in request.fresh]
        builder.row("V21", late, high=0, penalty=penalty // 2)
    everybody = len(request.roster.goaltenders)
    for barred in range(1, everybody):
        some = [(i, 1) for i, one in every if len(able(one.drill, request)) == everybody - barred]
        if some:
            builder.row("V22", some, high=0, penalty=penalty * barred // everybody)
    long_turn = [(i, 1) for i, one in every if one.drill.work > rules.turn_limit]
    builder.row("V6", long_turn, high=0, penalty=penalty // 4)
    no_after = [
        (i, 1)
        for i, one in every
        if one.drill.load.shots and one.drill.after_part < rules.after_part
    ]
    builder.row("V4", no_after, high=0, penalty=penalty // 4)
    known = [one.game_shots for one in request.roster.goaltenders if one.game_shots]
    if known:
        budget = rules.shots_of_game * sum(known) / len(known)
        count = len(request.roster.goaltenders)
        shots = [(i, round(one.shots)) for i, one in every]
        high = round(budget * count)
        builder.row("V11 budget", shots, high=high, penalty=round(weights.shot))
    if places:
        minutes = [(i, one.minutes) for i, one in every]
        ice = request.slot.minutes - fixed_minutes(request, rules)
        builder.row("unused ice", minutes, low=ice, penalty=round(weights.unused))
