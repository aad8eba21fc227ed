"""Where the goaltender is over time: chains of moves and free skating, one after the other."""

from __future__ import annotations

import bisect
from collections.abc import Iterator
from dataclasses import dataclass, field

from tendline.body import Pose, Stance
from tendline.drill.skating import Glide
from tendline.motion import (
    Chain,
    MotionParameters,
    MotionState,
    MoveKind,
    Step,
    is_down,
    quickest_chain,
    redirected,
    state_at,
)


@dataclass(frozen=True, slots=True)
class Stretch:
    """One piece of her way: a chain of moves, or skating along a glide facing one way."""

    begin: float
    chain: Chain | None = None
    glide: Glide | None = None
    facing: float = 0.0
    own: bool = False

    @property
    def end(self) -> float:
        """Return when she is there."""
        if self.chain is not None:
            return self.begin + self.chain.arrival
        return self.begin + (self.glide.duration if self.glide is not None else 0.0)

    @property
    def set_time(self) -> float:
        """Return when she is there and set."""
        return self.end if self.chain is None else self.begin + self.chain.set_time

    def state(self, time: float) -> MotionState:
        """Return her state at a time."""
        if self.chain is not None:
            return state_at(self.chain, time - self.begin)
        if self.glide is None:
            raise ValueError("a stretch needs a chain or a glide")
        x, y = self.glide.at(time - self.begin)
        moving = time < self.end
        vx, vy = self.glide.velocity_at(time - self.begin)
        return MotionState(
            pose=Pose(x, y, self.facing, Stance.READY), moving=moving, is_set=not moving,
            speed=(vx * vx + vy * vy) ** 0.5, move=None, vx=vx, vy=vy,
        )  # fmt: skip


@dataclass(slots=True)
class HerTrack:
    """Her whole way: stretches by their begin; none begins before the one before has ended."""

    start: Pose
    motion: MotionParameters
    stretches: list[Stretch] = field(default_factory=list)

    def state(self, time: float) -> MotionState:
        """Return her state at a time; before the first move she stands set at the start."""
        k = bisect.bisect_right(self.stretches, time, key=lambda one: one.begin) - 1
        if k < 0:
            return MotionState(pose=self.start, moving=False, is_set=True, speed=0.0, move=None)
        return self.stretches[k].state(time)

    @property
    def end(self) -> float:
        """Return when she is where she is going."""
        return self.stretches[-1].end if self.stretches else 0.0

    @property
    def goal(self) -> Pose:
        """Return the pose she is going to, or is in."""
        if not self.stretches:
            return self.start
        last = self.stretches[-1]
        return last.chain.end if last.chain is not None else last.state(last.end).pose

    def go(
        self,
        goal: Pose,
        *,
        time: float,
        wait: float,
        own: bool = False,
        deadline: float | None = None,
    ) -> None:
        """Send her to a pose at ``time`` after a reaction of ``wait`` [s].

        A move under way is broken off or finished as ``motion.redirected`` says. With a
        ``deadline`` [s] that she cannot meet set on her feet she may arrive sliding.
        """
        down = deadline is not None
        while self.stretches and self.stretches[-1].begin > time and not self.stretches[-1].own:
            self.stretches.pop()  # not begun yet
        last = self.stretches[-1] if self.stretches else None
        if last is not None and time + wait < last.end and last.chain is not None:
            chain = redirected(
                last.chain, goal, self.motion, time=time - last.begin, reaction=wait,
                allow_down=down, deadline=None if deadline is None else deadline - last.begin,
            )  # fmt: skip
            self.stretches[-1] = Stretch(last.begin, chain, own=own)
            return
        begin = time if last is None else max(time, last.end)
        here = self.state(begin).pose
        chain = quickest_chain(
            here, goal, self.motion, reaction=wait, allow_down=down,
            deadline=None if deadline is None else max(deadline - begin, 0.0),
        )  # fmt: skip
        self.stretches.append(Stretch(begin, chain, own=own))

    def drop(self, *, time: float, wait: float) -> None:
        """Send her down on the spot at ``time``, after a reaction and after stopping [s]."""
        here = self._at_rest(time, wait)
        self.go(Pose(here.x, here.y, here.facing, Stance.BUTTERFLY), time=time, wait=wait)

    def stop(self, *, time: float) -> None:
        """Let her break off a move of her feet at ``time`` [s] and stand at rest."""
        if time < self.end:
            here = self._at_rest(time, 0.0)
            if not is_down(here.stance):
                self.go(here, time=time, wait=0.0)

    def _at_rest(self, time: float, wait: float) -> Pose:
        """Return where she comes to rest if she breaks off what she does after a reaction."""
        at = time + wait
        here = self.state(at).pose
        last = self.stretches[-1] if self.stretches else None
        if last is not None and at < last.end and last.chain is not None:
            chain = redirected(last.chain, here, self.motion, time=time - last.begin, reaction=wait)
            turn_at = at - last.begin
            for step in chain.steps:
                if step.begin < turn_at or step.move is MoveKind.STOP:
                    here = step.end
        return here

    def add(self, stretch: Stretch) -> None:
        """Add a stretch of her own, which must not begin before the last one has ended."""
        self.stretches.append(stretch)

    def moves(self) -> Iterator[tuple[float, float, Step]]:
        """Yield every move: begin, finish [s], step."""
        for one in self.stretches:
            if one.chain is not None:
                for step in one.chain.steps:
                    yield one.begin + step.begin, one.begin + step.finish, step

    def skated(self, begin: float, end: float) -> float:
        """Return metres of free skating begun in a span [m]."""
        return sum(
            one.glide.length
            for one in self.stretches
            if one.glide is not None and begin <= one.begin < end
        )
