"""A run as plain numbers over time, for pictures: everyone, the puck, her, what is said and when.

Everything is rounded and plain (tuples, floats, words), so that a page can take it as JSON. A
branch shows only what has happened by each moment: the name of a choice stands with the time at
which it is made, and a player that hides it has all it needs.
"""

from __future__ import annotations

from dataclasses import dataclass

from tendline.drill.measuring import plain_name
from tendline.drill.play_lines import show_action
from tendline.drill.run_types import BranchRun, Run
from tendline.drill.timeline import PuckKind, puck_place

DIGITS = 3


@dataclass(frozen=True, slots=True, kw_only=True)
class Shot:
    """One release on the clock of the playback."""

    time: float
    arrives: float
    shooter: str
    x: float
    y: float
    is_set: bool
    state: str
    offset: float
    depth: float
    sight: float
    gap: float
    goal_chance: float | None


@dataclass(frozen=True, slots=True, kw_only=True)
class Tracks:
    """One repetition sampled every ``step`` [s]; places [m], facing [rad].

    ``people`` maps a name to (x, y) per sample; ``puck`` (x, y) per sample; ``holder`` who has it
    ('' for nobody); ``her`` (x, y, facing) with ``stance`` and ``is_set``; ``wanted`` (x, y) where
    the engine last wanted her; ``words`` (time, line of the script); ``choices`` (branch, time).
    """

    branch: str
    words_of_branch: str
    step: float
    duration: float
    time: tuple[float, ...]
    people: tuple[tuple[str, tuple[tuple[float, float], ...]], ...]
    puck: tuple[tuple[float, float], ...]
    puck_state: tuple[str, ...]
    holder: tuple[str, ...]
    her: tuple[tuple[float, float, float], ...]
    stance: tuple[str, ...]
    is_set: tuple[bool, ...]
    wanted: tuple[tuple[float, float], ...]
    words: tuple[tuple[float, str], ...]
    choices: tuple[tuple[str, float], ...]
    shots: tuple[Shot, ...]


def tracks(run: Run, branch: str = "", step: float = 0.05) -> Tracks:
    """Return the second repetition of a branch as numbers over time; the first branch when ''.

    The clock starts at that repetition's whistle and runs until its rebound is cleared or the
    next whistle.
    """
    one = run.branch(branch) if branch else run.branches[0]
    start = one.first_whistle
    count = max(2, round(one.period / step) + 1)
    times = [k * step for k in range(count)]
    names = [name for name in one.attack.tracks if name.endswith("'")]
    if not names:
        names = []
    samples = [_sample(one, start + time) for time in times]
    return Tracks(
        branch=one.key,
        words_of_branch=one.words,
        step=step,
        duration=round(times[-1], DIGITS),
        time=tuple(round(time, DIGITS) for time in times),
        people=tuple(
            (
                plain_name(name),
                tuple(_point(one.attack.tracks[name].at(start + time)) for time in times),
            )
            for name in names
        ),
        puck=tuple(_point(sample[0]) for sample in samples),
        puck_state=tuple(sample[2] for sample in samples),
        holder=tuple(plain_name(sample[1]) for sample in samples),
        her=tuple(_pose(one, start + time) for time in times),
        stance=tuple(one.her.track.state(start + time).pose.stance.value for time in times),
        is_set=tuple(one.her.track.state(start + time).is_set for time in times),
        wanted=tuple(_wanted(one, start + time) for time in times),
        words=tuple(
            (round(line.begin - start, DIGITS), show_action(line.action))
            for line in one.attack.lines
            if line.begin >= start - 1e-9
        ),
        choices=tuple((name, round(time, DIGITS)) for name, time in one.decided),
        shots=tuple(
            Shot(
                time=round(r.time, DIGITS),
                arrives=round(r.time + r.distance / r.speed, DIGITS),
                shooter=r.shooter,
                x=round(r.x, DIGITS),
                y=round(r.y, DIGITS),
                is_set=r.is_set,
                state=r.state.value,
                offset=round(r.offset, DIGITS),
                depth=round(r.depth, DIGITS),
                sight=round(r.sight, DIGITS),
                gap=round(r.gap, DIGITS),
                goal_chance=r.goal_chance,
            )
            for r in one.releases
        ),
    )


def _sample(one: BranchRun, time: float) -> tuple[tuple[float, float], str, str]:
    place, holder, event = puck_place(one.attack, time)
    if event is None:
        return (0.0, 0.0), "", ""
    state = event.kind.value
    if event.kind is PuckKind.SHOT and time > event.arrives:
        state = PuckKind.CLEARED.value
    return place, holder, state


def _point(place: tuple[float, float]) -> tuple[float, float]:
    return round(place[0], DIGITS), round(place[1], DIGITS)


def _pose(one: BranchRun, time: float) -> tuple[float, float, float]:
    pose = one.her.track.state(time).pose
    return round(pose.x, DIGITS), round(pose.y, DIGITS), round(pose.facing, DIGITS)


def _wanted(one: BranchRun, time: float) -> tuple[float, float]:
    pose = one.her.track.start
    for when, read in one.her.reads:
        if when > time:
            break
        pose = read
    return _point((pose.x, pose.y))
