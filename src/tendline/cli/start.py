"""``tendline start`` and ``tendline serve``: the main job, and the app on this machine."""

from __future__ import annotations

import socket
import sys
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING, Any

import click

from tendline.cli.frame import Command, Session, session_of, step

if TYPE_CHECKING:
    from tendline.store import Store

_PORT = 8765
_LOCAL = "127.0.0.1"
_HIGHEST_PORT = 65535
_APP = "tendline.web.app:create_app"
"""Found by name when it is served: the two faces do not import each other."""


@click.command(cls=Command, examples=("tendline start --once",))
@click.option("--once", is_flag=True, help="Stop after the job; do not serve the app.")
@click.option(
    "--port", type=click.IntRange(0, _HIGHEST_PORT), default=_PORT, show_default=True,
    help="Port of the app; 0 takes any that is free.",
)  # fmt: skip
@click.option(
    "--out", type=click.Path(path_type=Path, dir_okay=False), default=None,
    help="Where to write the PDF.",
)  # fmt: skip
@click.pass_context
def start(context: click.Context, once: bool, port: int, out: Path | None) -> None:
    """Run the main job on the demo club, then serve the app on this machine.

    The job: from logged games to tonight's sheet. With --file it runs on that file instead.
    """
    from tendline.cli.evening import evening_of, print_tonight
    from tendline.cli.tonight import write_pdf
    from tendline.work.tonight import sheet_pdf, tonight

    session = session_of(context)
    if session.file is None:
        session.demo = True
    with session.store() as store:
        made = tonight(store, evening_of(_PLAIN_EVENING, datetime.now(), store), tell=step)
        with step("Drawing the sheet"):
            path = write_pdf(
                sheet_pdf(store, made), out, store.path.parent, made.sheet.day.isoformat()
            )
        print_tonight(made)
        click.echo(f"Sheet: {path}")
        if once:
            return
        click.echo("")
        _serve(store, _LOCAL, port)


@click.command(cls=Command, examples=())
@click.option(
    "--port", type=click.IntRange(0, _HIGHEST_PORT), default=_PORT, show_default=True,
    help="Port; 0 takes any that is free.",
)  # fmt: skip
@click.option("--host", default=_LOCAL, show_default=True, help="Address to listen on.")
@click.option("--demo", is_flag=True, help="Serve the invented demo club.")
@click.pass_context
def serve(context: click.Context, port: int, host: str, demo: bool) -> None:
    """Serve the app for your own club's file, without running the job.

    It stays on this machine unless you give another address with --host. For example:
    tendline serve --port 8800
    """
    session: Session = session_of(context)
    session.demo = session.demo or demo
    with session.store() as store:
        _serve(store, host, port)


def _serve(store: Store, host: str, port: int) -> None:
    """Serve until stopped; says where as soon as somebody can connect."""
    import uvicorn
    from uvicorn.importer import import_from_string

    create_app = import_from_string(_APP)
    with step("Starting the app"):
        app = create_app(store)
        listener = _listen(host, port)
    number = listener.getsockname()[1]

    class Announced(uvicorn.Server):
        """A server that says where it is once somebody can connect."""

        async def startup(self, sockets: list[socket.socket] | None = None) -> None:
            await super().startup(sockets)
            click.echo(f"Serving on http://{host}:{number} (stop with Ctrl+C)")
            sys.stdout.flush()

    config = uvicorn.Config(app, log_level="warning", access_log=False)
    server = Announced(config)
    try:
        server.run(sockets=[listener])
    except KeyboardInterrupt:
        click.echo("Stopped.")
    finally:
        listener.close()


def _listen(host: str, port: int) -> socket.socket:
    """Return a listening socket that names TCP as its protocol.

    asyncio sends without delay (TCP_NODELAY) only on sockets that do. Without it the end of every
    answer waits for the browser's delayed acknowledgement: 40 ms more for each move of a finger.
    """
    from tendline.base import InputError

    try:
        plain = socket.create_server((host, port), reuse_port=False)
        return socket.socket(plain.family, plain.type, socket.IPPROTO_TCP, fileno=plain.detach())
    except OSError as error:
        raise InputError(
            "the app cannot listen there", came=f"{host}, port {port}: {error.strerror}",
            hint="Another program may use that port: give another with --port, or --port 0.",
        ) from error  # fmt: skip


_PLAIN_EVENING: dict[str, Any] = {
    "team": "", "day": None, "start": None, "minutes": None, "block": False, "place": "full ice",
    "block_place": "one end, with a net", "nets": None, "present": (), "focus": "",
    "skaters": None, "helpers": None, "last": 6, "also": (),
    "run_by": (),
}  # fmt: skip
