"""The pages of the editor: writing a drill, and bringing a script in."""

from __future__ import annotations

import json
from dataclasses import dataclass

from markupsafe import Markup

from tendline.base import InputError, ScriptError
from tendline.drill import DrillScriptError, format_drill
from tendline.store import Draft, Store
from tendline.web.editor.context import (
    PARTS,
    Answer,
    Look,
    answer,
    look,
    look_data,
)
from tendline.web.editor.faults import FaultLine, fault_lines
from tendline.web.editor.reading import LookAsked
from tendline.web.shell import urls
from tendline.web.shell.render import fragment, plain
from tendline.work.drill_desk import new_script
from tendline.work.drills import all_drills, find_drill
from tendline.work.own_drills import read_file

ROLES = (("F", "a forward"), ("D", "a defender"), ("C", "a coach"), ("H", "a helper"),
         ("G", "a goaltender"))  # fmt: skip
THINGS = ("cone", "pucks", "net", "target", "line")
MOST_OFFERS = 2


@dataclass(frozen=True, slots=True, kw_only=True)
class Link:
    """Where an offer leads."""

    path: str
    words: str


@dataclass(frozen=True, slots=True, kw_only=True)
class Offer:
    """Something unfinished that can be gone on with."""

    words: str
    links: tuple[Link, ...]


@dataclass(frozen=True, slots=True, kw_only=True)
class EditorPage:
    """The page on which a drill is written."""

    heading: str
    draft: str
    base: str
    counter: int
    kept: str
    script: str
    look: Look
    verdict: str
    start: Markup
    verbs: Markup
    into: Markup
    chosen: Markup
    names: Markup
    head: Markup
    time: Markup
    findings: Markup
    offers: tuple[Offer, ...]
    roles: tuple[tuple[str, str], ...] = ROLES
    things: tuple[str, ...] = THINGS


@dataclass(frozen=True, slots=True, kw_only=True)
class ComingDrill:
    """A drill of a file that may be taken in."""

    number: str
    title: str
    purpose: str
    becomes: str


@dataclass(frozen=True, slots=True, kw_only=True)
class ImportPage:
    """The page on which a script is brought in."""

    heading: str
    words: str
    script: str = ""
    drills: tuple[ComingDrill, ...] = ()
    faults: tuple[FaultLine, ...] = ()


def new_page(store: Store, draft: str) -> EditorPage:
    """Return the page for a new drill: the draft of that name, or empty ice."""
    kept = store.drafts.find(draft) if draft else None
    if kept is not None:
        return _page(store, kept.script, draft=kept, base="", saved=new_script(store))
    offers = tuple(_offer(one) for one in store.drafts.list() if not one.drill)[:MOST_OFFERS]
    return _page(store, new_script(store), draft=None, base="", saved="", offers=offers)


def edit_page(store: Store, name: str) -> EditorPage:
    """Return the page for a drill that is there; what was not finished comes back."""
    drill = find_drill(all_drills(store), name)
    saved = format_drill(drill)
    draft = store.drafts.find(f"edit-{drill.id}")
    script = draft.script if draft else saved
    return _page(store, script, draft=draft, base=drill.id, saved=saved)


def _offer(draft: Draft) -> Offer:
    title = draft.script.split("\n", 1)[0].partition(":")[2].strip()[:60] or "a drill"
    when = f" from {draft.saved_at:%d %B, %H:%M}" if draft.saved_at else ""
    return Offer(
        words=f"Not finished{when}: {title}.",
        links=(Link(path=urls.with_query("/drills/new", [("draft", draft.id)]),
                    words="Go on with it"),),
    )  # fmt: skip


def _page(
    store: Store, script: str, *, draft: Draft | None, base: str, saved: str,
    offers: tuple[Offer, ...] = (),
) -> EditorPage:  # fmt: skip
    asked = LookAsked(script=script)
    shown = look(store, asked)
    found = answer(store, asked)
    start = {
        "look": {k: v for k, v in look_data(store, asked).items() if k != "parts"},
        "saved": saved,
        "restored": draft is not None and script != saved,
    }
    heading = shown.drill.title if shown.drill else "A drill with a fault"
    return EditorPage(
        heading=heading,
        draft=draft.id if draft else (f"edit-{base}" if base else ""),
        base=base,
        counter=draft.counter if draft else 0,
        kept="",
        script=script,
        look=shown,
        verdict=_verdict(found),
        start=Markup(json.dumps(plain(start)).replace("<", "\\u003c")),
        verbs=_part("verbs", shown),
        into=_part("into", shown),
        chosen=_part("chosen", shown),
        names=_part("names", shown),
        head=_part("head", shown),
        time=_part("time", found) if found and not found.fault else Markup(),
        findings=_part("findings", found) if found and not found.fault else Markup(),
        offers=offers,
    )


def _verdict(found: Answer | None) -> str:
    if found is None:
        return "The script has a fault: it stands at its line."
    if found.fault is not None:
        return f"Line {found.fault.line}: {found.fault.asked}. {found.fault.hint}"
    return found.verdict


def _part(name: str, context: object) -> Markup:
    """Return a part that was rendered, escaped, from the templates of this folder."""
    return Markup(fragment(PARTS, name, context))


def import_page(
    script: str = "", *, heading: str = "Bring a script in",
    words: str = "Choose a file that somebody gave you, or paste what stands in it.",
    faults: tuple[FaultLine, ...] = (),
) -> ImportPage:  # fmt: skip
    """Return the page for bringing a script in."""
    return ImportPage(heading=heading, words=words, script=script, faults=faults)


def read_page(store: Store, text: str | bytes) -> ImportPage:
    """Return what a file holds, with its faults or with the numbers its drills would get."""
    shown = text if isinstance(text, str) else text.decode("utf-8", "replace")
    try:
        found = read_file(store, text)
    except DrillScriptError as fault:
        return _refused(shown, fault.errors)
    except ScriptError as fault:
        return _refused("", (fault,))
    except InputError as fault:
        return import_page(heading="That cannot be taken in", words=fault.message)
    count = len(found)
    return ImportPage(
        heading="One drill." if count == 1 else f"{count} drills.",
        words="Nothing is kept yet. A number that is taken is exchanged for a free one.",
        script=shown,
        drills=tuple(
            ComingDrill(
                number=one.drill.id, title=one.drill.title, purpose=one.drill.purpose,
                becomes=one.becomes,
            )
            for one in found
        ),
    )  # fmt: skip


def _refused(script: str, faults: tuple[ScriptError, ...]) -> ImportPage:
    count = len(faults)
    many = "one fault" if count == 1 else f"{count} faults"
    return import_page(
        script, heading="That cannot be taken in yet",
        words=f"The script has {many}. Nothing was kept; mend it here or send it back.",
        faults=fault_lines(script, faults),
    )  # fmt: skip
