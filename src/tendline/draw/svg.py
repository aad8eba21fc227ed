"""A small writer of SVG: presentation attributes and classes only, every text escaped.

A page's content policy forbids inline styles, so a picture never holds a ``style`` attribute, a
``<style>`` element, a script or an id. Each painted element names its ink twice: as a colour, for
a picture that stands alone, and as a class ``tl-fill-INK`` or ``tl-line-INK``, which a page's
style sheet may turn.
"""

from __future__ import annotations

import html
import re
from collections.abc import Iterable, Iterator, Sequence
from contextlib import contextmanager

from tendline.draw.tokens import FONT_STACK, PAPER, Paint, Palette

Point = tuple[float, float]

_FORBIDDEN = re.compile("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]")
_ESCAPES = str.maketrans({"&": "&amp;", "<": "&lt;", ">": "&gt;", '"': "&quot;", "'": "&#39;"})


def escape(text: str) -> str:
    """Return ``text`` safe inside an element or an attribute; control characters are left out."""
    return _FORBIDDEN.sub("", text).translate(_ESCAPES)


def spoken_name(svg: str) -> str:
    """Return the name of a picture that is read aloud, as plain text; empty if it has none."""
    found = re.search(r'aria-label="([^"]*)"', svg)
    return html.unescape(found[1]) if found else ""


def number(value: float) -> str:
    """Return a coordinate with three decimals (one beyond 100) and no useless zeros."""
    text = f"{value:.1f}" if abs(value) >= 100.0 else f"{value:.3f}"
    text = text.rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def path_data(points: Sequence[Point], *, closed: bool = False) -> str:
    """Return the path through ``points``, straight from one to the next."""
    if not points:
        return ""
    head, *rest = (f"{number(x)} {number(y)}" for x, y in points)
    return f"M{head}{''.join(f'L{one}' for one in rest)}{'Z' if closed else ''}"


def rings_data(rings: Iterable[Sequence[Point]]) -> str:
    """Return the path of several closed rings; with ``fill-rule`` evenodd inner rings are holes."""
    return "".join(path_data(ring, closed=True) for ring in rings)


class Picture:
    """An SVG being written, from back to front.

    ``view`` is the part of the drawing plane shown (left, top, width, height); ``width`` and
    ``height`` are the size it is made for, in CSS pixels. ``title`` is the short name read aloud
    first and ``description`` the text equivalent.
    """

    def __init__(
        self,
        *,
        width: float,
        height: float,
        view: tuple[float, float, float, float] | None = None,
        title: str,
        description: str = "",
        kind: str = "",
        palette: Palette = PAPER,
        interactive: bool = False,
        data: dict[str, str | float] | None = None,
    ) -> None:
        self.width = width
        self.height = height
        self.view = view or (0.0, 0.0, width, height)
        self.title = title
        self.description = description
        self.kind = kind
        self.palette = palette
        self.interactive = interactive
        self.data = data or {}
        self._parts: list[str] = []

    @property
    def unit(self) -> float:
        """Return the length of one CSS pixel in the picture's own unit."""
        return self.view[2] / self.width

    def px(self, pixels: float) -> float:
        """Return a length in the picture's own unit from CSS pixels at nominal size."""
        return pixels * self.unit

    def _attributes(
        self,
        classes: str,
        fill: Paint | None,
        stroke: Paint | None,
        others: dict[str, str | float | None],
    ) -> str:
        names = classes.split()
        if fill is not None:
            names.append(f"tl-fill-{fill.value}")
        if stroke is not None:
            names.append(f"tl-line-{stroke.value}")
        out = [f' class="{escape(" ".join(names))}"'] if names else []
        if fill is not None:
            out.append(f' fill="{self.palette[fill]}"')
        if stroke is not None:
            out.append(f' stroke="{self.palette[stroke]}"')
        for key, value in others.items():
            if value is None:
                continue
            text = number(value) if isinstance(value, int | float) else escape(value)
            out.append(f' {key.replace("_", "-")}="{text}"')
        return "".join(out)

    def raw(self, markup: str) -> None:
        """Add markup that this module wrote before."""
        self._parts.append(markup)

    def add(
        self,
        tag: str,
        *,
        classes: str = "",
        fill: Paint | None = None,
        stroke: Paint | None = None,
        hollow: bool = False,
        content: str | None = None,
        **others: str | float | None,
    ) -> None:
        """Add one element; ``content`` is its text, escaped here; ``hollow`` paints no inside."""
        attributes = self._attributes(classes, fill, stroke, others)
        if hollow:
            attributes += ' fill="none"'
        if content is None:
            self._parts.append(f"<{tag}{attributes}/>")
        else:
            self._parts.append(f"<{tag}{attributes}>{escape(content)}</{tag}>")

    @contextmanager
    def group(
        self,
        *,
        classes: str = "",
        fill: Paint | None = None,
        stroke: Paint | None = None,
        **others: str | float | None,
    ) -> Iterator[None]:
        """Put everything added inside the ``with`` block into one group."""
        self._parts.append(f"<g{self._attributes(classes, fill, stroke, others)}>")
        yield
        self._parts.append("</g>")

    def line(
        self, start: Point, end: Point, *, paint: Paint, width: float, classes: str = "",
        dash: str | None = None, cap: str | None = None,
    ) -> None:  # fmt: skip
        """Add a straight line; ``width`` in the picture's unit."""
        self.add(
            "line", classes=classes, stroke=paint, stroke_width=width, x1=start[0], y1=start[1],
            x2=end[0], y2=end[1], stroke_dasharray=dash, stroke_linecap=cap,
        )  # fmt: skip

    def path(
        self, data: str, *, fill: Paint | None = None, stroke: Paint | None = None,
        width: float | None = None, classes: str = "", dash: str | None = None,
        opacity: float | None = None, cap: str = "round",
    ) -> None:  # fmt: skip
        """Add a path; without ``fill`` it is not filled."""
        self.add(
            "path", classes=classes, fill=fill, stroke=stroke, hollow=fill is None, d=data,
            fill_rule="evenodd" if fill is not None else None,
            stroke_width=width if stroke is not None else None, stroke_dasharray=dash,
            stroke_linejoin="round" if stroke is not None else None,
            stroke_linecap=cap if stroke is not None else None, opacity=opacity,
        )  # fmt: skip

    def circle(
        self, centre: Point, radius: float, *, fill: Paint | None = None,
        stroke: Paint | None = None, width: float | None = None, classes: str = "",
        dash: str | None = None, transform: str | None = None,
    ) -> None:  # fmt: skip
        """Add a circle."""
        self.add(
            "circle", classes=classes, fill=fill, stroke=stroke, hollow=fill is None,
            cx=centre[0], cy=centre[1], r=radius,
            stroke_width=width if stroke is not None else None, stroke_dasharray=dash,
            transform=transform,
        )  # fmt: skip

    def text(
        self, at: Point, words: str, *, size: float, paint: Paint = Paint.INK,
        anchor: str = "start", bold: bool = False, classes: str = "", halo: bool = False,
    ) -> None:  # fmt: skip
        """Add a line of text whose baseline starts, is centred or ends at ``at``.

        ``halo`` lays the paper's colour around the letters so that they stay readable on lines.
        """
        self.add(
            "text", classes=classes, fill=paint, stroke=Paint.ICE if halo else None,
            x=at[0], y=at[1], font_size=size, text_anchor=anchor,
            font_weight="700" if bold else None,
            stroke_width=size * 0.28 if halo else None, stroke_linejoin="round" if halo else None,
            paint_order="stroke" if halo else None, content=words,
        )  # fmt: skip

    def svg(self) -> str:
        """Return the finished SVG text."""
        view = " ".join(number(one) for one in self.view)
        role = "group" if self.interactive else "img"
        kind = f" {self.kind}" if self.kind else ""
        extra = "".join(
            f' data-{key}="{number(v) if isinstance(v, int | float) else escape(v)}"'
            for key, v in self.data.items()
        )
        label = escape(self.title)
        desc = f"<desc>{escape(self.description)}</desc>" if self.description else ""
        return (
            f'<svg xmlns="http://www.w3.org/2000/svg" class="tl-picture{kind}" role="{role}" '
            f'aria-label="{label}" width="{number(self.width)}" height="{number(self.height)}" '
            f'viewBox="{view}" font-family="{FONT_STACK}"{extra}>'
            f"{desc}{''.join(self._parts)}</svg>"
        )
