"""What a simulated drill gives: releases, load, waiting, spread, for every branch and together."""

from __future__ import annotations

from dataclasses import dataclass, replace
from enum import StrEnum

from tendline.base import Level, ShotType, Side
from tendline.body import Pose
from tendline.drill.goaltending import HerRun
from tendline.drill.skating import Point
from tendline.drill.timeline import Attack, Line


class HerState(StrEnum):
    """What she is doing when a shot leaves."""

    SET = "set"
    MOVING = "moving"
    RISING = "getting up"
    SLIDING = "sliding"
    DOWN = "down"


@dataclass(frozen=True, slots=True, kw_only=True)
class Release:
    """One shot as she meets it. Times [s] from the whistle of the repetition, lengths [m].

    ``offset`` to the left of the puck's line; ``depth`` from the goal's centre; ``set_since`` how
    long she has been set (0 when not); ``placed`` how long, up to the release, she has been on the
    puck's line; ``sight`` how long she has had the puck in clear view with nothing else to follow
    (for all three at most 2.5 s are looked at); ``gap`` to the next shot at the same goaltender;
    ``after`` from the save to the next puck that she must answer; ``hidden`` the share of the
    puck that bodies block from her eyes; ``goal_chance`` None where the shot's model has no answer
    (a puck on the goal line).
    """

    number: int
    time: float
    shooter: str
    x: float
    y: float
    distance: float
    shot: ShotType
    speed: float
    pose: Pose
    state: HerState
    is_set: bool
    set_since: float
    offset: float
    on_line: bool
    depth: float
    placed: float
    sight: float
    hidden: float
    gap: float
    after: float
    goal_chance: float | None
    puck: int
    wanted_depth: float = 0.0
    set_share: float | None = None
    goal_spread: tuple[float, float] | None = None

    @property
    def ready_for(self) -> float:
        """Return how long she was both on the line and with clear sight of the puck [s]."""
        return min(self.placed, self.sight)


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """What is asked of her body in a span: counts, metres, and pushes by leg.

    ``moves`` are (move, count), ``by_leg`` (move, leg that drives, count); a shuffle run counts its
    steps.
    """

    shots: float = 0.0
    drops: float = 0.0
    hard_stops: float = 0.0
    recoveries: float = 0.0
    pushes_left: float = 0.0
    pushes_right: float = 0.0
    metres: float = 0.0
    moves: tuple[tuple[str, float], ...] = ()
    by_leg: tuple[tuple[str, str, float], ...] = ()

    def times(self, share: float) -> Load:
        """Return the load scaled."""
        numbers = {name: getattr(self, name) * share for name in _COUNTS}
        return Load(
            **numbers,
            moves=tuple((move, count * share) for move, count in self.moves),
            by_leg=tuple((move, leg, count * share) for move, leg, count in self.by_leg),
        )

    def plus(self, other: Load) -> Load:
        """Return the sum of two loads."""
        numbers = {name: getattr(self, name) + getattr(other, name) for name in _COUNTS}
        moves: dict[str, float] = {}
        for move, count in (*self.moves, *other.moves):
            moves[move] = moves.get(move, 0.0) + count
        legs: dict[tuple[str, str], float] = {}
        for move, leg, count in (*self.by_leg, *other.by_leg):
            legs[move, leg] = legs.get((move, leg), 0.0) + count
        return Load(
            **numbers,
            moves=tuple(sorted(moves.items())),
            by_leg=tuple((move, leg, count) for (move, leg), count in sorted(legs.items())),
        )

    def mirrored(self) -> Load:
        """Return the load of the mirror image: the other leg drives."""
        return replace(
            self,
            pushes_left=self.pushes_right,
            pushes_right=self.pushes_left,
            by_leg=tuple(
                sorted((move, Side(leg).other.value, count) for move, leg, count in self.by_leg)
            ),
        )


_COUNTS = (
    "shots", "drops", "hard_stops", "recoveries", "pushes_left", "pushes_right", "metres",
)  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class BranchRun:
    """One way through the choices, run twice in a row; ``releases`` are those of the second time.

    ``period`` is from whistle to whistle [s], ``work`` the part of it in which she is asked for
    something, ``first_whistle`` when the second repetition starts on the clock of ``attack``.
    ``in_vain`` are the lines that waited until she is set and did not find her so.
    """

    key: str
    words: str
    share: float
    releases: tuple[Release, ...]
    load: Load
    period: float
    work: float
    first_whistle: float
    decided: tuple[tuple[str, float], ...]
    decisions: int
    attack: Attack
    her: HerRun
    ends: float
    in_vain: tuple[Line, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class Waiting:
    """How long people wait between turns [s], and how many wait."""

    skaters: int
    active: int
    skater_wait: float
    goaltenders: int
    goaltender_wait: float


@dataclass(frozen=True, slots=True, kw_only=True)
class Run:
    """A simulated drill. ``load`` is that of one repetition on average, ``total`` of the drill.

    ``shots_per_minute`` is at one net while the drill flows; ``shots_total`` is what one
    goaltender faces in ``minutes``. ``work`` and ``rest`` [s] are per repetition, rest between sets
    shared out. ``left_share`` is the share of repetitions run to the left side as drawn.
    """

    drill_id: str
    level: Level
    branches: tuple[BranchRun, ...]
    load: Load
    total: Load
    repetitions: float
    minutes: float
    period: float
    shots_per_minute: float
    shots_total: float
    work: float
    rest: float
    turn: float
    waiting: Waiting
    shots_left: float
    shots_right: float
    shots_middle: float
    drawn_share: float
    untold_choices: int
    seed: int | None = None

    @property
    def releases(self) -> tuple[Release, ...]:
        """Return the releases of every branch, branch after branch."""
        return tuple(one for branch in self.branches for one in branch.releases)

    @property
    def set_share(self) -> float:
        """Return the share of shots for which she is set, branches weighted; 1 without shots."""
        total = sum(b.share * len(b.releases) for b in self.branches)
        if not total:
            return 1.0
        ready = sum(b.share * sum(r.is_set for r in b.releases) for b in self.branches)
        return ready / total

    def branch(self, key: str) -> BranchRun:
        """Return the branch of that key; raises ``KeyError`` for an unknown one."""
        for one in self.branches:
            if one.key == key:
                return one
        raise KeyError(key)


@dataclass(frozen=True, slots=True)
class Frame:
    """One moment of a run for pictures: everyone's place, the puck, her pose, what is said."""

    time: float
    people: tuple[tuple[str, Point], ...]
    puck: Point
    holder: str
    pose: Pose
    is_set: bool
