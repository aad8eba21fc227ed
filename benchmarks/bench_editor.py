"""How fast the editor answers while somebody is dragged: the look and the run, over the real app.

Fixed places, each asked once: nothing is answered from memory.
"""

from __future__ import annotations

import statistics
import tempfile
import time
from pathlib import Path

from starlette.testclient import TestClient

from tendline.drill import format_drill, library
from tendline.store import open_store
from tendline.web.app import create_app

DRAGS = 20


def main() -> None:
    scripts = {one.id: format_drill(one) for one in library()}
    with tempfile.TemporaryDirectory() as folder, open_store(Path(folder) / "club.db") as store:
        app = TestClient(create_app(store))
        for name in ("L01", "E08", "R01"):
            looks, runs = [], []
            for step in range(DRAGS + 2):
                edit = {
                    "do": "move",
                    "what": "F1",
                    "at": f"({12 + 0.13 * step:.2f}, {-5 + 0.21 * step:.2f})",
                }
                begin = time.perf_counter()
                found = app.post(
                    "/editor/look", json={"script": scripts[name], "edit": edit}
                ).json()
                middle = time.perf_counter()
                app.post("/editor/run", json={"script": found["script"]})
                if step >= 2:  # the first two warm up
                    looks.append(middle - begin)
                    runs.append(time.perf_counter() - middle)
            print(
                f"{name}: look {1000 * statistics.median(looks):.0f} ms, run "
                f"{1000 * statistics.median(runs):.0f} ms (worst {1000 * max(runs):.0f} ms)"
            )


if __name__ == "__main__":
    main()
