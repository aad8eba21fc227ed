"""The goaltender as the engine plays her: her build and motion on a day, with their origin."""

from __future__ import annotations

from dataclasses import dataclass
from datetime import date

from tendline.base import DEFAULT_SETTINGS, Settings
from tendline.body import build_goaltender
from tendline.ice import RuleSet
from tendline.motion import Refit, TimedTest, motion_parameters, refit
from tendline.people.ages import is_minor, level_on
from tendline.people.constants import TESTS_KEEP
from tendline.people.growth import stature_on
from tendline.people.types import GoaltenderFile
from tendline.play import Goaltender

_DAYS_PER_YEAR = 365.25


@dataclass(frozen=True, slots=True, kw_only=True)
class Playing:
    """Her as the engine plays her; ``words`` say what is hers and what is a default."""

    goaltender: Goaltender
    refit: Refit | None
    words: tuple[str, ...]


def newest_tests(
    file: GoaltenderFile, day: date, settings: Settings = DEFAULT_SETTINGS
) -> tuple[TimedTest, ...]:
    """Return the newest timed tests of each kind by ``day``; old ones of a minor are left out."""
    newest: dict[str, tuple[date, list[TimedTest]]] = {}
    for one in file.timed_days:
        old = (day - one.day).days / _DAYS_PER_YEAR
        if one.day > day or (old > settings.value_of(TESTS_KEEP) and is_minor(file, one.day)):
            continue
        for test in one.tests:
            known = newest.get(test.kind)
            if known is None or one.day > known[0]:
                newest[test.kind] = (one.day, [test])
            elif one.day == known[0]:
                known[1].append(test)
    return tuple(test for _, tests in newest.values() for test in tests)


def playing_on(
    file: GoaltenderFile,
    day: date,
    *,
    rule_set: RuleSet = RuleSet.NHL,
    settings: Settings = DEFAULT_SETTINGS,
) -> Playing:
    """Return her build and motion on ``day``: her own where the file knows, else defaults."""
    level = level_on(file, day, settings)
    height = stature_on(file, day)
    words = []
    if height is None:
        build = build_goaltender(catching_hand=file.catching_hand, level=level,
                                 rule_set=rule_set, settings=settings)  # fmt: skip
        words.append(f"Height not known: a default of {build.stature:.2f} m.")
    else:
        build = build_goaltender(height.metres, catching_hand=file.catching_hand, level=level,
                                 rule_set=rule_set, settings=settings)  # fmt: skip
        words.append(f"Height {height.metres:.2f} m, {height.words}.")
    motion = motion_parameters(level, settings)
    tests = newest_tests(file, day, settings)
    found = refit(tests, motion) if tests else None
    if found is None:
        words.append(f"Moves at the default pace of {level.value}: no timed tests of her own.")
    else:
        words.extend(one.words.capitalize() + "." for one in found.fitted)
        words.extend(one.capitalize() + "." for one in found.warnings)
    return Playing(
        goaltender=Goaltender(build=build, motion=found.parameters if found else motion),
        refit=found,
        words=tuple(words),
    )
