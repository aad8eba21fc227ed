"""The README's example is the program's own output; its links lead somewhere; every example runs."""

from __future__ import annotations

import re
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).parents[1]
EXAMPLES = sorted((ROOT / "examples").glob("*.py"))
PAGES = sorted([ROOT / "README.md", ROOT / "CONTRIBUTING.md", *(ROOT / "docs").rglob("*.md")])


def output(script: Path, tmp_path: Path) -> str:
    done = subprocess.run(
        [sys.executable, "-W", "error", script], capture_output=True, text=True, cwd=tmp_path, check=False,
        env={"TENDLINE_DATA": str(tmp_path), "PATH": "/usr/bin:/bin"},
    )  # fmt: skip
    assert done.returncode == 0, done.stderr
    return done.stdout


@pytest.mark.parametrize("script", EXAMPLES, ids=lambda path: path.name)
def test_every_example_runs(script: Path, tmp_path: Path):
    assert output(script, tmp_path).strip()


def test_the_example_in_the_readme_is_what_the_program_prints(tmp_path: Path):
    text = (ROOT / "README.md").read_text()
    script, shown = re.search(
        r"<!-- example: (\S+) -->\n```text\n(.*?)```\n<!-- end -->", text, re.S
    ).groups()
    assert shown == output(ROOT / script, tmp_path), "run: python studies/update_readme.py"


@pytest.mark.parametrize("page", PAGES, ids=lambda path: str(path.relative_to(ROOT)))
def test_links_between_pages_lead_somewhere(page: Path):
    for target in re.findall(r"\]\(([^)#:]+)(?:#[^)]*)?\)", page.read_text()):
        assert (page.parent / target).exists(), f"{page.name} links to {target}"
