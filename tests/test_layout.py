"""The folder listing is the architecture: layers hold, and every module imports alone."""

import pkgutil
import subprocess
import sys
from pathlib import Path

import tendline


def test_import_order_is_kept():
    done = subprocess.run(
        [Path(sys.executable).with_name("lint-imports")],
        capture_output=True,
        text=True,
        check=False,
    )
    assert done.returncode == 0, done.stdout


def test_every_module_imports_alone_without_warnings():
    names = [m.name for m in pkgutil.walk_packages(tendline.__path__, "tendline.")]
    assert len(names) > 20
    packages = sorted(n for n in names if n.count(".") == 1 and n != "tendline.__main__")
    for name in packages:
        done = subprocess.run(
            [sys.executable, "-W", "error", "-c", f"import {name}"],
            capture_output=True,
            text=True,
            check=False,
        )
        assert done.returncode == 0, f"{name}: {done.stderr}"


def test_no_module_grows_past_five_hundred_lines():
    root = Path(tendline.__file__).parent
    long = {
        str(p.relative_to(root)): n
        for p in root.rglob("*.py")
        if (n := len(p.read_text().splitlines())) > 500
    }
    assert not long
