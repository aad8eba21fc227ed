"""What the editor shows: the page, and the parts of it that follow the script."""

from __future__ import annotations

from dataclasses import dataclass

from tendline.base import InputError, ScriptError
from tendline.draw.drill_bars import Bar, ShotMark, Track, drill_bars_svg, spans_of
from tendline.draw.drill_board import board_window, drill_board_svg, spot_places
from tendline.drill import Branch, Drill, DrillScriptError, Finding, Repair, format_drill
from tendline.drill.editing import locate, rows_of
from tendline.ice import rink
from tendline.store import Store
from tendline.web.editor.chosen import Panel, panel_of
from tendline.web.editor.faults import FaultLine, fault_lines
from tendline.web.editor.header import HeaderGroup, header_groups
from tendline.web.editor.reading import LookAsked
from tendline.web.shell.render import fragment
from tendline.work.drill_desk import (
    STEP,
    DeskRun,
    TimedWay,
    desk_run,
    edited,
    mends,
    read_script,
    row_numbers,
)

PARTS = "editor/parts.html"


@dataclass(frozen=True, slots=True, kw_only=True)
class Way:
    """One way through the choices: its key and words."""

    key: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Into:
    """Where new lines may go: a branch's row and its words."""

    row: int
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class RepairLine:
    """A repair: what it does, what it mends and leaves, what it costs, and its script."""

    name: str
    text: str
    mends: str
    leaves: str
    price: str
    script: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Look:
    """A script with everything that can be said without running it."""

    script: str
    said: str
    chosen: str
    drill: Drill | None
    board: str
    panel: Panel
    groups: tuple[HeaderGroup, ...]
    into: tuple[Into, ...]
    faults: tuple[FaultLine, ...]
    refused: str = ""


@dataclass(frozen=True, slots=True, kw_only=True)
class Answer:
    """A script on the clock."""

    verdict: str
    ways: tuple[Way, ...]
    way: str
    bars: str
    broken: tuple[Finding, ...]
    on_purpose: tuple[Finding, ...]
    shots: str
    fault: FaultLine | None = None


def look(store: Store, asked: LookAsked) -> Look:
    """Return what a script shows, after the edit if one is asked for.

    An edit that cannot be done is said under ``refused``; the script then stays as it came.
    """
    script, said, chosen, refused = asked.script, "", asked.chosen, ""
    if asked.edit is not None:
        try:
            written = edited(store, asked.script, asked.edit)
        except DrillScriptError as fault:
            refused = f"Line {fault.line} is not understood yet: mend it first, or take it back."
        except InputError as fault:
            refused = fault.message
        else:
            script, said = written.script, written.said
            chosen = asked.chosen if written.chosen is None else written.chosen
    drill, faults = read_script(script)
    return Look(
        script=script, said=said, chosen=chosen, drill=drill, refused=refused,
        board="" if drill is None else _board(store, drill, asked, chosen),
        panel=panel_of(drill, chosen) if drill else Panel(kind="", title=""),
        groups=header_groups(drill) if drill else (),
        into=_into(drill) if drill else (),
        faults=fault_lines(script, faults),
    )  # fmt: skip


def _board(store: Store, drill: Drill, asked: LookAsked, chosen: str) -> str:
    sheet = rink(store.club.get().rule_set)
    return drill_board_svg(
        drill, rink=sheet, rows=row_numbers(drill), chosen=chosen, width=asked.width,
        window=board_window(drill, sheet, asked.view),
    )  # fmt: skip


def _into(drill: Drill) -> tuple[Into, ...]:
    found = []
    for row in rows_of(drill.play):
        if isinstance(row.holds, Branch):
            when = f": {row.holds.when}" if row.holds.when else ""
            found.append(Into(row=row.number, words=f"{row.holds.name}{when}"))
    return tuple(found)


def look_data(store: Store, asked: LookAsked) -> dict[str, object]:
    """Return a look as the page's script takes it: the parts as HTML, the rest as values."""
    shown = look(store, asked)
    found: dict[str, object] = {
        "script": shown.script,
        "said": shown.said,
        "refused": shown.refused,
        "chosen": shown.chosen,
        "faults": shown.faults,
        "ok": shown.drill is not None,
    }
    if shown.drill is None:
        return found
    sheet = rink(store.club.get().rule_set)
    where = locate(shown.script)
    return {
        **found,
        "title": shown.drill.title,
        "number": shown.drill.id,
        "places": spot_places(shown.drill, sheet),
        "rows": where.rows,
        "marks": where.marks,
        "into": [one.row for one in shown.into],
        "parts": {
            "ice": shown.board,
            **{
                one: fragment(PARTS, one, shown)
                for one in ("verbs", "into", "chosen", "head", "names")
            },
        },
    }


def answer(store: Store, asked: LookAsked) -> Answer | None:
    """Return a script on the clock; None for a script with faults."""
    drill, _ = read_script(asked.script)
    if drill is None:
        return None
    try:
        run = desk_run(store, drill)
    except ScriptError as fault:
        text = format_drill(drill)
        pinned = fault_lines(text, (fault,))[0]
        return Answer(
            verdict="", ways=(), way="", bars="", broken=(), on_purpose=(), shots="", fault=pinned
        )
    way = next((one for one in run.ways if one.key == asked.way), run.ways[0])
    return Answer(
        verdict=_verdict(run),
        ways=tuple(Way(key=one.key, words=one.words or "the play") for one in run.ways),
        way=way.key,
        bars=_bars(way, asked) if way.lines else "",
        broken=run.broken,
        on_purpose=run.on_purpose,
        shots=_shots(run),
    )


def _bars(way: TimedWay, asked: LookAsked) -> str:
    return drill_bars_svg(_track(way), width=asked.time_width, chosen=asked.chosen)


def _verdict(run: DeskRun) -> str:
    if not run.drill.play:
        return "Nothing happens yet. Choose somebody on the ice and say what he does."
    text = run.verdict
    return text[:1].upper() + text[1:]


def _shots(run: DeskRun) -> str:
    releases = run.run.releases
    if not releases:
        return ""
    still = sum(one.is_set for one in releases)
    many = f" over {len(run.ways)} ways" if len(run.ways) > 1 else ""
    return f"She is set for {still} of {len(releases)} shots{many}."


def _track(way: TimedWay) -> Track:
    return Track(
        bars=tuple(
            Bar(row=one.row, words=one.words, trigger=one.trigger, kind=one.kind, begin=one.begin,
                end=one.end, source=one.source, at=one.since, ends=one.may_end)
            for one in way.lines
        ),
        shots=tuple(
            ShotMark(time=one.time, is_set=one.is_set, words=f"{one.shooter}: she is {one.state}")
            for one in way.releases
        ),
        still=spans_of(way.is_set, STEP),
        lasts=way.lasts,
    )  # fmt: skip


def answer_data(store: Store, asked: LookAsked) -> dict[str, object]:
    """Return the answer as the page's script takes it."""
    found = answer(store, asked)
    if found is None:
        return {"ok": False}
    if found.fault is not None:
        return {"ok": False, "fault": found.fault}
    names = ("answer", "time", "findings")
    return {
        "ok": True,
        "way": found.way,
        "stands": bool(found.broken),
        "parts": {one: fragment(PARTS, one, found) for one in names},
    }


def repair_lines(store: Store, asked: LookAsked) -> tuple[RepairLine, ...]:
    """Return the repairs of a script, those that mend everything first."""
    drill, _ = read_script(asked.script)
    if drill is None:
        return ()
    try:
        return tuple(_repair(one) for one in mends(store, drill))
    except InputError:
        return ()


def _repair(one: Repair) -> RepairLine:
    return RepairLine(
        name=one.name, text=one.text, mends=", ".join(one.mends),
        leaves=", ".join(one.leaves) or "nothing", price=one.price.words,
        script=format_drill(one.drill),
    )  # fmt: skip


@dataclass(frozen=True, slots=True, kw_only=True)
class RepairsPart:
    """The repairs as a part of the page."""

    repairs: tuple[RepairLine, ...]


def repairs_data(store: Store, asked: LookAsked) -> dict[str, object]:
    """Return the repairs as the page's script takes them."""
    found = repair_lines(store, asked)
    return {
        "scripts": [one.script for one in found],
        "parts": {"repairs": fragment(PARTS, "repairs", RepairsPart(repairs=found))},
    }
