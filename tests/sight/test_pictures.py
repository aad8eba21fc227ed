"""Pictures from the puck and from her eyes, skaters in the way, and clear sight over time."""

import math

import numpy as np
import pytest

from tendline import body, ice
from tendline.base import InputError, Settings
from tendline.body import Limb
from tendline.sight import clear_sight, eye_of, goaltender_eye, puck_eye, skater_body
from tendline.sight.shadow import camera_towards

GOAL = ice.goal()
HER = body.posed(body.build_goaltender(stature=1.8), body.Pose(1.1, 0.0, 0.0))
EYE = eye_of(HER)
PUCK = [9.0, 0.0, 0.0127]


def at(x: float, y: float, stature: float = 1.8) -> body.Capsules:
    return body.place(skater_body(stature), x=x, y=y, facing=0.0)


def test_the_picture_keeps_angles() -> None:
    # by hand: from 9.15 m straight in front, a post at 0.915 m is seen at tan = 0.1 (the camera
    # looks slightly up at the mouth's middle, which only stretches the sides by 1 / cos(tilt)).
    seen = puck_eye([9.15, 0.0, 0.6096], HER, GOAL)
    assert seen.width == pytest.approx(GOAL.width / 9.15, rel=1e-9)
    assert seen.height == pytest.approx(GOAL.height / 9.15, rel=1e-9)
    rights = [u for u, _ in seen.mouth]
    assert max(rights) == pytest.approx(GOAL.half_width / 9.15)


def test_her_left_hand_is_on_the_viewers_right() -> None:
    seen = puck_eye(PUCK, HER, GOAL)
    glove = [o for o in seen.outlines if o.limb == int(Limb.CATCHING_HAND)]
    assert glove
    assert all(u > 0 for o in glove for ring in o.rings for u, _ in ring if ring)


def test_outlines_come_farthest_first_and_carry_their_parts() -> None:
    seen = puck_eye(PUCK, HER, GOAL)
    away = [one.distance for one in seen.outlines]
    assert away == sorted(away, reverse=True)
    assert {one.part for one in seen.outlines} == {int(part) for part in HER.part}
    assert [one.name for one in seen.frame] == ["left post", "right post", "crossbar"]


def test_a_camera_sees_a_point_on_its_axis_in_the_middle() -> None:
    camera = camera_towards(np.array([5.0, 1.0, 1.4]), np.array([9.0, 2.0, 0.0]))
    np.testing.assert_allclose(camera.flat(np.array([[9.0, 2.0, 0.0]])), [[0.0, 0.0]], atol=1e-12)
    assert camera.axes @ camera.axes.T == pytest.approx(np.eye(3), abs=1e-12)


def test_nobody_in_the_way_hides_nothing() -> None:
    view = goaltender_eye(EYE, PUCK, {})
    assert view.hidden_share == 0.0
    view = goaltender_eye(EYE, PUCK, {"F2": at(5.0, 3.0)})
    assert view.hidden_share == 0.0
    assert view.by_whom == {"F2": 0.0}


def test_a_skater_on_the_line_hides_the_puck_and_is_named() -> None:
    view = goaltender_eye(EYE, PUCK, {"F2": at(5.0, 0.0), "D1": at(5.0, 2.0)})
    assert view.hidden_share == pytest.approx(1.0)
    assert view.by_whom["F2"] == pytest.approx(1.0)
    assert view.by_whom["D1"] == 0.0
    assert {one.name for one in view.outlines} == {"F2", "D1"}


def test_a_skater_behind_the_puck_hides_nothing() -> None:
    assert goaltender_eye(EYE, PUCK, {"D1": at(11.0, 0.0)}).hidden_share == 0.0
    # by hand: the line of sight goes on 0.3 m below the ice two metres behind the puck
    sunk = body.Capsules.of([[11.0, -0.5, -0.3]], [[11.0, 0.5, -0.3]], [0.2], [0])
    assert goaltender_eye(EYE, PUCK, {"sunk": sunk}).hidden_share == 0.0


def test_half_the_puck_is_hidden_when_an_edge_runs_through_it() -> None:
    # by hand: an upright pole whose edge plane goes through the puck's middle hides one half.
    radius, out = 0.1, 5.0
    eye, puck = np.array([1.0, 0.0, 1.5]), np.array([9.0, 0.0, 0.0127])
    pole = body.Capsules.of([[out, 0.0, -1.0]], [[out, 0.0, 3.0]], [radius], [0])
    # the tangent from the eye in plan view: distance from the pole's axis to the line = radius
    side = radius / math.cos(math.asin(radius / (out - 1.0)))
    moved = body.place(pole, x=0.0, y=side, facing=0.0)
    assert goaltender_eye(eye, puck, {"pole": moved}).hidden_share == pytest.approx(0.5, abs=0.02)


@pytest.mark.parametrize(
    ("eye", "puck", "bodies", "words"),
    [
        ([1.0, 0.0], PUCK, {}, "three finite coordinates"),
        ([1.0, 0.0, math.nan], PUCK, {}, "three finite coordinates"),
        (PUCK, PUCK, {}, "same place"),
        ([5.0, 0.0, 0.9], PUCK, {"F2": at(5.0, 0.0)}, "F2: her eyes lie inside another body"),
    ],
)
def test_a_wrong_line_of_sight_is_named(
    eye: list[float], puck: list[float], bodies: dict[str, body.Capsules], words: str
) -> None:
    with pytest.raises(InputError, match=words):
        goaltender_eye(eye, puck, bodies)


def test_a_body_without_a_head_has_no_eye() -> None:
    with pytest.raises(InputError, match="without a head"):
        eye_of(HER.only(Limb.TRUNK))


def test_clear_sight_counts_from_the_moment_the_screen_has_passed() -> None:
    # by hand: a skater crosses the line at 2 m/s and leaves it when his leg's edge passes it.
    times = np.linspace(0.0, 2.0, 401)
    walk = np.column_stack([np.full(401, 5.0), -1.0 + 2.0 * times])
    seen = clear_sight(times, EYE, PUCK, {"F2": (skater_body(1.8), walk)})
    freed = times[np.flatnonzero(seen.hidden > 0.5)[-1]]
    assert 0.5 < freed < 0.75  # on the line at 0.5 s; half a body of about 0.5 m is past at 0.75 s
    assert seen.seconds == pytest.approx(2.0 - freed, abs=0.01)
    assert 0.0 < seen.by_whom["F2"] < 0.5
    assert seen.hidden_at_release == 0.0


def test_a_standing_screen_leaves_no_sight_and_no_screen_leaves_all() -> None:
    times = np.linspace(0.0, 1.0, 21)
    standing = clear_sight(times, EYE, PUCK, {"F2": (skater_body(), [5.0, 0.0])})
    assert standing.seconds == 0.0
    assert standing.hidden_at_release > 0.5
    assert clear_sight(times, EYE, PUCK, {}).seconds == 1.0


def test_the_share_that_still_counts_as_seen_can_be_set() -> None:
    times = np.linspace(0.0, 1.0, 11)
    edge = {"F2": (skater_body(1.8), [5.0, 0.17])}
    strict = clear_sight(times, EYE, PUCK, edge, settings=Settings.of({"sight.clear_share": 0.0}))
    loose = clear_sight(times, EYE, PUCK, edge, settings=Settings.of({"sight.clear_share": 0.95}))
    assert strict.seconds <= loose.seconds


@pytest.mark.parametrize(
    ("times", "puck", "words"),
    [
        ([0.0, 0.0], PUCK, "times must rise"),
        ([], PUCK, "times must rise"),
        ([0.0, 1.0], [1.0, 2.0], "for all times"),
    ],
)
def test_wrong_times_and_paths_are_named(times: list[float], puck: list[float], words: str) -> None:
    with pytest.raises(InputError, match=words):
        clear_sight(times, EYE, puck, {})


def test_a_skater_stands_on_the_ice_as_tall_as_told() -> None:
    tall = skater_body(1.8)
    assert tall.lowest == pytest.approx(0.0, abs=1e-9)
    assert tall.highest == pytest.approx(1.8 * 0.9, abs=1e-9)
    with pytest.raises(InputError, match="stature"):
        skater_body(3.0)


def rod(x: float, z: float, radius: float) -> body.Capsules:
    return body.Capsules.of([[x, -2.0, z]], [[x, 2.0, z]], [radius], [0])


def test_clear_sight_begins_with_the_first_time_at_which_she_sees_again() -> None:
    # by hand: a rod on the line until 0.4 s, gone at 0.5 s, release at 1 s
    times = np.linspace(0.0, 1.0, 11)
    where = np.where(times[:, None] < 0.45, [[0.0, 0.0]], [[0.0, 9.0]])
    seen = clear_sight(
        times, [1.0, 0.0, 0.5], [6.0, 0.0, 0.0127], {"F2": (rod(3.0, 0.3, 0.1), where)}
    )
    assert seen.seconds == pytest.approx(0.5)
    assert seen.hidden.tolist() == [1.0] * 5 + [0.0] * 6
    assert seen.by_whom["F2"] == pytest.approx(5 / 11)


def test_what_counts_as_seen_is_the_setting() -> None:
    # by hand: the upper edge of the rod's shadow runs through the puck, so some lines are hidden
    for z in np.arange(0.28, 0.34, 0.0005):
        part = clear_sight(
            [0.0, 1.0],
            [1.0, 0.0, 0.5],
            [6.0, 0.0, 0.0127],
            {"F2": (rod(3.0, z - 0.1, 0.1), [0.0, 0.0])},
        )
        if 0.0 < part.hidden_at_release < 0.9:
            break
    else:
        pytest.fail("no edge found")
    for share, seconds in ((0.0, 0.0), (part.hidden_at_release, 1.0), (0.95, 1.0)):
        found = clear_sight(
            [0.0, 1.0], [1.0, 0.0, 0.5], [6.0, 0.0, 0.0127],
            {"F2": (rod(3.0, z - 0.1, 0.1), [0.0, 0.0])},
            settings=Settings.of({"sight.clear_share": share}),
        )  # fmt: skip
        assert found.seconds == seconds
        assert found.by_whom["F2"] == (seconds == 0.0)


def test_she_looks_at_the_upper_face_of_the_puck() -> None:
    # by hand: level with that face (0.0254 m) she sees over a rod 0.022 m high; her line to the
    # puck's middle (0.0127 m) would pass it at 0.0203 m
    seen = clear_sight(
        [0.0], [1.0, 0.0, 0.0254], [6.0, 0.0, 0.0127], {"F2": (rod(3.0, 0.0, 0.022), [0.0, 0.0])}
    )
    assert seen.hidden_at_release == 0.0
