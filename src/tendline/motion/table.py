"""The catalogue as a table in words, for the page of moves and for anybody who asks."""

from __future__ import annotations

import math

from tendline.base import Constant, OriginKind
from tendline.motion.catalogue import CATALOGUE, Move
from tendline.motion.constants import LAWS, RANGES
from tendline.motion.kinds import MoveKind

HEADS = (
    "Move", "What", "Drives", "Goes", "Usual to longest", "Stance", "From", "Adult figures",
    "Origin",
)  # fmt: skip


def table_rows() -> tuple[tuple[str, ...], ...]:
    """Return the catalogue, one row of words a move, in the order of :data:`HEADS`."""
    return tuple(_row(one) for one in CATALOGUE)


def markdown_table() -> str:
    """Return the catalogue as a Markdown table."""
    rows = [HEADS, ("---",) * len(HEADS), *table_rows()]
    return "\n".join(f"| {' | '.join(row)} |" for row in rows) + "\n"


def _row(row: Move) -> tuple[str, ...]:
    return (
        row.kind.value,
        row.meaning,
        row.drive_leg.value,
        _directions(row.kind),
        _distances(row),
        _stance(row),
        "any age" if row.age.age is None else f"about {row.age.age:.0f}",
        _figures(row.kind, row.constants),
        _origins(row.constants),
    )


def _stance(row: Move) -> str:
    if row.keeps_stance:
        return "kept"
    if row.ends_down:
        return "down"
    if row.starts_down:
        return "up"
    return "opened" if row.longest is not None else "changed"


def _directions(kind: MoveKind) -> str:
    found = RANGES.get(kind)
    if found is None:
        return "on the spot"
    low, high = (math.degrees(one.value) for one in (found.least_angle, found.greatest_angle))
    if low == 0.0 and high >= 180.0:
        return "any way"
    return f"{low:.0f} to {high:.0f} degrees"


def _distances(row: Move) -> str:
    if row.longest is None:
        return "-"
    return f"{row.usual_from:.2f} to {row.longest:.2f} m"


def _figures(kind: MoveKind, constants: tuple[Constant, ...]) -> str:
    law = LAWS.get(kind)
    if law is None or kind in (MoveKind.POST_ENTRY, MoveKind.POST_EXIT):
        times = [f"{one.value:.2f} s" for one in constants if one.unit == "s"]
        return (
            f"least {times[0]}"
            if kind in (MoveKind.POST_ENTRY, MoveKind.POST_EXIT)
            else (", ".join(times) or f"brakes at {constants[0].value:.1f} {constants[0].unit}")
        )
    unit = law.top_speed.unit
    return (
        f"delay {law.start_delay.value:.2f} s, up {law.acceleration.value:.1f}, top "
        f"{law.top_speed.value:.1f} {unit}, down {law.braking.value:.1f}, settle "
        f"{law.settle.value:.2f} s"
    )


def _origins(constants: tuple[Constant, ...]) -> str:
    """Return the kinds of origin with how many figures each backs, the best first."""
    order = list(OriginKind)
    counts: dict[OriginKind, int] = {}
    for one in constants:
        counts[one.kind] = counts.get(one.kind, 0) + 1
    found = sorted(counts.items(), key=lambda pair: order.index(pair[0]))
    return ", ".join(f"{kind.value} ({count})" for kind, count in found)
