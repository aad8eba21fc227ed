"""The plan again when the ice or the people change: fast, and nothing dropped in silence."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from tendline.base import DEFAULT_SETTINGS, InputError, Settings
from tendline.practice.planning import plan_practice
from tendline.practice.program import Solver
from tendline.practice.types import (
    DrillFacts,
    Request,
    RosterGoaltender,
    SegmentKind,
    Sheet,
    Space,
)


@dataclass(frozen=True, slots=True, kw_only=True)
class Change:
    """What is different in the car park; everything left None stays as it was."""

    minutes: int | None = None
    space: Space | None = None
    block_space: Space | None = None
    without: frozenset[str] = frozenset()
    joining: tuple[RosterGoaltender, ...] = ()
    skaters: int | None = None
    helpers: int | None = None

    @property
    def words(self) -> str:
        """Return the change in words."""
        parts = []
        if self.minutes is not None:
            parts.append(f"{self.minutes} minutes of ice")
        if self.space is not None:
            parts.append(f"{self.space.name} with {self.space.nets} net(s)")
        if self.without:
            parts.append(f"{len(self.without)} goaltender(s) fewer")
        if self.joining:
            parts.append(f"{', '.join(one.name for one in self.joining)} joining")
        if self.skaters is not None:
            parts.append(f"{self.skaters} skaters")
        if self.helpers is not None:
            parts.append(f"{self.helpers} to serve the block")
        return ", ".join(parts) or "nothing changed"


def changed_request(request: Request, change: Change, *, keep: Sheet) -> Request:
    """Return the request after a change, preferring the drills of the sheet it replaces."""
    unknown = change.without - {one.id for one in request.roster.goaltenders}
    if unknown:
        raise InputError(
            "a goaltender who leaves must be on the roster", came=", ".join(sorted(unknown)),
            allowed=", ".join(one.id for one in request.roster.goaltenders),
        )  # fmt: skip
    roster = replace(
        request.roster,
        goaltenders=tuple(one for one in request.roster.goaltenders if one.id not in change.without)
        + change.joining,
        skaters=request.roster.skaters if change.skaters is None else change.skaters,
        helpers=request.roster.helpers if change.helpers is None else change.helpers,
    )
    slot = replace(
        request.slot,
        minutes=request.slot.minutes if change.minutes is None else change.minutes,
        space=change.space or request.slot.space,
        block_space=change.block_space or request.slot.block_space,
    )
    kept = frozenset(one.drill_id for one in keep.segments if one.drill_id)
    return replace(request, roster=roster, slot=slot, keep=kept)


def replan(
    request: Request,
    sheet: Sheet,
    change: Change,
    drills: Sequence[DrillFacts],
    *,
    settings: Settings = DEFAULT_SETTINGS,
    solver: Solver | None = None,
) -> Sheet:
    """Return a new sheet after a change; ``dropped`` lists what the old one had and this lacks."""
    after = changed_request(request, change, keep=sheet)
    fresh = plan_practice(after, drills, settings=settings, solver=solver)
    return replace(
        fresh,
        dropped=what_dropped(sheet, fresh),
        notes=(*fresh.notes, f"Changed: {change.words}."),
    )


def what_dropped(before: Sheet, after: Sheet) -> tuple[str, ...]:
    """Return each drill that fell out or was shortened, so that it can return next time."""
    now = {one.title: one for one in after.segments}
    dropped = []
    for one in before.segments:
        if one.kind is SegmentKind.PAUSE:
            continue
        if one.title not in now:
            dropped.append(f"{one.title} ({one.minutes} min)")
        elif now[one.title].minutes < one.minutes:
            dropped.append(f"{one.title}: {one.minutes} min cut to {now[one.title].minutes}")
    return tuple(dropped)
