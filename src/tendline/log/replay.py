"""From events to a game: who counts, which end, whose shot. The one place where ends are turned.

Rules. The same id twice counts once (the first). An undo takes out the event it names, wherever
that stands; an undo of an earlier undo brings the event back. A shot's own period wins over the
period running in the log, so that shots entered late or on another device keep their end and
their goaltender.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Any

from tendline.base import DEFAULT_SETTINGS, InputError, Settings, ShotResult, build
from tendline.ice import Rink, distance_to_goal, inside_home_plate, other_end, rink, zone_of
from tendline.log.constants import SituationParameters
from tendline.log.credit import Credit, credit_of, stints_of
from tendline.log.events import (
    ChanceSeen,
    Context,
    GameEnd,
    GameEvent,
    GameSetUp,
    GoalRating,
    NoteTaken,
    PeriodStart,
    ShotDetail,
    ShotTaken,
    Undo,
)
from tendline.log.game import Chance, Game, Rating, Shot
from tendline.log.situation import infer_situation
from tendline.log.vocabulary import Frame, Given, RinkEnd


def unique(events: Iterable[GameEvent]) -> tuple[GameEvent, ...]:
    """Return events with repeats of an id left out, in order."""
    found: dict[str, GameEvent] = {}
    for one in events:
        found.setdefault(one.id, one)
    return tuple(found.values())


def standing(events: Sequence[GameEvent]) -> tuple[GameEvent, ...]:
    """Return the events that stand, undos among them; ``events`` without repeats."""
    place = {one.id: index for index, one in enumerate(events)}
    dead: set[str] = set()
    for index in range(len(events) - 1, -1, -1):
        one = events[index]
        if not isinstance(one, Undo) or one.id in dead:
            continue
        target = place.get(one.undoes)
        if target is None or (isinstance(events[target], Undo) and target >= index):
            continue
        dead.add(one.undoes)
    return tuple(one for one in events if one.id not in dead)


def live(events: Sequence[GameEvent]) -> tuple[GameEvent, ...]:
    """Return the events that count: those that stand, undos left out."""
    return tuple(one for one in standing(events) if not isinstance(one, Undo))


def replay(
    events: Iterable[GameEvent], *, game: str = "", settings: Settings = DEFAULT_SETTINGS
) -> Game:
    """Return the game that events tell, in the order in which they were logged.

    ``game`` is the id given to its shots (the set-up's id when empty). Raises ``InputError`` if
    the set-up is missing or there are two. Events that name an unknown shot are told as warnings.
    """
    all_events = unique(events)
    counted = live(all_events)
    set_ups = [one for one in counted if isinstance(one, GameSetUp)]
    if len(set_ups) != 1:
        raise InputError(
            "a game needs one set-up",
            came=f"{len(set_ups)}",
            allowed="exactly one 'set up' event that counts",
            hint="Start the game again or undo the second set-up.",
            item=game,
        )
    return _Replay(set_ups[0], counted, game or set_ups[0].id, settings).game(all_events)


class _Replay:
    """One pass over the events that count; kept private, its product is a ``Game``."""

    def __init__(
        self, set_up: GameSetUp, counted: tuple[GameEvent, ...], name: str, settings: Settings
    ) -> None:
        self.set_up = set_up
        self.counted = counted
        self.name = name
        self.rink: Rink = rink(set_up.rule_set, set_up.ice_format, settings=settings)
        self.windows = build(SituationParameters, settings)
        self.period_at = _periods(counted)
        self.ends = {
            one.period: one.defended_end
            for one in counted
            if isinstance(one, PeriodStart) and one.defended_end is not None
        }
        self.credit = Credit.of(set_up, counted, self.period_at)
        self.warnings: list[str] = []

    def end_of(self, period: int) -> RinkEnd:
        """Return the end our goaltender defends in a period."""
        base, end = 1, self.set_up.first_end
        for known in sorted(self.ends):
            if known <= period:
                base, end = known, self.ends[known] or end
        switched = self.set_up.ends_switch and (period - base) % 2 == 1
        return end.other if switched else end

    def in_net_frame(self, x: float, y: float, frame: Frame, period: int) -> tuple[float, float]:
        """Return a place in the defended net's frame; the only turning of ends there is."""
        if frame is Frame.RINK and self.end_of(period) is RinkEnd.FAR:
            x, y = other_end(self.rink, x, y)
        return x + 0.0, y + 0.0

    def game(self, all_events: tuple[GameEvent, ...]) -> Game:
        """Return the whole game."""
        shots = self.shots()
        ended = next((one for one in self.counted if isinstance(one, GameEnd)), None)
        period = self.period_at[-1]
        last = self.counted[-1]
        return Game(
            id=self.name,
            day=self.set_up.day,
            team=self.set_up.team,
            opponent=self.set_up.opponent,
            level=self.set_up.level,
            rule_set=self.set_up.rule_set,
            ice_format=self.set_up.ice_format,
            at_home=self.set_up.at_home,
            period=period,
            defended_end=self.end_of(period),
            goaltender=self.credit.current,
            ended=ended is not None,
            period_length=self.set_up.period_length,
            shots=shots,
            chances=self.chances(),
            notes=tuple(one for one in self.counted if isinstance(one, NoteTaken)),
            stints=stints_of(self.credit, self.set_up, ended, period),
            can_undo=None if isinstance(last, GameSetUp) else last,
            can_redo=_redo(all_events),
            warnings=tuple(self.warnings),
        )

    def shots(self) -> tuple[Shot, ...]:
        """Return every shot, placed, credited, with later details and ratings."""
        taken = [
            (index, one) for index, one in enumerate(self.counted) if isinstance(one, ShotTaken)
        ]
        known = {one.id for _, one in taken}
        details: dict[str, list[ShotDetail]] = {}
        ratings: dict[str, GoalRating] = {}
        for one in self.counted:
            if isinstance(one, ShotDetail | GoalRating) and one.shot not in known:
                self.warnings.append(f"{one.id} speaks of a shot that is not in the log")
            elif isinstance(one, ShotDetail):
                details.setdefault(one.shot, []).append(one)
            elif isinstance(one, GoalRating):
                ratings[one.shot] = one
        found: list[Shot] = []
        previous: Shot | None = None
        for index, event in taken:
            shot = self.shot(
                event, index, len(found) + 1, details.get(event.id, []), ratings.get(event.id),
                previous,
            )  # fmt: skip
            found.append(shot)
            previous = shot
        return tuple(found)

    def shot(
        self,
        event: ShotTaken,
        index: int,
        number: int,
        details: list[ShotDetail],
        rated: GoalRating | None,
        previous: Shot | None,
    ) -> Shot:
        """Return one shot in the net's frame."""
        period = event.period or self.period_at[index]
        x, y = self.in_net_frame(event.x, event.y, event.frame, period)
        if not self.rink.contains(x, y):
            self.warnings.append(f"shot {number} lies off the ice")
        context = self.turned(event.context, event.frame, period)
        result, shot_type, situation = event.result, event.shot_type, event.situation
        target_y, target_z = event.target_y, event.target_z
        for one in details:
            result = one.result or result
            shot_type = one.shot_type or shot_type
            situation = one.situation or situation
            target_y = target_y if one.target_y is None else one.target_y
            target_z = target_z if one.target_z is None else one.target_z
            context = self.detailed(context, one, period)
        context = _after(previous, context, period, event.elapsed)
        given, why = Given.SCORER, ""
        if situation is None:
            situation, why = infer_situation(
                self.rink, x=x, y=y, context=context, shot_type=shot_type, windows=self.windows
            )
            given = Given.UNKNOWN if situation is None else Given.INFERRED
        return Shot(
            id=event.id,
            game=self.name,
            day=self.set_up.day,
            opponent=self.set_up.opponent,
            level=self.set_up.level,
            number=number,
            period=period,
            elapsed=event.elapsed,
            goaltender=credit_of(self.credit, position=index, period=period, elapsed=event.elapsed),
            x=x,
            y=y,
            distance=float(distance_to_goal(x, y)),
            angle=abs(math.atan2(y, x)),
            zone=zone_of(self.rink, x, y),
            in_home_plate=inside_home_plate(self.rink, x, y),
            result=result,
            situation=situation,
            situation_given=given,
            situation_why=why,
            shot_type=shot_type,
            target_y=target_y,
            target_z=target_z,
            context=context,
            rating=None
            if rated is None
            else Rating(
                rating=rated.rating,
                with_goaltender=rated.with_goaltender,
                cause=rated.cause,
                text=rated.text,
            ),
        )

    def turned(self, context: Context, frame: Frame, period: int) -> Context:
        """Return a shot's context with its places in the net's frame."""
        if frame is Frame.NET or self.end_of(period) is RinkEnd.NEAR:
            return context
        changed: dict[str, Any] = {}
        for who in ("pass", "goaltender"):
            x, y = getattr(context, f"{who}_x"), getattr(context, f"{who}_y")
            if x is not None and y is not None:
                changed[f"{who}_x"], changed[f"{who}_y"] = self.in_net_frame(x, y, frame, period)
        return replace(context, **changed)

    def detailed(self, context: Context, detail: ShotDetail, period: int) -> Context:
        """Return a context with what a later detail says."""
        changed: dict[str, Any] = {
            name: getattr(detail, name)
            for name in ("readiness", "screened", "crossed_middle")
            if getattr(detail, name) is not None
        }
        if detail.goaltender_x is not None and detail.goaltender_y is not None:
            changed["goaltender_x"], changed["goaltender_y"] = self.in_net_frame(
                detail.goaltender_x, detail.goaltender_y, detail.frame, period
            )
        return replace(context, **changed)

    def chances(self) -> tuple[Chance, ...]:
        """Return the chances that gave no shot."""
        found = []
        for index, one in enumerate(self.counted):
            if isinstance(one, ChanceSeen):
                period = one.period or self.period_at[index]
                x, y = self.in_net_frame(one.x, one.y, one.frame, period)
                who = credit_of(self.credit, position=index, period=period, elapsed=None)
                found.append(
                    Chance(
                        id=one.id,
                        period=period,
                        goaltender=who,
                        x=x,
                        y=y,
                        grade=one.grade,
                        situation=one.situation,
                        text=one.text,
                    )
                )
        return tuple(found)


def _redo(events: Sequence[GameEvent]) -> str:
    """Return the id of the undo to undo next, or an empty string once something new was logged."""
    place = {one.id: one for one in events}
    waiting: list[str] = []
    for one in events:
        if not isinstance(one, Undo):
            waiting.clear()
        elif one.undoes in waiting:
            waiting.remove(one.undoes)
        elif one.undoes in place and not isinstance(place[one.undoes], Undo):
            waiting.append(one.id)
    return waiting[-1] if waiting else ""


def _periods(counted: Sequence[GameEvent]) -> tuple[int, ...]:
    """Return the period running in the log at each event."""
    running, found = 1, []
    for one in counted:
        if isinstance(one, PeriodStart):
            running = one.period
        found.append(running)
    return tuple(found)


def _after(previous: Shot | None, context: Context, period: int, elapsed: float | None) -> Context:
    """Return the context with the time since the shot before, where both were timed."""
    if (
        context.since_shot is not None
        or previous is None
        or elapsed is None
        or previous.elapsed is None
        or previous.period != period
        or elapsed < previous.elapsed
        or previous.is_goal
        or previous.result is ShotResult.BLOCKED
    ):
        return context
    return replace(context, since_shot=elapsed - previous.elapsed)
