"""Plain SVG plots for the report: ink on paper, shapes before colour, every axis labelled."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, field
from html import escape

INK, SOFT, LINE, ADVICE, RISK = "#1d2a33", "#5b6b75", "#c9d2d6", "#0b6e6e", "#b3402a"
WIDTH, HEIGHT, LEFT, BOTTOM, TOP, RIGHT = 560, 320, 62, 48, 34, 14


@dataclass
class Plot:
    """A picture with two linear axes; draw on it in data coordinates, then ask for ``svg``."""

    title: str
    x_label: str
    y_label: str
    x: tuple[float, float]
    y: tuple[float, float]
    x_ticks: Sequence[float]
    y_ticks: Sequence[float]
    marks: list[str] = field(default_factory=list)
    legend: list[tuple[str, str]] = field(default_factory=list)

    def at(self, x: float, y: float) -> tuple[float, float]:
        """Return the place on the picture of a data point."""
        across = (x - self.x[0]) / (self.x[1] - self.x[0])
        up = (y - self.y[0]) / (self.y[1] - self.y[0])
        return (
            LEFT + across * (WIDTH - LEFT - RIGHT),
            HEIGHT - BOTTOM - up * (HEIGHT - BOTTOM - TOP),
        )

    def interval(self, x: float, low: float, high: float) -> None:
        """Draw an interval of the data as an upright bar."""
        (px, a), (_, b) = self.at(x, low), self.at(x, min(high, self.y[1]))
        self.marks.append(
            f'<path d="M{px:.1f} {a:.1f}V{b:.1f}M{px - 4:.1f} {a:.1f}h8M{px - 4:.1f} {b:.1f}h8" '
            f'stroke="{SOFT}" stroke-width="1.4" fill="none"/>'
        )

    def point(self, x: float, y: float, *, filled: bool, colour: str = INK) -> None:
        """Draw a data point: filled if it was fitted, open if it is a check."""
        px, py = self.at(x, y)
        inside = colour if filled else "#fff"
        self.marks.append(
            f'<circle cx="{px:.1f}" cy="{py:.1f}" r="4" fill="{inside}" stroke="{colour}" '
            f'stroke-width="1.6"/>'
        )

    def line(
        self, xs: Sequence[float], ys: Sequence[float], *, colour: str, dash: str = ""
    ) -> None:
        """Draw a line through points."""
        points = " ".join(
            "{:.1f},{:.1f}".format(*self.at(x, y)) for x, y in zip(xs, ys, strict=True)
        )
        dashed = f' stroke-dasharray="{dash}"' if dash else ""
        self.marks.append(
            f'<polyline points="{points}" fill="none" stroke="{colour}" stroke-width="2"{dashed}/>'
        )

    def dot(self, x: float, y: float, *, colour: str) -> None:
        """Draw a small mark of a scatter."""
        px, py = self.at(x, y)
        self.marks.append(f'<circle cx="{px:.1f}" cy="{py:.1f}" r="1.8" fill="{colour}"/>')

    def svg(self) -> str:
        """Return the picture."""
        made = [
            f'<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 {WIDTH} {HEIGHT}" role="img" '
            f'aria-label="{escape(self.title)}" font-family="sans-serif" font-size="12" '
            f'fill="{INK}"><title>{escape(self.title)}</title>',
            f'<text x="{LEFT}" y="18" font-size="14" font-weight="600">{escape(self.title)}</text>',
        ]
        for tick in self.x_ticks:
            px, py = self.at(tick, self.y[0])
            made.append(
                f'<path d="M{px:.1f} {py:.1f}v5" stroke="{SOFT}"/>'
                f'<text x="{px:.1f}" y="{py + 18:.1f}" text-anchor="middle">{tick:g}</text>'
            )
        for tick in self.y_ticks:
            px, py = self.at(self.x[0], tick)
            made.append(
                f'<path d="M{px:.1f} {py:.1f}H{WIDTH - RIGHT}" stroke="{LINE}"/>'
                f'<text x="{px - 6:.1f}" y="{py + 4:.1f}" text-anchor="end">{tick:g}</text>'
            )
        middle = (LEFT + WIDTH - RIGHT) / 2
        made.append(
            f'<text x="{middle}" y="{HEIGHT - 10}" text-anchor="middle">'
            f"{escape(self.x_label)}</text>"
        )
        made.append(
            f'<text transform="translate(14 {HEIGHT / 2}) rotate(-90)" text-anchor="middle">'
            f"{escape(self.y_label)}</text>"
        )
        made.extend(self.marks)
        for n, (words, sample) in enumerate(self.legend):
            made.append(
                f'<g transform="translate({WIDTH - 205} {TOP + 8 + 17 * n})">{sample}'
                f'<text x="28" y="4">{escape(words)}</text></g>'
            )
        made.append("</svg>")
        return "\n".join(made)


def sample_line(colour: str, dash: str = "") -> str:
    """Return a short line for the legend."""
    dashed = f' stroke-dasharray="{dash}"' if dash else ""
    return f'<path d="M0 0h22" stroke="{colour}" stroke-width="2"{dashed}/>'


def sample_point(filled: bool) -> str:
    """Return a data point for the legend."""
    return (
        f'<circle cx="11" cy="0" r="4" fill="{INK if filled else "#fff"}" stroke="{INK}" '
        f'stroke-width="1.6"/>'
    )
