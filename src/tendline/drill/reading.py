"""What she makes of the attack: whose puck it is, who may get it, where the engine wants her."""

from __future__ import annotations

import math

from tendline.base import Side
from tendline.body import Pose
from tendline.drill.advice import Mover, advised, at_post, on_line, on_the_post
from tendline.drill.places import xy_of
from tendline.drill.skating import Point
from tendline.drill.timeline import Attack, PuckEvent, PuckKind, puck_place
from tendline.drill.types import Drill, Place, actions_of, choices_of
from tendline.drill.vocabulary import DrillKind, Role, Verb
from tendline.drill.world import World
from tendline.ice import off_line
from tendline.play.options import OptionKind

KNOWN_PASSES = frozenset({OptionKind.ONE_TIMER, OptionKind.SETTLE})
UNKNOWN_DEPTH = 1.0
"""Depth against a puck that nobody has [m]; numerical, the engine reads carriers."""


class Reading:
    """Reads the attack of one drill in one world; ``told`` when nothing is left to choose."""

    def __init__(self, drill: Drill, world: World) -> None:
        self.drill = drill
        self.world = world
        self.motion = world.goaltender.motion
        self.focus = self._focus()
        self.has_lines = any(
            one.who[0] == Role.GOALTENDER.value and one.verb is not Verb.PASS
            for one in actions_of(drill.play)
        )
        self.told = all(one.told for one in choices_of(drill.play))

    def _focus(self) -> Point:
        her = self.drill.person(Role.GOALTENDER.value)
        place = her.facing if her is not None and her.facing is not None else Place("high slot")
        return xy_of(place, self.drill, self.world.rink)

    def covers(self, pose: Pose, puck: Point) -> bool:
        """Return whether she is on the puck's line, or on the post it belongs to."""
        return abs(self.offset(pose, puck)) <= self.world.clock.on_line

    def offset(self, pose: Pose, puck: Point) -> float:
        """Return how far she is to the left of the puck's line [m]; on the post 0 if sealed."""
        if on_the_post(puck):
            goal = at_post(self.world, Side.LEFT if puck[1] >= 0.0 else Side.RIGHT)
            away = math.hypot(pose.x - goal.x, pose.y - goal.y)
            return 0.0 if away < self.world.clock.on_line else math.copysign(away, pose.y - goal.y)
        return float(off_line(pose.x, pose.y, puck))

    # Her answer ---------------------------------------------------------------------------------

    def advice(
        self,
        attack: Attack,
        time: float,
        event: PuckEvent | None = None,
        now: float | None = None,
    ) -> Pose | None:
        """Return where the engine wants her against the attack at a time; None without a puck.

        With a pass as ``event`` the receiver counts as the carrier, where and when he gets it;
        ``now`` is her depth [m], kept as long as it is in the engine's band.
        """
        when = time
        if event is not None and event.kind is PuckKind.PASS:
            when = event.arrives
            if not event.receiver:
                return self.faced(event.to)
            carrier = self.mover(attack, event.receiver, when, place=event.to)
        else:
            place, who, current = puck_place(attack, time)
            if current is None or current.kind in (PuckKind.CLEARED, PuckKind.COVERED):
                return None
            if not who:
                return self.faced(place)
            carrier = self.mover(attack, who, time)
        return self.advised(attack, carrier, when, now)

    def advised(
        self,
        attack: Attack,
        carrier: Mover,
        time: float,
        now: float | None = None,
        *,
        seen: float | None = None,
    ) -> Pose:
        """Return the engine's answer; where the play is told, she expects what is coming.

        With ``seen`` [s] she reads at that moment for ``time``, knowing no path begun after it.
        """
        mates, defenders = self.others(attack, carrier.name, time, seen)
        expected: frozenset[OptionKind] = frozenset()
        coming = None
        if self.told:
            coming = self.coming(attack, carrier.name, time if seen is None else seen)
        if coming is not None and coming.kind is PuckKind.SHOT:
            mates, expected = (), frozenset({OptionKind.SHOOT})
        elif coming is not None:
            mates = tuple(one for one in mates if one.name == coming.receiver)
            expected = KNOWN_PASSES
        return advised(self.world, carrier, mates, defenders, expected, now)

    @staticmethod
    def coming(attack: Attack, who: str, time: float) -> PuckEvent | None:
        """Return what ``who`` does next with the puck: a pass, a shot, or None."""
        for event in attack.ordered:
            if (
                event.who == who
                and event.time >= time - 1e-6
                and event.kind in (PuckKind.PASS, PuckKind.SHOT)
            ):
                return event
        return None

    def faced(self, place: Point) -> Pose:
        if on_the_post(place):
            return at_post(self.world, Side.LEFT if place[1] >= 0.0 else Side.RIGHT)
        return on_line(place, UNKNOWN_DEPTH)

    def others(
        self, attack: Attack, carrier: str, time: float, seen: float | None = None
    ) -> tuple[tuple[Mover, ...], tuple[Mover, ...]]:
        mates, defenders = [], []
        for name in attack.tracks:
            role = name[0]
            if name == carrier or role == Role.GOALTENDER.value:
                continue
            if name.count("'") != carrier.count("'"):
                continue
            mover = self.mover(attack, name, time, seen=seen)
            if role == Role.DEFENDER.value:
                defenders.append(mover)
            elif role == Role.FORWARD.value and self._may_receive(name):
                mates.append(mover)
        return tuple(mates), tuple(defenders)

    def _may_receive(self, name: str) -> bool:
        """Return whether she reckons with a pass to him: in a told drill only if he gets one."""
        return self.drill.kind is not DrillKind.TECHNIQUE or name.rstrip("'") in self._receivers()

    def _receivers(self) -> frozenset[str]:
        return frozenset(
            one.partner for one in actions_of(self.drill.play) if one.verb is Verb.PASS
        )

    def mover(
        self,
        attack: Attack,
        name: str,
        time: float,
        place: Point | None = None,
        seen: float | None = None,
    ) -> Mover:
        track = attack.tracks[name]
        if seen is not None:
            there, velocity = track.foreseen(time, seen)
        else:
            there, velocity = track.at(time), track.velocity_at(time)
        person = self.drill.person(name.rstrip("'"))
        hand = person.shoots if person is not None and person.shoots is not None else Side.LEFT
        return Mover(name, place or there, velocity, hand)
