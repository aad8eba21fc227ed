"""What the origin pages show."""

from __future__ import annotations

from dataclasses import dataclass

from tendline.base import Settings
from tendline.work.origin import FigureOrigin, OriginLine, groups, origin_line


@dataclass(frozen=True, slots=True)
class OriginGroup:
    """The constants of one part of the program."""

    name: str
    lines: tuple[OriginLine, ...]


@dataclass(frozen=True, slots=True)
class OriginPage:
    """Every constant, and how many are only assumed."""

    groups: tuple[OriginGroup, ...]
    total: int
    assumed: int
    only: str


@dataclass(frozen=True, slots=True)
class FigurePage:
    """One figure: how it is made and from what."""

    origin: FigureOrigin
    back: str


def origin_page(settings: Settings, only: str = "") -> OriginPage:
    """Return all constants, or those of one kind of origin."""
    every = [
        OriginGroup(name, tuple(origin_line(one, settings) for one in constants))
        for name, constants in groups()
    ]
    lines = [line for group in every for line in group.lines]
    assumed = sum(line.kind == "assumed" for line in lines)
    if only:
        every = [
            OriginGroup(group.name, kept)
            for group in every
            if (kept := tuple(line for line in group.lines if line.kind == only))
        ]
    return OriginPage(tuple(every), len(lines), assumed, only)
