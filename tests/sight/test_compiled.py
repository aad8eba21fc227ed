"""Where compiled kernels are kept: the user's cache, a fingerprint, a way out when it is closed."""

from pathlib import Path

import numpy as np
import pytest

from tendline.sight import compiled


@pytest.fixture(autouse=True)
def fresh():
    compiled.kernel_folder.cache_clear()
    yield
    compiled.kernel_folder.cache_clear()


def test_the_folder_lies_in_the_users_cache_and_bears_the_fingerprint(
    monkeypatch, tmp_path
) -> None:
    monkeypatch.setattr(compiled, "user_cache_folder", lambda: tmp_path)
    folder = compiled.kernel_folder()
    assert folder.is_dir()
    assert folder == tmp_path / "tendline" / f"kernels-{compiled.kernel_fingerprint()}"


@pytest.mark.parametrize("broken", ["closed", "no home"])
def test_without_a_writable_cache_a_temporary_folder_serves(monkeypatch, tmp_path, broken) -> None:
    def no_home() -> Path:
        raise RuntimeError("no home folder")

    in_the_way = tmp_path / "file"
    in_the_way.write_text("not a folder")
    monkeypatch.setattr(
        compiled, "user_cache_folder", no_home if broken == "no home" else lambda: in_the_way
    )
    folder = compiled.kernel_folder()
    assert folder.is_dir()
    assert tmp_path not in folder.parents


@pytest.mark.parametrize(
    ("system", "platform", "variable", "value", "ends"),
    [
        ("posix", "linux", "XDG_CACHE_HOME", "/somewhere", "/somewhere"),
        ("posix", "darwin", "HOME", "/home/her", "/home/her/Library/Caches"),
        ("posix", "linux", "HOME", "/home/her", "/home/her/.cache"),
    ],
)
def test_each_system_has_its_own_cache_folder(
    monkeypatch, system, platform, variable, value, ends
) -> None:
    for name in ("XDG_CACHE_HOME", "LOCALAPPDATA"):
        monkeypatch.delenv(name, raising=False)
    monkeypatch.setenv(variable, value)
    monkeypatch.setattr(compiled.sys, "platform", platform)
    assert str(compiled.user_cache_folder()) == ends


def test_the_fingerprint_follows_the_kernel_sources(monkeypatch) -> None:
    usual = compiled.kernel_fingerprint()
    monkeypatch.setattr(compiled, "KERNEL_FILES", (("tendline.sight", "kernel.py"),))
    assert compiled.kernel_fingerprint() != usual
    monkeypatch.setattr(compiled, "KERNEL_FILES", (("tendline.sight", "gone.py"),))
    assert compiled.kernel_fingerprint() != usual


def test_a_kernel_is_plain_arithmetic_compiled(monkeypatch, tmp_path) -> None:
    monkeypatch.setenv("NUMBA_CACHE_DIR", str(tmp_path))

    @compiled.kernel
    def twice(x):
        return x + x

    np.testing.assert_array_equal(twice(np.arange(3.0)), [0.0, 2.0, 4.0])
