"""Tonight's practice as a printed sheet: one side, clock times, a goaltender line everywhere."""

from __future__ import annotations

import math
from collections.abc import Mapping
from datetime import date, time
from typing import Any

from tendline.draw.drill_picture import drill_svg, drill_window
from tendline.draw.drill_scene import Scene, scene_of
from tendline.draw.legend import ROW_PX, draw_legend, entries, rows_of
from tendline.draw.pdf import Typeset, first_that_fits, look, sentence, sentences, typeset
from tendline.draw.practice_fits import (
    BACKS,
    FITS,
    LARGE_PRINT_FITS,
    LARGE_PRINT_PAGES,
    SHEET_WIDTH_MM,
    Back,
    Fit,
)
from tendline.draw.svg import Picture
from tendline.draw.tokens import PRINT, SHEET_LARGE_PT
from tendline.drill.types import Drill
from tendline.ice import Rink
from tendline.ice import rink as make_rink
from tendline.practice.glossary import explain
from tendline.practice.types import (
    Segment,
    SegmentKind,
    SharedLine,
    Sheet,
    Station,
    joined_names,
)

PX_PER_MM = 96.0 / 25.4
WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September",
    "October", "November", "December",
)  # fmt: skip
SMALL_MM = 30.0
"""Diagrams smaller than this are worth the back of the sheet [mm]."""
FOOT = "tendline advises, the coach decides. Stop a drill when form breaks."


def day_words(day: date) -> str:
    """Return a date in words, the same everywhere: ``Tuesday 25 November 2025``."""
    return f"{WEEKDAYS[day.weekday()]} {day.day} {MONTHS[day.month - 1]} {day.year}"


def clock_words(at: time) -> str:
    """Return a time of day as ``18:07``."""
    return f"{at.hour:02d}:{at.minute:02d}"


def render_practice_sheet(
    sheet: Sheet,
    *,
    paper: str = "A4",
    drills: Mapping[str, Drill] | None = None,
    rink: Rink | None = None,
    large_print: bool = False,
    diagrams_on_back: bool = False,
) -> Typeset:
    """Return the typeset sheet, its pages and warnings; see :func:`practice_sheet_pdf`."""
    allowed = LARGE_PRINT_PAGES if large_print else 1
    fits = LARGE_PRINT_FITS if large_print else FITS
    ground, known = rink or make_rink(), drills or {}

    def data_of(index: int) -> dict[str, Any]:
        return _data(sheet, fits[index], paper, known, ground, large_print)

    index, made = first_that_fits(
        len(fits), lambda i: typeset("practice_sheet", data_of(i), day=sheet.day), allowed=allowed
    )
    if not diagrams_on_back or large_print or fits[index].picture >= SMALL_MM:
        return made
    front = data_of(index)
    if made.pages > 1:
        moved = {name: front[name] for name in ("loads", "broken", "glossary")}
        front = {**front, **{name: [] for name in moved}, "moved": moved}
        made = typeset("practice_sheet", front, day=sheet.day)

    def with_back(at: int) -> Typeset:
        back = _back(sheet, paper, known, ground, BACKS[at])
        return typeset("practice_sheet", {**front, "back": back}, day=sheet.day)

    _, made = first_that_fits(len(BACKS), with_back, allowed=made.pages + 1)
    return made


def practice_sheet_pdf(
    sheet: Sheet,
    *,
    paper: str = "A4",
    drills: Mapping[str, Drill] | None = None,
    rink: Rink | None = None,
    large_print: bool = False,
    diagrams_on_back: bool = False,
) -> bytes:
    """Return tonight's sheet as a PDF, on one side of ``paper`` ("A4" or "Letter").

    ``drills`` by id adds diagrams, with one legend for all of them. The more there is to say, the
    smaller the diagrams, down to none; the words stay at 10.5 points. ``diagrams_on_back`` then
    puts them, large, on the back. ``large_print`` sets 16 points and takes the pages that it needs.
    Raises ``NotFoundError`` for an unknown paper.
    """
    return render_practice_sheet(
        sheet, paper=paper, drills=drills, rink=rink, large_print=large_print,
        diagrams_on_back=diagrams_on_back,
    ).pdf  # fmt: skip


def _data(
    sheet: Sheet, fit: Fit, paper: str, drills: Mapping[str, Drill], rink: Rink, large: bool
) -> dict[str, Any]:
    shown = [drills[one.drill_id] for one in sheet.segments if one.drill_id in drills]
    with_pictures = fit.picture > 0.0
    place = f", {sheet.place}" if sheet.place else ""
    glossary = shown_words(sheet, fit) if fit.dense else sheet.glossary
    segments = [_segment(one, fit, drills, rink, sheet.place) for one in sheet.segments]
    return {
        "look": look(paper, size=fit.size, large_print=large),
        "fit": {
            "picture": fit.picture, "gap": fit.gap, "item": fit.item, "strip": fit.strip,
            "tight": fit.tight, "dense": fit.dense, "packed": fit.packed,
            "margin": fit.margin, "leading": fit.leading,
            "clock": 1.62 * (SHEET_LARGE_PT if large else fit.size),
        },
        "title": sheet.title or "Practice",
        "clock": f"{clock_words(sheet.start)}–{clock_words(sheet.end)}",
        "when": f"{day_words(sheet.day)}{place}",
        "who": " · ".join(part for part in (sheet.team, _names(sheet.goaltenders)) if part),
        "objectives": sentences(sheet.objectives),
        "segments": segments,
        "strip": _strip(segments, SHEET_WIDTH_MM.get(paper, 186.0)) if fit.strip else [],
        "legend": _legend([scene_of(one, rink) for one in shown], paper)
        if shown and with_pictures
        else None,
        "loads": [{"name": one.name, "words": sentence(one.words or one.load.words)}
                  for one in sheet.loads],
        "broken": sentences(f"{one.name}: {one.text}" for one in sheet.broken),
        "dropped": sentences(sheet.dropped),
        "equipment": sentence(", ".join(sheet.equipment)),
        "cautions": sentences(sheet.cautions),
        "glossary": [list(pair) for pair in glossary],
        "moved": None,
        "notes": sentences(sheet.notes),
        "foot": "" if large else FOOT,
        "back": None,
    }  # fmt: skip


def shown_words(sheet: Sheet, fit: Fit) -> tuple[tuple[str, str], ...]:
    """Return the words to explain on a sheet that leaves texts out: those that stand on it."""
    texts = [
        text
        for one in sheet.segments
        for text in (
            one.title, one.objective_goaltender, *one.key_points, *one.cautions,
            *(line.text for line in one.lines), *(one.set_up if fit.set_up else ()),
            *(one.steps if fit.steps else ()),
            one.objective_shooters if fit.shooters else "",
        )
    ]  # fmt: skip
    here = {word for word, _ in explain(texts)}
    return tuple(pair for pair in sheet.glossary if pair[0] in here)


def _back(
    sheet: Sheet, paper: str, drills: Mapping[str, Drill], rink: Rink, layout: Back
) -> dict[str, Any] | None:
    """Return the diagrams of a sheet for its back, each once, with their branches and a legend."""
    first = {one.drill_id: one for one in reversed(sheet.segments) if one.drill_id in drills}
    shown = [one for one in sheet.segments if first.get(one.drill_id) is one]
    if not shown:
        return None
    columns = min(layout.columns, len(shown))
    room = SHEET_WIDTH_MM.get(paper, 186.0)
    wide = (room - 5.0 * (columns - 1)) / columns
    made = []
    for one in shown:
        drill = drills[one.drill_id]
        picture, branches = _picture(drill, rink, wide, layout.height)
        made.append({"begin": clock_words(one.begin), "title": one.title, "picture": picture,
                     "branches": branches})  # fmt: skip
    legend = _legend([scene_of(drills[one.drill_id], rink) for one in shown], paper)
    return {"columns": columns, "segments": made, "legend": legend}


def _picture(
    drill: Drill, rink: Rink, wide: float, high: float
) -> tuple[dict[str, Any], list[list[str]]]:
    """Return a diagram no larger than ``wide`` by ``high`` [mm], and the words of its branches."""
    scene = scene_of(drill, rink)
    window = drill_window(drill, scene, rink)
    wide = min(wide, high * window.across / window.along)
    svg = drill_svg(
        drill, rink=rink, width=wide * PX_PER_MM, scale=min(0.9, max(0.58, wide / 66.0)),
        window=window, legend=False, palette=PRINT,
    )  # fmt: skip
    picture = {"svg": svg, "alt": f"Diagram of {drill.title}", "width": wide}
    return picture, [[line.letter, sentence(line.words)] for line in scene.branches]


def _names(names: tuple[str, ...]) -> str:
    if not names:
        return ""
    return f"Goaltender{'s' if len(names) > 1 else ''} {joined_names(list(names))}"


def _segment(
    one: Segment, fit: Fit, drills: Mapping[str, Drill], rink: Rink, sheet_place: str
) -> dict[str, Any]:
    drill = drills.get(one.drill_id)
    picture = None
    branches: list[list[str]] = []
    if drill is not None and fit.picture > 0.0:
        if fit.strip:
            wide, high = SHEET_WIDTH_MM["A4"] / 2.0, fit.picture
        else:
            wide, high = fit.picture, math.inf
        picture, branches = _picture(drill, rink, wide, high)
    stations = one.stations if fit.stations else ()
    common = _common(stations) if fit.dense else ""
    beside = one.lines_beside if stations else one.shared_lines
    return {
        "is_pause": one.kind is SegmentKind.PAUSE,
        "begin": clock_words(one.begin),
        "end": clock_words(one.end),
        "minutes": str(one.minutes),
        "title": one.title,
        "place": "" if one.place == sheet_place else one.place,
        "stations": [_station(station, bare=bool(common)) for station in stations],
        "common": sentence(common),
        "lines": [] if fit.dense and _is_plain_pause(one) else _lines(beside),
        "objective": sentence(one.objective_shooters) if fit.shooters else "",
        "goaltender": sentence(one.objective_goaltender),
        "set_up": sentences(one.set_up) if fit.set_up else [],
        "steps": sentences(one.steps) if fit.steps else [],
        "branches": branches if fit.set_up else [],
        "key_points": sentences(one.key_points[:3]),
        "cautions": sentences(one.cautions),
        "picture": picture,
    }


STRIP_GAP_MM = 4.0


def _strip(segments: list[dict[str, Any]], room: float) -> list[list[dict[str, Any]]]:
    """Return the diagrams of a sheet in rows that fit its width, each with its clock time."""
    rows: list[list[dict[str, Any]]] = []
    used = 0.0
    for one in segments:
        if one["picture"] is None:
            continue
        wide = one["picture"]["width"] + STRIP_GAP_MM
        if not rows or used + wide - STRIP_GAP_MM > room:
            rows.append([])
            used = 0.0
        rows[-1].append({"begin": one["begin"], "picture": one["picture"]})
        used += wide
    return rows


def _is_plain_pause(one: Segment) -> bool:
    """Return whether everybody does the same as the team, which goes without saying."""
    return one.kind is SegmentKind.PAUSE and all(line.text == line.station for line in one.lines)


def _lines(lines: tuple[SharedLine, ...]) -> list[dict[str, str]]:
    return [
        {"names": line.names, "station": line.station, "text": sentence(line.text)}
        for line in lines
    ]


def _station(one: Station, *, bare: bool) -> dict[str, Any]:
    lines = [{**line, "text": "" if bare else line["text"]} for line in _lines(one.lines)]
    return {"name": one.name, "place": one.place, "run_by": one.run_by, "lines": lines}


def _common(stations: tuple[Station, ...]) -> str:
    """Return what all stations do alike, '' if they differ."""
    texts = {line.text for one in stations for line in one.lines}
    return texts.pop() if len(texts) == 1 else ""


def _legend(scenes: list[Scene], paper: str) -> dict[str, str] | None:
    """Return one legend for all diagrams of a sheet."""
    union = Scene()
    for scene in scenes:
        union.people += scene.people
        union.things += scene.things
        union.strokes += scene.strokes
        union.marks += scene.marks
        union.branches += scene.branches
    found = entries(union)
    if not found:
        return None
    scale = 0.86
    width = SHEET_WIDTH_MM.get(paper, 186.0) * PX_PER_MM
    rows = rows_of(found, width / scale)
    picture = Picture(
        width=width, height=scale * ROW_PX * len(rows), title="What the signs mean", palette=PRINT
    )
    draw_legend(picture, scale, rows, (0.0, 0.0))
    words = ", ".join(one.words for one in found)
    return {"svg": picture.svg(), "alt": f"What the signs mean: {words}"}
