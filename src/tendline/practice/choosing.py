"""What to run and for how long: the first of the two choices behind a sheet.

The order needs no choosing: drills run in the order of a warm-up (:class:`Order`), the block's two
first. So a variable is a drill for some whole minutes, in the block or in the team part, on some
nets and at some rhythm.
"""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from tendline.base import Level
from tendline.practice.constants import PlanWeights, PracticeRules
from tendline.practice.fitting import Misfit, able, minutes_allowed, misfits, segment_range
from tendline.practice.program import Builder, Program
from tendline.practice.repetitions import Stint
from tendline.practice.types import LEVEL_ORDER, DrillFacts, Load, Need, Order, PlanKind, Request
from tendline.practice.usual import shot_budgets, usual_loads
from tendline.practice.ways import Way, block_groups, team_groups, together, ways_of

BLOCK_DRILLS = 2
_MOST_TEAM_SEGMENTS = 7
_LEAST_REPETITIONS = 2
_LEAST_WHEN_CALMED = 4
"""Fewer than this each, and setting a drill up is not worth the ice."""
_LIVE_BRANCHES = 2
_PER_CENT = 100
_PARTS = 10
"""Shots are counted in tenths, so that a share of a third is none too many; numerical."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Candidate:
    """One drill for some minutes, in the block or with the team: a variable of the program.

    ``load`` is that of all goaltenders together.
    """

    drill: DrillFacts
    with_team: bool
    minutes: int
    way: Way
    load: Load
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
            made = _candidates(
                drill, request, rules, weights, with_team=with_team, only_fullest=bool(found)
            )
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
    """Return points a minute for the needs a drill meets, and those needs.

    Sharing the situation is worth part of the points, alone or on top of a shared theme.
    """
    counted = sum(one.count for one in needs if not one.is_stage)
    met = tuple(one for one in needs if one.met_by(drill))
    points = 0.0
    for one in needs:
        worth = 1.0 if one in met else 0.0
        if one.themes and one.shared_situations(drill):
            worth += weights.situation_share
        if one.is_stage:
            points += worth * weights.stage
        else:
            share = one.count / counted if counted else 1.0
            points += worth * weights.need * (0.5 + 0.5 * share)
    return points, met


def _candidates(
    drill: DrillFacts,
    request: Request,
    rules: PracticeRules,
    weights: PlanWeights,
    *,
    with_team: bool,
    only_fullest: bool,
) -> list[Candidate]:
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
    ways = ways_of(drill, request, rules, with_team=with_team)
    if only_fullest:
        ways = ways[:1]
    for minutes in minutes_allowed(drill, request, rules, with_team=with_team):
        for way in ways:
            groups = _groups(drill, request, way, minutes, rules, with_team=with_team)
            calm = way != ways[0]
            least = _LEAST_WHEN_CALMED if calm else _LEAST_REPETITIONS
            if min(done.repetitions for _, done in groups) < least:
                continue
            costs = weights.net * way.left_out + weights.rhythm * (way.rhythm - 1.0)
            made.append(
                Candidate(
                    drill=drill,
                    with_team=with_team,
                    minutes=minutes,
                    way=way,
                    load=together(groups),
                    points=round((points - costs) * minutes),
                )
            )
    return made


def _groups(
    drill: DrillFacts,
    request: Request,
    way: Way,
    minutes: int,
    rules: PracticeRules,
    *,
    with_team: bool,
) -> tuple[tuple[int, Stint], ...]:
    if not with_team:
        count = len(able(drill, request)) or len(request.roster.goaltenders)
        return block_groups(drill, count, way, minutes, rules)
    groups = team_groups(drill, request, way, minutes, rules)
    return tuple((one.size, one.stint) for one in groups if one.stint is not None)


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
    shots = [(i, round(one.load.shots)) for i, one in enumerate(candidates)]
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
            if not need.is_stage:
                both = [(i, 1) for i, one in every if need.met_by(one.drill)]
                wanted = round(weights.segments_per_theme)
                builder.row("need", both, low=wanted, penalty=penalty)
    if request.needs:
        beside = [
            (i, 1)
            for i, one in every
            if not one.with_team and not any(need.met_by(one.drill) for need in request.needs)
        ]
        builder.row("need", beside, high=0, penalty=penalty)
    _load_rows(builder, candidates, request, rules, weights)
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
    _budget_rows(builder, candidates, request, rules, weights)
    if places:
        minutes = [(i, one.minutes) for i, one in every]
        ice = request.slot.minutes - fixed_minutes(request, rules)
        builder.row("unused ice", minutes, low=ice, penalty=round(weights.unused))


def _budget_rows(
    builder: Builder,
    candidates: Sequence[Candidate],
    request: Request,
    rules: PracticeRules,
    weights: PlanWeights,
) -> None:
    """Add, for each goaltender whose games are known, a row for her own budget of shots (V11).

    Who stands where is dealt out later, so everybody able to do a drill has an equal share here.
    """
    price = round(weights.shot / _PARTS)
    if not price:
        return
    for who, budget in shot_budgets(request.roster, rules).items():
        terms = []
        for index, one in enumerate(candidates):
            may = able(one.drill, request)
            if any(other.id == who for other in may):
                terms.append((index, round(_PARTS * one.load.shots / len(may))))
        builder.row("V11 budget", terms, high=_PARTS * math.floor(budget), penalty=price)


def _load_rows(
    builder: Builder,
    candidates: Sequence[Candidate],
    request: Request,
    rules: PracticeRules,
    weights: PlanWeights,
) -> None:
    """Add, for each goaltender and each load, a row in per cent of what is usual for her.

    Who stands where is dealt out later, so everybody able to do a drill has an equal share here.
    """
    usual = usual_loads(request.roster, rules)
    if not usual or not weights.load:
        return
    price = max(1, round(weights.load / len(usual)))
    doing = {one.drill.id: able(one.drill, request) for one in candidates}
    for own in usual:
        for kind in Load.KINDS:
            most = own.most.of(kind)
            if most <= 0.0:
                continue
            terms = []
            for index, one in enumerate(candidates):
                may = doing[one.drill.id]
                if any(who.id == own.goaltender_id for who in may):
                    terms.append((index, round(_PER_CENT * one.load.of(kind) / len(may) / most)))
            builder.row("usual load", terms, high=_PER_CENT, penalty=price)
