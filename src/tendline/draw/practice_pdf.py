"""Tonight's practice as a printed sheet: one side, clock times, a goaltender line everywhere."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date, time
from typing import Any

from tendline.draw.drill_picture import drill_svg, drill_window
from tendline.draw.drill_scene import Scene, scene_of
from tendline.draw.legend import ROW_PX, draw_legend, entries, rows_of
from tendline.draw.pdf import Typeset, look, sentence, sentences, typeset
from tendline.draw.svg import Picture
from tendline.draw.tokens import PRINT, SHEET_BODY_PT, SHEET_LARGE_PT
from tendline.drill.types import Drill
from tendline.ice import Rink
from tendline.ice import rink as make_rink
from tendline.practice import Segment, SegmentKind, Sheet
from tendline.practice.types import joined_names

PX_PER_MM = 96.0 / 25.4
WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
MONTHS = (
    "January", "February", "March", "April", "May", "June", "July", "August", "September",
    "October", "November", "December",
)  # fmt: skip
FOOT = "tendline advises, the coach decides. Stop a drill when form breaks."


@dataclass(frozen=True, slots=True, kw_only=True)
class Fit:
    """How much a sheet shows.

    Width of diagrams beside their drill, or their height in a ``strip`` below [mm], size of the
    words [pt], which texts, space between rows and between items [em]. ``tight`` sets the
    goaltenders' lines side by side and lets short items share a paragraph.
    """

    picture: float
    size: float = SHEET_BODY_PT
    strip: bool = False
    set_up: bool = True
    steps: bool = True
    gap: float = 0.75
    item: float = 0.62
    tight: bool = False


FITS = (
    Fit(picture=82.0, size=13.0, gap=1.1),
    Fit(picture=78.0, size=12.0, gap=1.0),
    Fit(picture=74.0, size=11.25, gap=0.9),
    Fit(picture=66.0, gap=0.85),
    Fit(picture=56.0),
    Fit(picture=48.0, steps=False),
    Fit(picture=48.0, strip=True, steps=False),
    Fit(picture=46.0, strip=True, set_up=False, steps=False, item=0.56),
    Fit(picture=46.0, strip=True, set_up=False, steps=False, gap=0.65, item=0.54, tight=True),
    Fit(picture=38.0, strip=True, set_up=False, steps=False, gap=0.6, item=0.52, tight=True),
    Fit(picture=31.0, strip=True, set_up=False, steps=False, gap=0.55, item=0.48, tight=True),
    Fit(picture=25.0, strip=True, set_up=False, steps=False, gap=0.5, item=0.46, tight=True),
    Fit(picture=0.0, set_up=False, steps=False, gap=0.5, item=0.46, tight=True),
)
"""From roomy to tight: the first that fits one side is printed."""
LARGE_PRINT_FITS = (Fit(picture=80.0, strip=True, gap=1.0), Fit(picture=58.0, strip=True))
LARGE_PRINT_PAGES = 4
SHEET_WIDTH_MM = {"A4": 186.0, "Letter": 191.9}


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
) -> Typeset:
    """Return the typeset sheet, its pages and warnings; see :func:`practice_sheet_pdf`."""
    made: Typeset | None = None
    allowed = LARGE_PRINT_PAGES if large_print else 1
    for fit in LARGE_PRINT_FITS if large_print else FITS:
        data = _data(sheet, fit, paper, drills or {}, rink or make_rink(), large_print)
        made = typeset("practice_sheet", data, day=sheet.day)
        if made.pages <= allowed:
            return made
    assert made is not None
    return made


def practice_sheet_pdf(
    sheet: Sheet,
    *,
    paper: str = "A4",
    drills: Mapping[str, Drill] | None = None,
    rink: Rink | None = None,
    large_print: bool = False,
) -> bytes:
    """Return tonight's sheet as a PDF, on one side of ``paper`` ("A4" or "Letter").

    ``drills`` by id adds diagrams, with one legend for all of them. The more there is to say, the
    smaller the diagrams; the words stay at 10.5 points. ``large_print`` sets 16 points and takes
    the pages that it needs. Raises ``NotFoundError`` for an unknown paper.
    """
    return render_practice_sheet(
        sheet, paper=paper, drills=drills, rink=rink, large_print=large_print
    ).pdf


def _data(
    sheet: Sheet, fit: Fit, paper: str, drills: Mapping[str, Drill], rink: Rink, large: bool
) -> dict[str, Any]:
    shown = [drills[one.drill_id] for one in sheet.segments if one.drill_id in drills]
    with_pictures = fit.picture > 0.0
    place = f", {sheet.place}" if sheet.place else ""
    segments = [_segment(one, fit, drills, rink) for one in sheet.segments]
    return {
        "look": look(paper, size=fit.size, large_print=large),
        "fit": {
            "picture": fit.picture, "gap": fit.gap, "item": fit.item, "strip": fit.strip,
            "tight": fit.tight,
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
        "glossary": [list(pair) for pair in sheet.glossary],
        "notes": sentences(sheet.notes),
        "foot": "" if large else FOOT,
    }  # fmt: skip


def _names(names: tuple[str, ...]) -> str:
    if not names:
        return ""
    return f"Goaltender{'s' if len(names) > 1 else ''} {joined_names(list(names))}"


def _segment(one: Segment, fit: Fit, drills: Mapping[str, Drill], rink: Rink) -> dict[str, Any]:
    drill = drills.get(one.drill_id)
    picture = None
    branches: list[list[str]] = []
    if drill is not None and fit.picture > 0.0:
        scene = scene_of(drill, rink)
        window = drill_window(drill, scene, rink)
        wide = fit.picture
        if fit.strip:
            wide = min(fit.picture * window.across / window.along, SHEET_WIDTH_MM["A4"] / 2.0)
        svg = drill_svg(
            drill, rink=rink, width=wide * PX_PER_MM, scale=min(0.9, max(0.58, wide / 66.0)),
            window=window, legend=False, palette=PRINT,
        )  # fmt: skip
        picture = {"svg": svg, "alt": f"Diagram of {drill.title}", "width": wide}
        branches = [[line.letter, sentence(line.words)] for line in scene.branches]
    return {
        "is_pause": one.kind is SegmentKind.PAUSE,
        "begin": clock_words(one.begin),
        "end": clock_words(one.end),
        "minutes": str(one.minutes),
        "title": one.title,
        "place": one.place,
        "lines": _lines(one),
        "objective": sentence(one.objective_shooters),
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


def _lines(one: Segment) -> list[dict[str, str]]:
    return [
        {"names": line.names, "station": line.station, "text": sentence(line.text)}
        for line in one.shared_lines
    ]


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
