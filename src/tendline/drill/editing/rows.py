"""The play as numbered rows: one for each line of its block, choices and branches included.

A row's ``path`` leads to it: item, then branch, then item of that branch, and so on. All functions
give new items; nothing is changed in place.
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass, replace

from tendline.base import InputError
from tendline.drill.types import Action, Branch, Choice, Drill, Item

RowPath = tuple[int, ...]


@dataclass(frozen=True, slots=True)
class Row:
    """One line of the play: its number from 0, the way to it, and what stands there."""

    number: int
    path: RowPath
    holds: Action | Choice | Branch

    @property
    def container(self) -> RowPath:
        """Return the path of the block of items that this row stands in; ``()`` for the play."""
        return self.path[:-1]

    @property
    def who(self) -> str:
        """Return who acts or chooses; empty for a branch."""
        return "" if isinstance(self.holds, Branch) else self.holds.who


def rows_of(play: tuple[Item, ...]) -> tuple[Row, ...]:
    """Return every line of a play in the order of the script."""
    found: list[Row] = []
    _collect(play, (), found)
    return tuple(found)


def _collect(items: tuple[Item, ...], before: RowPath, found: list[Row]) -> None:
    for index, item in enumerate(items):
        path = (*before, index)
        found.append(Row(len(found), path, item))
        if isinstance(item, Choice):
            for number, branch in enumerate(item.branches):
                found.append(Row(len(found), (*path, number), branch))
                _collect(branch.items, (*path, number), found)


def row_of(drill: Drill, number: int) -> Row:
    """Return a row by its number; raises ``InputError`` if there is none."""
    rows = rows_of(drill.play)
    if not 0 <= number < len(rows):
        raise InputError(
            "the play has no such line", came=str(number), allowed=f"0 to {len(rows) - 1}",
            hint="The script has changed meanwhile: choose the line again.",
        )  # fmt: skip
    return rows[number]


def action_at(drill: Drill, number: int) -> tuple[Row, Action]:
    """Return a row that holds an action; raises ``InputError`` for any other."""
    row = row_of(drill, number)
    if not isinstance(row.holds, Action):
        raise InputError(
            "this line is a choice, nobody acts on it", came=f"line {number} of the play",
            hint="Choose a line inside it.",
        )  # fmt: skip
    return row, row.holds


def items_in(play: tuple[Item, ...], container: RowPath) -> tuple[Item, ...]:
    """Return the items of a block: of the play for ``()``, else of the branch at that path."""
    for index, branch in _pairs(container):
        play = _choice(play[index]).branches[branch].items
    return play


def with_items(
    play: tuple[Item, ...],
    container: RowPath,
    change: Callable[[tuple[Item, ...]], tuple[Item, ...]],
) -> tuple[Item, ...]:
    """Return the play with the items of one block changed."""
    if not container:
        return change(play)
    index, number, rest = container[0], container[1], container[2:]
    choice = _choice(play[index])
    branch = choice.branches[number]
    made = replace(branch, items=with_items(branch.items, rest, change))
    return put(play, index, with_branch(choice, number, made))


def put(items: tuple[Item, ...], index: int, *new: Item) -> tuple[Item, ...]:
    """Return the items with the one at ``index`` exchanged (or left out without ``new``)."""
    return (*items[:index], *new, *items[index + 1 :])


def with_branch(choice: Choice, number: int, *new: Branch) -> Choice:
    """Return the choice with a branch exchanged (or left out without ``new``)."""
    return replace(
        choice, branches=(*choice.branches[:number], *new, *choice.branches[number + 1 :])
    )


def with_row(drill: Drill, row: Row, *new: Action | Choice | Branch) -> Drill:
    """Return the drill with a row exchanged (or left out without ``new``)."""
    if isinstance(row.holds, Branch):
        above, number = row.path[:-1], row.path[-1]
        branches = tuple(one for one in new if isinstance(one, Branch))

        def change(items: tuple[Item, ...]) -> tuple[Item, ...]:
            choice = _choice(items[above[-1]])
            return put(items, above[-1], with_branch(choice, number, *branches))

        return replace(drill, play=with_items(drill.play, above[:-1], change))
    made = tuple(one for one in new if not isinstance(one, Branch))
    play = with_items(drill.play, row.container, lambda items: put(items, row.path[-1], *made))
    return replace(drill, play=play)


def inserted(drill: Drill, container: RowPath, index: int, item: Item) -> Drill:
    """Return the drill with an item put into a block before its item ``index``."""
    play = with_items(drill.play, container, lambda items: (*items[:index], item, *items[index:]))
    return replace(drill, play=play)


def _pairs(container: RowPath) -> list[tuple[int, int]]:
    return list(zip(container[::2], container[1::2], strict=True))


def _choice(item: Item) -> Choice:
    if not isinstance(item, Choice):
        raise InputError("this line holds no branches", came=item.who)
    return item
