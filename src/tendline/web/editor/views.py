"""Addresses of the editor."""

from __future__ import annotations

from collections.abc import Callable

from fastapi import APIRouter, Request
from fastapi.responses import HTMLResponse, PlainTextResponse, RedirectResponse, Response
from starlette.concurrency import run_in_threadpool
from starlette.datastructures import UploadFile

from tendline.base import InputError
from tendline.drill import format_drill
from tendline.drill.limits import MAX_BYTES
from tendline.store import Draft, NewerDraftError, Store
from tendline.web.editor.context import answer_data, look_data, repairs_data
from tendline.web.editor.pages import edit_page, import_page, new_page, read_page
from tendline.web.editor.playing import play_data
from tendline.web.editor.reading import (
    MOST_BYTES,
    LookAsked,
    body_of,
    draft_name,
    look_asked,
    text_in,
    values_of,
    whole_in,
)
from tendline.web.shell import urls
from tendline.web.shell.render import data, page
from tendline.work.drills import all_drills, find_drill
from tendline.work.own_drills import keep, take_in

router = APIRouter()


def _store(request: Request) -> Store:
    store: Store = request.app.state.store
    return store


@router.get("/drills/new")
def write_new(request: Request, draft: str = "") -> HTMLResponse:
    """Return the page for writing a new drill, or for going on with one."""
    name = draft_name(draft) if draft else ""
    return page("editor/page.html", new_page(_store(request), name))


@router.get("/drills/{name}/edit")
def change(request: Request, name: str) -> HTMLResponse:
    """Return the page for changing a drill."""
    return page("editor/page.html", edit_page(_store(request), name))


@router.get("/drills/{name}.drill")
def export(request: Request, name: str) -> Response:
    """Return a drill's script as a file to give away."""
    drill = find_drill(all_drills(_store(request)), name)
    disposition = f'attachment; filename="{drill.id}.drill"'
    return PlainTextResponse(format_drill(drill), headers={"Content-Disposition": disposition})


async def _asked(request: Request, give: Callable[[Store, LookAsked], object]) -> Response:
    asked = look_asked(await values_of(request))
    return data(await run_in_threadpool(give, _store(request), asked))


@router.post("/editor/look")
async def look(request: Request) -> Response:
    """Return what a script shows, after an edit if one is asked for."""
    return await _asked(request, look_data)


@router.post("/editor/run")
async def run(request: Request) -> Response:
    """Return a script on the clock, and what stands against it."""
    return await _asked(request, answer_data)


@router.post("/editor/play")
async def play(request: Request) -> Response:
    """Return a script as a moving picture."""
    return await _asked(request, play_data)


@router.post("/editor/repairs")
async def repairs(request: Request) -> Response:
    """Return what would mend a script."""
    return await _asked(request, repairs_data)


@router.put("/editor/drafts/{name}")
async def save_draft(request: Request, name: str) -> Response:
    """Save a draft; the answer comes when it is on disk, or brings what another window wrote."""
    values = await values_of(request)
    draft = Draft(
        id=draft_name(name),
        drill=text_in(values, "base", 20),
        script=text_in(values, "script", MAX_BYTES),
        counter=whole_in(values, "counter"),
    )
    drafts = _store(request).drafts
    try:
        await run_in_threadpool(drafts.save, draft)
    except NewerDraftError:
        return data({"newer": drafts.get(draft.id)})
    return data({"saved": draft.counter})


@router.get("/editor/drafts/{name}")
def read_draft(request: Request, name: str) -> Response:
    """Return a draft as it is on disk."""
    return data(_store(request).drafts.get(draft_name(name)))


@router.delete("/editor/drafts/{name}")
def drop_draft(request: Request, name: str) -> Response:
    """Forget a draft."""
    _store(request).drafts.delete(draft_name(name))
    return data({"dropped": name})


@router.post("/drills/keep")
async def keep_drill(request: Request) -> Response:
    """Put a script among the coach's own drills and go to its page."""
    values = await _fields(request)
    store = _store(request)
    drill = await run_in_threadpool(
        lambda: keep(
            store, values.get("script", ""), base=values.get("base", ""),
            replace=values.get("replace") == "yes",
        )
    )  # fmt: skip
    if draft := values.get("draft", ""):
        await run_in_threadpool(store.drafts.delete, draft_name(draft))
    address = urls.drill(drill.id)
    if "application/json" in request.headers.get("accept", ""):
        return data({"address": address, "number": drill.id})
    return RedirectResponse(address, status_code=303)


@router.get("/drills/import")
def import_form() -> HTMLResponse:
    """Return the page for bringing a script in."""
    return page("editor/import.html", import_page())


@router.post("/drills/import")
async def import_read(request: Request) -> Response:
    """Read a stranger's script and show what it holds; nothing is kept."""
    store = _store(request)
    text = await _uploaded(request)
    shown = await run_in_threadpool(read_page, store, text)
    return page("editor/import.html", shown, status=200 if shown.drills else 422)


@router.post("/drills/import/take")
async def import_take(request: Request) -> Response:
    """Keep the drills of a script that was read before."""
    values = await _fields(request)
    found = await run_in_threadpool(take_in, _store(request), values.get("script", ""))
    address = urls.drill(found[0].id) if len(found) == 1 else "/drills"
    return RedirectResponse(address, status_code=303)


async def _fields(request: Request) -> dict[str, str]:
    """Return the text fields of a form; raises ``InputError`` before reading one too large."""
    await _bounded(request)
    async with request.form(max_files=1, max_fields=10, max_part_size=MOST_BYTES) as form:
        return {name: value for name, value in form.items() if isinstance(value, str)}


async def _uploaded(request: Request) -> str | bytes:
    """Return the file of a form, or its text field when no file was chosen."""
    await _bounded(request)
    async with request.form(max_files=1, max_fields=10, max_part_size=MOST_BYTES) as form:
        file = form.get("file")
        if isinstance(file, UploadFile) and file.size:
            return await file.read(MAX_BYTES + 1)
        text = form.get("script")
        if isinstance(text, str) and text.strip():
            return text.replace("\r\n", "\n")
    raise InputError("there is nothing to read", allowed="a file, or the script itself")


async def _bounded(request: Request) -> None:
    """Read the body within bounds; the form is then parsed from what was read."""
    request._body = await body_of(request, 3 * MOST_BYTES)
