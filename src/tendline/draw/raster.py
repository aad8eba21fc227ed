"""Pictures as pixels, for messages and programs that take no SVG."""

from __future__ import annotations

from tendline.base import InputError
from tendline.draw.fontfiles import truetype_paths
from tendline.draw.tokens import FONT_FAMILY, PAPER, Paint

LARGEST_PIXELS = 8000


def svg_to_png(svg: str, *, width: int | None = None, background: str | None = "") -> bytes:
    """Return an SVG of this package as PNG bytes, ``width`` pixels wide.

    ``background`` is a colour ``#RRGGBB``, None for a transparent ground; left out, it is the
    paper's. Raises ``InputError`` for a width outside 16 to 8000 pixels or a text that is no SVG.
    """
    import resvg_py

    if width is not None and not 16 <= width <= LARGEST_PIXELS:
        raise InputError(
            "the picture cannot be so wide", came=f"{width} pixels",
            allowed=f"16 to {LARGEST_PIXELS} pixels",
        )  # fmt: skip
    ground = PAPER[Paint.PAPER] if background == "" else background
    try:
        made = resvg_py.svg_to_bytes(
            svg_string=svg, width=width, background=ground, skip_system_fonts=True,
            font_files=list(truetype_paths()), font_family=FONT_FAMILY,
            sans_serif_family=FONT_FAMILY,
        )  # fmt: skip
    except ValueError as error:
        raise InputError("this text is no SVG picture", came=str(error)[:120]) from error
    return bytes(made)
