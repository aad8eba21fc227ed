"""What a practice is made of: people, ice, needs, drills as the planner sees them, and the sheet.

Times of day are ``datetime.time``; minutes are whole minutes on the rink's clock; everything
shorter is in seconds. A segment's minutes include the change-over at its end, so that the clock
times on a sheet are whole minutes and add up.
"""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date, time
from enum import IntEnum, StrEnum
from typing import ClassVar

from tendline.base import Level, ScoringSituation
from tendline.drill.rules import RuleLevel

LEVEL_ORDER: tuple[Level, ...] = (
    Level.U9, Level.U11, Level.U13, Level.U15, Level.U18,
    Level.ADULT, Level.WOMEN_ELITE, Level.MEN_ELITE,
)  # fmt: skip
"""Age classes from young to old, then adult playing levels."""


def youngest(levels: tuple[Level, ...]) -> Level:
    """Return the youngest of some levels; an empty tuple counts as adult."""
    return min(levels, key=LEVEL_ORDER.index) if levels else Level.ADULT


@dataclass(frozen=True, slots=True, kw_only=True)
class Load:
    """What a goaltender did or will do: counts, not a verdict."""

    KINDS: ClassVar[tuple[str, ...]] = ("shots", "drops", "hard_stops", "recoveries")

    shots: float = 0.0
    drops: float = 0.0
    hard_stops: float = 0.0
    recoveries: float = 0.0

    def __add__(self, other: Load) -> Load:
        return Load(
            shots=self.shots + other.shots,
            drops=self.drops + other.drops,
            hard_stops=self.hard_stops + other.hard_stops,
            recoveries=self.recoveries + other.recoveries,
        )

    def times(self, count: float) -> Load:
        """Return the load of ``count`` repetitions."""
        return Load(
            shots=self.shots * count,
            drops=self.drops * count,
            hard_stops=self.hard_stops * count,
            recoveries=self.recoveries * count,
        )

    def of(self, kind: str) -> float:
        """Return one count by name, one of ``Load.KINDS``."""
        return float(getattr(self, kind))

    @property
    def words(self) -> str:
        """Return the counts in words, for example ``'shots 33, drops 41, ...'``."""
        return (
            f"shots {self.shots:.0f}, drops {self.drops:.0f}, hard stops {self.hard_stops:.0f}, "
            f"recoveries {self.recoveries:.0f}"
        )


class Sides(StrEnum):
    """How a drill treats left and right."""

    NONE = "no side"
    BOTH = "both sides in every repetition"
    MIRRORED = "half the repetitions left, half right"


class Order(IntEnum):
    """Place of a drill in the order of a warm-up: early things first."""

    MOVEMENT = 1
    STOPS = 2
    CLEAR_SHOTS = 3
    ANGLES = 4
    LATERAL = 5
    REBOUNDS = 6
    CLOSE = 7


@dataclass(frozen=True, slots=True, kw_only=True)
class DrillFacts:
    """One drill as the planner sees it: numbers for one goaltender and one repetition.

    ``work`` and ``rest`` are seconds per repetition; ``release_gap`` is the shortest time from
    one release to the next at one goaltender [s] (infinite when there is at most one shot);
    ``area`` is the ice it needs, length by width [m]; ``people`` counts everybody but the
    goaltenders; ``nets_low`` and ``nets_high`` bound the nets it is played on, where it needs any;
    ``situations`` are the scoring situations it trains; ``faults`` are (rule, words) that stop the
    drill by its own check and are not meant.
    """

    id: str
    name: str
    minutes_low: int
    minutes_high: int
    work: float
    rest: float
    load: Load = Load()
    goaltenders_low: int = 1
    goaltenders_high: int = 2
    people: int = 0
    area: tuple[float, float] = (10.0, 10.0)
    needs_net: bool = True
    nets_low: int = 1
    nets_high: int = 1
    themes: tuple[str, ...] = ()
    situations: tuple[ScoringSituation, ...] = ()
    youngest: Level = Level.U9
    oldest: Level = Level.MEN_ELITE
    sides: Sides = Sides.NONE
    order: Order = Order.CLEAR_SHOTS
    choices: int = 0
    release_gap: float = float("inf")
    second_save: bool = False
    pucks_in_play: int = 1
    after_part: float = 2.0
    moves: frozenset[str] = frozenset()
    faults: tuple[tuple[str, str], ...] = ()
    for_block: bool = True
    for_team: bool = False
    objective_shooters: str = ""
    objective_goaltender: str = ""
    set_up: tuple[str, ...] = ()
    steps: tuple[str, ...] = ()
    key_points: tuple[str, ...] = ()
    equipment: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True, kw_only=True)
class RosterGoaltender:
    """One goaltender at tonight's practice.

    ``game_shots`` is her own average of shots per game (None when nothing is logged);
    ``past`` her loads of earlier practices; ``restrictions`` are moves a note asks to leave out.
    """

    id: str
    name: str
    level: Level = Level.ADULT
    game_shots: float | None = None
    past: tuple[Load, ...] = ()
    restrictions: frozenset[str] = frozenset()


@dataclass(frozen=True, slots=True, kw_only=True)
class Roster:
    """Who is there: goaltenders, skaters, and people free to serve a goaltender station."""

    goaltenders: tuple[RosterGoaltender, ...]
    skaters: int = 0
    helpers: int = 1

    @property
    def youngest(self) -> Level:
        """Return the youngest goaltender's level."""
        return youngest(tuple(one.level for one in self.goaltenders))


@dataclass(frozen=True, slots=True, kw_only=True)
class Space:
    """A piece of ice: length (out from the goal line) by width [m], and the nets on it."""

    name: str
    length: float
    width: float
    nets: int

    def holds(self, area: tuple[float, float]) -> bool:
        """Return whether an area fits, turned if need be."""
        a, b = sorted(area)
        c, d = sorted((self.length, self.width))
        return a <= c and b <= d


@dataclass(frozen=True, slots=True, kw_only=True)
class IceSlot:
    """The ice on the rink's clock: when, how long, the space of the team and of the block.

    ``other_minutes`` are taken by resurfacing or moving goals inside the slot.
    """

    day: date
    start: time
    minutes: int
    space: Space
    block_space: Space
    other_minutes: int = 0


@dataclass(frozen=True, slots=True, kw_only=True)
class Need:
    """Something to train, with its evidence: ``count`` of ``of`` goals or chances.

    ``sure`` says in words how sure the evidence is; ``is_stage`` marks the season plan's theme
    (no counts needed), everything else is corrective.
    """

    name: str
    themes: tuple[str, ...] = ()
    situations: tuple[ScoringSituation, ...] = ()
    count: int = 0
    of: int = 0
    sure: str = ""
    is_stage: bool = False

    @property
    def words(self) -> str:
        """Return the need with its counts, for example ``'rebound: 6 of 19 (could be chance)'``."""
        counts = f": {self.count} of {self.of}" if self.of else ""
        sure = f" ({self.sure})" if self.sure else ""
        return f"{self.name}{counts}{sure}"

    def met_by(self, drill: DrillFacts) -> bool:
        """Return whether a drill trains it: by a theme, or by the situation if it has no theme."""
        if self.themes:
            return bool(set(self.themes) & set(drill.themes))
        return bool(self.shared_situations(drill))

    def shared_situations(self, drill: DrillFacts) -> tuple[ScoringSituation, ...]:
        """Return the situations that it and a drill have in common."""
        return tuple(one for one in self.situations if one in drill.situations)


class PlanKind(StrEnum):
    """What to plan."""

    BLOCK = "ten-minute block"
    PRACTICE = "whole practice"


@dataclass(frozen=True, slots=True, kw_only=True)
class TeamSegment:
    """A segment that the head coach has fixed: its drill is shown, not chosen."""

    title: str
    minutes: int
    nets: int = 1
    drill: DrillFacts | None = None


@dataclass(frozen=True, slots=True, kw_only=True)
class Request:
    """Everything a plan is made from.

    ``recent`` are drill ids used lately; ``week_pair`` the block's drills already used this week
    (kept, so that a pair lasts a week); ``refused`` drills the coach does not want; ``fresh``
    drills whose technique is new to these goaltenders; ``keep`` drills of an earlier plan;
    ``run_by`` who runs the stations, by their letters (A first; fewer names leave the rest open).
    """

    kind: PlanKind
    roster: Roster
    slot: IceSlot
    team: str = ""
    stage: str = ""
    needs: tuple[Need, ...] = ()
    recent: tuple[str, ...] = ()
    week_pair: tuple[str, ...] = ()
    refused: frozenset[str] = frozenset()
    fresh: frozenset[str] = frozenset()
    keep: frozenset[str] = frozenset()
    fixed: tuple[TeamSegment, ...] = ()
    run_by: tuple[str, ...] = ()


class SegmentKind(StrEnum):
    """What a segment of a sheet is."""

    BLOCK = "goaltender block"
    TEAM = "team drill"
    PAUSE = "pause"


@dataclass(frozen=True, slots=True, kw_only=True)
class GoaltenderLine:
    """What one goaltender does in one segment.

    ``station`` is a net, the patch or a task; ``left`` and ``right`` are repetitions by side
    (both 0 for a drill without sides); ``longest_wait`` is in seconds.
    """

    goaltender_id: str
    name: str
    station: str
    text: str
    repetitions: int = 0
    left: int = 0
    right: int = 0
    load: Load = Load()
    longest_wait: float = 0.0
    is_task: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class SharedLine:
    """What goaltenders at one station do alike: their names in words, the station, the text."""

    names: str
    station: str
    text: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Station:
    """One of several stations that run at the same time: where, who is there, who runs it.

    ``name`` is its letter, ``place`` what stands there ('net', 'patch'); ``lines`` what the
    goaltenders there do; ``run_by`` is empty where nobody is named.
    """

    name: str
    place: str
    lines: tuple[SharedLine, ...]
    run_by: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Segment:
    """One line of the sheet, with clock times; ``minutes`` include its change-over.

    ``run_by`` names who runs its stations, by their letters.
    """

    number: int
    kind: SegmentKind
    begin: time
    end: time
    minutes: int
    title: str
    place: str
    lines: tuple[GoaltenderLine, ...]
    drill_id: str = ""
    objective_shooters: str = ""
    objective_goaltender: str = ""
    set_up: tuple[str, ...] = ()
    steps: tuple[str, ...] = ()
    key_points: tuple[str, ...] = ()
    equipment: tuple[str, ...] = ()
    cautions: tuple[str, ...] = ()
    reasons: tuple[str, ...] = ()
    nets: int = 0
    run_by: tuple[str, ...] = ()

    @property
    def shared_lines(self) -> tuple[SharedLine, ...]:
        """Return a line for each station and text; goaltenders who do the same share it."""
        return _shared(self.lines)

    @property
    def stations(self) -> tuple[Station, ...]:
        """Return the stations that run at the same time, by letter; none if there is only one."""
        found: dict[str, list[GoaltenderLine]] = {}
        for line in self.lines:
            if not line.is_task:
                found.setdefault(line.station, []).append(line)
        if len(found) < 2:
            return ()
        named = dict(zip(_LETTERS, self.run_by, strict=False))
        made = []
        for station in sorted(found):
            place, _, name = station.rpartition(" ")
            made.append(
                Station(name=name, place=place, lines=_shared(tuple(found[station])),
                        run_by=named.get(name, ""))
            )  # fmt: skip
        return tuple(made)

    @property
    def lines_beside(self) -> tuple[SharedLine, ...]:
        """Return the shared lines that belong to none of several stations; all if there is one."""
        if not self.stations:
            return self.shared_lines
        return _shared(tuple(line for line in self.lines if line.is_task))


_LETTERS = "ABCDEFGH"


def _shared(lines: tuple[GoaltenderLine, ...]) -> tuple[SharedLine, ...]:
    found: dict[tuple[str, str], list[str]] = {}
    for line in lines:
        found.setdefault((line.station, line.text), []).append(line.name)
    return tuple(
        SharedLine(names=joined_names(names), station=station, text=text)
        for (station, text), names in found.items()
    )


def joined_names(names: list[str]) -> str:
    """Return names in words: ``'Ronja, Milo and Ilse'``."""
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"


@dataclass(frozen=True, slots=True, kw_only=True)
class LoadLine:
    """One goaltender's planned load beside her own past; never a verdict."""

    goaltender_id: str
    name: str
    load: Load
    past_mean: Load | None
    past_count: int
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Check:
    """One rule looked at on one sheet: kept or not, with the evidence."""

    rule: str
    name: str
    level: RuleLevel
    kept: bool
    text: str
    origin: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Sheet:
    """Tonight's practice on one page."""

    title: str
    team: str
    day: date
    start: time
    end: time
    minutes: int
    place: str
    goaltenders: tuple[str, ...]
    objectives: tuple[str, ...]
    segments: tuple[Segment, ...]
    loads: tuple[LoadLine, ...]
    reasons: tuple[str, ...]
    checks: tuple[Check, ...]
    cautions: tuple[str, ...]
    equipment: tuple[str, ...] = ()
    dropped: tuple[str, ...] = ()
    glossary: tuple[tuple[str, str], ...] = ()
    notes: tuple[str, ...] = ()
    is_proven_best: bool = True

    @property
    def broken(self) -> tuple[Check, ...]:
        """Return the rules that this sheet does not keep (warnings and information only)."""
        return tuple(one for one in self.checks if not one.kept)
