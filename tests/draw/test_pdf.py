"""Printed sheets: one side, no warning of the typesetter, names stay words, black and white."""

from __future__ import annotations

import io
import re
import shutil
import subprocess
from dataclasses import replace
from datetime import date, time
from pathlib import Path

import pytest
from PIL import Image

from tendline.base import InputError, NotFoundError, ScoringSituation, ShotResult, ShotType
from tendline.draw import practice_sheet_pdf, svg_to_png
from tendline.draw.card_pdf import render_drill_booklet, render_drill_card
from tendline.draw.drill_picture import drill_svg
from tendline.draw.forms_pdf import (
    READY_CODES,
    RESULT_CODES,
    TYPE_CODES,
    render_shot_chart,
    render_timed_tests,
)
from tendline.draw.handout_pdf import render_play_handout
from tendline.draw.pdf import Typeset, breakable, look, page_count, sentence, typeset
from tendline.draw.practice_fits import FITS
from tendline.draw.practice_pdf import render_practice_sheet, shown_words
from tendline.drill import simulate
from tendline.log.vocabulary import Readiness
from tendline.practice import (
    Check,
    GoaltenderLine,
    Load,
    LoadLine,
    RuleLevel,
    Segment,
    SegmentKind,
    Sheet,
)

from .plays import branching_drill, library_drill, lone_carrier, two_on_one

HOSTILE = "#panic() $x^2$ *b* _e_ `r` @l = h // c \\ <b>&\"' [ ] { } ~ -- " + "W" * 90


def _line(name: str, station: str, text: str) -> GoaltenderLine:
    return GoaltenderLine(
        goaltender_id=name, name=name, station=station, text=text, repetitions=6, left=3, right=3,
        load=Load(shots=6.0, drops=6.0, hard_stops=6.0, recoveries=3.0),
    )  # fmt: skip


def _segment(
    number: int,
    kind: SegmentKind,
    title: str,
    drill_id: str = "",
    names: tuple[str, ...] = ("Alva", "Noor"),
) -> Segment:
    begin = 2 + 6 * (number - 1)
    return Segment(
        number=number, kind=kind, begin=time(18, begin), end=time(18, begin + 6), minutes=6,
        title=title, place="net A", drill_id=drill_id,
        lines=tuple(
            _line(name, f"net {'AB'[i % 2]}", f"six each way; stand still for the shot ({i})")
            for i, name in enumerate(names)
        ),
        objective_shooters="a flat, firm pass to the tape",
        set_up=("Passer on the left dot with the pucks",),
        steps=("On the pass her eyes go first, then one push, then a full stop",),
        key_points=("Look, then push", "Middle of the line first", "Stick stays down"),
        cautions=("goal on its pegs",) if number == 2 else (),
    )  # fmt: skip


def practice(
    count: int = 2, names: tuple[str, ...] = ("Alva", "Noor"), title: str = "Be set before the shot"
) -> Sheet:
    """Return an invented sheet of ``count`` segments."""
    drills = ("TEST", "L01")
    segments = tuple(
        _segment(
            i,
            SegmentKind.PAUSE if i == 4 else SegmentKind.TEAM if i > 2 else SegmentKind.BLOCK,
            "Water" if i == 4 else f"Drill {i}",
            drills[i % 2],
            names,
        )
        for i in range(1, count + 1)
    )
    return Sheet(
        title=title, team="Harbour U15", day=date(2026, 11, 24), start=time(18, 0),
        end=time(18, 55), minutes=55, place="Harbour Rink", goaltenders=names,
        objectives=("Stop before the shot",), segments=segments,
        loads=tuple(
            LoadLine(goaltender_id=n, name=n, load=Load(shots=33.0), past_mean=None, past_count=0,
                     words="33 shots, 41 drops, 58 hard stops, 20 recoveries")
            for n in names
        ),
        reasons=(),
        checks=(Check(rule="V11", name="Shots in one practice", level=RuleLevel.WARN, kept=False,
                      text="33 planned, 1.3 times her game average", origin="practice"),),
        cautions=("Mask on for everyone on the ice", "Medical questions go to medical staff"),
        equipment=("20 pucks", "2 cones"),
        glossary=(("T-push", "one long push across"), ("set", "stopped and square")),
    )  # fmt: skip


DRILLS = {"TEST": branching_drill(), "L01": library_drill("L01")}


def words_of(pdf: bytes, tmp_path: Path) -> str:
    """Return the text of a PDF; skips where pdftotext is missing."""
    if shutil.which("pdftotext") is None:
        pytest.skip("no pdftotext (poppler-utils) on this machine")
    source = tmp_path / "sheet.pdf"
    source.write_bytes(pdf)
    done = subprocess.run(
        ["pdftotext", "-layout", str(source), "-"], capture_output=True, check=True
    )
    return " ".join(done.stdout.decode().split())


def assert_clean(made: Typeset, pages: int = 1) -> None:
    assert made.warnings == ()
    assert made.pages == pages
    assert made.pdf.startswith(b"%PDF-")


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("count", [1, 2, 4, 6])
def test_a_practice_fits_one_side(paper: str, count: int) -> None:
    assert_clean(render_practice_sheet(practice(count), paper=paper, drills=DRILLS))


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_long_practice_still_fits_and_may_have_its_diagrams_on_the_back(
    paper: str, tmp_path: Path
) -> None:
    sheet = practice(9, names=("Alva", "Noor", "Ilse"))
    assert_clean(render_practice_sheet(sheet, paper=paper, drills=DRILLS))
    made = render_practice_sheet(sheet, paper=paper, drills=DRILLS, diagrams_on_back=True)
    text = words_of(made.pdf, tmp_path)
    assert made.pages == (2 if "diagrams" in text else 1)
    for number in (1, 2, 3, 5, 6, 7, 8, 9):
        assert f"Drill {number}" in text


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("count", [1, 4, 9])
def test_stations_stand_side_by_side_with_who_is_there_and_who_runs_them(
    paper: str, count: int, tmp_path: Path
) -> None:
    sheet = practice(count, names=("Alva", "Noor", "Ilse", "Kim"))
    segments = tuple(replace(one, run_by=("Anna",)) for one in sheet.segments)
    made = render_practice_sheet(replace(sheet, segments=segments), paper=paper, drills=DRILLS)
    assert_clean(made)
    text = words_of(made.pdf, tmp_path)
    drilled = count - (count >= 4)  # by hand: the fourth segment is the water
    assert len(re.findall(r"2 stations at the( to 18:08)?( 6 min)? same time", text)) == drilled
    assert len(re.findall(r"[Rr]un by Anna", text)) == drilled
    assert text.index("A net") < text.index("B net")


def test_a_front_that_is_too_full_for_stations_says_them_in_its_lines(tmp_path: Path) -> None:
    sheet = _full_evening(9)
    made = render_practice_sheet(sheet, paper="A4")
    assert_clean(made)
    text = words_of(made.pdf, tmp_path)
    assert "stations at the same time" not in text
    assert "Alva, net A:" in text


def test_what_all_stations_do_alike_is_said_once_where_room_is_short(tmp_path: Path) -> None:
    sheet = practice(9, names=("Alva", "Noor", "Ilse", "Kim"))
    same = tuple(
        replace(one, lines=tuple(replace(line, text="six each way") for line in one.lines))
        for one in sheet.segments
    )
    made = render_practice_sheet(replace(sheet, segments=same), drills=DRILLS)
    assert_clean(made)
    text = words_of(made.pdf, tmp_path)
    assert text.count("All: Six each way.") == 8  # by hand: nine segments, one of them the water
    assert text.count("ix each way") == 8


@pytest.mark.parametrize("stations", [2, 3, 4])
def test_large_print_and_many_stations_break_nothing(stations: int) -> None:
    names = ("Alva", "Noor", "Ilse", "Kim", "Ronja", "Milo", "Petra", "Jo")
    sheet = practice(3, names=names)
    many = tuple(
        replace(one, lines=tuple(replace(line, station=f"net {'ABCD'[at % stations]}", text="six")
                                 for at, line in enumerate(one.lines)))
        for one in sheet.segments
    )  # fmt: skip
    assert all(len(one.stations) == stations for one in many)
    for large in (False, True):
        made = render_practice_sheet(replace(sheet, segments=many), large_print=large)
        assert made.warnings == ()


TALL = ("E04", "G07", "E08", "B08", "G01", "S01", "L02", "M10", "E03")
"""Drills with tall diagrams, many branches and every kind of sign."""


def _full_evening(count: int, names: tuple[str, ...] = ("Alva", "Noor", "Ilse")) -> Sheet:
    """Return an evening of ``count`` drills that needs its front for words alone."""
    sheet = practice(count, names=names)
    words = "look at the puck, push once, stop, and only then let the shot come from the far side"
    segments = tuple(
        replace(
            one, kind=SegmentKind.TEAM, title=f"Drill {one.number}", drill_id=drill,
            objective_goaltender=words, key_points=(words, "Stick stays down", words),
            begin=time(18, 6 * at), end=time(18, 6 * at + 6),
        )
        for at, (one, drill) in enumerate(zip(sheet.segments, TALL, strict=False))
    )  # fmt: skip
    return replace(sheet, segments=segments)


@pytest.mark.parametrize("paper", ["A4", "Letter"])
@pytest.mark.parametrize("count", [6, 7, 8, 9])
def test_diagrams_and_their_legend_fit_the_back(paper: str, count: int, tmp_path: Path) -> None:
    drills = {name: library_drill(name) for name in TALL}
    made = render_practice_sheet(
        _full_evening(count), paper=paper, drills=drills, diagrams_on_back=True
    )
    assert_clean(made, pages=2)
    text = words_of(made.pdf, tmp_path)
    front, back = text.split("page 1 of 2")
    assert "page 2 of 2" in back
    assert "he reads and chooses" in back
    for number in range(1, count + 1):
        assert f"Drill {number}" in front
        assert f"Drill {number}" in back


def test_what_a_full_front_cannot_hold_goes_to_the_back(tmp_path: Path) -> None:
    drills = {name: library_drill(name) for name in TALL}
    sheet = _full_evening(9)
    long = ("set", "stopped and square, " * 24)
    sheet = replace(sheet, glossary=(long,), segments=tuple(
        replace(one, key_points=("be set", *one.key_points[:2])) for one in sheet.segments
    ))  # fmt: skip
    assert render_practice_sheet(sheet, paper="Letter", drills=drills).pages == 2
    made = render_practice_sheet(sheet, paper="Letter", drills=drills, diagrams_on_back=True)
    assert_clean(made, pages=2)
    front, back = words_of(made.pdf, tmp_path).split("page 1 of 2")
    assert "33 shots, 41 drops" not in front
    assert "33 shots, 41 drops" in back
    assert "Mask on for everyone" in front


def test_only_words_that_stand_on_the_sheet_are_explained() -> None:
    sheet = replace(
        practice(1), glossary=(("square", "hips face the puck"), ("trailer", "arrives second"))
    )
    sheet = replace(
        sheet, segments=(replace(sheet.segments[0], key_points=("Square to the puck",),
                                 steps=("The trailer shoots",)),),
    )  # fmt: skip
    assert [word for word, _ in shown_words(sheet, FITS[-1])] == ["square"]
    assert [word for word, _ in shown_words(sheet, FITS[0])] == ["square", "trailer"]


def test_large_print_keeps_every_segment(tmp_path: Path) -> None:
    made = render_practice_sheet(practice(6), drills=DRILLS, large_print=True)
    assert made.warnings == ()
    assert 1 < made.pages <= 4
    text = words_of(made.pdf, tmp_path)
    for number in (1, 2, 3, 5, 6):
        assert f"Drill {number}" in text


def test_the_sheet_says_who_does_what_and_when(tmp_path: Path) -> None:
    text = words_of(practice_sheet_pdf(practice(2), drills=DRILLS), tmp_path)
    for words in ("18:00–18:55", "18:02", "to 18:08", "Tuesday 24 November 2026", "A net, run by",
                  "B net, run by", "Alva: Six", "Noor: Six", "1 Look, then push.", "3 Stick stays down.", "33 shots, 41 drops", "Not kept tonight:",
                  "Mask on for everyone", "T-push: one long push", "20 pucks, 2 cones.",
                  "nobody comes", "attacker", "Care: Goal on its pegs."):  # fmt: skip
        assert words in text


def test_hostile_names_stay_words(tmp_path: Path) -> None:
    sheet = practice(2, names=(HOSTILE, "Юлія Żółć"), title=HOSTILE)
    made = render_practice_sheet(sheet, drills={"TEST": replace(branching_drill(), title=HOSTILE)})
    assert_clean(made)
    text = words_of(made.pdf, tmp_path)
    assert "#panic() $x^2$ *b* _e_" in text
    assert "Żółć" in text


def test_letters_that_no_font_here_has_do_not_stop_the_sheet() -> None:
    name = "\u738b \U000e0041 \U0001f3d2"
    made = render_practice_sheet(practice(1, names=(name,)), drills=DRILLS)
    assert made.pages == 1
    assert any("lack" in one for one in made.warnings)
    play = render_play_handout(two_on_one(name=name))
    assert play.pages == 1


def test_the_same_sheet_is_the_same_file() -> None:
    first = render_practice_sheet(practice(2), drills=DRILLS).pdf
    assert render_practice_sheet(practice(2), drills=DRILLS).pdf == first


def test_an_unknown_paper_is_refused_with_the_papers_there_are() -> None:
    with pytest.raises(NotFoundError, match="A4"):
        practice_sheet_pdf(practice(1), paper="foolscap")


@pytest.mark.parametrize("paper", ["A6", "A5", "A4"])
@pytest.mark.parametrize("name", ["TEST", "L01", "E08"])
def test_a_card_fits_its_paper_and_keeps_its_key_points(
    paper: str, name: str, tmp_path: Path
) -> None:
    drill = DRILLS.get(name) or library_drill(name)
    made = render_drill_card(drill, paper=paper)
    assert_clean(made)
    text = words_of(made.pdf, tmp_path)
    assert drill.title in text
    for point in drill.key_points:
        assert " ".join(point.split()[:4]) in text


def test_a_card_says_what_a_run_found(tmp_path: Path) -> None:
    drill = library_drill("L01")
    made = render_drill_card(drill, simulate(drill), paper="A4")
    assert_clean(made)
    assert "shots a minute" in words_of(made.pdf, tmp_path)


def test_a_booklet_lists_its_cards_with_pages(tmp_path: Path) -> None:
    seen: list[tuple[int, int]] = []
    drills = [library_drill("L01"), library_drill("E08"), branching_drill()]
    made = render_drill_booklet(drills, progress=lambda n, of: seen.append((n, of)))
    assert made.warnings == ()
    assert made.pages == 4
    assert seen == [(1, 3), (2, 3), (3, 3)]
    text = words_of(made.pdf, tmp_path)
    assert "Entries and rushes" in text
    assert "L01 Dot to dot, receive and shoot" in text


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_a_handout_of_two_plays_fits_one_side(paper: str, tmp_path: Path) -> None:
    made = render_play_handout(
        lone_carrier(), two_on_one(), titles=("Alone", "Two on one"), paper=paper
    )
    assert_clean(made)
    text = words_of(made.pdf, tmp_path)
    for words in (
        "Alone",
        "Two on one",
        "Goals in 100",
        "Width to cover",
        "What changes:",
        "F2",
    ):
        assert words in text
    assert_clean(render_play_handout(two_on_one(), paper=paper))


@pytest.mark.parametrize("paper", ["A4", "Letter"])
def test_forms_fit_one_side(paper: str, tmp_path: Path) -> None:
    assert_clean(render_timed_tests(name="Alva", paper=paper))
    chart = render_shot_chart(paper=paper, team=HOSTILE[:60])
    assert_clean(chart)
    text = words_of(chart.pdf, tmp_path)
    for situation in ScoringSituation:
        assert situation.value in text


def test_the_chart_has_a_code_for_everything_the_app_logs() -> None:
    assert set(RESULT_CODES) == set(ShotResult)
    assert set(TYPE_CODES) == set(ShotType)
    assert set(READY_CODES) == set(Readiness)
    for codes in (RESULT_CODES, TYPE_CODES, READY_CODES):
        assert len(set(codes.values())) == len(codes)


def test_sheets_are_black_white_and_grey(tmp_path: Path) -> None:
    if shutil.which("pdftoppm") is None:
        pytest.skip("no pdftoppm (poppler-utils) on this machine")
    for made in (
        render_practice_sheet(practice(2), drills=DRILLS),
        render_drill_card(branching_drill(), paper="A6"),
        render_play_handout(two_on_one()),
    ):
        source = tmp_path / "sheet.pdf"
        source.write_bytes(made.pdf)
        done = subprocess.run(
            ["pdftoppm", "-r", "40", "-png", str(source)], capture_output=True, check=True
        )
        image = Image.open(io.BytesIO(done.stdout)).convert("RGB")
        assert all(max(c) - min(c) <= 2 for _, c in image.getcolors(1 << 20) or [])


def test_an_unknown_font_would_be_noticed() -> None:
    wrong = look("A4")
    wrong["families"] = ["No Such Family"]
    made = typeset("timed_tests", {
        "look": wrong, "title": "t", "who": "", "how": "", "gap": 0.5, "most": 1, "rows": [],
        "cautions": [], "foot": "",
    })  # fmt: skip
    assert any("font" in one for one in made.warnings)


def test_small_helpers_of_typesetting() -> None:
    assert sentence("  be still ") == "Be still."
    assert sentence("") == ""
    assert breakable({"svg": "x" * 60, "t": ["y" * 50]})["t"][0].count("\u200b") == 2
    assert "\u200b" not in breakable({"svg": "x" * 60})["svg"]
    assert page_count(render_timed_tests().pdf) == 1


def test_a_picture_becomes_pixels_in_our_font() -> None:
    png = svg_to_png(drill_svg(branching_drill()), width=300)
    image = Image.open(io.BytesIO(png))
    assert image.width == 300
    assert image.getpixel((0, image.height - 1))[:3] == (250, 248, 243)
    clear = Image.open(
        io.BytesIO(svg_to_png(drill_svg(branching_drill(), legend=False), background=None))
    )
    assert clear.mode == "RGBA"
    with pytest.raises(InputError, match="16 to 8000"):
        svg_to_png("<svg/>", width=9)
    with pytest.raises(InputError, match="no SVG"):
        svg_to_png("not a picture")
