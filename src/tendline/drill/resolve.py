"""A play on the clock: lines get begin and end, skaters their tracks, the puck its events.

Lines are taken in the order of the script. A line begins with its trigger, and not before the
person is free; a line without a trigger begins when the line above is finished, where lines that
run meanwhile are waited for only by the same person. The goaltender's own lines, and the trigger
'when she is set', ask for her run so far (see ``Goaltending`` and ``waiting``).
"""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, field, replace

from tendline.base import InputError, ShotType
from tendline.drill.following import (
    as_far,
    breaks_off,
    first_holder,
    follow,
    length,
    loose_puck,
    rounded,
)
from tendline.drill.places import xy_of
from tendline.drill.skating import Point, glide, turn_speed
from tendline.drill.timeline import Attack, Line, PuckEvent, PuckKind, Track, puck_place
from tendline.drill.types import Action, Drill, Pace, Place
from tendline.drill.vocabulary import GOALTENDER_ONLY, Force, Role, TriggerKind, Verb
from tendline.drill.waiting import ACTS_ON_PUCK, Goaltending, with_what_follows
from tendline.drill.world import World
from tendline.play.lanes import pass_speed

NEAR = 0.5
"""A skater this near to a waiting puck need not skate to it [m]; numerical."""


@dataclass(slots=True)
class _State:
    """What is known while lines are taken one by one."""

    attack: Attack
    previous: tuple[float, float] = (0.0, 0.0)
    main_end: float = 0.0
    tags: dict[str, tuple[float, float]] = field(default_factory=dict)
    received: dict[str, float] = field(default_factory=dict)
    own_end: dict[str, float] = field(default_factory=dict)
    carrying: dict[str, float] = field(default_factory=dict)
    calls: list[float] = field(default_factory=list)
    following: dict[str, tuple[float, str, float]] = field(default_factory=dict)
    puck_of: dict[str, int] = field(default_factory=dict)
    pucks: int = 0
    set_since: float = -math.inf
    known_from: float = -math.inf

    def new_puck(self, who: str) -> int:
        """Return the number of a puck that ``who`` brings into play."""
        self.pucks += 1
        self.puck_of[who] = self.pucks
        return self.pucks


class Resolver:
    """Resolves the lines of one branch; ``jitter(number)`` scales the times of line ``number``."""

    def __init__(
        self,
        drill: Drill,
        world: World,
        goaltending: Goaltending,
        jitter: Callable[[int], float] | None = None,
    ) -> None:
        self.drill = drill
        self.world = world
        self.goaltending = goaltending
        self.jitter = jitter or (lambda number: 1.0)

    def place(self, drill_place: Place | None) -> Point:
        """Return a place of the drill on this rink."""
        if drill_place is None:
            raise InputError(
                "a line needs a place", came="none", item=self.drill.id, hint="Say where to."
            )
        return xy_of(drill_place, self.drill, self.world.rink)

    def resolve(self, actions: Sequence[Action]) -> Attack:
        """Return the attack of one repetition, from the whistle at 0."""
        tracks = {one.name: Track(one.name, self.place(one.at)) for one in self.drill.people}
        state = _State(Attack(tracks))
        for person in self.drill.people:
            if person.has_puck:
                state.received[person.name] = -math.inf
                state.attack.events.append(
                    PuckEvent(time=0.0, kind=PuckKind.HELD, who=person.name,
                              place=self.place(person.at), puck=state.new_puck(person.name))
                )  # fmt: skip
        state.attack.events = first_holder(state.attack.events, actions)
        for number, action in enumerate(actions):
            self._line(number, action, actions, state)
        for who in state.following:
            follow(who, state.attack.ends, state.attack, state.following)
        return state.attack

    # One line ---------------------------------------------------------------------------------

    def _line(self, number: int, action: Action, actions: Sequence[Action], state: _State) -> None:
        begin = self._begin(number, action, actions, state)
        events = state.attack.events
        known = len(events)
        who = action.who
        if who in state.following:
            follow(who, begin, state.attack, state.following)
            del state.following[who]
        if who[0] == Role.GOALTENDER.value and action.verb in (
            *GOALTENDER_ONLY, Verb.SKATE, Verb.WAIT, Verb.STOP,
        ):  # fmt: skip
            end = self._scripted(number, action, begin, state)
        else:
            end = self._skater(number, action, actions, begin, state)
        events[known:] = [replace(one, known_from=state.known_from) for one in events[known:]]
        line = Line(number=number, action=action, begin=begin, end=max(begin, end))
        state.attack.lines.append(line)
        state.own_end[who] = line.end
        state.previous = (line.begin, line.end)
        if action.trigger.kind is not TriggerKind.MEANWHILE and action.verb is not Verb.FOLLOW:
            state.main_end = line.end
        if action.tag:
            state.tags[action.tag] = state.previous

    def _scripted(self, number: int, action: Action, begin: float, state: _State) -> float:
        line = Line(number=number, action=action, begin=begin, end=begin)
        end = self.goaltending.scripted_end(as_far(state.attack, state.following), line)
        state.attack.scripted.append(replace(line, end=end))
        return end

    def _skater(
        self, number: int, action: Action, actions: Sequence[Action], begin: float, state: _State
    ) -> float:
        verb = action.verb
        factor = self.jitter(number)
        clock = self.world.clock
        if verb in (Verb.SKATE, Verb.CARRY):
            return self._skate(number, action, actions, begin, state, factor)
        if verb is Verb.PASS:
            return self._pass(number, action, begin, state)
        if verb in (Verb.SHOOT, Verb.TOSS):
            return self._shoot(number, action, begin, state)
        if verb is Verb.TIP:
            return self._tip(action, begin, state)
        if verb is Verb.SCREEN:
            end = begin
            if action.to is not None:
                end = self._skate(number, action, actions, begin, state, factor)
            state.attack.blockers.append((end, action.who))
            return end
        if verb is Verb.COLLECT:
            return self._collect(number, action, begin, state, factor)
        if verb in (Verb.WAIT, Verb.STOP):
            self._track(action.who, state).stop(begin)
            return begin + (action.seconds or 0.0) * factor
        if verb is Verb.FOLLOW:
            self._track(action.who, state)
            self._track(action.partner, state)
            speed = self.world.skating.pace_speed(action.pace, carrying=False, backward=False)
            state.following[action.who] = (begin, action.partner, speed)
            return begin
        if verb is Verb.CALL:
            state.calls.append(begin)
            return begin + clock.call_time
        return begin

    def _track(self, who: str, state: _State) -> Track:
        track = state.attack.tracks.get(who)
        if track is None:
            raise InputError(
                "somebody acts who is not on the ice", came=who, item=self.drill.id,
                allowed=", ".join(state.attack.tracks), hint="List the person under 'people'.",
            )  # fmt: skip
        return track

    # Triggers ---------------------------------------------------------------------------------

    def _begin(
        self, number: int, action: Action, actions: Sequence[Action], state: _State
    ) -> float:
        trigger = action.trigger
        kind = trigger.kind
        delay = trigger.delay * self.jitter(number) if trigger.delay else 0.0
        attack = state.attack
        match kind:
            case TriggerKind.THEN:
                base = max(state.main_end, state.own_end.get(action.who, 0.0))
            case TriggerKind.WHISTLE:
                base = 0.0
            case TriggerKind.MEANWHILE:
                base = state.previous[0]
            case TriggerKind.PASS:
                base = self._last(attack, PuckKind.PASS, trigger.who, action)
            case TriggerKind.SHOT:
                base = self._last(attack, PuckKind.SHOT, trigger.who, action)
            case TriggerKind.CALL:
                base = self._known(state.calls[-1] if state.calls else None, action, "no call")
            case TriggerKind.HAS_PUCK:
                got = state.received.get(trigger.who)
                base = self._known(got, action, f"{trigger.who} has had no puck")
                base = max(base, 0.0)
            case TriggerKind.REACHES:
                base = self._track(trigger.who, state).time_nearest(self.place(trigger.place))
            case TriggerKind.SET:
                base = self._set(number, action, actions, delay, state)
            case TriggerKind.CLEARED:
                shot = self._last(attack, PuckKind.SHOT, "", action)
                base = self.cleared(attack, shot)
            case TriggerKind.TAG_STARTS:
                base = state.tags[trigger.tag][0]
            case TriggerKind.TAG_ENDS:
                base = state.tags[trigger.tag][1]
        begin = base + delay
        if kind is TriggerKind.THEN and not delay:
            return begin
        return begin if breaks_off(action) else max(begin, state.own_end.get(action.who, 0.0))

    def _set(
        self, number: int, action: Action, actions: Sequence[Action], delay: float, state: _State
    ) -> float:
        """Return since when she is set for somebody who waits for her with his puck [s].

        He waits from the end of the line above, when he has his puck, and when she has followed
        the rebound of the last shot; from then on his puck is the one she looks at.
        """
        attack, who = state.attack, action.who
        rebound = self.world.clock.track_rebound
        rebounds = (one.arrives + rebound for one in attack.shots)
        after = max(state.previous[1], state.received.get(who, 0.0), *rebounds)
        has_puck = action.verb in ACTS_ON_PUCK or who in state.received
        if has_puck and who[0] != Role.GOALTENDER.value:
            self._take(who, after, self._track(who, state).at(after), state)
        ahead = with_what_follows(as_far(attack, state.following), actions[number:])
        state.set_since = self.goaltending.set_time(ahead, after, delay)
        state.known_from = state.set_since + delay
        return state.set_since

    def cleared(self, attack: Attack, shot_time: float) -> float:
        """Return when the rebound of the shot released at ``shot_time`` is out of play."""
        shot = next(
            one for one in attack.events if one.kind is PuckKind.SHOT and one.time == shot_time
        )
        return shot.arrives + self.world.clock.rebound_cleared

    def _last(self, attack: Attack, kind: PuckKind, who: str, action: Action) -> float:
        found = [
            one.time for one in attack.events if one.kind is kind and (not who or one.who == who)
        ]
        return self._known(max(found) if found else None, action, f"no {kind.value} before it")

    def _known(self, time: float | None, action: Action, came: str) -> float:
        if time is None:
            raise InputError(
                f"a line of {action.who} waits for something that never happens", came=came,
                item=self.drill.id, hint="Put the line after the one it waits for.",
            )  # fmt: skip
        return time

    # Skating ----------------------------------------------------------------------------------

    def _skate(
        self,
        number: int,
        action: Action,
        actions: Sequence[Action],
        begin: float,
        state: _State,
        factor: float,
    ) -> float:
        track = self._track(action.who, state)
        skating = self.world.skating
        here = track.at(begin)
        before = track.velocity_at(begin - 1e-6) if begin > 0.0 else (0.0, 0.0)
        points = (here, *(self.place(one) for one in action.via), self.place(action.to))
        pace = action.pace if action.verb is not Verb.SCREEN else None
        speed = skating.pace_speed(
            pace, carrying=action.verb is Verb.CARRY, backward=action.backward
        )
        start = self._start_speed(before, points)
        end = self._end_speed(number, points, actions)
        made = glide(
            rounded(points), skating, speed=speed / factor, start_speed=min(start, speed),
            end_speed=end,
        )  # fmt: skip
        track.add(begin, made)
        if action.verb is Verb.CARRY:
            self._take(action.who, begin, here, state)
            state.carrying[action.who] = begin
        return begin + made.duration

    def _start_speed(self, velocity: Point, points: tuple[Point, ...]) -> float:
        """Return the speed kept into a new path: what the turn between the two allows."""
        speed = math.hypot(*velocity)
        if speed < 1e-6 or len(points) < 2:
            return 0.0
        behind = (points[0][0] - velocity[0] / speed, points[0][1] - velocity[1] / speed)
        return min(speed, turn_speed(behind, points[0], points[1], self.world.skating))

    def _end_speed(
        self, number: int, points: tuple[Point, ...], actions: Sequence[Action]
    ) -> float:
        """Return the speed he may still have at the end: what he does next decides."""
        who = actions[number].who
        later = next((one for one in actions[number + 1 :] if one.who == who), None)
        if later is None:
            return 0.0
        follows_at_once = later.trigger.kind in (TriggerKind.THEN, TriggerKind.TAG_ENDS)
        if not follows_at_once or later.trigger.delay:
            return 0.0
        if later.verb in (Verb.SHOOT, Verb.PASS):
            return math.inf
        if later.verb in (Verb.SKATE, Verb.CARRY) and later.to is not None:
            ahead = self.place(later.via[0] if later.via else later.to)
            return turn_speed(points[-2], points[-1], ahead, self.world.skating)
        return 0.0

    def _take(self, who: str, time: float, place: Point, state: _State) -> None:
        """Let ``who`` have a puck from ``time``; a fresh one unless he has one already."""
        number = state.puck_of.get(who) if who in state.received else None
        _, holder, _ = puck_place(state.attack, time)
        if number is not None and holder == who:
            return
        state.received.setdefault(who, time)
        state.attack.events.append(
            PuckEvent(time=time, kind=PuckKind.HELD, who=who, place=place,
                      puck=number if number is not None else state.new_puck(who))
        )  # fmt: skip

    def _collect(
        self, number: int, action: Action, begin: float, state: _State, factor: float
    ) -> float:
        track = self._track(action.who, state)
        loose = loose_puck(state.attack, begin)
        found = loose.place if loose is not None else track.at(begin)
        place = self.place(action.to) if action.to is not None else found
        end = begin
        here = track.at(begin)
        if math.dist(here, place) > NEAR:
            made = glide(
                rounded((here, place)), self.world.skating,
                speed=self.world.skating.top_speed / factor, end_speed=math.inf,
            )  # fmt: skip
            track.add(begin, made)
            end += made.duration
        end += self.world.clock.collect_time * factor
        state.received[action.who] = end
        if loose is not None:
            state.puck_of[action.who] = loose.puck
        number = state.puck_of[action.who] if loose else state.new_puck(action.who)
        state.attack.events.append(
            PuckEvent(time=end, kind=PuckKind.HELD, who=action.who, place=track.at(end),
                      puck=number)
        )  # fmt: skip
        return end

    # The puck ---------------------------------------------------------------------------------

    def _pass(self, number: int, action: Action, begin: float, state: _State) -> float:
        who = action.who
        track = self._track(who, state)
        self._take(who, begin, track.at(begin), state)
        release = self._release(action, begin, state, self.world.clock.pass_time)
        start = track.at(release)
        via = tuple(self.place(one) for one in action.via)
        target, arrives, speed = self._flight(action, start, via, release, state)
        puck = self._give_up(who, state)
        state.attack.events.append(
            PuckEvent(time=release, kind=PuckKind.PASS, who=who, place=start, to=target, via=via,
                      receiver=action.partner, arrives=arrives, speed=speed, puck=puck)
        )  # fmt: skip
        if action.partner:
            state.received[action.partner] = arrives
            state.puck_of[action.partner] = puck
            state.attack.events.append(
                PuckEvent(time=arrives, kind=PuckKind.HELD, who=action.partner, place=target,
                          puck=puck)
            )  # fmt: skip
        else:
            state.attack.events.append(
                PuckEvent(time=arrives, kind=PuckKind.LOOSE, who="", place=target, puck=puck)
            )
        return arrives

    def _give_up(self, who: str, state: _State) -> int:
        """Let ``who`` have no puck any more; return its number."""
        state.received.pop(who, None)
        state.carrying.pop(who, None)
        return state.puck_of.pop(who, 0) or state.new_puck(who)

    def _release(self, action: Action, begin: float, state: _State, least: float) -> float:
        """Return when the puck leaves: at once when a time is given, else after the motion."""
        if action.trigger.delay and action.trigger.kind is not TriggerKind.THEN:
            return begin
        since = state.carrying.get(action.who)
        if since is not None and action.trigger.kind in (TriggerKind.THEN, TriggerKind.TAG_ENDS):
            return max(begin, since + least)
        return begin + least

    def _flight(
        self, action: Action, start: Point, via: tuple[Point, ...], release: float, state: _State
    ) -> tuple[Point, float, float]:
        """Return where and when a pass arrives, and its speed; a moving receiver is led."""
        play, clock = self.world.play, self.world.clock
        model = play.model
        receiver = state.attack.tracks.get(action.partner) if action.partner else None
        share = {Force.SOFT: clock.soft_share, Force.HARD: clock.hard_share}.get(
            action.force or Force.HARD, 1.0
        )
        share = 1.0 if action.force is None else share
        arrives, speed = release, 1.0
        target = self.place(action.to) if action.to is not None else (0.0, 0.0)
        for _ in range(20):
            if receiver is not None:
                target = receiver.at(arrives)
            way = length((start, *via, target))
            if isinstance(action.pace, Pace) and action.pace.word is None:
                speed = action.pace.speed
            else:
                speed = share * pass_speed(
                    way, reference_speed=play.pass_speed, reference_length=model.pass_length,
                    fastest=model.pass_fastest,
                )  # fmt: skip
            arrives, old = release + way / speed, arrives
            if abs(arrives - old) < 1e-6:
                break
        return target, arrives, speed

    def _shoot(self, number: int, action: Action, begin: float, state: _State) -> float:
        who = action.who
        track = self._track(who, state)
        self._take(who, begin, track.at(begin), state)
        toss = action.verb is Verb.TOSS
        shot = action.shot or ShotType.WRIST
        windup = self.world.clock.pass_time if toss else self.world.play.release_time(shot)
        release = self._shot_release(action, begin, state, shot, windup)
        place = track.at(release)
        speed = self._shot_speed(action, shot, toss=toss)
        puck = self._give_up(who, state)
        distance = math.hypot(*place)
        state.attack.events.append(
            PuckEvent(time=release, kind=PuckKind.SHOT, who=who, place=place,
                      arrives=release + distance / speed, shot=shot, speed=speed, windup=windup,
                      target=action.target, toss=toss, puck=puck)
        )  # fmt: skip
        return release

    def _shot_release(
        self, action: Action, begin: float, state: _State, shot: ShotType, windup: float
    ) -> float:
        if action.trigger.kind is TriggerKind.SET:
            return max(begin, state.set_since + windup)  # he draws once she is set
        got = state.received.get(action.who, -math.inf)
        waits = action.trigger.kind in (TriggerKind.CLEARED, TriggerKind.CALL)
        if shot is ShotType.ONE_TIMER and math.isfinite(got) and not waits:
            return max(got + windup, begin if action.trigger.delay else got)
        if action.trigger.kind is TriggerKind.HAS_PUCK and not action.trigger.delay:
            return begin + self.world.play.model.settle_time + windup
        return self._release(action, begin, state, windup)

    def _shot_speed(self, action: Action, shot: ShotType, *, toss: bool) -> float:
        if isinstance(action.pace, Pace) and action.pace.word is None:
            return action.pace.speed
        return self.world.clock.toss_speed if toss else self.world.play.shot_speed(shot)

    def _tip(self, action: Action, begin: float, state: _State) -> float:
        track = self._track(action.who, state)
        shots = [one for one in state.attack.events if one.kind is PuckKind.SHOT]
        if not shots:
            self._known(None, action, "no shot before it")
        shot = max(shots, key=lambda one: one.time)
        place = track.at(shot.time)
        reached = shot.time + math.dist(shot.place, place) / shot.speed
        speed = self.world.play.shot_speed(ShotType.TIP)
        events = state.attack.events
        events[events.index(shot)] = replace(shot, to=place, arrives=reached, tipped=True)
        events.append(
            PuckEvent(time=reached, kind=PuckKind.SHOT, who=action.who, place=place,
                      arrives=reached + math.hypot(*place) / speed, shot=ShotType.TIP,
                      speed=speed, puck=shot.puck)
        )  # fmt: skip
        return reached
