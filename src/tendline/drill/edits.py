"""Edits of a play that repairs are made of; each gives new items, nothing is changed in place."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace

from tendline.drill.types import Action, Branch, Choice, Item, Trigger
from tendline.drill.vocabulary import TriggerKind, Verb

SHOTS = frozenset({Verb.SHOOT, Verb.TOSS})
CLEARED = Trigger(kind=TriggerKind.CLEARED)


def mapped(items: tuple[Item, ...], change: Callable[[Action], Action | None]) -> tuple[Item, ...]:
    """Return the items with every action changed; None leaves one out."""
    found: list[Item] = []
    for item in items:
        if isinstance(item, Action):
            made = change(item)
            if made is not None:
                found.append(made)
        else:
            branches = tuple(replace(one, items=mapped(one.items, change)) for one in item.branches)
            found.append(replace(item, branches=branches))
    return tuple(found)


def after_each_shot(items: tuple[Item, ...], trigger: Trigger) -> tuple[Item, ...]:
    """Return the items where the first line after every shot waits for ``trigger``.

    Later lines up to the next shot lose times that were counted from that shot.
    """
    return _after(items, trigger, pending=False, timed=False)[0]


def _after(
    items: tuple[Item, ...], trigger: Trigger, *, pending: bool, timed: bool
) -> tuple[tuple[Item, ...], bool, bool]:
    found: list[Item] = []
    for item in items:
        if isinstance(item, Choice):
            branches: list[Branch] = []
            ends = [(pending, timed)]
            for branch in item.branches:
                inner, p, t = _after(branch.items, trigger, pending=pending, timed=timed)
                branches.append(replace(branch, items=inner))
                ends.append((p, t))
            found.append(replace(item, branches=tuple(branches)))
            pending, timed = ends[-1]
            continue
        action = item
        if action.verb is Verb.TIP or action.who[0] == "G":
            found.append(action)
            continue
        if pending:
            action = replace(action, trigger=trigger)
            pending, timed = False, True
        elif timed and action.trigger.kind is TriggerKind.SHOT:
            action = replace(action, trigger=Trigger())
        if action.verb in SHOTS:
            pending, timed = True, False
        found.append(action)
    return tuple(found), pending, timed


def only_last_shot(items: tuple[Item, ...]) -> tuple[Item, ...]:
    """Return a straight play in which every shot but the last is a feint; the skating stays.

    The puck stays with him who would have shot, and times counted from a shot that is gone are
    counted from the feint. A play with choices is left as it is.
    """
    if any(isinstance(one, Choice) for one in items):
        return items
    actions = [one for one in items if isinstance(one, Action)]
    shots = [k for k, one in enumerate(actions) if one.verb in SHOTS]
    if len(shots) < 2:
        return items
    keepers = {actions[k].who for k in shots[:-1]}
    made: list[Item] = []
    tag = ""
    for k, one in enumerate(actions):
        action = one
        if tag and action.trigger.kind is TriggerKind.SHOT:
            action = replace(
                action,
                trigger=Trigger(kind=TriggerKind.TAG_STARTS, delay=action.trigger.delay, tag=tag),
            )
        if k in shots[:-1]:
            tag = action.tag or f"feint{shots.index(k) + 1}"
            action = Action(
                who=action.who, verb=Verb.STOP, trigger=action.trigger, tag=tag, note=action.note
            )
        elif action.verb is Verb.SKATE and action.who in keepers and k > shots[0]:
            action = replace(action, verb=Verb.CARRY)
        elif action.verb is Verb.COLLECT and action.who in keepers and k > shots[0]:
            continue
        made.append(action)
    return tuple(made)


def shot_count(items: tuple[Item, ...]) -> int:
    """Return the shots of one repetition, the most over branches."""
    total = 0
    for item in items:
        if isinstance(item, Action):
            total += item.verb in SHOTS
        else:
            total += max((shot_count(one.items) for one in item.branches), default=0)
    return total
