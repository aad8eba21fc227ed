"""The goaltender on the clock: her own lines, else what the engine answers, as fast as she can.

What moves her: somebody else gets the puck, a pass leaves, the carrier has gone on for a moment,
a shot. After a pass or a shot she needs her reaction time; a carrier whom she is following already
she follows without one. When she sees the draw of a shot she stops if she is on the puck's line,
and starts nothing new. After a save she follows the rebound for a moment, gets up and goes to
where the engine wants her against whoever has a puck then, or to where she started. How a move
under way is broken off is ``motion``'s business.
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field

from tendline.base import ShotType, Side
from tendline.body import Pose, Stance
from tendline.drill.advice import Mover, at_post, on_line
from tendline.drill.her_track import HerTrack, Stretch
from tendline.drill.moves import KINDS, named_chain
from tendline.drill.places import xy_of
from tendline.drill.reading import UNKNOWN_DEPTH, Reading
from tendline.drill.shooting import goes_down
from tendline.drill.skating import glide
from tendline.drill.timeline import Attack, Line, PuckEvent, PuckKind, puck_place
from tendline.drill.types import Place
from tendline.drill.vocabulary import Role, TriggerKind, Verb
from tendline.motion import is_down, quickest_chain
from tendline.motion.posture import wrapped

TURN_WORTH = math.radians(12.0)
"""She turns on the spot for more than this; numerical."""
SHARES = (1.0, 0.75, 0.5, 0.25)
"""How far toward the engine's depth she tries to get in time; numerical."""
LEAST_DEPTH = 0.4
"""She is never nearer to the goal's centre than this [m]; numerical."""
KNOWN_AHEAD = 1.5
"""How far ahead she uses that she knows when the shot comes [s]; numerical."""
INSTANT = 1e-3
"""What happens within this happens together [s]; numerical."""
WATCH = 0.05
"""Step in which the run looks for a moment when she is set [s]; numerical."""
LOOK_AHEAD = 12.0
"""How long the run goes on looking for a moment when she is set [s]; numerical."""


@dataclass(frozen=True, slots=True, order=True)
class Stimulus:
    """Something that she answers, in order of time."""

    time: float
    rank: int
    kind: str = field(compare=False)
    event: PuckEvent | None = field(compare=False, default=None)
    line: Line | None = field(compare=False, default=None)
    until: float = field(compare=False, default=math.inf)
    """When what comes next happens [s]; infinite where nobody can know yet."""


@dataclass(slots=True)
class HerRun:
    """Her track, the shots she met and what she read during one run."""

    track: HerTrack
    saves: list[PuckEvent] = field(default_factory=list)
    reads: list[tuple[float, Pose]] = field(default_factory=list)


class HerPlay(Reading):
    """Runs the goaltender of a drill; see the module's words."""

    def start_pose(self, attack: Attack) -> Pose:
        """Return where she starts.

        Where the engine wants her against whoever has a puck at the whistle; as listed when she
        has lines of her own, or when nobody has a puck.
        """
        her = self.drill.person(Role.GOALTENDER.value)
        wanted = None if self.has_lines else self.advice(attack, 0.0)
        if wanted is not None:
            return wanted
        if her is not None:
            x, y = xy_of(her.at, self.drill, self.world.rink)
            if her.at.name in ("left post", "right post"):
                return at_post(self.world, Side(her.at.name.split()[0]))
            return Pose(x, y, math.atan2(self.focus[1] - y, self.focus[0] - x), Stance.READY)
        return on_line(self.focus, UNKNOWN_DEPTH)

    # What the resolver asks ---------------------------------------------------------------------

    def set_time(self, attack: Attack, after: float, lasting: float = 0.0) -> float:
        """Return since when she is set on the puck's line, not before ``after`` [s].

        ``lasting`` [s] is how long she must stay so. At most 12 s later, set or not.
        """
        run = self.run(attack, until=after + LOOK_AHEAD)
        time = since = after
        while time < after + LOOK_AHEAD:
            if not self.stands_set(run, attack, time):
                since = time + WATCH
            elif time >= since + lasting - 1e-9:
                return since
            time += WATCH
        return time

    def stands_set(self, run: HerRun, attack: Attack, time: float) -> bool:
        """Return whether she stands set on the line of the puck; without a puck anywhere."""
        state = run.track.state(time)
        if not state.is_set or is_down(state.pose.stance):
            return False
        puck, _, event = puck_place(attack, time)
        gone = (PuckKind.SHOT, PuckKind.CLEARED, PuckKind.COVERED)
        if event is None or (event.kind in gone and time >= event.arrives):
            return True
        return self.covers(state.pose, puck)

    def not_met(self, run: HerRun, attack: Attack, lines: Sequence[Line]) -> tuple[Line, ...]:
        """Return those of the lines that wait for her and do not find her set.

        She may start to move at the very moment at which somebody goes on.
        """

        def stands(time: float) -> bool:
            return any(self.stands_set(run, attack, one) for one in (time, time - INSTANT))

        return tuple(
            line for line in lines
            if line.action.trigger.kind is TriggerKind.SET
            and not (stands(line.begin) and stands(line.begin - line.action.trigger.delay))
        )  # fmt: skip

    def scripted_end(self, attack: Attack, line: Line) -> float:
        """Return when she has finished a line of her own."""
        run = self.run(attack, until=line.begin + 1e-3, extra=line)
        last = run.track.stretches[-1] if run.track.stretches else None
        end = last.end if last is not None and last.own else line.begin
        return end + self._held(line)

    def home_time(self, attack: Attack) -> float:
        """Return when she is back, set, where the repetition started [s].

        She starts when everybody has finished and the last rebound has been followed.
        """
        rebounds = (one.arrives + self.world.clock.track_rebound for one in attack.shots)
        over = max([attack.ends, *rebounds])
        run = self.run(attack, until=over)
        start = self.start_pose(attack)
        run.track.go(start, time=max(over, run.track.end), wait=0.0)
        return max(one.set_time for one in run.track.stretches[-2:])

    # The run ------------------------------------------------------------------------------------

    def run(
        self, attack: Attack, until: float = math.inf, extra: Line | None = None,
        start: Pose | None = None, home: Pose | None = None,
    ) -> HerRun:  # fmt: skip
        """Return her run against an attack up to a time.

        ``extra`` is one more line of her own; ``home`` is where she goes when nobody has a puck.
        """
        first = start or self.start_pose(attack)
        run = HerRun(HerTrack(first, self.motion))
        lines = [*attack.scripted, *([extra] if extra is not None else [])]
        self._home = home or first
        self._look = self.focus
        hold_until = -math.inf
        busy = -math.inf
        for one in self._stimuli(attack, lines, until):
            if one.time > until:
                break
            if one.kind == "own" and one.line is not None:
                self._own(one.line, attack, run)
                last = run.track.stretches[-1] if run.track.stretches else None
                end = last.end if last is not None and last.own else one.time
                busy = end + self._held(one.line)
                continue
            if one.kind == "home":
                run.track.go(self._home, time=max(one.time, busy), wait=0.0)
                continue
            if one.kind == "windup" and one.event is not None:
                hold_until = one.event.time
                puck, _, _ = puck_place(attack, one.time)
                if one.time >= busy and self.covers(run.track.state(one.time).pose, puck):
                    run.track.stop(time=one.time)
                continue
            if one.kind == "shot" and one.event is not None:
                run.saves.append(one.event)
                self._save(one.event, run)
                hold_until = one.event.arrives
                continue
            own = one.time < busy or self._own_later(lines, one.time)
            if one.time < hold_until or (own and one.kind != "rise"):
                continue
            self._answer(one, attack, run)
        return run

    @staticmethod
    def _own_later(lines: list[Line], time: float) -> bool:
        """Return whether a line of her own is still to come: until then she waits for it."""
        return any(one.begin >= time - 1e-9 for one in lines)

    def _stimuli(self, attack: Attack, lines: list[Line], until: float) -> list[Stimulus]:
        clock = self.world.clock
        events = attack.ordered
        last = until if math.isfinite(until) else attack.ends
        found = [Stimulus(one.begin, 0, "own", line=one) for one in lines]
        if not attack.shots:
            found += [Stimulus(time, 6, "home") for time in attack.homes]
        for k, event in enumerate(events):
            after = events[k + 1] if k + 1 < len(events) else None
            later = last if after is None else min(after.time, last)
            if event.who[:1] == Role.GOALTENDER.value:
                continue
            if event.kind is PuckKind.HELD:
                found.append(Stimulus(event.time, 2, "held", event))
                track = attack.tracks[event.who]
                time = event.time + clock.decision_step
                while time < later - 1e-6:
                    known = after is None or after.is_known(time)
                    moves = time < track.ends - 1e-6 if known else track.under_way(time)
                    kind, until = "step" if moves else "linger", later if known else math.inf
                    found.append(Stimulus(time, 3, kind, event, until=until))
                    time += clock.decision_step
            elif event.kind is PuckKind.PASS:
                found.append(Stimulus(event.time, 1, "pass", event))
            elif event.kind is PuckKind.LOOSE:
                found.append(Stimulus(event.time, 2, "loose", event))
            elif event.kind is PuckKind.SHOT and not event.tipped:
                found.append(Stimulus(event.time - event.windup, 4, "windup", event))
                found.append(Stimulus(event.time, 1, "shot", event))
                up = event.arrives + clock.track_rebound
                found.append(Stimulus(up, 5, "rise", event))
        return sorted(found)

    def _answer(self, one: Stimulus, attack: Attack, run: HerRun) -> None:
        """Move her toward what the engine wants after a stimulus."""
        time, wait = one.time, 0.0
        event = one.event if one.kind == "pass" else None
        asked = time
        if one.kind in ("pass", "held"):
            wait = 0.0 if self._expected(one, attack) else self.motion.reaction
        if one.kind == "step":
            asked = min(self._ahead(one, attack), one.until)
        goal = run.track.goal
        now = math.hypot(goal.x, goal.y) if goal.stance is Stance.READY else None
        target = self._at(attack, asked, one, now) if one.kind == "step" else None
        if target is None:
            target = self.advice(attack, asked, event, now)
        if one.kind == "rise" and (target is None or not self._threat(attack, time)):
            target = self._next_threat(one, attack) or self._home
        if target is None:
            return
        run.reads.append((time, target))
        deadline: float | None = None
        if one.kind in ("pass", "held") and one.event is not None:
            target, deadline = self._in_time(one, attack, run, target, wait)
        down = is_down(goal.stance)
        known = one.kind == "held" and self._expected(one, attack) and time < run.track.end
        if known and one.event is not None and self.covers(goal, one.event.place):
            return  # she is on her way to that line already
        if (one.kind == "linger" and not down) or (
            one.kind in ("step", "linger") and down and self._near(one, attack)
        ):
            return
        place = self._worth(goal, target, rising=one.kind == "rise")
        if place is not None:
            run.track.go(place, time=time, wait=wait, deadline=deadline)

    def _next_threat(self, one: Stimulus, attack: Attack) -> Pose | None:
        """Return where to be against whoever brings the next puck of this repetition, if anybody.

        She sees him come for it while the rebound is played; None when the repetition is over.
        """
        rep = one.event.rep if one.event is not None else 0
        for event in attack.ordered:
            if event.time <= one.time or event.kind not in (PuckKind.HELD, PuckKind.SHOT):
                continue
            if event.rep != rep or event.who[:1] in ("", Role.GOALTENDER.value):
                return None
            known = event.is_known(one.time)
            when = event.time if known else one.time
            carrier = self.mover(attack, event.who, when, place=event.place if known else None)
            standing = Mover(carrier.name, carrier.place, (0.0, 0.0), carrier.hand)
            return self.advised(attack, standing, when)
        return None

    def _near(self, one: Stimulus, attack: Attack) -> bool:
        """Return whether the puck is so near that she stays down once she is down."""
        place, _, _ = puck_place(attack, one.time)
        return math.hypot(*place) <= self.world.clock.stay_down

    def _in_time(
        self, one: Stimulus, attack: Attack, run: HerRun, target: Pose, wait: float
    ) -> tuple[Pose, float | None]:
        """Return the place on the new line, toward the engine's depth, where she is set in time.

        In time is before the soonest shot of whoever gets the puck (so near the goal a
        one-timer); where the play is told, before the shot itself, with time to see it if that
        can be. If no place is in time, she goes the shortest way to the line, and below the
        circle tops she may slide: the time is then given, too. A shot that waits for her may
        come whenever she is set: it takes no depth from her.
        """
        event = one.event
        if event is None or target.stance is not Stance.READY:
            return target, None
        passed = event.kind is PuckKind.PASS
        puck = event.to if passed else event.place
        got = event.arrives if passed else event.time
        play = self.world.play
        soonest = got + play.model.settle_time + play.release_time(ShotType.WRIST)
        if passed and math.hypot(*puck) <= self.world.rink.spot_x:
            soonest = got + play.release_time(ShotType.ONE_TIMER)
        if self.told:
            who = event.receiver if passed else event.who
            coming = self.coming(attack, who, got)
            soonest = math.inf
            if coming is not None and coming.kind is PuckKind.SHOT and coming.is_known(one.time):
                soonest = coming.time
        here = run.track.state(one.time + wait).pose
        bearing = math.atan2(puck[1], puck[0])
        wanted = math.hypot(target.x, target.y)
        foot = here.x * math.cos(bearing) + here.y * math.sin(bearing)
        foot = min(max(foot, LEAST_DEPTH), max(wanted, LEAST_DEPTH))
        margins = (self.world.sight_time, 0.0) if self.told else (0.0,)
        for margin in margins:
            for share in SHARES:
                place = on_line(puck, foot + share * (wanted - foot))
                chain = quickest_chain(here, place, self.motion, reaction=wait)
                if one.time + chain.set_time <= soonest - margin:
                    return place, None
        near = puck[0] <= self.world.rink.spot_x + self.world.rink.circle_radius
        return on_line(puck, foot), soonest if near else None

    def _ahead(self, one: Stimulus, attack: Attack) -> float:
        """Return the moment for which she places herself against a carrier on the move.

        As far ahead as such a move takes; where the play is told she knows when he shoots, and
        is there before.
        """
        step = self.world.clock.decision_step + self.world.clock.follow_time
        if self.told:
            coming = [
                shot.time
                for shot in attack.shots
                if one.event is not None
                and shot.who == one.event.who
                and one.time < shot.time <= one.time + KNOWN_AHEAD
                and shot.is_known(one.time)
            ]
            if coming:
                return min(coming)
        return one.time + step

    def _at(self, attack: Attack, time: float, one: Stimulus, now: float | None) -> Pose | None:
        """Return the advice against the carrier a moment from now, while he still has the puck."""
        if one.event is None:
            return None
        seen = None if math.isfinite(one.until) else one.time
        carrier = self.mover(attack, one.event.who, time, seen=seen)
        return self.advised(attack, carrier, time, now, seen=seen)

    def _expected(self, one: Stimulus, attack: Attack) -> bool:
        """Return whether she knew that he would get it: it was passed to him, or the start."""
        if one.kind == "pass" or one.event is None:
            return False
        if one.time <= 0.0:
            return True
        return any(
            ev.kind is PuckKind.PASS and abs(ev.arrives - one.time) < 1e-6 for ev in attack.events
        )

    @staticmethod
    def _threat(attack: Attack, time: float) -> bool:
        _, who, event = puck_place(attack, time)
        return bool(who) or (event is not None and event.kind is PuckKind.PASS)

    def _worth(self, here: Pose, target: Pose, *, rising: bool) -> Pose | None:
        """Return the target if it is worth a move; small changes of depth are left out."""
        if is_down(here.stance) or target.stance is not Stance.READY:
            same = math.hypot(target.x - here.x, target.y - here.y) < 0.05
            return None if same and here.stance is target.stance else target
        if here.stance is not Stance.READY:
            return target
        facing = target.facing
        mine = math.hypot(here.x, here.y)
        theirs = math.hypot(target.x, target.y)
        if not rising and abs(theirs - mine) < self.world.clock.gain_step:
            target = Pose(mine * math.cos(facing), mine * math.sin(facing), facing, Stance.READY)
        moved = math.hypot(target.x - here.x, target.y - here.y)
        turned = abs(wrapped(facing - here.facing))
        if moved < self.world.clock.follow_step and turned < TURN_WORTH:
            return None
        return target

    def _save(self, event: PuckEvent, run: HerRun) -> None:
        """Let her meet a shot: she goes down for what is low, or where down covers more."""
        react = event.time + self.motion.reaction
        pose = run.track.state(react).pose
        if is_down(pose.stance) or is_down(run.track.goal.stance):
            return
        if react < event.arrives and goes_down(event, pose, self.world):
            run.track.drop(time=event.time, wait=self.motion.reaction)

    # Her own lines ------------------------------------------------------------------------------

    def _held(self, line: Line) -> float:
        """Return how long a line of hers lasts after the move itself [s]."""
        clock = self.world.clock
        verb = line.action.verb
        extra = {
            Verb.LOOK: clock.look_time, Verb.POKE: clock.poke_time, Verb.COVER: clock.cover_time,
        }.get(verb, 0.0)  # fmt: skip
        return extra + (line.action.seconds or 0.0)

    def _own(self, line: Line, attack: Attack, run: HerRun) -> None:
        action = line.action
        verb = action.verb
        begin = max(line.begin, run.track.end)
        here = run.track.state(begin).pose
        if action.facing is not None:
            self._look = xy_of(action.facing, self.drill, self.world.rink)
        if verb is Verb.LOOK and action.to is not None:
            self._look = xy_of(action.to, self.drill, self.world.rink)
            return
        if verb in (Verb.WAIT, Verb.STOP, Verb.POKE):
            return
        if verb is Verb.SKATE and action.to is not None:
            self._skate(line, begin, here, run)
            return
        target = self._own_target(line, here)
        if verb in KINDS:
            chain = named_chain(verb, here, target, self.motion)
            run.track.add(Stretch(begin, chain, own=True))
        else:
            run.track.go(target, time=begin, wait=0.0, own=True)

    def _own_target(self, line: Line, here: Pose) -> Pose:
        action = line.action
        verb = action.verb
        x, y = here.x, here.y
        if action.to is not None:
            x, y = xy_of(action.to, self.drill, self.world.rink)
        if verb is Verb.SEAL:
            return at_post(self.world, Side.LEFT if y >= 0.0 else Side.RIGHT)
        facing = math.atan2(self._look[1] - y, self._look[0] - x)
        down = verb in (Verb.DROP, Verb.COVER, Verb.RE_AIM)
        down = down or (verb is Verb.SET and is_down(here.stance))
        if verb in (Verb.DROP, Verb.COVER) and action.facing is None:
            facing = here.facing
        return Pose(x, y, facing, Stance.BUTTERFLY if down else Stance.READY)

    def _skate(self, line: Line, begin: float, here: Pose, run: HerRun) -> None:
        """Skate freely: the goaltender's glide has the skaters' law."""
        action = line.action
        if is_down(here.stance):
            up = Pose(here.x, here.y, here.facing, Stance.READY)
            chain = quickest_chain(here, up, self.motion, reaction=0.0)
            run.track.add(Stretch(begin, chain, own=True))
            begin += chain.arrival
            here = up
        points = ((here.x, here.y), *(xy_of(p, self.drill, self.world.rink) for p in action.via),
                  xy_of(action.to or Place("mid-crease"), self.drill, self.world.rink))  # fmt: skip
        speed = self.world.skating.pace_speed(action.pace, carrying=False, backward=action.backward)
        rounded = tuple((round(x, 3), round(y, 3)) for x, y in points)
        made = glide(rounded, self.world.skating, speed=speed)
        x, y = rounded[-1]
        facing = math.atan2(self._look[1] - y, self._look[0] - x)
        run.track.add(Stretch(begin, glide=made, facing=facing, own=True))
