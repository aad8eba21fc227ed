"""Who was in the net: the right person is credited, also when a change is entered late."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from tendline.log.events import GameEnd, GameEvent, GameSetUp, GoaltenderChange
from tendline.log.game import Stint


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """A change of goaltender with the place in the log and on the clock where it takes effect."""

    goaltender: str
    position: float
    period: int
    elapsed: float | None


@dataclass(frozen=True, slots=True)
class Credit:
    """The starter and the changes, in the order in which they took effect."""

    starter: str
    changes: tuple[Change, ...]

    @classmethod
    def of(
        cls, set_up: GameSetUp, counted: Sequence[GameEvent], period_at: Sequence[int]
    ) -> Credit:
        """Return who was in the net when, from the events that count."""
        place = {one.id: index for index, one in enumerate(counted)}
        found: list[Change] = []
        for index, one in enumerate(counted):
            if not isinstance(one, GoaltenderChange):
                continue
            position, period, elapsed = float(index), one.period or period_at[index], one.elapsed
            if one.before in place:
                target = place[one.before]
                position = target - 0.5
                period = getattr(counted[target], "period", None) or period_at[target]
                elapsed = getattr(counted[target], "elapsed", None)
            found.append(
                Change(goaltender=one.goaltender, position=position, period=period, elapsed=elapsed)
            )
        found.sort(key=lambda one: (one.period, one.position))
        return cls(set_up.goaltender, tuple(_by_clock(found)))

    @property
    def current(self) -> str:
        """Return who is in the net now (empty: nobody)."""
        return self.changes[-1].goaltender if self.changes else self.starter


def _by_clock(changes: list[Change]) -> list[Change]:
    """Order the changes of each period by clock where all of them have one."""
    found: list[Change] = []
    for period in sorted({one.period for one in changes}):
        group = [one for one in changes if one.period == period]
        if all(one.elapsed is not None for one in group):
            group.sort(key=lambda one: (one.elapsed or 0.0, one.position))
        found.extend(group)
    return found


def credit_of(credit: Credit, *, position: int, period: int, elapsed: float | None) -> str:
    """Return who was in the net at a place in the log: by clock where known, else by log order."""
    who = credit.starter
    for one in credit.changes:
        if one.period != period:
            applies = one.period < period
        elif one.elapsed is not None and elapsed is not None:
            applies = one.elapsed <= elapsed
        else:
            applies = one.position < position
        if applies:
            who = one.goaltender
    return who


def stints_of(
    credit: Credit, set_up: GameSetUp, ended: GameEnd | None, period: int
) -> tuple[Stint, ...]:
    """Return the spells in the net; seconds only where start and end are on the clock."""
    length = set_up.period_length
    starts: list[tuple[str, int, float | None]] = [(credit.starter, 1, 0.0)]
    starts += [
        (
            one.goaltender,
            one.period,
            None if one.elapsed is None else (one.period - 1) * length + one.elapsed,
        )
        for one in credit.changes
    ]
    finish: float | None = None
    if ended is not None:
        last = max(period, 1)
        finish = (
            max(last, set_up.periods) * length
            if ended.elapsed is None
            else (last - 1) * length + ended.elapsed
        )
    ends = [one[2] for one in starts[1:]] + [finish]
    return tuple(
        Stint(
            goaltender=who,
            first_period=first,
            seconds=None if begin is None or end is None else max(end - begin, 0.0),
        )
        for (who, first, begin), end in zip(starts, ends, strict=True)
    )
