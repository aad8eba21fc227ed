"""From a drill and its run on the clock to the facts that the planner uses."""

from __future__ import annotations

import math
import re
from collections.abc import Sequence
from dataclasses import dataclass, replace

from tendline.base import DEFAULT_SETTINGS, Level, Settings
from tendline.drill import Drill
from tendline.drill.check import check_drill, standing
from tendline.drill.places import xy_of
from tendline.drill.rules import RuleLevel
from tendline.drill.run_types import Run
from tendline.drill.types import Ice, actions_of, choices_of
from tendline.drill.vocabulary import DrillKind, Family, IceUse, MarkKind, Role, Theme, Verb
from tendline.drill.vocabulary import Sides as DrillSides
from tendline.ice import Rink
from tendline.motion import MoveKind
from tendline.practice.types import DrillFacts, Load, Order, Sides

_SIDES = {
    DrillSides.EACH_REP: Sides.MIRRORED,
    DrillSides.EACH_SET: Sides.MIRRORED,
    DrillSides.WITHIN: Sides.BOTH,
    DrillSides.MIDDLE: Sides.NONE,
    DrillSides.ONE: Sides.MIRRORED,
}
_ORDERS = {
    Family.MOVEMENT: Order.MOVEMENT,
    Family.WARM_UP: Order.CLEAR_SHOTS,
    Family.TRACKING: Order.CLEAR_SHOTS,
    Family.PUCK_HANDLING: Order.STOPS,
    Family.ANGLES: Order.ANGLES,
    Family.LATERAL: Order.LATERAL,
    Family.ENTRIES: Order.LATERAL,
    Family.REBOUNDS: Order.REBOUNDS,
    Family.BELOW: Order.REBOUNDS,
    Family.SCREENS: Order.REBOUNDS,
    Family.DEFLECTIONS: Order.REBOUNDS,
    Family.TEAM: Order.CLOSE,
    Family.SPECIAL_TEAMS: Order.CLOSE,
}
_MOVE_WORDS = {
    Verb.DROP: "butterfly",
    Verb.SLIDE: "slides",
    Verb.BUTTERFLY_PUSH: "slides",
    Verb.SEAL: "post play",
    Verb.RECOVER: "getting up",
    Verb.PUSH: "long pushes",
}
_RUN_WORDS: dict[str, str] = {
    MoveKind.DROP: "butterfly",
    MoveKind.BUTTERFLY_SLIDE: "slides",
    MoveKind.BUTTERFLY_PUSH: "slides",
    MoveKind.KNEE_SHUFFLE: "slides",
    MoveKind.POST_ENTRY: "post play",
    MoveKind.POST_EXIT: "post play",
    MoveKind.FULL_RECOVERY: "getting up",
    MoveKind.T_PUSH: "long pushes",
}
_LISTED_NETS = re.compile(r"(\d+) nets?")
_BE_SET = re.compile(r"\b(set|still|stillness)\b", re.IGNORECASE)
_NOT_ON_A_SHEET = frozenset({DrillKind.TEMPLATE, DrillKind.ROUTINE})
SPECIAL_EVENINGS = frozenset({Family.SLEDGE, Family.OUTDOOR, Family.ALONE})
"""Families that only stand on a sheet when the coach asks for them."""
_PLANNED = frozenset({"V1", "V2", "V3", "V19"})
"""Rules that stop a drill by itself; ages and people are the plan's own business."""
_FEWEST_FOR_TEAM = 4
MARGIN = 1.0
"""Ice kept free around everybody's places [m]."""
GOAL_ROOM = 1.0
"""Room for the net behind the goal line [m]."""
_LONGEST_ADDED = 3


def facts_of(
    drill: Drill, run: Run, rink: Rink, *, settings: Settings = DEFAULT_SETTINGS
) -> DrillFacts:
    """Return the facts of a drill: its script, its run on the clock, and its own check."""
    return with_run(static_facts(drill, rink), measured(drill, run, rink, settings=settings))


@dataclass(frozen=True, slots=True, kw_only=True)
class Measured:
    """What a run on the clock says of one repetition, for one goaltender; times in seconds."""

    work: float
    rest: float
    load: Load
    release_gap: float
    after_part: float
    moves: frozenset[str]
    faults: tuple[tuple[str, str], ...]


def measured(
    drill: Drill, run: Run, rink: Rink, *, settings: Settings = DEFAULT_SETTINGS
) -> Measured:
    """Return what the planner needs of a run, and what the drill's own check says against it."""
    stops = [
        one
        for one in standing(check_drill(drill, run, settings=settings, rink=rink))
        if one.level is RuleLevel.HARD
    ]
    made = frozenset(_RUN_WORDS[move] for move, count in run.load.moves
                     if count and move in _RUN_WORDS)  # fmt: skip
    return Measured(
        work=run.work,
        rest=run.rest,
        load=Load(
            shots=run.load.shots,
            drops=run.load.drops,
            hard_stops=run.load.hard_stops,
            recoveries=run.load.recoveries,
        ),
        release_gap=min((one.gap for one in run.releases), default=math.inf),
        after_part=min((one.after for one in run.releases), default=math.inf),
        moves=made | (frozenset({"butterfly"}) if run.load.drops else frozenset()),
        faults=tuple((one.rule, one.text) for one in stops if one.rule in _PLANNED),
    )


def static_facts(drill: Drill, rink: Rink) -> DrillFacts:
    """Return what the script alone says: people, ice, themes, ages; load and times are zero."""
    needed = sum(one.role is not Role.GOALTENDER for one in drill.people)
    for_team = _is_for_team(drill)
    longest = drill.minutes.high + (_LONGEST_ADDED if for_team else 1)
    return DrillFacts(
        id=drill.id,
        name=drill.title,
        minutes_low=max(1, drill.minutes.low - (0 if for_team else 1)),
        minutes_high=longest,
        work=1.0,
        rest=_rest(drill),
        goaltenders_low=max(1, drill.goaltenders.low),
        goaltenders_high=max(1, drill.goaltenders.high),
        people=max(needed, drill.skaters.low + drill.helpers.low),
        area=ground_of(drill, rink),
        needs_net=drill.nets > 0,
        nets_low=_nets_needed(drill),
        nets_high=_nets(drill),
        themes=_themes(drill),
        situations=drill.situations,
        youngest=drill.ages.youngest,
        oldest=drill.ages.oldest or Level.MEN_ELITE,
        sides=_SIDES[drill.sides],
        order=_order(drill),
        choices=_choices(drill),
        second_save=drill.has_mark(MarkKind.SECOND_SAVE) or drill.has_mark(MarkKind.BATTLE),
        moves=scripted_moves(drill),
        for_block=_is_for_block(drill),
        for_team=for_team,
        objective_shooters=drill.shooters_aim,
        objective_goaltender=drill.goaltender_aim,
        set_up=drill.set_up,
        steps=drill.steps,
        key_points=drill.key_points,
        equipment=drill.equipment,
    )


def area_of(ice: Ice, rink: Rink) -> tuple[float, float]:
    """Return the length and width of the ice a drill needs [m]; (0, 0) off the ice."""
    if ice.length is not None and ice.width is not None:
        return (ice.length, ice.width)
    crease = rink.crease
    zone = rink.blue_line_x + rink.goal_line_to_boards
    circle = 2.0 * rink.circle_radius
    return {
        IceUse.OFF_ICE: (0.0, 0.0),
        IceUse.PATCH: (5.0, 5.0),
        IceUse.CREASE: (crease.radius + 1.0, 2.0 * crease.half_width + 1.0),
        IceUse.CIRCLE: (circle, circle),
        IceUse.CORNER: (circle, circle),
        IceUse.END_ZONE: (zone, rink.width),
        IceUse.NEUTRAL_ZONE: (rink.length - 2.0 * zone, rink.width),
        IceUse.CROSS_ICE: (rink.length / 3.0, rink.width),
        IceUse.HALF_ICE: (rink.length / 2.0, rink.width),
        IceUse.FULL_ICE: (rink.length, rink.width),
    }[ice.use]


def ground_of(drill: Drill, rink: Rink) -> tuple[float, float]:
    """Return the ice a drill really covers [m]: everybody's places and ways, and the net.

    A margin is added all round; never more than the part of the sheet that the script names.
    """
    named = area_of(drill.ice, rink)
    if drill.ice.length is not None or named == (0.0, 0.0):
        return named
    spots = [one.at for one in drill.people] + [one.at for one in drill.things]
    for action in actions_of(drill.play):
        spots += [one for one in (action.to, *action.via) if one is not None]
    points = [xy_of(one, drill, rink) for one in spots]
    if drill.nets:
        points.append((-GOAL_ROOM, 0.0))
    if not points:
        return named
    xs, ys = [x for x, _ in points], [y for _, y in points]
    length = max(xs) - min(xs) + 2 * MARGIN
    width = max(ys) - min(ys) + 2 * MARGIN
    return (round(min(named[0], length), 1), round(min(named[1], width), 1))


def scripted_moves(drill: Drill) -> frozenset[str]:
    """Return the words for moves that the script asks of her (a run may add to them)."""
    words = {
        _MOVE_WORDS[one.verb]
        for one in actions_of(drill.play)
        if one.who == Role.GOALTENDER.value and one.verb in _MOVE_WORDS
    }
    if Theme.POST_PLAY in drill.themes:
        words.add("post play")
    if any(one.verb is Verb.SHOOT for one in actions_of(drill.play)):
        words.add("shots")
    return frozenset(words)


def on_the_ice(
    drills: Sequence[Drill], *, also: frozenset[Family] = frozenset()
) -> tuple[Drill, ...]:
    """Return the drills that may stand on a practice sheet.

    Left out: templates, routines, what is done off the ice or before a game, and families for
    special evenings (sledge hockey, outdoor ice, alone on the ice) unless named in ``also``.
    """
    return tuple(
        one
        for one in drills
        if one.kind not in _NOT_ON_A_SHEET
        and one.ice.use is not IceUse.OFF_ICE
        and (one.family not in SPECIAL_EVENINGS or one.family in also)
        and not (one.family is Family.WARM_UP and Theme.WARM_UP in one.themes)
    )


def _themes(drill: Drill) -> tuple[str, ...]:
    """Return the themes of a drill; one whose aim asks her to be still or set trains that too."""
    named = tuple(one.value for one in drill.themes)
    set_for_pucks = Theme.PUCK_HANDLING in drill.themes
    asked = not set_for_pucks and _BE_SET.search(drill.goaltender_aim)
    return (*named, Theme.STANCE.value) if asked and Theme.STANCE not in drill.themes else named


def _rest(drill: Drill) -> float:
    """Return the rest per repetition [s]: its own, and its share of the rest between sets."""
    return drill.repeats.rest_each + drill.repeats.rest / max(1, drill.repeats.reps)


def _choices(drill: Drill) -> int:
    live = [len(one.branches) for one in choices_of(drill.play) if not one.told]
    return max(live, default=0)


def _order(drill: Drill) -> Order:
    if Theme.BREAKAWAY in drill.themes or drill.kind is DrillKind.GAME:
        return Order.CLOSE
    order = _ORDERS.get(drill.family, Order.CLEAR_SHOTS)
    stops = any(one.verb is Verb.SET for one in actions_of(drill.play))
    return Order.STOPS if order is Order.MOVEMENT and stops else order


def _nets_needed(drill: Drill) -> int:
    """Return how many nets must stand on the ice: those of the play, or of the equipment."""
    listed = [int(found[1]) for one in drill.equipment if (found := _LISTED_NETS.fullmatch(one))]
    return max(1, drill.nets, *listed)


def _nets(drill: Drill) -> int:
    """Return how many nets the drill can use: its own, or both ends when it takes half the ice."""
    halves = (IceUse.END_ZONE, IceUse.HALF_ICE, IceUse.CROSS_ICE)
    return max(_nets_needed(drill), 2 if _is_for_team(drill) and drill.ice.use in halves else 1)


def _is_for_team(drill: Drill) -> bool:
    return drill.skaters.high >= _FEWEST_FOR_TEAM and any(
        one.verb is Verb.SHOOT for one in actions_of(drill.play)
    )


def _is_for_block(drill: Drill) -> bool:
    return drill.kind is not DrillKind.GAME and drill.family not in (
        Family.TEAM, Family.SPECIAL_TEAMS,
    )  # fmt: skip


def with_run(facts: DrillFacts, found: Measured) -> DrillFacts:
    """Return the facts with what the clock measured."""
    return replace(
        facts,
        work=max(1.0, found.work),
        rest=max(0.0, found.rest),
        load=found.load,
        release_gap=found.release_gap,
        after_part=found.after_part,
        moves=facts.moves | found.moves,
        faults=found.faults,
    )
