"""What a game comes to once its events are replayed: shots in the net's frame, people, notes."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from tendline.base import Level, ScoringSituation, ShotResult, ShotType
from tendline.ice import IceFormat, RuleSet, Zone
from tendline.log.events import Context, GameEvent, NoteTaken
from tendline.log.vocabulary import Cause, Given, Grade, RinkEnd


@dataclass(frozen=True, slots=True, kw_only=True)
class Rating:
    """How a goal was rated: 0 no chance, 1 an error, 2 hers alone."""

    rating: int
    with_goaltender: bool
    cause: Cause | None
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Shot:
    """A shot at our net, in the frame of that net [m]: origin goal centre, +x out, +y her left.

    ``goaltender`` is the id of the person who was in the net (empty: nobody). ``number`` counts
    the game's shots from 1. ``situation`` is what the scorer said or, failing that, what the play
    before says (``situation_given``, ``situation_why``); ``context`` places are in this frame too.
    """

    id: str
    game: str
    day: date
    opponent: str
    level: Level
    number: int
    period: int
    elapsed: float | None
    goaltender: str
    x: float
    y: float
    distance: float
    angle: float
    zone: Zone
    in_home_plate: bool
    result: ShotResult
    situation: ScoringSituation | None
    situation_given: Given
    situation_why: str
    shot_type: ShotType | None
    target_y: float | None
    target_z: float | None
    context: Context
    rating: Rating | None

    @property
    def is_goal(self) -> bool:
        """Return whether it scored."""
        return self.result is ShotResult.GOAL

    @property
    def on_goal(self) -> bool:
        """Return whether it counts as a shot on goal against the person in the net."""
        return self.result.on_goal and bool(self.goaltender) and not self.context.empty_net

    @property
    def is_save(self) -> bool:
        """Return whether the person in the net stopped it."""
        return self.on_goal and not self.is_goal


@dataclass(frozen=True, slots=True, kw_only=True)
class Chance:
    """A chance without a shot at the net, in the net's frame."""

    id: str
    period: int
    goaltender: str
    x: float
    y: float
    grade: Grade
    situation: ScoringSituation | None
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Stint:
    """One spell of one person in the net; ``seconds`` is None where the clock was not noted."""

    goaltender: str
    first_period: int
    seconds: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Game:
    """A game as its events tell it."""

    id: str
    day: date
    team: str
    opponent: str
    level: Level
    rule_set: RuleSet
    ice_format: IceFormat
    at_home: bool | None
    period: int
    defended_end: RinkEnd
    goaltender: str
    ended: bool
    period_length: float
    shots: tuple[Shot, ...]
    chances: tuple[Chance, ...]
    notes: tuple[NoteTaken, ...]
    stints: tuple[Stint, ...]
    can_undo: GameEvent | None
    can_redo: str
    warnings: tuple[str, ...]

    @property
    def goals(self) -> tuple[Shot, ...]:
        """Return the goals against, in order."""
        return tuple(one for one in self.shots if one.is_goal)

    @property
    def goaltenders(self) -> tuple[str, ...]:
        """Return who was in the net, in order of appearance."""
        return tuple(dict.fromkeys(one.goaltender for one in self.stints if one.goaltender))

    def shots_of(self, goaltender: str) -> tuple[Shot, ...]:
        """Return the shots credited to one person."""
        return tuple(one for one in self.shots if one.goaltender == goaltender)

    def seconds_of(self, goaltender: str) -> float | None:
        """Return one person's time in the net [s], or None when part of it was not timed."""
        spells = [one.seconds for one in self.stints if one.goaltender == goaltender]
        if any(one is None for one in spells):
            return None
        return sum(one for one in spells if one is not None)
