"""Moving pictures of a drill: films, and the page that plays without a network."""

from __future__ import annotations

import io
import json
import math
import re
from dataclasses import replace
from functools import cache

import pytest
from PIL import Image

from tendline.base import InputError, NotFoundError
from tendline.body import Build, Pose, Stance, build_goaltender
from tendline.draw import (
    DARK,
    Moment,
    Painter,
    Way,
    drill_film,
    drill_page,
    moments_of,
    moving_ice_svg,
)
from tendline.draw.animation import figure_growth, shown_puck
from tendline.drill import simulate, tracks

from .plays import HOSTILE, branching_drill, library_drill
from .svg_reading import assert_embeddable, parse, with_class


@cache
def moments(count: int = 8) -> tuple[Moment, ...]:
    """Return an invented run: F1 comes in with the puck, she drops at the end."""
    found = []
    for i in range(count):
        share = i / (count - 1)
        place = (14.0 - 8.0 * share, -5.0)
        facing = math.atan2(place[1], place[0])
        stance = Stance.BUTTERFLY if share > 0.9 else Stance.READY
        found.append(
            Moment(
                time=i / 12.5,
                people=(("F1", place), ("D1", (8.0, -1.0))),
                puck=place,
                holder="F1",
                pose=Pose(1.2 * math.cos(facing), 1.2 * math.sin(facing), facing, stance),
                is_set=share < 0.5,
                wanted=(1.3, -0.4),
                words="F1 carries" if share < 0.5 else "F1 shoots",
            )
        )
    return tuple(found)


@cache
def build() -> Build:
    return build_goaltender(1.65)


@cache
def painter() -> Painter:
    return Painter(branching_drill(), build(), width=321)


def test_a_frame_shows_people_where_they_are() -> None:
    one = painter()
    early, late = (one.paint(m) for m in (moments()[0], moments()[-1]))
    assert early.size == (one.width, one.height)
    assert one.width % 2 == 0
    assert one.height % 2 == 0
    at = (
        round((one.window.y_high + 5.0) * one.scale),
        round((one.window.x_high - 14.0) * one.scale),
    )
    box = (at[0] - 12, at[1] - 12, at[0] + 12, at[1] + 12)
    assert early.crop(box).tobytes() != late.crop(box).tobytes()


@pytest.mark.parametrize("kind", ["gif", "mp4", "webm"])
def test_a_film_has_every_frame(kind: str) -> None:
    seen: list[tuple[int, int]] = []
    film = drill_film(painter(), moments(), kind=kind, progress=lambda n, of: seen.append((n, of)))
    assert seen == [(i, 8) for i in range(1, 9)]
    if kind == "gif":
        image = Image.open(io.BytesIO(film))
        assert image.n_frames == 8  # type: ignore[attr-defined]
        assert image.info["duration"] == 80
        return
    av = pytest.importorskip("av", reason="no package av here: mp4 and webm are optional")
    with av.open(io.BytesIO(film)) as container:
        frames = list(container.decode(video=0))
    assert len(frames) == 8
    assert frames[0].width == painter().width


def test_films_that_cannot_be_say_why() -> None:
    with pytest.raises(NotFoundError, match="gif"):
        drill_film(painter(), moments(), kind="avi")
    with pytest.raises(InputError, match="at least one moment"):
        drill_film(painter(), ())
    with pytest.raises(InputError, match="160 to 1920"):
        Painter(branching_drill(), build(), width=9000)


def test_a_missing_video_package_is_named(monkeypatch: pytest.MonkeyPatch) -> None:
    import builtins

    real = builtins.__import__

    def without_av(name: str, *args: object, **kwargs: object) -> object:
        if name == "av":
            raise ImportError(name)
        return real(name, *args, **kwargs)

    monkeypatch.setattr(builtins, "__import__", without_av)
    with pytest.raises(InputError, match=r"tendline\[video\]"):
        drill_film(painter(), moments(), kind="mp4")


def test_a_dark_film_is_dark() -> None:
    dark = Painter(branching_drill(), build(), width=320, palette=DARK)
    image = dark.paint(moments()[0])
    assert max(image.getpixel((2, dark.height - 2))) < 60  # type: ignore[type-var]


def test_a_held_puck_is_drawn_toward_the_goal_and_a_free_one_in_place() -> None:
    held = moments()[0]
    x, y = shown_puck(held, 20.0)
    assert math.hypot(x, y) == pytest.approx(math.hypot(*held.puck) - 16.0 / 20.0)
    assert shown_puck(replace(held, holder=""), 20.0) == held.puck
    assert figure_growth(200.0) == 1.0
    assert figure_growth(20.0) > 1.5


def test_the_ice_for_a_script_has_everybody_where_the_run_begins() -> None:
    svg = moving_ice_svg(branching_drill(), moments(), build(), width=400.0)
    assert_embeddable(svg)
    root = parse(svg)
    people = {one.get("data-name"): one.get("transform") for one in with_class(root, "tl-person")}
    assert people == {"D1": "translate(1.000 -8.000)", "F1": "translate(5.000 -14.000)"}
    shown = {one.get("data-stance"): one.get("display") for one in with_class(root, "tl-her")}
    assert shown == {"ready": "inline", "butterfly": "none"}
    with pytest.raises(InputError, match="moment"):
        moving_ice_svg(branching_drill(), (), build())


def page(hidden: bool = False) -> str:
    ways = [Way(words="alone", moments=moments()), Way(words=HOSTILE, moments=moments(5))]
    drill = replace(branching_drill(), title=HOSTILE, purpose=HOSTILE)
    return drill_page(drill, ways, build(), hidden=hidden)


def test_the_page_needs_nothing_from_outside() -> None:
    text = page()
    addresses = re.findall(r"""(?:src|href)\s*=\s*["']([^"']*)|url\(([^)]*)\)""", text)
    assert all((a or b).startswith(("data:", "#")) for a, b in addresses)
    assert "http://" not in text.replace("http://www.w3.org/2000/svg", "")
    assert "https://" not in text
    assert "default-src 'none'" in text
    assert "<b>" not in text
    assert len(text) < 200_000
    for picture in re.findall(r"<svg.*?</svg>", text, re.S):
        assert_embeddable(picture)


def test_the_page_carries_every_way_as_data() -> None:
    found = re.search(r'<script type="application/json" id="run">(.*?)</script>', page(), re.S)
    assert found
    data = json.loads(found[1])
    assert [way["times"] for way in data["ways"]] == [8, 5]
    assert data["ways"][0]["people"]["F1"][:2] == [14.0, -5.0]
    assert data["ways"][0]["stances"][-1] == "butterfly"
    assert len(data["ways"][0]["her"]) == 24
    assert data["ways"][0]["lines"] == [[0, "F1 carries"], [4, "F1 shoots"]]
    assert data["ways"][0]["wanted"][:2] == [1.3, -0.4]


def test_an_exercise_offers_a_way_by_lot() -> None:
    assert "by lot, not told" in page(hidden=True)
    assert "by lot, not told" not in page()
    with pytest.raises(InputError, match="moment"):
        drill_page(branching_drill(), [], build())


def test_the_tracks_of_a_run_become_moments() -> None:
    drill = library_drill("L01")
    columns = tracks(simulate(drill), step=0.08)
    found = moments_of(columns)
    for k in (0, len(found) // 2, -1):
        pose = found[k].pose
        assert (pose.x, pose.y, pose.facing) == columns.her[k]
        assert found[k].puck == columns.puck[k]
        assert found[k].wanted == columns.wanted[k]
    assert found[1].time - found[0].time == pytest.approx(0.08)
    assert {name for name, _ in found[0].people} == {"F1", "F2"}
    assert all(isinstance(one.pose.stance, Stance) for one in found)
    assert any(one.words for one in found)
    painter = Painter(drill, build(), width=320)
    assert painter.paint(found[len(found) // 2]).size == (painter.width, painter.height)
