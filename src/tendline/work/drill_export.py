"""Drills as files to print, send and show: cards, pictures, films, one page that plays offline."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from tendline.base import unknown_name
from tendline.draw import (
    FILM_KINDS,
    Moment,
    Painter,
    Way,
    drill_booklet_pdf,
    drill_card_pdf,
    drill_film,
    drill_page,
    drill_player,
    drill_svg,
    moments_of,
    svg_to_png,
)
from tendline.drill import Drill, Run, format_drill, tracks
from tendline.drill.hiding import alike_until_chosen
from tendline.ice import Rink, rink
from tendline.shot import usual_build
from tendline.store import Store
from tendline.work.drill_report import report_of

FILM_RATE = 12.5
"""Pictures a second of a film and of the page that plays offline."""
PICTURE_WIDTH = 1200
KINDS = ("pdf", "svg", "png", *FILM_KINDS, "html", "drill")
MEDIA_TYPES = {
    "pdf": "application/pdf",
    "svg": "image/svg+xml",
    "png": "image/png",
    "gif": "image/gif",
    "mp4": "video/mp4",
    "webm": "video/webm",
    "html": "text/html; charset=utf-8",
    "drill": "text/plain; charset=utf-8",
}
Progress = Callable[[int, int], None]


def export_drill(
    store: Store,
    drill: Drill,
    kind: str,
    *,
    paper: str = "A5",
    branch: str = "",
    progress: Progress | None = None,
) -> bytes:
    """Return a drill as the bytes of a file.

    ``kind`` is one of ``KINDS``: the printed card (pdf), the diagram (svg, png), the run as a film
    (gif, mp4, webm; ``branch`` names which way of it), one page that plays without a network
    (html), or the script itself (drill). Raises ``NotFoundError`` for another kind or branch and
    ``InputError`` where a film needs a package that is not installed.
    """
    sheet = rink(store.club.get().rule_set)
    if kind == "drill":
        return format_drill(drill).encode()
    if kind == "svg":
        return drill_svg(drill, rink=sheet).encode()
    if kind == "png":
        return svg_to_png(drill_svg(drill, rink=sheet), width=PICTURE_WIDTH)
    if kind not in KINDS:
        raise unknown_name("kind of file", kind, KINDS)
    run = report_of(store, drill).run
    if kind == "pdf":
        return drill_card_pdf(drill, run, paper=paper, rink=sheet)
    if kind == "html":
        return _page(drill, run, sheet).encode()
    painter = Painter(drill, usual_build(run.level), rink=sheet)
    moments = _moments(run, branch)
    return drill_film(painter, moments, kind=kind, rate=FILM_RATE, progress=progress)


def export_booklet(
    store: Store, drills: Sequence[Drill], *, paper: str = "A5", progress: Progress | None = None
) -> bytes:
    """Return many drills as one PDF with contents."""
    sheet = rink(store.club.get().rule_set)
    return drill_booklet_pdf(drills, paper=paper, rink=sheet, progress=progress)


def _moments(run: Run, branch: str) -> tuple[Moment, ...]:
    known = [one.key for one in run.branches]
    if branch and branch not in known:
        raise unknown_name("branch", branch, known)
    return moments_of(tracks(run, branch, 1.0 / FILM_RATE))


def ways_of(run: Run) -> tuple[Way, ...]:
    """Return every way through a drill as the player takes it, alike until they part."""
    step = 1.0 / FILM_RATE
    alike = alike_until_chosen([tracks(run, one.key, step) for one in run.branches])
    return tuple(
        Way(words=one.words, moments=moments_of(way))
        for one, way in zip(run.branches, alike, strict=True)
    )


def player_of(drill: Drill, run: Run, sheet: Rink, *, width: float) -> str:
    """Return the moving ice of a drill with its controls, as HTML for a page."""
    ways = ways_of(run)
    return drill_player(
        drill, ways, usual_build(run.level), rate=FILM_RATE, hidden=len(ways) > 1, rink=sheet,
        width=width,
    )  # fmt: skip


def _page(drill: Drill, run: Run, sheet: Rink) -> str:
    ways = ways_of(run)
    build = usual_build(run.level)
    return drill_page(drill, ways, build, rate=FILM_RATE, hidden=len(ways) > 1, rink=sheet)
