"""Set tendline up and run it: needs only Python 3.11 or newer (with venv).

python run.py             set up, run the main job on the demo club, then serve the app
python run.py --once      the same, but stop after the job
python run.py test [...]  set up and pass the tests (extra words go to the test runner)
python run.py do WORDS    run any tendline command, for example: python run.py do --help
"""

import hashlib
import os
import shutil
import subprocess
import sys
import time
from pathlib import Path

ROOT = Path(__file__).resolve().parent
VENV = ROOT / ".venv"
PYTHON = VENV / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def wanted_state(lock: Path) -> str:
    """Return a fingerprint of everything that decides what must be installed."""
    digest = hashlib.sha256(sys.version.encode())
    for path in (ROOT / "pyproject.toml", lock):
        digest.update(path.read_bytes())
    return digest.hexdigest()


def succeeds(*words: str) -> bool:
    """Run one set-up step and return whether it worked."""
    environment = {**os.environ, "UV_COMPILE_BYTECODE": "1", "VIRTUAL_ENV": str(VENV)}
    environment.pop("PYTHONDONTWRITEBYTECODE", None)
    return subprocess.run(words, env=environment, cwd=ROOT, check=False).returncode == 0


def call(*words: str) -> None:
    """Run one set-up step; on failure say which one and stop."""
    if not succeeds(*words):
        sys.exit(f"Setting up stopped at: {' '.join(words)}\nMend that and run this again.")


def install(*what: str) -> None:
    """Install with uv where it is there and works, else with pip."""
    uv = shutil.which("uv")
    if uv and succeeds(uv, "pip", "install", "--quiet", *what):
        return
    if uv:
        print("uv could not install that; trying pip ...", flush=True)
    call(str(PYTHON), "-m", "pip", "install", "--quiet", "--disable-pip-version-check", *what)


def set_up(lock_name: str) -> None:
    """Make or refresh the virtual environment when the locked requirements changed."""
    lock = ROOT / lock_name
    stamp = VENV / f"state-{lock.stem}.txt"
    wanted = wanted_state(lock)
    if stamp.exists() and stamp.read_text() == wanted and PYTHON.exists():
        return
    started = time.monotonic()
    print(
        f"Setting up tendline from {lock_name} (about half a minute the first time) ...", flush=True
    )
    if not PYTHON.exists():
        call(sys.executable, "-m", "venv", str(VENV))
    install("--require-hashes", "-r", str(lock))
    install("--no-deps", "-e", str(ROOT))
    stamp.write_text(wanted)
    print(f"Set up in {time.monotonic() - started:.0f} s.", flush=True)


def main() -> int:
    """Set up, then hand over to tendline or to the test runner."""
    if sys.version_info < (3, 11):  # noqa: UP036 - the very machine that has an older one runs this
        sys.exit(f"tendline needs Python 3.11 or newer; this is {sys.version.split()[0]}.")
    words = sys.argv[1:]
    if words[:1] == ["test"]:
        set_up("requirements-test.lock")
        return subprocess.call([str(PYTHON), "-m", "pytest", *words[1:]], cwd=ROOT)
    set_up("requirements.lock")
    if words[:1] == ["do"]:
        return subprocess.call([str(PYTHON), "-m", "tendline", *words[1:]])
    return subprocess.call([str(PYTHON), "-m", "tendline", "start", *words])


if __name__ == "__main__":
    sys.exit(main())
