"""Who is where: the attack as the goaltender meets it, checked before anything is computed."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass

from tendline.base import InputError, Level, Side, require_number
from tendline.body import Build
from tendline.ice import Rink, mirror_xy, require_on_ice
from tendline.motion import MotionParameters

FASTEST_SKATER = 12.0
"""No skater is faster than this [m/s]; a larger figure is taken for a wrong unit."""
SAME_SPOT = 0.05
"""Two people nearer to each other than this [m] stand on one spot."""


@dataclass(frozen=True, slots=True, kw_only=True)
class Attacker:
    """An attacker.

    ``x``, ``y`` [m] say where he plays the puck (his blade), ``vx``, ``vy`` [m/s] how he moves,
    ``hand`` on which side of his body he holds the blade, as he sees it.
    """

    name: str
    x: float
    y: float
    hand: Side = Side.LEFT
    vx: float = 0.0
    vy: float = 0.0

    @property
    def place(self) -> tuple[float, float]:
        """Return where he plays the puck [m]."""
        return (self.x, self.y)


@dataclass(frozen=True, slots=True, kw_only=True)
class Defender:
    """A defender or a back-checker: place [m] and velocity [m/s]."""

    name: str
    x: float
    y: float
    vx: float = 0.0
    vy: float = 0.0


@dataclass(frozen=True, slots=True, kw_only=True)
class Situation:
    """One moment of an attack, in the frame of the defended net.

    ``puck`` [m] is where the puck lies; left out, it is on the carrier's blade, that is at his
    place. ``pace`` scales every attacker's skating speed (1 = game pace).

    Raises :class:`InputError` naming the player for a place off the ice or inside the net, a
    speed or a number that cannot be, two people on one spot or two of one name.
    """

    rink: Rink
    carrier: Attacker
    mates: tuple[Attacker, ...] = ()
    defenders: tuple[Defender, ...] = ()
    level: Level = Level.ADULT
    puck: tuple[float, float] | None = None
    pace: float = 1.0

    def __post_init__(self) -> None:
        object.__setattr__(self, "mates", tuple(self.mates))
        object.__setattr__(self, "defenders", tuple(self.defenders))
        require_number("pace", self.pace, low=0.1, high=2.0, unit="")
        for one in self.people:
            _require_person(self.rink, one)
        if self.puck is not None:
            _require_place(self.rink, *self.puck, item="puck")
        _require_apart(self.people)

    @property
    def attackers(self) -> tuple[Attacker, ...]:
        """Return the carrier and his mates."""
        return (self.carrier, *self.mates)

    @property
    def people(self) -> tuple[Attacker | Defender, ...]:
        """Return everyone but the goaltender."""
        return (*self.attackers, *self.defenders)

    @property
    def puck_place(self) -> tuple[float, float]:
        """Return where the puck lies [m]."""
        return self.carrier.place if self.puck is None else self.puck

    def mate(self, name: str) -> Attacker:
        """Return a mate of the carrier by name; raises ``InputError`` for an unknown one."""
        for one in self.mates:
            if one.name == name:
                return one
        raise InputError("no mate of that name", came=name,
                         allowed=", ".join(one.name for one in self.mates))  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Goaltender:
    """The goaltender as the engine needs her: her build and how she moves."""

    build: Build
    motion: MotionParameters


def mirrored(situation: Situation) -> Situation:
    """Return the situation seen in a mirror: left and right, and every hand, exchanged."""

    def attacker(one: Attacker) -> Attacker:
        x, y = mirror_xy(one.x, one.y)
        return Attacker(name=one.name, x=x, y=y, hand=one.hand.other, vx=one.vx, vy=-one.vy)

    def defender(one: Defender) -> Defender:
        x, y = mirror_xy(one.x, one.y)
        return Defender(name=one.name, x=x, y=y, vx=one.vx, vy=-one.vy)

    return Situation(
        rink=situation.rink,
        carrier=attacker(situation.carrier),
        mates=tuple(attacker(one) for one in situation.mates),
        defenders=tuple(defender(one) for one in situation.defenders),
        level=situation.level,
        puck=None if situation.puck is None else mirror_xy(*situation.puck),
        pace=situation.pace,
    )


def _require_person(rink: Rink, person: Attacker | Defender) -> None:
    if not person.name.strip():
        raise InputError("every player needs a name", came="an empty name")
    _require_place(rink, person.x, person.y, item=person.name)
    for name, value in (("speed out", person.vx), ("speed to her left", person.vy)):
        require_number(
            name, value, low=-FASTEST_SKATER, high=FASTEST_SKATER, unit="m/s", item=person.name
        )
    speed = math.hypot(person.vx, person.vy)
    require_number("speed", speed, low=0, high=FASTEST_SKATER, unit="m/s", item=person.name)


def _require_place(rink: Rink, x: float, y: float, *, item: str) -> None:
    require_on_ice(rink, x=x, y=y, item=item)
    goal = rink.goal
    if -goal.depth <= x <= 0 and abs(y) <= goal.width / 2 + goal.post_diameter:
        raise InputError(
            "the place is inside the net",
            came=f"x = {x:g} m, y = {y:g} m",
            allowed=f"in front of the goal line, beside the posts, or more than {goal.depth:g} m "
            "behind it",
            hint="Move it out of the net.",
            item=item,
        )


def _require_apart(people: Iterable[Attacker | Defender]) -> None:
    seen: list[Attacker | Defender] = []
    for one in people:
        for other in seen:
            if one.name == other.name:
                raise InputError(
                    "two players have the same name", came=f"'{one.name}' twice",
                    hint="Give each player a name of his own.", item=one.name,
                )  # fmt: skip
            if math.hypot(one.x - other.x, one.y - other.y) < SAME_SPOT:
                raise InputError(
                    f"stands on the same spot as {other.name}",
                    came=f"x = {one.x:g} m, y = {one.y:g} m",
                    allowed=f"at least {SAME_SPOT:g} m apart",
                    hint="Move one of them.",
                    item=one.name,
                )
        seen.append(one)
