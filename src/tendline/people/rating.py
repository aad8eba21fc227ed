"""Rating forms: eight groups of published forms, read against her own mean.

Absolute marks drift from goaltender to goaltender and from rater to rater, so a form is read
relatively: what lies clearly above or below the mean of the same form (one published form tells
raters to look for exactly that), and how that pattern has moved since the last form.
Groups and scales: published evaluation forms (facts: EVALSC).
"""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from tendline.base import InputError, require_number
from tendline.people.constants import CLEARLY_BELOW


class RatingGroup(StrEnum):
    """What published forms rate."""

    POSITIONING = "positioning"
    STANCE = "basic stance"
    SKATING = "skating and mobility"
    SAVES = "save technique"
    REBOUNDS = "rebound control"
    PUCK_HANDLING = "puck handling"
    READING = "reading the play"
    COMPETING = "competing and attitude"


class Scale(StrEnum):
    """The scale of a form; RANK is her place among ``of`` goaltenders (1 = first)."""

    FIVE = "1 to 5"
    NINE = "1 to 9"
    TWELVE = "1 to 12"
    RANK = "place in the group"

    @property
    def top(self) -> float:
        """Return the highest mark; 0 for places, which depend on the group."""
        return {Scale.FIVE: 5.0, Scale.NINE: 9.0, Scale.TWELVE: 12.0, Scale.RANK: 0.0}[self]


ANCHORS: dict[int, str] = {
    1: "not yet: needs telling each time",
    3: "does it in drills, loses it when the play is fast",
    5: "does it in games without thinking",
}
"""Words for 1, 3 and 5 on the scale of 1 to 5 (ours)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class RatingForm:
    """One form of one day by one rater.

    ``marks`` are pairs of group and mark; a group not seen is left out. ``of`` is the number of
    goaltenders ranked, for places only. ``well``, ``next_step`` and ``cue`` are the rater's own
    words for the goaltender. Raises ``InputError`` for a mark outside the scale or given twice.
    """

    day: date
    rater: str
    scale: Scale = Scale.FIVE
    marks: tuple[tuple[RatingGroup, float], ...] = ()
    of: int = 0
    well: str = ""
    next_step: str = ""
    cue: str = ""

    def __post_init__(self) -> None:
        marks = tuple((RatingGroup(group), float(mark)) for group, mark in self.marks)
        object.__setattr__(self, "marks", marks)
        if self.scale is Scale.RANK and self.of < 2:
            raise InputError(
                "places need the number of goaltenders ranked", came=f"{self.of}",
                allowed="2 or more", item="rating form",
            )  # fmt: skip
        seen: set[RatingGroup] = set()
        for group, mark in marks:
            if group in seen:
                raise InputError("a group is marked twice", came=group.value, item="rating form")
            seen.add(group)
            top = float(self.of) if self.scale is Scale.RANK else self.scale.top
            require_number("the mark", mark, low=1.0, high=top, unit="", item=group.value)

    def level_of(self, group: RatingGroup) -> float | None:
        """Return a mark as 0 (lowest) to 1 (highest), None where it was not seen."""
        for one, mark in self.marks:
            if one is group:
                if self.scale is Scale.RANK:
                    return (self.of - mark) / (self.of - 1)
                return (mark - 1.0) / (self.scale.top - 1.0)
        return None


@dataclass(frozen=True, slots=True, kw_only=True)
class Standing:
    """A group against the mean of the same form, as a share of the scale; + is above."""

    group: RatingGroup
    above: float


def standings(form: RatingForm) -> tuple[Standing, ...]:
    """Return every marked group against her own mean on this form, strongest first."""
    levels = [(group, form.level_of(group)) for group, _ in form.marks]
    known = [(group, level) for group, level in levels if level is not None]
    if not known:
        return ()
    mean = math.fsum(level for _, level in known) / len(known)
    found = [Standing(group=group, above=level - mean) for group, level in known]
    return tuple(sorted(found, key=lambda one: -one.above))


def strengths(form: RatingForm) -> tuple[RatingGroup, ...]:
    """Return the groups clearly above her own mean, strongest first."""
    return tuple(one.group for one in standings(form) if one.above >= CLEARLY_BELOW.value)


def gaps(form: RatingForm) -> tuple[RatingGroup, ...]:
    """Return the groups clearly below her own mean, weakest first."""
    found = [one.group for one in standings(form) if one.above <= -CLEARLY_BELOW.value]
    return tuple(reversed(found))


def change(before: RatingForm, after: RatingForm) -> tuple[Standing, ...]:
    """Return how each group moved against her own mean, largest gain first.

    Only groups marked on both forms; their means are taken over those groups alone. A general
    rise or fall of all marks does not show: it cannot be told from the rater's drift.
    """
    both = {group for group, _ in before.marks} & {group for group, _ in after.marks}
    early, late = _against_mean(before, both), _against_mean(after, both)
    order = [one for one in RatingGroup if one in both]
    moved = [Standing(group=one, above=late[one] - early[one]) for one in order]
    return tuple(sorted(moved, key=lambda one: -one.above))


def _against_mean(form: RatingForm, groups: set[RatingGroup]) -> dict[RatingGroup, float]:
    levels = {one: form.level_of(one) or 0.0 for one in groups}
    mean = math.fsum(levels.values()) / len(levels) if levels else 0.0
    return {one: level - mean for one, level in levels.items()}


def agreement(forms: Sequence[RatingForm]) -> float | None:
    """Return how far raters agree on her pattern: mean rank correlation of all pairs, -1 to 1.

    Spearman's correlation with midranks over the groups both marked; None with fewer than two
    forms, or where no pair shares three groups that differ.
    """
    found = []
    for index, one in enumerate(forms):
        for other in forms[index + 1 :]:
            value = _spearman(one, other)
            if value is not None:
                found.append(value)
    return math.fsum(found) / len(found) if found else None


def _spearman(one: RatingForm, other: RatingForm) -> float | None:
    groups = [
        g for g in RatingGroup if one.level_of(g) is not None and other.level_of(g) is not None
    ]
    if len(groups) < 3:
        return None
    first = _midranks([one.level_of(g) or 0.0 for g in groups])
    second = _midranks([other.level_of(g) or 0.0 for g in groups])
    middle = (len(groups) + 1) / 2.0
    a = [value - middle for value in first]
    b = [value - middle for value in second]
    size = math.sqrt(math.fsum(v * v for v in a) * math.fsum(v * v for v in b))
    if size == 0.0:
        return None
    return math.fsum(x * y for x, y in zip(a, b, strict=True)) / size


def _midranks(values: list[float]) -> list[float]:
    order = sorted(values)
    return [order.index(v) + 0.5 * (order.count(v) + 1) for v in values]


def words_for(form: RatingForm) -> tuple[str, ...]:
    """Return the form in short sentences without a single mark."""
    lines = []
    strong, weak = strengths(form), gaps(form)
    if strong:
        lines.append(f"Strongest, against her own mean: {_listed(strong)}.")
    if weak:
        lines.append(f"Next to work on, against her own mean: {_listed(weak)}.")
    if form.marks and not strong and not weak:
        lines.append("No group stands out: an even pattern.")
    return tuple(lines)


def _listed(groups: Sequence[RatingGroup]) -> str:
    names = [one.value for one in groups]
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} and {names[-1]}"
