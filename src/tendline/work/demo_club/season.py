"""The invented games, tap by tap: the same events that a coach's tablet would have sent.

Deterministic: each game has its own generator, seeded by its id.
"""

from __future__ import annotations

import math
import random
from collections.abc import Iterator
from datetime import UTC, datetime, timedelta
from typing import Any

from tendline.base import Level, ScoringSituation, ShotResult, ShotType, Side
from tendline.ice import other_end, rink
from tendline.log import (
    Cause,
    ChanceSeen,
    Context,
    Frame,
    GameEnd,
    GameEvent,
    GameSetUp,
    GoalRating,
    GoaltenderChange,
    Grade,
    NoteKind,
    NoteTaken,
    PeriodStart,
    Readiness,
    RinkEnd,
    ShotDetail,
    ShotTaken,
    Undo,
)
from tendline.work.demo_club.cast import FIXTURES, Fixture
from tendline.work.demo_club.truth import PLAYS, SKILLS, Play, Skill
from tendline.work.demo_club.words import OPPONENT_NOTES, PAIRS, RATING_WORDS

SEED = "kettle-harbour-223"
PERIODS = 3
PERIOD_LENGTH = {"kh-u15": 900.0, "kh-adults": 1200.0}
LEVELS = {"kh-u15": Level.U15, "kh-adults": Level.ADULT}
NAMES = {"kh-u15": "Kettle Harbour U15", "kh-adults": "Kettle Harbour Adults"}
SHEET = rink()


def season() -> Iterator[tuple[str, tuple[GameEvent, ...]]]:
    """Give every game's id and events, oldest first."""
    for fixture in FIXTURES:
        yield fixture.id, tuple(_Scorer(fixture).events())


class _Scorer:
    """Plays one fixture through and notes what a scorer would."""

    def __init__(self, fixture: Fixture) -> None:
        self.fixture = fixture
        self.random = random.Random(f"{SEED}/{fixture.id}")
        self.begin = datetime(
            fixture.day.year, fixture.day.month, fixture.day.day, 15, 0, tzinfo=UTC
        )
        self.count = 0
        self.length = PERIOD_LENGTH[fixture.team]
        self.first_end = self.random.choice((RinkEnd.NEAR, RinkEnd.FAR))
        self.goals: list[tuple[str, ScoringSituation, Readiness]] = []
        self.places: dict[str, tuple[float, float]] = {}

    def stamp(self, seconds: float = 0.0) -> dict[str, Any]:
        """Return the id and time of the next event."""
        self.count += 1
        return {
            "id": f"{self.fixture.id}-e{self.count:03d}",
            "made_at": self.begin + timedelta(seconds=seconds),
        }

    def events(self) -> Iterator[GameEvent]:
        """Give the events of the game in the order of the taps."""
        fixture = self.fixture
        yield GameSetUp(
            **self.stamp(),
            day=fixture.day,
            team=NAMES[fixture.team],
            opponent=fixture.opponent,
            goaltender=fixture.starter,
            level=LEVELS[fixture.team],
            first_end=self.first_end,
            periods=PERIODS,
            period_length=self.length,
            at_home=fixture.at_home,
        )
        who, number = fixture.starter, 0
        for period in range(1, PERIODS + 1):
            if period > 1:
                yield PeriodStart(**self.stamp(period * 1800), period=period)
            share = fixture.shots // PERIODS + (period <= fixture.shots % PERIODS)
            for clock in sorted(self.random.uniform(20, self.length - 20) for _ in range(share)):
                late = fixture.relief and who != fixture.relief and period == 2
                if late and clock > fixture.change:
                    who = fixture.relief
                    yield GoaltenderChange(
                        **self.stamp(period * 1800 + clock),
                        goaltender=who,
                        period=2,
                        elapsed=fixture.change,
                    )
                number += 1
                yield from self.attack(period, clock, SKILLS[who], number)
        yield GameEnd(**self.stamp(7000))
        yield from self.afterwards(who)

    def attack(self, period: int, clock: float, skill: Skill, number: int) -> Iterator[GameEvent]:
        """Give one attack: a shot, and the second puck if it lies in front."""
        kinds = list(PLAYS)
        kind = self.random.choices(kinds, [PLAYS[one].often for one in kinds])[0]
        play = PLAYS[kind]
        side = self.random.choice((-1.0, 1.0))
        x = max(0.4, self.random.gauss(play.x, play.spread))
        y = max(-11.0, min(11.0, self.random.gauss(side * play.y, play.spread)))
        shot, result = self.shot(kind, play, x=x, y=y, period=period, clock=clock, skill=skill)
        yield shot
        if number % 13 == 0:
            yield from self.slip(shot)
        if number % 9 == 0:
            cx, cy = self.tap(self.random.uniform(2, 8), self.random.uniform(-4, 4), period)
            yield ChanceSeen(
                **self.stamp(period * 1800 + clock),
                x=cx, y=cy, grade=Grade.A, period=period, text="open at the far post, puck missed",
            )  # fmt: skip
        again = result is ShotResult.SAVE_DANGEROUS_REBOUND
        if again and self.random.random() < skill.second_chance:
            yield self.rebound(x=x, y=y, period=period, clock=clock, skill=skill)

    def slip(self, shot: ShotTaken) -> Iterator[GameEvent]:
        """Give a mistaken tap and its undo, as happens with gloves on."""
        wrong = ShotTaken(
            **self.stamp(),
            x=shot.x, y=shot.y, result=ShotResult.WIDE, period=shot.period,
        )  # fmt: skip
        yield wrong
        yield Undo(**self.stamp(), undoes=wrong.id)

    def shot(
        self,
        kind: ScoringSituation,
        play: Play,
        *,
        x: float,
        y: float,
        period: int,
        clock: float,
        skill: Skill,
    ) -> tuple[ShotTaken, ShotResult]:
        """Return a first shot and what became of it."""
        late = skill.late_across if kind is ScoringSituation.EAST_WEST else play.moving
        moving = self.random.random() < late
        cost = play.cost * skill.level * (skill.moving_factor if moving else 0.8)
        result = self.result(cost, skill)
        ready = Readiness.MOVING if moving else Readiness.SET
        kinds = play.types
        pass_y = -self.random.uniform(2.0, 6.5) * (1 if y > 0 else -1)
        pass_x = self.random.uniform(4.0, 9.0)
        if kind is ScoringSituation.BELOW_GOAL_LINE:
            pass_x, pass_y = -self.random.uniform(0.8, 2.0), self.random.uniform(-3.0, 3.0)
        if kind is ScoringSituation.LOW_HIGH:
            pass_x, pass_y = self.random.uniform(1.0, 4.0), (1 if y > 0 else -1) * 9.5
        passed = kind in (
            ScoringSituation.EAST_WEST, ScoringSituation.BELOW_GOAL_LINE, ScoringSituation.LOW_HIGH,
        )  # fmt: skip
        said = self.random.random() < 0.75
        numbers = {
            ScoringSituation.BREAKAWAY: (1, 0),
            ScoringSituation.ENTRY: self.random.choice(((2, 1), (1, 1), (2, 2), (3, 2))),
        }.get(kind)
        tx, ty = self.tap(x, y, period)
        px, py = self.tap(pass_x, pass_y, period)
        context = Context(
            readiness=ready,
            screened=kind is ScoringSituation.SCREEN,
            one_timer=passed and moving,
            off_rush=kind is ScoringSituation.ENTRY,
            pass_x=px if passed else None,
            pass_y=py if passed else None,
            since_pass=round(self.random.uniform(0.4, 1.4), 1) if passed else None,
            attackers=numbers[0] if numbers else None,
            defenders=numbers[1] if numbers else None,
            shooter=str(self.random.choice((7, 9, 11, 14, 14, 17, 19, 22, 23, 27))),
            shooter_hand=self.random.choice((Side.LEFT, Side.LEFT, Side.RIGHT)),
        )
        event = ShotTaken(
            **self.stamp(period * 1800 + clock),
            x=tx,
            y=ty,
            frame=Frame.RINK,
            result=result,
            situation=kind if said or kind is ScoringSituation.NET_DRIVE else None,
            shot_type=self.random.choice(kinds),
            period=period,
            elapsed=round(clock),
            context=context,
            **self.target(result),
        )
        if result is ShotResult.GOAL:
            self.goals.append((event.id, kind, ready))
            self.places[event.id] = (x, y)
        return event, result

    def rebound(self, *, x: float, y: float, period: int, clock: float, skill: Skill) -> ShotTaken:
        """Return the second shot, close in, a moment later."""
        scored = self.random.random() < skill.rebound_cost
        result = ShotResult.GOAL if scored else ShotResult.SAVE_HELD
        ready = self.random.choice((Readiness.DOWN, Readiness.DOWN, Readiness.MOVING))
        x, y = max(0.5, min(x, self.random.gauss(2.4, 0.8))), self.random.gauss(0.2 * y, 1.0)
        tx, ty = self.tap(x, y, period)
        since = self.random.choice((1.0, 1.0, 2.0))
        event = ShotTaken(
            **self.stamp(period * 1800 + clock + since),
            x=tx,
            y=ty,
            result=result,
            shot_type=self.random.choice((ShotType.SNAP, ShotType.BACKHAND)),
            period=period,
            elapsed=round(clock) + since,
            context=Context(readiness=ready, screened=False, since_shot=since, shooter="14"),
            **self.target(result),
        )
        if result is ShotResult.GOAL:
            self.goals.append((event.id, ScoringSituation.REBOUND, ready))
            self.places[event.id] = (x, y)
        return event

    def result(self, cost: float, skill: Skill) -> ShotResult:
        """Return what becomes of a shot: some miss, some score, the rest are saved."""
        if self.random.random() < 0.14:
            return self.random.choice((ShotResult.WIDE, ShotResult.BLOCKED))
        if self.random.random() < cost:
            return ShotResult.GOAL
        if self.random.random() < skill.dangerous:
            return ShotResult.SAVE_DANGEROUS_REBOUND
        return self.random.choice((ShotResult.SAVE_HELD, ShotResult.SAVE_SAFE_REBOUND))

    def target(self, result: ShotResult) -> dict[str, Any]:
        """Return where a goal crossed the line (others are rarely noted)."""
        if result is not ShotResult.GOAL:
            return {}
        return {
            "target_y": round(self.random.uniform(-0.85, 0.85), 2),
            "target_z": round(self.random.uniform(0.05, 1.1), 2),
        }

    def tap(self, x: float, y: float, period: int) -> tuple[float, float]:
        """Return the tap on the whole-rink picture for a place in the net's frame."""
        far = (self.first_end is RinkEnd.FAR) == (period % 2 == 1)
        if far:
            x, y = other_end(SHEET, x, y)
        return round(x, 2), round(y, 2)

    def afterwards(self, who: str) -> Iterator[GameEvent]:
        """Give the ratings done with the goaltender next day, and the notes."""
        for shot, kind, ready in self.goals:
            rating, cause = self.judge(kind, ready)
            yield GoalRating(
                **self.stamp(86400),
                shot=shot,
                rating=rating,
                with_goaltender=True,
                cause=cause,
                text=RATING_WORDS[cause],
            )
            yield self.seen_on_film(shot, cause)
        well, following, cue = self.random.choice(PAIRS)
        for purpose, text in (
            (NoteKind.WELL, well), (NoteKind.NEXT, following), (NoteKind.CUE, cue)
        ):  # fmt: skip
            yield NoteTaken(**self.stamp(7200), purpose=purpose, text=text, about=who)
        for text in OPPONENT_NOTES.get(self.fixture.opponent, ()):
            yield NoteTaken(**self.stamp(7300), purpose=NoteKind.OPPONENT, text=text)

    def seen_on_film(self, shot: str, cause: Cause) -> ShotDetail:
        """Return where she stood, as the coach marks it on the film of a goal."""
        x, y = self.places[shot]
        depth = min(self.random.uniform(0.9, 1.3), 0.5 * math.hypot(x, y))
        off = self.random.gauss(0.0, 0.06)
        if cause is Cause.POSITION:
            off += self.random.choice((-1, 1)) * self.random.uniform(0.35, 0.5)
        elif cause is Cause.TIMING:  # short of the line, on the side she came from
            off += self.random.uniform(0.15, 0.3) * (-1 if y > 0 else 1)
        away = math.hypot(x, y)
        return ShotDetail(
            **self.stamp(86400),
            shot=shot,
            goaltender_x=round(max(0.1, depth * x / away - off * y / away), 2),
            goaltender_y=round(depth * y / away + off * x / away, 2),
        )

    def judge(self, kind: ScoringSituation, ready: Readiness) -> tuple[int, Cause]:
        """Return the rating and cause that coach and goaltender agree on."""
        hard = (ScoringSituation.BREAKAWAY, ScoringSituation.DEFLECTION, ScoringSituation.SCREEN)
        if kind in hard:
            return 0, Cause.CHANCE_QUALITY
        if ready is Readiness.MOVING:
            return 1, Cause.TIMING
        if kind is ScoringSituation.REBOUND:
            return self.random.choice(((1, Cause.EXECUTION), (0, Cause.CHANCE_QUALITY)))
        if kind is ScoringSituation.CLEAR_SHOT:
            return self.random.choice(((2, Cause.EXECUTION), (1, Cause.POSITION)))
        return self.random.choice(((0, Cause.CHANCE_QUALITY), (1, Cause.POSITION)))
