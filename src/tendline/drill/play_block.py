"""The ``play`` block of a script: lines, choices and branches by their indentation."""

from __future__ import annotations

from tendline.drill import limits
from tendline.drill.lines import Line
from tendline.drill.phrases import Wrong
from tendline.drill.play_lines import read_action, read_branch, read_choice
from tendline.drill.reader import Reader
from tendline.drill.types import Action, Branch, Choice, Item


def read_play(lines: list[Line], reader: Reader) -> tuple[Item, ...]:
    """Return the items of the block; faults go to the reader."""
    items, rest = _read_block(lines, reader, depth=0)
    for line in rest:
        reader.fault(
            line.number,
            Wrong(
                "the indentation fits no line above",
                f"'{line.text}'",
                "two spaces more inside a choice or a branch",
            ),
        )
    return items


def _read_block(
    lines: list[Line], reader: Reader, *, depth: int
) -> tuple[tuple[Item, ...], list[Line]]:
    """Return the items at the indentation of the first line, and the lines left over."""
    items: list[Item] = []
    if not lines:
        return (), []
    indent = lines[0].indent
    rest = lines
    while rest and rest[0].indent >= indent:
        line, rest = rest[0], rest[1:]
        if line.indent > indent:
            reader.fault(
                line.number,
                Wrong(
                    "the line is indented too far",
                    f"'{line.text}'",
                    "the same margin as the line above",
                ),
            )
            continue
        if line.text.lower().startswith("choice"):
            choice, rest = _read_choice(line, rest, reader, depth=depth)
            if choice is not None:
                items.append(choice)
            continue
        if line.text.lower().startswith("branch"):
            reader.fault(
                line.number,
                Wrong(
                    "a branch stands inside a choice",
                    f"'{line.text}'",
                    "a line 'choice by F1' above it",
                ),
            )
            rest = _skip_inside(rest, indent)
            continue
        action = _read_line(line, reader)
        if action is not None:
            items.append(action)
    return tuple(items), rest


def _read_line(line: Line, reader: Reader) -> Action | None:
    try:
        action = read_action(line.text, reader.names(), line.note)
        if action.tag and action.tag in reader.tags:
            raise Wrong("two lines have one name", f"'{action.tag}'", "another word after 'as'")
    except Wrong as wrong:
        reader.fault(line.number, wrong)
        return None
    if action.tag:
        reader.tags.append(action.tag)
    return action


def _read_choice(
    line: Line, rest: list[Line], reader: Reader, *, depth: int
) -> tuple[Choice | None, list[Line]]:
    if depth >= limits.MAX_DEPTH:
        reader.fault(
            line.number,
            Wrong(
                "choices stand too deep inside each other",
                f"{depth + 1} deep",
                f"at most {limits.MAX_DEPTH}",
            ),
        )
        return None, _skip_inside(rest, line.indent)
    choice: Choice | None = None
    try:
        choice = read_choice(line.text, reader.names(), line.note)
    except Wrong as wrong:
        reader.fault(line.number, wrong)
    branches: list[Branch] = []
    if rest and rest[0].indent > line.indent:
        margin = rest[0].indent
        while rest and rest[0].indent == margin:
            head, rest = rest[0], rest[1:]
            branch: Branch | None = None
            try:
                if not head.text.lower().startswith("branch"):
                    raise Wrong("inside a choice stand branches", f"'{head.text}'", "branch NAME")
                branch = read_branch(head.text, head.note)
                if branch.name in (one.name for one in branches):
                    raise Wrong("two branches have one name", f"'{branch.name}'", "another name")
            except Wrong as wrong:
                reader.fault(head.number, wrong)
            items: tuple[Item, ...] = ()
            if rest and rest[0].indent > margin:
                items, rest = _read_block(rest, reader, depth=depth + 1)
            if branch is not None:
                branches.append(
                    Branch(
                        name=branch.name,
                        when=branch.when,
                        weight=branch.weight,
                        items=items,
                        note=branch.note,
                    )
                )
    if not 2 <= len(branches) <= limits.MAX_BRANCHES:
        reader.fault(
            line.number,
            Wrong(
                "a choice has branches",
                str(len(branches)),
                f"2 to {limits.MAX_BRANCHES}, indented under it",
            ),
        )
    if choice is None:
        return None, rest
    made = Choice(
        who=choice.who,
        reading=choice.reading,
        told=choice.told,
        branches=tuple(branches),
        note=choice.note,
    )
    return made, rest


def _skip_inside(lines: list[Line], indent: int) -> list[Line]:
    while lines and lines[0].indent > indent:
        lines = lines[1:]
    return lines
