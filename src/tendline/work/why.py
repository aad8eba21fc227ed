"""Why a goaltender's games cost what they did: the engine asked about every shot it can answer."""

from __future__ import annotations

from collections.abc import Sequence
from datetime import date
from functools import lru_cache

from tendline.base import DEFAULT_SETTINGS, InputError, Level, Settings
from tendline.body import build_goaltender
from tendline.ice import RuleSet, rink
from tendline.log import Costs, Game, Judge, why_it_cost
from tendline.motion import motion_parameters
from tendline.people import from_mapping, playing_on
from tendline.play import Goaltender
from tendline.store import Store


def why(store: Store, person: str, games: Sequence[Game]) -> Costs:
    """Return what the engine says of one person's shots in ``games``.

    Her build and moves come from her file where there is one (height, hand, timed tests on the
    day of the last game), else from the level of the games. About a second for a first question
    and milliseconds after that.
    """
    if not games:
        return Costs({}, 0)
    settings = store.choices.settings(person)
    last = max(games, key=lambda one: one.day)
    goaltender = _goaltender(store, person, last.day, last.level, last.rule_set, settings)
    judge = _judge(goaltender, last.level, last.rule_set, settings)
    shots = [one for game in games for one in game.shots_of(person)]
    return why_it_cost(shots, judge)


@lru_cache(maxsize=16)
def _judge(goaltender: Goaltender, level: Level, rule_set: RuleSet, settings: Settings) -> Judge:
    return Judge(goaltender, level=level, rink=rink(rule_set), settings=settings)


def _goaltender(
    store: Store,
    person: str,
    day: date,
    level: Level,
    rule_set: RuleSet,
    settings: Settings = DEFAULT_SETTINGS,
) -> Goaltender:
    document = store.people.all().get(person)
    if document is not None:
        try:
            file = from_mapping({**document, "id": person})
        except InputError:
            file = None
        if file is not None:
            return playing_on(file, day, rule_set=rule_set, settings=settings).goaltender
    build = build_goaltender(level=level, rule_set=rule_set, settings=settings)
    return Goaltender(build=build, motion=motion_parameters(level, settings))
