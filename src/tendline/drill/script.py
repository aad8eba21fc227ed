"""A drill script read into a :class:`Drill`: all faults at once, each with its line.

The syntax is described in docs/lookup/drill-script.md. Nothing in a script is ever run, opened or
fetched; sizes are bounded by :mod:`tendline.drill.limits`.
"""

from __future__ import annotations

from itertools import pairwise

from tendline.base import ScriptError, nearest_name
from tendline.drill import limits
from tendline.drill.header import BY_KEY, DRILL_ID, HEADER, find_key
from tendline.drill.lines import DrillScriptError, Line, read_lines, refuse_if_too_big
from tendline.drill.people_lines import read_person_line, read_thing_line
from tendline.drill.phrases import Wrong, split_outside
from tendline.drill.play_block import read_play
from tendline.drill.reader import Reader
from tendline.drill.types import (
    Choice,
    Drill,
    Item,
    Note,
    actions_of,
)

_FIRST = "drill L01: Dot to dot, receive and shoot"


def parse_drill(text: str | bytes) -> Drill:
    """Return the drill that a script describes.

    Raises :class:`DrillScriptError` (a ``ScriptError`` whose ``errors`` lists every fault).
    """
    drill, faults = read_drill(text)
    if drill is None:
        raise DrillScriptError(faults)
    return drill


def parse_drills(text: str | bytes) -> tuple[Drill, ...]:
    """Return the drills of a file that holds several, one after the other.

    Each starts with its ``drill ID: title`` line. Line numbers in errors are those of the file.
    """
    whole = refuse_if_too_big(text)
    lines = whole.split("\n")
    starts = [k for k, one in enumerate(lines) if one.lower().startswith("drill ")]
    if len(starts) <= 1:
        return (parse_drill(whole),)
    cuts = [0, *_above_comments(lines, starts[1:]), len(lines)]
    found: list[Drill] = []
    faults: list[ScriptError] = []
    for begin, end in pairwise(cuts):
        drill, wrong = read_drill("\n" * begin + "\n".join(lines[begin:end]))
        faults += wrong
        if drill is not None:
            found.append(drill)
    if faults:
        raise DrillScriptError(tuple(faults))
    return tuple(found)


def _above_comments(lines: list[str], starts: list[int]) -> list[int]:
    """Return the starts moved up over the comments that stand right above them."""
    cuts = []
    for start in starts:
        cut = start
        while cut and lines[cut - 1].startswith("#"):
            cut -= 1
        cuts.append(cut)
    return cuts


def read_drill(text: str | bytes) -> tuple[Drill | None, tuple[ScriptError, ...]]:
    """Return the drill of a script, or None, and every fault, sorted by line."""
    try:
        whole = refuse_if_too_big(text)
    except ScriptError as fault:
        return None, (fault,)
    lines, tail, faults = read_lines(whole)
    reader = Reader(faults)
    if not lines:
        if not faults:
            reader.fault(1, Wrong("the script is empty", "no line", f"first line '{_FIRST}'"))
        return None, tuple(reader.faults)
    if tail:
        reader.notes["end"] = Note(tail)
    _read_first(lines[0], reader)
    head, people, play = _sections(lines[1:], reader)
    _read_people(people, reader)
    _read_header(head, reader)
    reader.play = read_play(play, reader)
    _check_sizes(play, reader)
    if reader.faults:
        ordered = sorted(reader.faults, key=lambda one: one.line)
        return None, tuple(ordered[: limits.MAX_ERRORS])
    return _made(reader), ()


def _read_first(line: Line, reader: Reader) -> None:
    parts = line.text.split(":", 1)
    head = parts[0].split()
    if len(parts) != 2 or len(head) != 2 or head[0].lower() != "drill" or not parts[1].strip():
        reader.fault(
            line.number,
            Wrong("a script starts with its number and title", f"'{line.text}'", f"'{_FIRST}'"),
        )
        return
    if not DRILL_ID.fullmatch(head[1]):
        reader.fault(
            line.number,
            Wrong(
                "the number of the drill is not one",
                f"'{head[1]}'",
                "a letter, then letters, digits, '-', 20 at most",
            ),
        )
        return
    reader.header["id"], reader.header["title"] = head[1], parts[1].strip()
    if line.note:
        reader.notes["drill"] = line.note


def _sections(lines: list[Line], reader: Reader) -> tuple[list[Line], list[Line], list[Line]]:
    found: dict[str, list[Line]] = {"head": [], "people": [], "play": []}
    section = "head"
    for line in lines:
        word = line.text.lower().rstrip(":").strip()
        if line.indent == 0 and word in ("people", "play"):
            if word in reader.notes or found[word]:
                reader.fault(line.number, Wrong(f"'{word}' stands twice", f"'{line.text}'", "once"))
            section = word
            if line.note:
                reader.notes[word] = line.note
        elif line.indent == 0:
            section = "head"
            found["head"].append(line)
        elif section == "head":
            reader.fault(
                line.number,
                Wrong(
                    "an indented line belongs under 'people' or 'play'",
                    f"'{line.text}'",
                    "a header line starts at the margin",
                ),
            )
        else:
            found[section].append(line)
    return found["head"], found["people"], found["play"]


def _read_header(lines: list[Line], reader: Reader) -> None:
    counts: dict[str, int] = {}
    for line in lines:
        parts = split_outside(line.text, ":")
        try:
            key_text, _, value = line.text.partition(":")
            if len(parts) < 2:
                raise Wrong(
                    "a header line is 'key: words'",
                    f"'{line.text}'",
                    ", ".join((*BY_KEY, "people", "play")),
                    nearest_name(line.text.lower(), (*BY_KEY, "people", "play")),
                )
            key = find_key(key_text)
            if not value.strip():
                raise Wrong(
                    f"nothing follows '{key.key}:'",
                    f"'{line.text}'",
                    f"such as '{key.key}: {key.example}'",
                )
            read = key.read(value.strip(), reader.names())
        except Wrong as wrong:
            reader.fault(line.number, wrong)
            continue
        number = counts[key.key] = counts.get(key.key, 0) + 1
        if not key.many and number > 1:
            reader.fault(line.number, Wrong(f"'{key.key}' stands twice", f"'{line.text}'", "once"))
            continue
        if key.many:
            limit = limits.MAX_KEY_POINTS if key.field == "key_points" else limits.MAX_TEXTS
            if number > limit:
                reader.fault(
                    line.number,
                    Wrong(f"too many lines of '{key.key}'", str(number), f"at most {limit}"),
                )
                continue
            reader.header[key.field] = (*reader.header.get(key.field, ()), read)
        else:
            reader.header[key.field] = read
        if line.note:
            reader.notes[f"{key.key} {number}" if key.many else key.key] = line.note
    missing = [one.key for one in HEADER if one.needed and one.field not in reader.header]
    bad = {one.item for one in reader.faults}
    if missing and not bad:
        example = BY_KEY[missing[0]].example
        reader.fault(
            1,
            Wrong(
                "the header is not complete",
                "no " + ", ".join(missing),
                f"such as '{missing[0]}: {example}'",
            ),
        )


def _read_people(lines: list[Line], reader: Reader) -> None:
    things = [one for one in lines if not one.text.split()[0][:1].isupper()]
    for line in (*things, *(one for one in lines if one not in things)):
        try:
            if line in things:
                thing = read_thing_line(line.text, reader.names(), line.note)
                if thing.label in (one.label for one in reader.things):
                    raise Wrong("two things have one name", f"'{thing.label}'", "another name")
                reader.things.append(thing)
            else:
                person = read_person_line(line.text, reader.names(), line.note)
                if person.name in (one.name for one in reader.people):
                    raise Wrong("two people have one name", f"'{person.name}'", "another name")
                reader.people.append(person)
        except Wrong as wrong:
            reader.fault(line.number, wrong)
            reader.unread.append(line.text.split()[0])
    for found, limit, what in (
        (reader.people, limits.MAX_PEOPLE, "people"),
        (reader.things, limits.MAX_THINGS, "things"),
    ):
        if len(found) > limit:
            reader.fault(
                lines[0].number, Wrong(f"too many {what}", str(len(found)), f"at most {limit}")
            )


def _check_sizes(lines: list[Line], reader: Reader) -> None:
    count = len(actions_of(reader.play))
    first = lines[0].number if lines else 1
    if count > limits.MAX_ACTIONS:
        reader.fault(
            first, Wrong("too many lines of play", str(count), f"at most {limits.MAX_ACTIONS}")
        )
    paths = count_paths(reader.play)
    if paths > limits.MAX_PATHS:
        reader.fault(
            first,
            Wrong("too many ways through the choices", str(paths), f"at most {limits.MAX_PATHS}"),
        )


def count_paths(items: tuple[Item, ...]) -> int:
    """Return in how many ways the choices of a play may go."""
    total = 1
    for item in items:
        if isinstance(item, Choice):
            total *= sum(count_paths(branch.items) for branch in item.branches)
    return total


def _made(reader: Reader) -> Drill:
    order = ["drill", *(one.key for one in HEADER), "people", "play", "end"]

    def place(key: str) -> tuple[int, str]:
        head = key.rstrip("0123456789").rstrip()
        return (order.index(key) if key in order else order.index(head), key.rjust(40))

    notes = tuple((key, reader.notes[key]) for key in sorted(reader.notes, key=place))
    return Drill(
        **reader.header,
        people=tuple(reader.people),
        things=tuple(reader.things),
        play=reader.play,
        notes=notes,
    )
