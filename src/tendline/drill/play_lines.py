"""One line of the play: reading it and writing it."""

from __future__ import annotations

import re
from dataclasses import replace

from tendline.base import ShotType, nearest_name
from tendline.drill import limits
from tendline.drill.phrases import (
    NAME,
    TAG,
    Names,
    Wrong,
    read_pace,
    read_person,
    read_place,
    read_seconds,
    read_trigger,
    show_pace,
    show_trigger,
    split_outside,
    take_phrase,
)
from tendline.drill.types import NO_NOTE, Action, Branch, Choice, Note, Pace, Place, show_number
from tendline.drill.vocabulary import (
    GOALTENDER_MAY,
    GOALTENDER_ONLY,
    NEEDS_PLACE,
    Force,
    Target,
    Verb,
)

_CLAUSES = ("to", "via", "at", "facing", "as", "backward")
_ALLOWED: dict[Verb, tuple[str, ...]] = {
    Verb.SKATE: ("to", "via", "at", "facing", "backward"),
    Verb.CARRY: ("to", "via", "at", "facing", "backward"),
    Verb.PASS: ("to", "via", "at"),
    Verb.SHOOT: ("at",),
    Verb.TOSS: ("at", "to"),
    Verb.SCREEN: ("at",),
    Verb.FOLLOW: ("at",),
    Verb.COLLECT: ("at",),
    Verb.LOOK: ("at",),
    Verb.SET: ("facing",),
    Verb.SEAL: ("at",),
    Verb.C_CUT: ("to", "via", "facing"),
    Verb.SHUFFLE: ("to", "via", "facing"),
    Verb.PUSH: ("to", "facing"),
    Verb.SLIDE: ("to", "facing"),
    Verb.BUTTERFLY_PUSH: ("to", "facing"),
    Verb.RE_AIM: ("facing",),
    Verb.RECOVER: ("facing",),
}
_EXAMPLES = {
    Verb.SKATE: "F1 skates to high slot at half speed",
    Verb.CARRY: "F1 carries via (17, 9) to left dot at full speed",
    Verb.PASS: "F1 passes to F2",
    Verb.SHOOT: "F1 shoots low blocker",
    Verb.WAIT: "F1 waits 1 s",
    Verb.CALL: 'C calls "left"',
    Verb.SCREEN: "F3 screens at (2.5, 0)",
    Verb.FOLLOW: "D1 follows F1",
    Verb.SEAL: "G seals left post",
    Verb.LOOK: "G looks at left dot",
}


def read_action(text: str, names: Names, note: Note = NO_NOTE) -> Action:
    """Return the action of a line such as ``'on the pass: F2 skates to right dot'``."""
    parts = split_outside(text, ":")
    if len(parts) > 2:
        raise Wrong("a line has one trigger and one action", f"'{text}'", "trigger: who does what")
    trigger = read_trigger(parts[0], names) if len(parts) == 2 else read_trigger("then", names)
    words = _words(parts[-1])
    if len(words) < 2:
        raise Wrong("a line says who does what", f"'{parts[-1]}'", "F1 shoots")
    who = read_person(words[0], names)
    verb = _read_verb(words[1])
    _check_role(who, verb)
    clauses = _clauses(words[2:], verb)
    bare = clauses.pop("", [])
    made = Action(who=who, verb=verb, trigger=trigger, note=note)
    for key, value in clauses.items():
        made = _with_clause(key, value, names, made)
    made = _with_bare(bare, names, made)
    if verb in NEEDS_PLACE and made.to is None:
        example = _EXAMPLES.get(verb, f"{who} {verb.value} to left post")
        raise Wrong(f"'{verb.value}' must say where to", "no 'to ...'", f"such as '{example}'")
    if verb is Verb.PASS and made.to is None and not made.partner:
        raise Wrong("a pass goes to somebody or to a place", f"'{text}'", _EXAMPLES[Verb.PASS])
    return made


def _words(text: str) -> list[str]:
    """Return words; quoted text and bracketed pairs stay whole."""
    return re.findall(r'"[^"]*"|\([^)]*\)|[^\s,]+', text)


def _read_verb(word: str) -> Verb:
    known = [one.value for one in Verb]
    for one in Verb:
        if one.value == word.lower():
            return one
    raise Wrong(
        "nobody can do that in a script",
        f"'{word}'",
        ", ".join(known),
        nearest_name(word.lower(), known),
    )


def _check_role(who: str, verb: Verb) -> None:
    if who[0] == "G" and verb not in GOALTENDER_MAY:
        allowed = ", ".join(sorted(one.value for one in GOALTENDER_MAY))
        raise Wrong("a goaltender does not do that in a script", f"'{verb.value}'", allowed)
    if who[0] != "G" and verb in GOALTENDER_ONLY:
        allowed = ", ".join(one.value for one in Verb if one not in GOALTENDER_ONLY)
        raise Wrong("only a goaltender does that", f"'{who} {verb.value}'", allowed)


def _clauses(words: list[str], verb: Verb) -> dict[str, list[str]]:
    found: dict[str, list[str]] = {"": []}
    key = ""
    allowed = (*_ALLOWED.get(verb, ()), "as")
    for word in words:
        plain = word.lower()
        if plain in _CLAUSES:
            if plain not in allowed:
                raise Wrong(
                    f"'{verb.value}' has no '{plain}'",
                    f"'{' '.join(words)}'",
                    ", ".join(f"'{one}'" for one in allowed),
                )
            if plain in found:
                raise Wrong(f"'{plain}' stands twice", f"'{' '.join(words)}'", "once")
            key = plain
            found[key] = []
            if plain == "backward":
                key = ""
        else:
            found[key].append(word)
    return found


def _with_clause(key: str, value: list[str], names: Names, made: Action) -> Action:
    """Return the action with what a clause says; ``key`` is the word it starts with."""
    text, verb = " ".join(value), made.verb
    if key == "backward":
        return replace(made, backward=True)
    if not text:
        raise Wrong(f"nothing follows '{key}'", f"'{key}'", _EXAMPLES.get(verb, "a place"))
    if key == "via":
        places = (read_place(one, names) for one in re.split(r"\s+and\s+", text))
        return replace(made, via=tuple(places))
    if key == "facing":
        return replace(made, facing=read_place(text, names))
    if key == "as":
        if not TAG.fullmatch(text):
            raise Wrong("a line's name is one word in small letters", f"'{text}'", "as drive")
        return replace(made, tag=text)
    if key == "to":
        if verb in (Verb.PASS, Verb.TOSS) and NAME.fullmatch(text):
            return replace(made, partner=read_person(text, names))
        return replace(made, to=read_place(text, names))
    pace = read_pace(text)
    if pace is not None and verb not in (Verb.LOOK, Verb.SEAL, Verb.COLLECT):
        return replace(made, pace=pace)
    if verb in (Verb.SCREEN, Verb.LOOK, Verb.SEAL, Verb.COLLECT):
        return replace(made, to=read_place(text, names))
    raise Wrong(
        "the speed is not known",
        f"'at {text}'",
        "at a walk, at half speed, at full speed, at 5 m/s",
    )


def _with_bare(bare: list[str], names: Names, made: Action) -> Action:
    """Return the action with what the words say that belong to no clause."""
    left, verb = list(bare), made.verb
    if verb is Verb.SHOOT:
        shot, left = take_phrase(ShotType, left)
        made = replace(made, shot=shot)
    if verb in (Verb.SHOOT, Verb.TOSS):
        target, left = take_phrase(Target, left)
        made = replace(made, target=target)
    elif verb is Verb.PASS:
        force, left = take_phrase(Force, left)
        made = replace(made, force=force)
    elif verb is Verb.CALL:
        if len(left) != 1 or not re.fullmatch(r'"[^"]+"', left[0]):
            raise Wrong("a call stands in quotes", f"'{' '.join(left)}'", _EXAMPLES[verb])
        made, left = replace(made, word=left[0][1:-1].strip()), []
    elif verb is Verb.FOLLOW:
        if len(left) != 1:
            raise Wrong("'follows' names whom", f"'{' '.join(left)}'", _EXAMPLES[verb])
        made, left = replace(made, partner=read_person(left[0], names)), []
    elif verb is Verb.COLLECT:
        left = [] if [w.lower() for w in left] in ([], ["a", "puck"], ["the", "puck"]) else left
    elif verb is Verb.SEAL and made.to is None:
        made, left = replace(made, to=read_place(" ".join(left), names)), []
    elif verb is Verb.COVER:
        left = [] if [w.lower() for w in left] in ([], ["the", "puck"]) else left
    if verb in (Verb.WAIT, Verb.STOP, Verb.SET, Verb.DROP, Verb.SCREEN) and left:
        made, left = replace(made, seconds=read_seconds(" ".join(left))), []
    if verb is Verb.WAIT and made.seconds is None:
        raise Wrong("'waits' says how long", "no time", _EXAMPLES[verb])
    if left:
        example = _EXAMPLES.get(verb, "F1 shoots low blocker")
        raise Wrong(
            "the end of the line is not understood",
            f"'{' '.join(left)}'",
            f"such as '{example}'",
            _hint_for(verb, left),
        )
    return made


def _hint_for(verb: Verb, left: list[str]) -> str:
    known: list[str] = []
    if verb in (Verb.SHOOT, Verb.TOSS):
        known = [one.value for one in (*ShotType, *Target)]
    elif verb is Verb.PASS:
        known = [one.value for one in Force]
    return nearest_name(" ".join(left).lower(), known) if known else ""


def show_action(action: Action) -> str:
    """Return an action as the script writes it, without its comments."""
    words = [action.who, action.verb.value]
    verb = action.verb
    if action.backward:
        words.append("backward")
    if verb is Verb.FOLLOW:
        words.append(action.partner)
    elif verb is Verb.COLLECT:
        words += ["a", "puck"]
    elif verb is Verb.CALL:
        words.append(f'"{action.word}"')
    elif verb is Verb.SEAL and action.to is not None:
        words.append(str(action.to))
    if action.force is not None:
        words.append(action.force.value)
    if action.shot is not None:
        words.append(action.shot.value)
    if action.target is not None:
        words.append(action.target.value)
    if action.seconds is not None:
        words.append(f"{show_number(action.seconds)} s")
    if action.via:
        words.append("via " + " and ".join(str(one) for one in action.via))
    if action.partner and verb in (Verb.PASS, Verb.TOSS):
        words.append(f"to {action.partner}")
    if action.to is not None and verb is not Verb.SEAL:
        lead = "at" if verb in (Verb.SCREEN, Verb.LOOK, Verb.COLLECT) else "to"
        words.append(f"{lead} {action.to}")
    if action.pace is not None:
        words.append(f"at {show_pace(action.pace)}")
    if action.facing is not None:
        words.append(f"facing {action.facing}")
    if action.tag:
        words.append(f"as {action.tag}")
    lead = show_trigger(action.trigger)
    return f"{lead}: {' '.join(words)}" if lead else " ".join(words)


def read_choice(text: str, names: Names, note: Note) -> Choice:
    """Return a choice line, still without branches: ``choice by F1, reads "..."``."""
    parts = split_outside(text, ",")
    head = parts[0].split()
    form = 'choice by F1, reads "where she stands"'
    if len(head) != 3 or head[1] != "by":
        raise Wrong("a choice says who chooses", f"'{text}'", form)
    who = read_person(head[2], names)
    reading, told = "", False
    for part in parts[1:]:
        if part.lower() == "told":
            told = True
        elif part.lower().startswith("reads "):
            reading = _unquote(part[6:].strip(), form)
        else:
            raise Wrong("a choice has a reading and may be told", f"'{part}'", f"{form}, told")
    return Choice(who=who, reading=reading, told=told, note=note)


def read_branch(text: str, note: Note) -> Branch:
    """Return a branch line, still empty: ``branch across, when "...", weight 2``."""
    parts = split_outside(text, ",")
    form = 'branch across, when "the defender is on him", weight 2'
    name = parts[0].removeprefix("branch").strip()
    if not TAG.fullmatch(name):
        raise Wrong("a branch has a name, one word in small letters", f"'{name}'", form)
    when, weight = "", 1
    for part in parts[1:]:
        plain = part.lower()
        if plain.startswith("when "):
            when = _unquote(part[5:].strip(), form)
        elif re.fullmatch(r"weight \d{1,2}", plain) and int(part[7:]) > 0:
            weight = int(part[7:])
        else:
            raise Wrong("a branch may say when and how often", f"'{part}'", form)
    return Branch(name=name, when=when, weight=weight, note=note)


def show_choice(choice: Choice) -> str:
    """Return the line that opens a choice."""
    text = f"choice by {choice.who}"
    if choice.reading:
        text += f', reads "{choice.reading}"'
    return f"{text}, told" if choice.told else text


def show_branch(branch: Branch) -> str:
    """Return the line that opens a branch."""
    text = f"branch {branch.name}"
    if branch.when:
        text += f', when "{branch.when}"'
    return f"{text}, weight {branch.weight}" if branch.weight != 1 else text


def _unquote(text: str, form: str) -> str:
    found = re.fullmatch(r'"([^"]*)"', text)
    if not found:
        raise Wrong("words stand in double quotes", f"'{text}'", form)
    return found[1].strip()


__all__ = [
    "Names",
    "Pace",
    "Place",
    "limits",
    "read_action",
    "read_branch",
    "read_choice",
    "show_action",
    "show_branch",
    "show_choice",
]
