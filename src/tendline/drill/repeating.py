"""Two repetitions on one clock, and how the second is resolved where it waits for her."""

from __future__ import annotations

from dataclasses import dataclass, replace

from tendline.drill.timeline import Attack, Line, Track
from tendline.drill.vocabulary import Role
from tendline.drill.waiting import Goaltending


@dataclass(frozen=True, slots=True)
class Again:
    """Asks for her run in the next repetition, on its own clock.

    ``first`` is the repetition before, ``whistle`` when the next one starts on its clock [s]. She
    comes from where the one before has left her, so a line that waits for her may take longer.
    """

    her: Goaltending
    first: Attack
    whistle: float

    def set_time(self, attack: Attack, after: float, lasting: float = 0.0) -> float:
        """Return since when she is set on the puck's line, for so long, not before ``after``."""
        return self.her.set_time(self._both(attack), after + self.whistle, lasting) - self.whistle

    def scripted_end(self, attack: Attack, line: Line) -> float:
        """Return when she has finished a line of her own that begins at ``line.begin``."""
        moved = _later(line, self.whistle)
        return self.her.scripted_end(self._both(attack), moved) - self.whistle

    def home_time(self, attack: Attack) -> float:
        """Return when she is back, set, where the repetition started [s]."""
        return self.her.home_time(self._both(attack)) - self.whistle

    def _both(self, attack: Attack) -> Attack:
        return joined(self.first, shifted(attack, self.whistle))


def shifted(attack: Attack, time: float) -> Attack:
    """Return the attack of the next repetition: later, and by other people."""
    tracks = {
        f"{name}'": Track(
            f"{name}'",
            one.start,
            [b + time for b in one.begins],
            list(one.glides),
            [c + time for c in one.cuts],
        )
        for name, one in attack.tracks.items()
        if name[0] != Role.GOALTENDER.value
    }

    def later(name: str) -> str:
        return f"{name}'" if name and name[0] != Role.GOALTENDER.value else name

    events = [
        replace(
            one,
            time=one.time + time,
            arrives=one.arrives + time,
            who=later(one.who),
            receiver=later(one.receiver),
            rep=one.rep + 1,
            known_from=one.known_from + time,
        )
        for one in attack.events
    ]
    return Attack(
        tracks, events, [_later(one, time) for one in attack.lines],
        [_later(one, time) for one in attack.scripted],
        [(t + time, later(name)) for t, name in attack.blockers],
    )  # fmt: skip


def _later(line: Line, time: float) -> Line:
    return replace(line, begin=line.begin + time, end=line.end + time)


def joined(first: Attack, second: Attack) -> Attack:
    """Return two repetitions on one clock."""
    return Attack(
        {**first.tracks, **second.tracks},
        first.events + second.events,
        first.lines + second.lines,
        first.scripted + second.scripted,
        first.blockers + second.blockers,
        homes=(first.ends,),
    )
