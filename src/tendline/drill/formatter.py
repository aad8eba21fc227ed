"""A drill written as its script: one canonical form, comments kept where they stood."""

from __future__ import annotations

from dataclasses import MISSING, fields

from tendline.drill.header import HEADER
from tendline.drill.people_lines import show_person, show_thing
from tendline.drill.phrases import show_trigger
from tendline.drill.play_lines import show_action, show_branch, show_choice
from tendline.drill.types import NO_NOTE, Action, Drill, Item, Note

_BREAKS_BEFORE = ("purpose", "set-up", "next", "cue", "easier", "mark")
_GROUP_OF = {
    "aim of the shooters": "purpose", "aim of the goaltender": "purpose", "step": "set-up",
    "rule": "set-up", "repeat": "next", "rotation": "next", "sides": "next", "key point": "cue",
    "error": "cue", "harder": "easier", "off-ice": "easier", "remark": "mark", "mirrored": "mark",
}  # fmt: skip
_ALWAYS = frozenset((*(one.field for one in HEADER if one.needed), "next_rep", "repeats", "sides"))


def format_drill(drill: Drill) -> str:
    """Return the script of a drill; ``parse_drill`` gives the same drill back.

    The form is canonical: formatting a second time changes nothing.
    """
    notes = dict(drill.notes)
    out: list[str] = []
    _put(out, f"drill {drill.id}: {drill.title}", notes.get("drill", NO_NOTE), 0)
    defaults = _defaults()
    group = ""
    for key in HEADER:
        value = getattr(drill, key.field)
        if not key.many and key.field not in _ALWAYS and value == defaults[key.field]:
            continue
        values = value if key.many else (value,)
        mine = _GROUP_OF.get(key.key, key.key if key.key in _BREAKS_BEFORE else "")
        if values and mine != group:
            out.append("")
            group = mine
        for number, one in enumerate(values, start=1):
            text = show_trigger(one) or "then" if key.field == "next_rep" else key.show(one)
            note = notes.get(f"{key.key} {number}" if key.many else key.key, NO_NOTE)
            _put(out, f"{key.key}: {text}", note, 0)
    if drill.things or drill.people or "people" in notes:
        out.append("")
        _put(out, "people", notes.get("people", NO_NOTE), 0)
        for thing in drill.things:
            _put(out, show_thing(thing), thing.note, 2)
        for person in drill.people:
            _put(out, show_person(person), person.note, 2)
    if drill.play or "play" in notes:
        out.append("")
        _put(out, "play", notes.get("play", NO_NOTE), 0)
        _put_items(out, drill.play, 2)
    if "end" in notes:
        out.append("")
        out += [_comment(one) for one in notes["end"].before]
    return "\n".join(out) + "\n"


def _defaults() -> dict[str, object]:
    return {one.name: one.default if one.default is not MISSING else None for one in fields(Drill)}


def _put_items(out: list[str], items: tuple[Item, ...], indent: int) -> None:
    for item in items:
        if isinstance(item, Action):
            _put(out, show_action(item), item.note, indent)
            continue
        _put(out, show_choice(item), item.note, indent)
        for branch in item.branches:
            _put(out, show_branch(branch), branch.note, indent + 2)
            _put_items(out, branch.items, indent + 4)


def _put(out: list[str], text: str, note: Note, indent: int) -> None:
    margin = " " * indent
    out += [f"{margin}{_comment(one)}" for one in note.before]
    tail = f"  {_comment(note.after)}" if note.after else ""
    out.append(f"{margin}{text}{tail}")


def _comment(text: str) -> str:
    return f"# {text}".rstrip()
