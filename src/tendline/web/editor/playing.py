"""The drill that is being written, running: the same moving picture as on a drill's page."""

from __future__ import annotations

from tendline.base import InputError
from tendline.ice import rink
from tendline.store import Store
from tendline.web.editor.reading import LookAsked
from tendline.work.drill_desk import desk_run, read_script
from tendline.work.drill_export import player_of

MOST_WIDTH = 620.0
"""The moving picture is never wider than this [CSS pixels]."""


def play_data(store: Store, asked: LookAsked) -> dict[str, object]:
    """Return the moving picture of a script as HTML, or the words why there is none."""
    drill, faults = read_script(asked.script)
    if drill is None:
        where = f"Line {faults[0].line} is not understood yet." if faults else "It has a fault."
        return {"ok": False, "words": f"{where} Mend it, and it can be run."}
    if not drill.play:
        return {"ok": False, "words": "Nothing happens yet. Say what somebody does, then see it."}
    try:
        run = desk_run(store, drill).run
        html = player_of(
            drill, run, rink(store.club.get().rule_set), width=min(asked.width, MOST_WIDTH)
        )
    except InputError as fault:
        return {"ok": False, "words": fault.message}
    return {"ok": True, "html": html}
