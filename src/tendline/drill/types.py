"""A drill as a value: people, spots, actions on the clock, branches, and the words on the card.

Frame: metres, origin in the centre of the goal line, +x out, +y to the goaltender's left.
Coordinates are kept to the millimetre so that a script and its drill say the same.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TypeAlias

from tendline.base import Level, ScoringSituation, ShotType, Side
from tendline.drill.vocabulary import (
    DrillKind,
    Family,
    Force,
    IceUse,
    MarkKind,
    Role,
    Sides,
    SpeedWord,
    Stage,
    Target,
    Theme,
    ThingKind,
    TriggerKind,
    Verb,
)


@dataclass(frozen=True, slots=True)
class Note:
    """Comments of a script line: whole lines before it, and one behind it."""

    before: tuple[str, ...] = ()
    after: str = ""

    def __bool__(self) -> bool:
        """Return whether there is any comment."""
        return bool(self.before or self.after)


NO_NOTE = Note()


@dataclass(frozen=True, slots=True)
class Place:
    """A named spot, a named thing of the drill ('cone A'), or coordinates (m)."""

    name: str = ""
    x: float = 0.0
    y: float = 0.0

    def __str__(self) -> str:
        """Return the place as the script writes it."""
        return self.name or f"({show_number(self.x)}, {show_number(self.y)})"


def show_number(value: float) -> str:
    """Return a number to the millimetre (or millisecond) without needless zeros."""
    text = f"{value:.3f}".rstrip("0").rstrip(".")
    return "0" if text in ("-0", "") else text


@dataclass(frozen=True, slots=True)
class Pace:
    """A speed: a word (share of the level's top speed) or a number (m/s)."""

    word: SpeedWord | None = None
    speed: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Trigger:
    """When a line starts: an event and a delay after it (s)."""

    kind: TriggerKind = TriggerKind.THEN
    delay: float = 0.0
    who: str = ""
    tag: str = ""
    place: Place | None = None


THEN = Trigger()


@dataclass(frozen=True, slots=True, kw_only=True)
class Action:
    """One line of the play."""

    who: str
    verb: Verb
    trigger: Trigger = THEN
    to: Place | None = None
    via: tuple[Place, ...] = ()
    partner: str = ""
    pace: Pace | None = None
    force: Force | None = None
    shot: ShotType | None = None
    target: Target | None = None
    seconds: float | None = None
    backward: bool = False
    facing: Place | None = None
    word: str = ""
    tag: str = ""
    note: Note = NO_NOTE


@dataclass(frozen=True, slots=True, kw_only=True)
class Branch:
    """One way a choice may go: its name, what calls for it, and what follows."""

    name: str
    when: str = ""
    weight: int = 1
    items: tuple[Item, ...] = ()
    note: Note = NO_NOTE


@dataclass(frozen=True, slots=True, kw_only=True)
class Choice:
    """Somebody reads something and chooses; ``told`` when the goaltender knows beforehand."""

    who: str
    reading: str = ""
    told: bool = False
    branches: tuple[Branch, ...] = ()
    note: Note = NO_NOTE


Item: TypeAlias = Action | Choice


@dataclass(frozen=True, slots=True, kw_only=True)
class Person:
    """Somebody on the ice at the start of a repetition."""

    name: str
    at: Place
    shoots: Side | None = None
    has_puck: bool = False
    facing: Place | None = None
    words: str = ""
    note: Note = NO_NOTE

    @property
    def role(self) -> Role:
        """Return who this is, from the first letter of the name."""
        return Role(self.name[0])


@dataclass(frozen=True, slots=True, kw_only=True)
class Thing:
    """Something that lies or stands on the ice."""

    kind: ThingKind
    at: Place
    name: str = ""
    count: int = 1
    facing: Place | None = None
    note: Note = NO_NOTE

    @property
    def label(self) -> str:
        """Return the name by which places refer to it, such as ``'cone A'``."""
        return f"{self.kind.value} {self.name}".strip()


@dataclass(frozen=True, slots=True)
class Span:
    """A whole-number range, both ends included."""

    low: int
    high: int

    def __str__(self) -> str:
        """Return the range as the script writes it."""
        return f"{self.low}" if self.low == self.high else f"{self.low} to {self.high}"


@dataclass(frozen=True, slots=True)
class Ages:
    """Age classes for which a drill is meant."""

    youngest: Level = Level.U9
    oldest: Level | None = None


@dataclass(frozen=True, slots=True)
class Ice:
    """Ice used: a part of the sheet, with its size where it matters (m)."""

    use: IceUse = IceUse.END_ZONE
    length: float | None = None
    width: float | None = None


@dataclass(frozen=True, slots=True)
class Repeats:
    """Repetitions, sets, rest between sets and between repetitions (s).

    No repetitions (0) means that the drill goes on until its minutes are up.
    """

    reps: int = 6
    sets: int = 1
    rest: float = 0.0
    rest_each: float = 0.0


@dataclass(frozen=True, slots=True)
class Correction:
    """A common error and what to say or do about it."""

    error: str
    correction: str


@dataclass(frozen=True, slots=True)
class Mark:
    """A rule broken on purpose, and why."""

    kind: MarkKind
    because: str


@dataclass(frozen=True, slots=True)
class Link:
    """A step up or down: another drill, a change in words, or both."""

    drill: str = ""
    words: str = ""


NEXT_ON_CLEARED = Trigger(kind=TriggerKind.CLEARED)


@dataclass(frozen=True, slots=True, kw_only=True)
class Drill:
    """A whole drill, as its script says it."""

    id: str
    title: str
    family: Family
    kind: DrillKind = DrillKind.TECHNIQUE
    themes: tuple[Theme, ...] = ()
    situations: tuple[ScoringSituation, ...] = ()
    ages: Ages = Ages()
    stages: tuple[Stage, ...] = ()
    level: Level | None = None
    minutes: Span = Span(5, 5)
    ice: Ice = Ice()
    nets: int = 1
    by_turns: bool = False
    goaltenders: Span = Span(1, 2)
    skaters: Span = Span(0, 0)
    helpers: Span = Span(0, 0)
    equipment: tuple[str, ...] = ()
    purpose: str = ""
    shooters_aim: str = ""
    goaltender_aim: str = ""
    set_up: tuple[str, ...] = ()
    steps: tuple[str, ...] = ()
    rules: tuple[str, ...] = ()
    next_rep: Trigger = NEXT_ON_CLEARED
    repeats: Repeats = Repeats()
    rotation: str = ""
    sides: Sides = Sides.EACH_SET
    cues: tuple[str, ...] = ()
    key_points: tuple[str, ...] = ()
    errors: tuple[Correction, ...] = ()
    easier: tuple[Link, ...] = ()
    harder: tuple[Link, ...] = ()
    off_ice: tuple[str, ...] = ()
    marks: tuple[Mark, ...] = ()
    remarks: tuple[str, ...] = ()
    mirrored: bool = False
    people: tuple[Person, ...] = ()
    things: tuple[Thing, ...] = ()
    play: tuple[Item, ...] = ()
    notes: tuple[tuple[str, Note], ...] = field(default=())

    def person(self, name: str) -> Person | None:
        """Return the person of that name, or None."""
        return next((one for one in self.people if one.name == name), None)

    def has_mark(self, kind: MarkKind) -> bool:
        """Return whether the drill says that it breaks this rule on purpose."""
        return any(one.kind is kind for one in self.marks)

    @property
    def sim_level(self) -> Level:
        """Return the level at which the drill is simulated unless one is asked for."""
        return self.level or self.ages.youngest


def actions_of(items: tuple[Item, ...]) -> tuple[Action, ...]:
    """Return every action of a play, branches included, in the order of the script."""
    found: list[Action] = []
    for item in items:
        if isinstance(item, Action):
            found.append(item)
        else:
            for branch in item.branches:
                found.extend(actions_of(branch.items))
    return tuple(found)


def choices_of(items: tuple[Item, ...]) -> tuple[Choice, ...]:
    """Return every choice of a play, nested ones included."""
    found: list[Choice] = []
    for item in items:
        if isinstance(item, Choice):
            found.append(item)
            for branch in item.branches:
                found.extend(choices_of(branch.items))
    return tuple(found)
