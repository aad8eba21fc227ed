"""The panel about what is chosen: a person, a thing, a line, a choice, or one of its ways."""

from __future__ import annotations

import json
from collections.abc import Callable
from dataclasses import dataclass, replace

from tendline.base import ShotType, Side
from tendline.drill import Action, Branch, Choice, Drill, Person, Thing
from tendline.drill.editing import Row, may_have, needs_of, rows_of, verbs_for
from tendline.drill.phrases import show_pace, show_trigger
from tendline.drill.play_lines import show_action
from tendline.drill.types import Trigger, show_number
from tendline.drill.vocabulary import Force, Role, Target, ThingKind, TriggerKind, Verb

PACES = ("a walk", "half speed", "full speed")
HELD = (Verb.WAIT, Verb.STOP, Verb.SET, Verb.DROP, Verb.SCREEN)
ROLE_NAMES = {
    Role.FORWARD: "forward", Role.DEFENDER: "defender", Role.COACH: "coach",
    Role.HELPER: "helper", Role.GOALTENDER: "goaltender",
}  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class Field:
    """One thing that can be changed; ``edit`` is the edit as JSON, to which the page adds a value.

    ``kind`` is "text", "place", "person", "number", "tick" or "select"; ``choices`` (value, words).
    """

    label: str
    kind: str
    value: str
    edit: str
    choices: tuple[tuple[str, str], ...] = ()
    key: str = "value"


@dataclass(frozen=True, slots=True, kw_only=True)
class Deed:
    """A button that makes an edit."""

    label: str
    edit: str
    quiet: bool = False


@dataclass(frozen=True, slots=True, kw_only=True)
class VerbButton:
    """Something the chosen person may do, and what the page asks for before it writes the line."""

    verb: str
    key: str
    aims: str
    path: bool
    may_skip: bool


@dataclass(frozen=True, slots=True, kw_only=True)
class RowLink:
    """A line of the play that can be chosen."""

    chosen: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Panel:
    """What is chosen, in words, with everything that can be changed about it."""

    kind: str
    title: str
    fields: tuple[Field, ...] = ()
    deeds: tuple[Deed, ...] = ()
    verbs: tuple[VerbButton, ...] = ()
    rows: tuple[RowLink, ...] = ()
    who: str = ""


NOTHING = Panel(kind="", title="")


def panel_of(drill: Drill, chosen: str) -> Panel:
    """Return the panel about what is chosen; an empty one for nothing."""
    person = drill.person(chosen)
    if person is not None:
        return _person(drill, person)
    for thing in drill.things:
        if thing.label == chosen:
            return _thing(thing)
    if chosen.startswith("row "):
        for row in rows_of(drill.play):
            if f"row {row.number}" == chosen:
                return _row(drill, row)
    return NOTHING


def _json(do: str, **values: object) -> str:
    return json.dumps({"do": do, **values}, separators=(",", ":"))


def _person(drill: Drill, person: Person) -> Panel:
    what = person.name
    role = ROLE_NAMES[person.role]

    def change(field: str) -> str:
        return _json("set person", what=what, field=field)

    sides = (("", "not said"), *((one.value, one.value) for one in Side))
    fields = [Field(label="Starts at", kind="place", value=str(person.at), key="at",
                    edit=_json("move", what=what))]  # fmt: skip
    if person.role is not Role.GOALTENDER:
        fields += [
            Field(label="Shoots", kind="select", value=person.shoots.value if person.shoots else "",
                  edit=change("shoots"), choices=sides),
            Field(label="Has a puck", kind="tick", value="yes" if person.has_puck else "",
                  edit=change("puck")),
        ]  # fmt: skip
    fields += [
        Field(label="Looks toward", kind="place", value=_shown(person.facing),
              edit=change("facing")),
        Field(label="Called", kind="text", value=person.words, edit=change("words")),
        Field(label="Sign", kind="text", value=what, edit=change("name")),
    ]  # fmt: skip
    mine = tuple(
        RowLink(chosen=f"row {one.number}", words=_said(one))
        for one in rows_of(drill.play)
        if one.who == what
    )
    return Panel(
        kind="person", title=f"{what}, {role}", who=what, fields=tuple(fields), rows=mine,
        verbs=tuple(_verb(one) for one in verbs_for(person.role)),
        deeds=(Deed(label="Take off the ice", edit=_json("remove", what=what)),),
    )  # fmt: skip


def _verb(verb: Verb) -> VerbButton:
    needs = needs_of(verb)
    return VerbButton(
        verb=verb.value, key=needs.key, aims=needs.aims, path=needs.path, may_skip=needs.may_skip
    )


def _thing(thing: Thing) -> Panel:
    def change(field: str) -> str:
        return _json("set thing", what=thing.label, field=field)

    fields = [Field(label="Lies at", kind="place", value=str(thing.at), key="at",
                    edit=_json("move", what=thing.label))]  # fmt: skip
    if thing.kind in (ThingKind.PUCKS, ThingKind.LINE) and not thing.name:
        fields.append(
            Field(label="How many", kind="number", value=str(thing.count), edit=change("count"))
        )
    fields.append(Field(label="Name", kind="text", value=thing.name, edit=change("name")))
    if thing.kind is ThingKind.NET:
        fields.append(
            Field(label="Faces", kind="place", value=_shown(thing.facing), edit=change("facing"))
        )
    return Panel(
        kind="thing", title=thing.label, fields=tuple(fields),
        deeds=(Deed(label="Take off the ice", edit=_json("remove", what=thing.label)),),
    )  # fmt: skip


def _row(drill: Drill, row: Row) -> Panel:
    if isinstance(row.holds, Action):
        return _action(drill, row, row.holds)
    if isinstance(row.holds, Choice):
        return _choice(drill, row, row.holds)
    return _branch(row, row.holds)


def _order(row: Row) -> tuple[Deed, ...]:
    return (
        Deed(label="Earlier", edit=_json("move line", row=row.number, by=-1)),
        Deed(label="Later", edit=_json("move line", row=row.number, by=1)),
        Deed(label="Take the line out", edit=_json("remove line", row=row.number)),
    )


def _action(drill: Drill, row: Row, action: Action) -> Panel:
    def change(field: str) -> str:
        return _json("set line", row=row.number, field=field)

    role = Role(action.who[0])
    verbs = tuple((one.value, one.value) for one in verbs_for(role))
    fields = [
        Field(label="Starts", kind="select", value=_trigger_value(action.trigger),
              edit=_json("wait for", row=row.number), choices=_triggers(drill, row, action)),
    ]  # fmt: skip
    if action.trigger.kind is not TriggerKind.MEANWHILE:
        fields.append(
            Field(label="Seconds after that", kind="number",
                  value=show_number(action.trigger.delay), edit=change("delay"))
        )  # fmt: skip
    fields.append(
        Field(label=f"{action.who} ...", kind="select", value=action.verb.value,
              edit=change("verb"), choices=verbs)
    )  # fmt: skip
    fields += _verb_fields(action, change)
    deeds = [
        Deed(label=f"Without point {k + 1}", quiet=True,
             edit=_json("remove point", row=row.number, index=k))
        for k in range(len(action.via))
    ]  # fmt: skip
    return Panel(
        kind="line", title=show_action(action), fields=tuple(fields), who=action.who,
        deeds=(*deeds, *_order(row)),
    )  # fmt: skip


def _verb_fields(action: Action, edit: Callable[[str], str]) -> list[Field]:
    verb, found = action.verb, []

    def add(label: str, kind: str, value: str, field: str, *, words: tuple[str, ...] = ()) -> None:
        listed = (("", "usual"), *((one, one) for one in words)) if words else ()
        found.append(Field(label=label, kind=kind, value=value, edit=edit(field), choices=listed))

    if needs_of(verb).aims and verb is not Verb.RE_AIM:
        target = action.partner or _shown(action.to)
        add("To", "person" if needs_of(verb).aims != "place" else "place", target, "to")
    if verb in (Verb.SKATE, Verb.CARRY, Verb.FOLLOW):
        pace = show_pace(action.pace) if action.pace else ""
        shown = PACES if pace in ("", *PACES) else (*PACES, pace)
        add("Speed", "select", pace, "pace", words=shown)
    if may_have(verb, "backward"):
        add("Backward", "tick", "yes" if action.backward else "", "backward")
    if verb is Verb.PASS:
        add("How hard", "select", action.force.value if action.force else "", "force",
            words=tuple(one.value for one in Force))  # fmt: skip
    if verb is Verb.SHOOT:
        add("Shot", "select", action.shot.value if action.shot else "", "shot",
            words=tuple(one.value for one in ShotType))  # fmt: skip
    if verb in (Verb.SHOOT, Verb.TOSS):
        add("Aims", "select", action.target.value if action.target else "", "target",
            words=tuple(one.value for one in Target))  # fmt: skip
    if verb in HELD:
        seconds = "" if action.seconds is None else show_number(action.seconds)
        add("Seconds", "number", seconds, "seconds")
    if may_have(verb, "facing"):
        add("Faces", "place", _shown(action.facing), "facing")
    if verb is Verb.CALL:
        add("Says", "text", action.word, "word")
    return found


def _shown(place: object | None) -> str:
    return "" if place is None else str(place)


def _trigger_value(trigger: Trigger) -> str:
    return show_trigger(_undelayed(trigger)) or "then"


def _undelayed(trigger: Trigger) -> Trigger:
    return Trigger(kind=trigger.kind, who=trigger.who, tag=trigger.tag, place=trigger.place)


def _triggers(drill: Drill, row: Row, action: Action) -> tuple[tuple[str, str], ...]:
    """Return what a line may wait for: events of the lines above it, and those lines themselves."""
    values: dict[str, str] = {
        "at the whistle": "at the whistle",
        "then": "when the line above is finished",
        "meanwhile": "together with the line above",
    }
    current = _trigger_value(action.trigger)
    links: dict[str, str] = {}
    for other in rows_of(drill.play)[: row.number]:
        held = other.holds
        if not isinstance(held, Action):
            continue
        values.update((text, text) for text in _events_of(held))
        if held.tag:
            values[f"when {held.tag} starts"] = f"when {held.tag} starts"
            values[f"when {held.tag} ends"] = f"when {held.tag} ends"
        words = show_action(_bare(held))
        links[f"row {other.number} starts"] = f"together with: {words}"
        links[f"row {other.number} ends"] = f"after: {words}"
    values["when she is set"] = "when she is set"
    values.setdefault(current, current)
    return (*values.items(), *links.items())


def _events_of(action: Action) -> list[str]:
    found = []
    if action.verb is Verb.PASS:
        found.append(f"on the pass by {action.who}")
        if action.partner:
            found.append(f"when {action.partner} has the puck")
    if action.verb in (Verb.SHOOT, Verb.TOSS, Verb.TIP):
        found += [f"on the shot by {action.who}", "when the rebound is cleared"]
    if action.verb is Verb.CALL:
        found.append("on the call")
    if action.verb is Verb.COLLECT:
        found.append(f"when {action.who} has the puck")
    if action.verb in (Verb.SKATE, Verb.CARRY):
        found += [f"when {action.who} reaches {one}" for one in (*action.via, action.to) if one]
    return found


def _bare(action: Action) -> Action:
    return replace(action, trigger=Trigger(), tag="")


def _choice(drill: Drill, row: Row, choice: Choice) -> Panel:
    def change(field: str) -> str:
        return _json("set choice", row=row.number, field=field)

    people = tuple((one.name, one.name) for one in drill.people)
    ways = tuple(
        RowLink(chosen=f"row {one.number}", words=_said(one))
        for one in rows_of(drill.play)
        if one.path[:-1] == row.path and isinstance(one.holds, Branch)
    )
    return Panel(
        kind="choice", title=f"{choice.who} chooses", rows=ways,
        fields=(
            Field(label="Who chooses", kind="select", value=choice.who, edit=change("who"),
                  choices=people),
            Field(label="What he reads", kind="text", value=choice.reading, edit=change("reading")),
            Field(label="She is told beforehand", kind="tick", value="yes" if choice.told else "",
                  edit=change("told")),
        ),
        deeds=(Deed(label="One more way", edit=_json("add branch", row=row.number)), *_order(row)),
    )  # fmt: skip


def _branch(row: Row, branch: Branch) -> Panel:
    def change(field: str) -> str:
        return _json("set branch", row=row.number, field=field)

    return Panel(
        kind="branch", title=f"Way: {branch.name}",
        fields=(
            Field(label="Name", kind="text", value=branch.name, edit=change("name")),
            Field(label="When", kind="text", value=branch.when, edit=change("when")),
            Field(label="How often (weight)", kind="number", value=str(branch.weight),
                  edit=change("weight")),
        ),
        deeds=(Deed(label="Take this way out", edit=_json("remove line", row=row.number)),),
    )  # fmt: skip


def _said(row: Row) -> str:
    if isinstance(row.holds, Action):
        return show_action(row.holds)
    if isinstance(row.holds, Choice):
        return f"chooses, reads {row.holds.reading}" if row.holds.reading else "chooses"
    return f"{row.holds.name}: {row.holds.when}" if row.holds.when else row.holds.name
