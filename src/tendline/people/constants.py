"""The figures behind a goaltender's file, each with its origin."""

from __future__ import annotations

from tendline.base import Constant, OriginKind, assumed, fact

SEASON_TURNS = assumed(
    "people.season_turns", "month in which a new season's age classes begin", 7.0, "month",
    low=1.0, high=12.0, kind=OriginKind.PRACTICE, source="common practice, no source",
    note="a class goes by the age reached in the calendar year in which the season starts",
)  # fmt: skip

CONSENT_AGE = fact(
    "safety.gdpr_consent_default", "age below which a parent or guardian consents",
    key="people.consent_age", low=13.0, high=21.0,
    note="the default of the European regulation; countries may lower it to 13",
)  # fmt: skip
CONSENT_FLOOR = fact("safety.gdpr_consent_floor", "lowest age of consent in Europe")
COPPA_AGE = fact("safety.coppa_age", "age below which a parent consents in the United States")

FAST_GROWTH = assumed(
    "people.fast_growth", "yearly growth that is shown as a growth spurt", 0.07, "m/yr",
    low=0.04, high=0.12, note="a rough flag; two measurements can be off by a centimetre each",
)  # fmt: skip
GROWTH_SPAN = assumed(
    "people.growth_span", "shortest time between two statures to speak of growth", 0.25, "yr",
    low=0.1, high=1.0,
)  # fmt: skip
STATURE_KEEPS = assumed(
    "people.stature_keeps", "time after which a child's stature should be measured again", 0.35,
    "yr", low=0.1, high=2.0,
)  # fmt: skip

CLEARLY_BELOW = assumed(
    "people.clearly_below", "share of a scale by which an item lies clearly off her own mean",
    0.125, "1", low=0.05, high=0.5, note="half a step on a scale of 1 to 5",
)  # fmt: skip
TESTS_KEEP = assumed(
    "people.tests_keep", "time after which timed tests no longer describe a growing goaltender",
    0.75, "yr", low=0.1, high=3.0,
)  # fmt: skip
ADULT_AGE = assumed("people.adult_age", "age from which she counts as an adult here", 18.0, "yr",
                    low=16.0, high=21.0, kind=OriginKind.PRACTICE,
                    source="common practice, no source")  # fmt: skip

PEOPLE_CONSTANTS: tuple[Constant, ...] = (
    SEASON_TURNS, CONSENT_AGE, CONSENT_FLOOR, COPPA_AGE, FAST_GROWTH, GROWTH_SPAN, STATURE_KEEPS,
    CLEARLY_BELOW, TESTS_KEEP, ADULT_AGE,
)  # fmt: skip
