"""The app starts from the command line, says where it is, and stops when told."""

import os
import signal
import subprocess
import sys
import urllib.request

import pytest
from click.testing import CliRunner

from tendline.cli.main import main


def serve(*words, folder):
    return subprocess.Popen(
        [sys.executable, "-m", "tendline", "serve", "--port", "0", *words],
        env={**os.environ, "TENDLINE_DATA": str(folder)},
        stdout=subprocess.PIPE,
        stderr=subprocess.PIPE,
        text=True,
    )


def stop(running):
    running.send_signal(signal.SIGINT)
    return running.communicate(timeout=20)


@pytest.mark.skipif(os.name == "nt", reason="needs POSIX signals")
def test_it_says_where_once_somebody_can_connect_and_stops_quietly(tmp_path):
    running = serve(folder=tmp_path)
    try:
        line = running.stdout.readline().strip()
        assert line.startswith("Serving on http://127.0.0.1:")
        assert line.endswith("(stop with Ctrl+C)")
        address = line.split()[2]
        with urllib.request.urlopen(address, timeout=20) as answer:
            assert answer.status == 200
    finally:
        out, err = stop(running)
    assert "Traceback" not in out + err


def test_a_port_in_use_is_one_clear_message(tmp_path, monkeypatch):
    import socket

    monkeypatch.setenv("TENDLINE_DATA", str(tmp_path))
    with socket.create_server(("127.0.0.1", 0)) as taken:
        port = taken.getsockname()[1]
        result = CliRunner().invoke(main, ["serve", "--port", str(port)])
    assert result.exit_code == 2
    assert "cannot listen there" in result.output
    assert "--port 0" in result.output


def test_answers_leave_without_waiting_for_an_acknowledgement():
    import asyncio
    import socket
    from concurrent.futures import ThreadPoolExecutor

    from tendline.cli.start import _listen

    async def undelayed() -> bool:
        found: asyncio.Future[int] = asyncio.get_running_loop().create_future()

        def note(_reader, writer):
            mine = writer.get_extra_info("socket")
            found.set_result(mine.getsockopt(socket.IPPROTO_TCP, socket.TCP_NODELAY))
            writer.close()

        listener = _listen("127.0.0.1", 0)
        server = await asyncio.start_server(note, sock=listener)
        async with server:
            _, writer = await asyncio.open_connection(*listener.getsockname())
            answer = await asyncio.wait_for(found, 10)
            writer.close()
        return bool(answer)

    # in a thread of its own: another test may have left a loop in this one
    with ThreadPoolExecutor(1) as threads:
        assert threads.submit(asyncio.run, undelayed()).result()
