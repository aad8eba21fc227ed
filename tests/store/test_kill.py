"""The process is killed between and during taps: nothing acknowledged is lost, nothing doubled."""

import os
import random
import signal
import subprocess
import sys
import time

import pytest

from tendline.store import open_store
from tests.store.samples import set_up

TAPPER = """
import sys
from pathlib import Path
from tendline.base import ShotResult
from tendline.log import ShotTaken
from tendline.store import open_store

store = open_store(Path(sys.argv[1]))
print("ready", flush=True)
number = int(sys.argv[2])
while True:
    store.games.add("g1", ShotTaken(id=f"t{number}", x=6.0, y=2.0, result=ShotResult.SAVE))
    print(f"t{number}", flush=True)
    number += 1
"""


@pytest.mark.skipif(os.name == "nt", reason="needs SIGKILL")
def test_nothing_acknowledged_is_lost_and_nothing_is_doubled(path):
    with open_store(path) as store:
        store.games.start(set_up(), game="g1")
    draw, acknowledged = random.Random(7), []
    for round_number in range(5):
        start = round_number * 10_000
        tapper = subprocess.Popen(
            [sys.executable, "-c", TAPPER, str(path), str(start)],
            stdout=subprocess.PIPE, text=True,
        )  # fmt: skip
        assert tapper.stdout is not None
        assert tapper.stdout.readline().strip() == "ready"
        time.sleep(draw.uniform(0.005, 0.06))  # anywhere: between taps or in the middle of one
        tapper.send_signal(signal.SIGKILL)
        told, _ = tapper.communicate(timeout=10)
        lines = told.split("\n")
        acknowledged += [one for one in lines[:-1] if one]
        with open_store(path) as store:
            saved = [one.id for one in store.games.events("g1")][1:]
            assert set(acknowledged) <= set(saved)
            assert len(saved) == len(set(saved))
            # at most one tap a round was on disk without having been acknowledged yet
            assert len(saved) <= len(acknowledged) + round_number + 1
            # sent again after the restart, as a device does with what it is not sure of
            again = store.games.events("g1")
            assert store.games.add("g1", *again) == 0
    assert len(acknowledged) >= 5
