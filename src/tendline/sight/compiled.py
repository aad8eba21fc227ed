"""Compiled kernels: one decorator, and one folder in the user's cache where they are kept.

numba refuses ``cache=True`` when the installed package lies in a read-only folder, so the folder
is chosen here, before numba is imported. Its name holds a fingerprint of every kernel source, so
an upgrade never meets machine code of the version before. Kernels never use numba's own threads:
its thread layers abort the process when two requests run a kernel at once.
"""

from __future__ import annotations

import hashlib
import os
import sys
import tempfile
from collections.abc import Callable
from functools import cache
from importlib.resources import files
from pathlib import Path
from typing import Any, TypeVar, cast

F = TypeVar("F", bound=Callable[..., Any])

KERNEL_FILES = (("tendline.sight", "kernel.py"), ("tendline.shot", "kernel.py"))


def user_cache_folder() -> Path:
    """Return the folder that this system keeps for a user's caches (it may not exist yet)."""
    if os.name == "nt":
        return Path(os.environ.get("LOCALAPPDATA") or Path.home() / "AppData" / "Local")
    if sys.platform == "darwin":
        return Path.home() / "Library" / "Caches"
    return Path(os.environ.get("XDG_CACHE_HOME") or Path.home() / ".cache")


def kernel_fingerprint() -> str:
    """Return twelve letters that change whenever the source of any kernel changes."""
    digest = hashlib.sha256(sys.version.encode())
    for package, name in KERNEL_FILES:
        source = files(package).joinpath(name)
        if source.is_file():
            digest.update(source.read_bytes())
    return digest.hexdigest()[:12]


def _usable(folder: Path) -> bool:
    """Return whether ``folder`` exists or can be made, and can be written."""
    try:
        folder.mkdir(parents=True, exist_ok=True)
    except OSError:
        return False
    return os.access(folder, os.W_OK)


@cache
def kernel_folder() -> Path:
    """Return a writable folder for compiled kernels; a new temporary one if the cache is not."""
    try:
        folder = user_cache_folder() / "tendline" / f"kernels-{kernel_fingerprint()}"
    except RuntimeError:  # no home folder can be found
        return Path(tempfile.mkdtemp(prefix="tendline-kernels-"))
    return folder if _usable(folder) else Path(tempfile.mkdtemp(prefix="tendline-kernels-"))


def kernel(function: F) -> F:
    """Compile a kernel: no interpreter lock, cached on disk, fast arithmetic, one thread."""
    if "NUMBA_CACHE_DIR" not in os.environ:
        os.environ["NUMBA_CACHE_DIR"] = str(kernel_folder())
    import numba

    compiled = numba.njit(
        nogil=True, cache=True, fastmath=True, error_model="numpy", boundscheck=False
    )(function)
    return cast("F", compiled)
