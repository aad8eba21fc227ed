"""How long pictures, sheets and films take: run ``python benchmarks/bench_drawing.py``.

Fixed inputs; the middle of several runs after a first one that fills the caches. Ratios are
against the play from above, which follows the finger.
"""

from __future__ import annotations

import statistics
import time
from collections.abc import Callable

from tendline import ice
from tendline.base import Level
from tendline.body import build_goaltender
from tendline.draw import (
    Painter,
    Way,
    depth_curve_svg,
    drill_card_pdf,
    drill_film,
    drill_page,
    drill_svg,
    moments_of,
    play_handout_pdf,
    read_goaltender_eye_svg,
    read_puck_eye_svg,
    situation_svg,
    svg_to_png,
    time_line_svg,
)
from tendline.drill import drill_by_id, simulate, tracks
from tendline.motion import motion_parameters
from tendline.play import Attacker, Defender, Goaltender, Situation, play_parameters, read


def middle(make: Callable[[], object], runs: int = 7) -> float:
    """Return the median time of ``make`` [ms], after one run that does not count."""
    make()
    times = []
    for _ in range(runs):
        begin = time.perf_counter()
        make()
        times.append(1000.0 * (time.perf_counter() - begin))
    return statistics.median(times)


def main() -> None:
    """Print a table of times and ratios."""
    level = Level.U18
    build = build_goaltender(1.70, level=level)
    situation = Situation(
        rink=ice.rink(),
        carrier=Attacker(name="F1", x=6.1, y=-4.0, vx=-3.0),
        mates=(Attacker(name="F2", x=5.2, y=3.6),),
        defenders=(Defender(name="D1", x=7.6, y=-0.2),),
        level=level,
    )
    her = Goaltender(build=build, motion=motion_parameters(level))
    found = read(situation, her, play_parameters(level), detail=False)
    drill = drill_by_id("E08")
    run = simulate(drill)
    moments = moments_of(tracks(run, run.branches[0].key, step=0.08))
    painter = Painter(drill, build)
    plain = situation_svg(found)
    jobs: list[tuple[str, Callable[[], object], int]] = [
        ("the play from above", lambda: situation_svg(found), 15),
        ("depth curve", lambda: depth_curve_svg(found), 15),
        ("time line", lambda: time_line_svg(found), 15),
        ("puck's eye, exact areas", lambda: read_puck_eye_svg(found), 7),
        ("goaltender's eye", lambda: read_goaltender_eye_svg(found), 7),
        ("drill diagram, three branches", lambda: drill_svg(drill), 7),
        ("PNG, 1040 pixels", lambda: svg_to_png(plain, width=1040), 5),
        ("drill card A6", lambda: drill_card_pdf(drill, run), 3),
        ("handout of two plays", lambda: play_handout_pdf(found, found), 3),
        ("offline page", lambda: drill_page(drill, [Way(words="a", moments=moments)], build), 3),
    ]
    jobs += [
        (f"{kind}, {len(moments)} frames", lambda k=kind: drill_film(painter, moments, kind=k), 3)
        for kind in ("gif", "mp4", "webm")
    ]
    base = 0.0
    for name, make, runs in jobs:
        spent = middle(make, runs)
        base = base or spent
        print(f"{name:32s} {spent:8.1f} ms  {spent / base:7.1f} x")


if __name__ == "__main__":
    main()
