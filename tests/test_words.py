"""Words: what may not stand anywhere, and what the glossary must explain.

The words to avoid are tied to one person or brand, or doubtful; plain words say the same.
"""

from __future__ import annotations

import re
import subprocess
from pathlib import Path

import pytest

from tendline.base import ScoringSituation
from tendline.body import Stance
from tendline.motion import MoveKind
from tendline.play import DepthName

ROOT = Path(__file__).parents[1]
SHARED = ROOT.parent / "shared"
HERE = Path(__file__).resolve()

# Word to avoid (a pattern), and what to say instead.
AVOID = {
    r"\broyal\s+road\b": "pass across the middle",
    r"\b(green|red)\s+goals?\b(?!\s+line)": "clean, not clean",
    r"\bhead\s+trajectory\b": "tracking, head first",
    r"\b[yl]-?\s?theor(y|ies)\b": "angle, depth",
    r"\b\d+\s?-?\s?theor(y|ies)\b": "angle, depth",
    r"\b1-2-3-4\s+method\b": "the steps by their own names",
    r"\bgut\s+trap\b": "cushion, hold at the body",
    r"\bpower\s+push(es)?\b": "T-push, long push",
    r"\bdead\s+arm\b": "arm close to the body",
    r"\bworkload\s+index\b": "load, with its counts",
    r"\bgoals\s+saved\s+above\b": "expected against allowed, said plainly",
    r"\bdrop\s+score\b": "drops, counted",
}
NAMES_OF_WORK = r"\brecorded\s+talk\b"
TALK_MAY_STAND_IN = {"DEVELOPERS.md"}
MACHINE_PATHS = r"(?<![\w.])/(work|root|tmp/tendline)/"
GENERATED = {"uv.lock", "requirements.lock", "requirements-test.lock"}
TEXT = {
    ".py", ".md", ".toml", ".txt", ".html", ".css", ".js", ".json", ".svg", ".csv", ".drill",
    ".typ", ".yaml", ".yml", ".cfg", ".ini", ".sh", "",
}  # fmt: skip


def repository_files():
    """Return the text files of the repository, ignored ones left out."""
    done = subprocess.run(
        ["git", "-C", str(ROOT), "ls-files", "-z", "--cached", "--others", "--exclude-standard"],
        capture_output=True,
        check=False,
    )
    if done.returncode == 0:
        found = [ROOT / name for name in done.stdout.decode().split("\0") if name]
    else:  # an unpacked archive has no history
        found = [p for p in ROOT.rglob("*") if ".venv" not in p.parts and ".git" not in p.parts]
    return [
        path
        for path in found
        if path.suffix in TEXT and path.name not in GENERATED and path.is_file() and path != HERE
    ]


def lines_with(pattern, allowed=frozenset()):
    seek = re.compile(pattern, flags=re.IGNORECASE)
    found = []
    for path in repository_files():
        if path.name in allowed:
            continue
        text = path.read_text(encoding="utf-8", errors="ignore")
        if seek.search(text) is None:
            continue
        where = path.relative_to(ROOT)
        hits = [
            f"{where}:{number}: {line.strip()[:100]}"
            for number, line in enumerate(text.splitlines(), 1)
            if seek.search(line)
        ]
        found.extend(hits or [f"{where}: across a line break"])
    return found


def test_there_is_something_to_read():
    assert len(repository_files()) > 100


@pytest.mark.parametrize(("pattern", "instead"), AVOID.items())
def test_words_to_avoid_stand_nowhere(pattern, instead):
    assert not lines_with(pattern), f"say instead: {instead}"


def test_the_patterns_find_what_they_are_meant_to_find():
    seen = "Royal Road, green goals, Head Trajectory, Y-theory, 3-theory, power pushes, Drop Score"
    found = [one for one in AVOID if re.search(one, seen, flags=re.IGNORECASE)]
    assert len(found) == 7
    fair = "the red goal line, a powerful push, her head leads; drop, score, index"
    assert not [one for one in AVOID if re.search(one, fair, flags=re.IGNORECASE)]


def test_the_recorded_talk_is_spoken_of_in_one_place_only():
    assert not lines_with(NAMES_OF_WORK, TALK_MAY_STAND_IN)


def test_no_path_of_somebodys_machine_stands_in_a_file():
    assert not lines_with(MACHINE_PATHS)


def glossary():
    """Return the rows of the glossary as (term cell, other cells)."""
    text = (ROOT / "docs" / "lookup" / "glossary.md").read_text(encoding="utf-8")
    rows = [line.strip("|").split("|") for line in text.splitlines() if line.startswith("|")]
    cells = [[cell.strip() for cell in row] for row in rows]
    return [(row[0], row[1:]) for row in cells if row[0] not in ("Term", "Name", "---")]


def terms():
    return [term.strip().casefold() for row, _ in glossary() for term in re.split(r"[,;]", row)]


def test_every_row_of_the_glossary_is_whole():
    rows = glossary()
    assert len(rows) > 80
    for term, cells in rows:
        assert term
        assert all(cells), term
        assert len(cells) in (2, 3), term


def test_no_term_is_explained_twice():
    counts = {one: terms().count(one) for one in terms()}
    assert not {one for one, count in counts.items() if count > 1 and one}


@pytest.mark.parametrize("kind", [MoveKind, ScoringSituation])
def test_the_programs_own_words_are_explained(kind):
    known = terms()
    for one in kind:
        assert one.value.casefold() in known, one.value


def test_stances_and_depths_are_explained():
    text = " ".join(row for row, _ in glossary()).casefold()
    for one in Stance:
        plain = one.value.replace("the left post", "the post").replace(" left", "")
        plain = plain.replace("the right post", "the post").replace(" right", "")
        assert plain.removesuffix(" on the post").casefold() in text, one.value
    for depth in DepthName:
        assert depth.value in text


@pytest.mark.skipif(not (SHARED / "job.md").exists(), reason="the shared brief is not here")
def test_the_safe_words_of_the_brief_have_a_row():
    brief = (SHARED / "job.md").read_text(encoding="utf-8")
    section = brief[brief.index("## 10. Glossary") : brief.index("## 11.")]
    rows = [line.strip("|").split("|") for line in section.splitlines() if line.startswith("| ")]
    mine = " ".join(row for row, _ in glossary()).casefold()
    missing = []
    for row in rows[1:]:
        if "AVOID" in row[2]:
            continue
        first = re.split(r"[,;/(]", row[0].strip())[0].strip().split(":")[0].casefold()
        if first not in mine:
            missing.append(first)
    assert not missing
