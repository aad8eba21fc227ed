"""Age class on a date, who consents, and what may be kept in practice on a date."""

from __future__ import annotations

from datetime import date

from tendline.base import DEFAULT_SETTINGS, Level, Settings, require_number
from tendline.people.constants import ADULT_AGE, CONSENT_AGE, COPPA_AGE, SEASON_TURNS
from tendline.people.types import ConsentItem, GoaltenderFile, LeaveOut, SaidBy

_CLASSES = ((9, Level.U9), (11, Level.U11), (13, Level.U13), (15, Level.U15), (18, Level.U18))
CLASS_IN_THE_USA: dict[Level, str] = {
    Level.U9: "8U", Level.U11: "10U", Level.U13: "12U", Level.U15: "14U", Level.U18: "16U or 18U",
}  # fmt: skip
"""What the same ages are called in the United States."""


def season_year(day: date, settings: Settings = DEFAULT_SETTINGS) -> int:
    """Return the calendar year in which the season of ``day`` starts."""
    turns = int(settings.value_of(SEASON_TURNS))
    return day.year if day.month >= turns else day.year - 1


def age_class(birth_year: int, day: date, settings: Settings = DEFAULT_SETTINGS) -> Level:
    """Return the age class of somebody born in ``birth_year`` on ``day``.

    By the age reached in the year in which the season starts: U13 holds those who turn 11 or 12
    then. Associations differ; the level of the file overrides this.
    """
    require_number("year of birth", birth_year, low=1930, high=day.year, unit="")
    turns = season_year(day, settings) - birth_year
    return next((level for limit, level in _CLASSES if turns < limit), Level.ADULT)


def level_on(file: GoaltenderFile, day: date, settings: Settings = DEFAULT_SETTINGS) -> Level:
    """Return the level she plays at: the file's own, else her age class, else adult."""
    if file.level is not None:
        return file.level
    if file.birth_year is None:
        return Level.ADULT
    return age_class(file.birth_year, day, settings)


def age_on(file: GoaltenderFile, day: date) -> float | None:
    """Return her age in years as well as a year of birth tells it (half a year either way)."""
    if file.birth_year is None:
        return None
    middle = date(file.birth_year, 7, 1)
    return max(0.0, (day - middle).days / 365.25)


def is_minor(file: GoaltenderFile, day: date, settings: Settings = DEFAULT_SETTINGS) -> bool:
    """Return whether she may still be a minor on ``day``; an unknown year of birth counts so."""
    if file.birth_year is None:
        return file.level is None or file.level in {one for _, one in _CLASSES}
    return day.year - file.birth_year <= settings.value_of(ADULT_AGE)


def left_out_on(file: GoaltenderFile, day: date) -> frozenset[LeaveOut]:
    """Return everything that restrictions ask to leave out on ``day``."""
    found: frozenset[LeaveOut] = frozenset()
    for one in file.restrictions:
        if one.holds_on(day):
            found |= one.leave_out
    return found


def has_consent(
    file: GoaltenderFile, item: ConsentItem, day: date, settings: Settings = DEFAULT_SETTINGS
) -> bool:
    """Return whether the right person consented to ``item`` by ``day``.

    Below the age of consent only a parent or guardian counts. No law is decided here: the age
    is a setting, and the club's own rules come first.
    """
    own = _may_consent_herself(file, day, settings)
    givers = {SaidBy.PARENT, SaidBy.HERSELF} if own else {SaidBy.PARENT}
    return any(
        item in one.items and one.day <= day and one.given_by in givers for one in file.consents
    )


def consent_words(file: GoaltenderFile, day: date, settings: Settings = DEFAULT_SETTINGS) -> str:
    """Return one line on the consent that is missing, empty if none is."""
    if has_consent(file, ConsentItem.FILE, day, settings):
        return ""
    age = settings.value_of(CONSENT_AGE)
    if _may_consent_herself(file, day, settings):
        return "No consent noted for keeping this file: ask her."
    return (
        f"No consent noted for keeping this file: ask a parent or guardian (below {age:.0f} years "
        f"as set; {COPPA_AGE.value:.0f} in the United States; see your club's rules)."
    )


def _may_consent_herself(file: GoaltenderFile, day: date, settings: Settings) -> bool:
    if file.birth_year is None:
        return not is_minor(file, day, settings)
    return day.year - file.birth_year > settings.value_of(CONSENT_AGE)
