"""One file, four readers: each gets own words, and nobody ever reads about another child.

The coach sees all of it. The goaltender sees her own pattern, cues, aims and times, but no mark
and no place in a group. A parent gets one thing well, one thing next and how to help, without
blame. The head coach gets what matters for a practice and a game.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from enum import StrEnum

from tendline.base import DEFAULT_SETTINGS, Settings
from tendline.people.ages import (
    CLASS_IN_THE_USA,
    consent_words,
    has_consent,
    left_out_on,
    level_on,
)
from tendline.people.erase import speaks_of
from tendline.people.growth import growth, stature_on
from tendline.people.rating import RatingForm, Scale, change, standings, words_for
from tendline.people.types import Aim, ConsentItem, GoaltenderFile


class Reader(StrEnum):
    """Who reads."""

    COACH = "coach"
    GOALTENDER = "goaltender"
    PARENT = "parent"
    HEAD_COACH = "head coach"


@dataclass(frozen=True, slots=True, kw_only=True)
class Section:
    """A heading and its lines."""

    title: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class FileView:
    """What one reader gets; ``left_out`` counts lines withheld because they name somebody else."""

    reader: Reader
    title: str
    sections: tuple[Section, ...]
    left_out: int = 0


def view(
    file: GoaltenderFile,
    reader: Reader,
    day: date,
    *,
    others: Iterable[str] = (),
    settings: Settings = DEFAULT_SETTINGS,
) -> FileView:
    """Return what ``reader`` may read of ``file`` on ``day``.

    ``others`` are names and ids of everybody else in the club: a line of free text that holds
    one of them is withheld from every reader but the coach. For a head coach a minor's file
    needs consent to reports; without it only practice matters are shown.
    """
    sections = {
        Reader.COACH: _for_coach,
        Reader.GOALTENDER: _for_goaltender,
        Reader.PARENT: _for_parent,
        Reader.HEAD_COACH: _for_head_coach,
    }[reader](file, day, settings)
    names = tuple(
        one.casefold() for one in others if one not in (file.id, file.display_name) and one.strip()
    )
    if reader is Reader.COACH or not names:
        return FileView(reader=reader, title=file.display_name, sections=_full(sections))
    kept, gone = [], 0
    for section in sections:
        lines = tuple(line for line in section.lines if not speaks_of(line, names))
        gone += len(section.lines) - len(lines)
        kept.append(Section(title=section.title, lines=lines))
    return FileView(reader=reader, title=file.display_name, sections=_full(kept), left_out=gone)


def _full(sections: Iterable[Section]) -> tuple[Section, ...]:
    return tuple(one for one in sections if one.lines)


def _section(title: str, *lines: str) -> Section:
    return Section(title=title, lines=tuple(line for line in lines if line))


def _last(file: GoaltenderFile, day: date) -> RatingForm | None:
    known = [one for one in file.forms if one.day <= day]
    return max(known, key=lambda one: one.day) if known else None


def _for_coach(file: GoaltenderFile, day: date, settings: Settings) -> list[Section]:
    level = level_on(file, day, settings)
    height = stature_on(file, day)
    grown = growth(file, day, settings)
    form = _last(file, day)
    born = f"Born {file.birth_year}." if file.birth_year else "Year of birth not noted."
    place = ""
    if form is not None and form.scale is Scale.RANK:
        place = f"Places among {form.of}: " + ", ".join(
            f"{group.value} {mark:.0f}" for group, mark in form.marks
        )
    elif form is not None and form.marks:
        place = f"Marks ({form.scale.value}): " + ", ".join(
            f"{group.value} {mark:g}" for group, mark in form.marks
        )
    return [
        _section(
            "Who", born, f"Level: {level.value}{_usa(file, day, settings)}.",
            f"Catches with the {file.catching_hand.value} hand.",
            f"Teams: {', '.join(file.teams)}." if file.teams else "",
            f"Height {height.metres:.2f} m, {height.words}." if height else "Height not noted.",
        ),
        _section("Care", _leave_out(file, day), grown.caution if grown else "",
                 consent_words(file, day, settings)),
        _section("Last form", f"{form.day}, by {form.rater}." if form else "", place,
                 *_form_words(form), _moved(file, day)),
        _section("Aims", *(_aim(one) for one in file.aims)),
        _section("Focus", *_cues(file)),
        _section("Timed tests", *_times(file, day)),
    ]  # fmt: skip


def _for_goaltender(file: GoaltenderFile, day: date, settings: Settings) -> list[Section]:
    form = _last(file, day)
    return [
        _section("What you do well", form.well if form else "", *_own_strengths(form)),
        _section("What comes next", form.next_step if form else "",
                 f"One word for it: {form.cue}." if form and form.cue else ""),
        _section("Your aims", *(_aim(one) for one in file.aims)),
        _section("Your words", *_cues(file)),
        _section("When something gets in the way", *file.focus.parking),
        _section("Your times", *_times(file, day)),
        _section("Practice", _leave_out(file, day)),
    ]  # fmt: skip


def _for_parent(file: GoaltenderFile, day: date, settings: Settings) -> list[Section]:
    form = _last(file, day)
    grown = growth(file, day, settings)
    return [
        _section("Going well", form.well if form else ""),
        _section("Working on next", form.next_step if form else ""),
        _section("How you can help",
                 f"Ask about her word of the week: {form.cue}." if form and form.cue else "",
                 "Ask what she enjoyed before you ask how it went."),
        _section("Care", _leave_out(file, day), grown.caution if grown else "",
                 consent_words(file, day, settings)),
    ]  # fmt: skip


def _for_head_coach(file: GoaltenderFile, day: date, settings: Settings) -> list[Section]:
    sections = [
        _section("In practice", f"Level: {level_on(file, day, settings).value}.",
                 f"Catches with the {file.catching_hand.value} hand.", _leave_out(file, day)),
    ]  # fmt: skip
    if has_consent(file, ConsentItem.REPORTS, day, settings):
        form = _last(file, day)
        sections.append(_section("In games", *_form_words(form)))
        sections.append(_section("Word for the bench", form.cue if form else ""))
    return sections


def _usa(file: GoaltenderFile, day: date, settings: Settings) -> str:
    name = CLASS_IN_THE_USA.get(level_on(file, day, settings), "")
    return f" ({name} in the United States)" if name else ""


def _leave_out(file: GoaltenderFile, day: date) -> str:
    out = sorted(one.value for one in left_out_on(file, day))
    if not out:
        return ""
    ends = [one.ends for one in file.restrictions if one.holds_on(day)]
    until = "until lifted" if None in ends else f"until {max(one for one in ends if one)}"
    return f"Leave out {until}: {', '.join(out)}."


def _form_words(form: RatingForm | None) -> tuple[str, ...]:
    return words_for(form) if form is not None else ()


def _own_strengths(form: RatingForm | None) -> tuple[str, ...]:
    if form is None:
        return ()
    best = [one.group.value for one in standings(form)[:2] if one.above > 0.0]
    return (f"Your strongest: {', '.join(best)}.",) if best else ()


def _moved(file: GoaltenderFile, day: date) -> str:
    """Return the largest gain since the last form on the same scale, in words."""
    known = sorted((one for one in file.forms if one.day <= day), key=lambda one: one.day)
    if len(known) < 2 or known[-1].scale is not known[-2].scale:
        return ""
    moved = [one for one in change(known[-2], known[-1]) if one.above > 0.0]
    if not moved:
        return ""
    return f"Gained most since {known[-2].day}, against her own mean: {moved[0].group.value}."


def _aim(aim: Aim) -> str:
    until = f" by {aim.until}" if aim.until else ""
    return f"{aim.words}: {aim.done} of {aim.target}{until}."


def _cues(file: GoaltenderFile) -> tuple[str, ...]:
    return tuple(f"{one.zone.value.capitalize()}: {one.cue}." for one in file.focus.zones)


def _times(file: GoaltenderFile, day: date) -> tuple[str, ...]:
    """Return the best time of each test on its last day, with her own earlier best."""
    history: dict[str, list[tuple[date, float]]] = {}
    for one in sorted(file.timed_days, key=lambda each: each.day):
        if one.day <= day:
            for test in one.tests:
                history.setdefault(test.kind.value, []).append((one.day, min(test.times)))
    lines = []
    for name, times in history.items():
        last_day, last = times[-1]
        before = [time for when, time in times if when < last_day]
        earlier = f" (before: {min(before):.2f} s)" if before else ""
        lines.append(f"{name.capitalize()}: {last:.2f} s on {last_day}{earlier}.")
    return tuple(lines)
