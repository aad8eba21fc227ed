"""Every edit by name; each takes a script and gives a script, or says why not."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass

from tendline.base import InputError, nearest_name
from tendline.drill.editing import choices, head, lines, people, timing
from tendline.drill.editing.request import Asked, Edited
from tendline.drill.formatter import format_drill
from tendline.drill.lines import DrillScriptError
from tendline.drill.script import parse_drill, read_drill
from tendline.drill.types import Drill
from tendline.drill.world import World

EDITS: dict[str, Callable[[Drill, Asked], Edited]] = {
    "add person": people.add_person,
    "add thing": people.add_thing,
    "move": people.move,
    "set person": people.set_person,
    "set thing": people.set_thing,
    "remove": people.remove,
    "add line": lines.add_line,
    "set line": lines.set_line,
    "remove line": lines.remove_row,
    "move line": lines.move_row,
    "move point": lines.move_point,
    "add point": lines.add_point,
    "remove point": lines.remove_point,
    "add choice": choices.add_choice,
    "set choice": choices.set_choice,
    "add branch": choices.add_branch,
    "set branch": choices.set_branch,
    "link": timing.link,
    "wait for": timing.wait_for,
    "header": head.set_header,
    "mirror": head.mirror,
    "tidy": head.tidy,
}
"""Edits that need nothing but the drill."""

TIMED: dict[str, Callable[[Drill, Asked, World], Edited]] = {
    "start at": timing.start_at,
    "end at": timing.end_at,
}
"""Edits that need the drill on the clock."""


@dataclass(frozen=True, slots=True)
class Written:
    """A script after an edit, the drill it says, what was done, and what is chosen now."""

    script: str
    drill: Drill
    said: str
    chosen: str | None


def apply_edit(script: str, edit: Mapping[str, object], world: Callable[[Drill], World]) -> Written:
    """Return the script after one edit, in its one form, comments kept.

    ``edit`` holds the name of the edit under ``do`` and its values. Raises
    :class:`DrillScriptError` if the script has faults, ``InputError`` if the edit cannot be done;
    the script that came stays as it was.
    """
    drill = parse_drill(script)
    name = edit.get("do")
    asked = Asked(edit)
    if name in EDITS:
        edited = EDITS[str(name)](drill, asked)
    elif name in TIMED:
        edited = TIMED[str(name)](drill, asked, world(drill))
    else:
        known = [*EDITS, *TIMED]
        raise InputError(
            "there is no such edit", came=repr(name)[:60], allowed=", ".join(known),
            hint=nearest_name(str(name)[:60], known),
        )  # fmt: skip
    text = format_drill(edited.drill)
    made, faults = read_drill(text)
    if made is None:
        first = faults[0]
        raise InputError(
            first.asked, came=first.came, allowed=first.allowed, hint=first.hint
        ) from DrillScriptError(faults)
    return Written(text, made, edited.said, edited.chosen)
