"""Whatever a script says, it runs or is refused with a named error; never anything else."""

import random
import re

import pytest

from tendline.base import TendlineError
from tendline.drill import (
    check_drill,
    drill_from_dict,
    drill_to_dict,
    format_drill,
    library,
    mirror_drill,
    read_drill,
    simulate,
    tracks,
)

TEXTS = [format_drill(one) for one in library()]


def changed(text, draw):
    """Return the script with a few lines moved, doubled, deleted or given other numbers."""
    lines = text.split("\n")
    for _ in range(draw.randint(1, 4)):
        k = draw.randrange(len(lines))
        kind = draw.random()
        if kind < 0.3:
            lines[k] = re.sub(
                r"\(-?[\d.]+, -?[\d.]+\)",
                f"({draw.uniform(-4, 30):.1f}, {draw.uniform(-14, 14):.1f})",
                lines[k],
            )
        elif kind < 0.5 and lines[k].startswith("  "):
            del lines[k]
        elif kind < 0.65 and lines[k].startswith("  "):
            lines.insert(k, lines[draw.randrange(len(lines))])
        elif kind < 0.8:
            lines[k] = re.sub(r"[\d.]+ s\b", f"{draw.choice((0, 0.1, 5, 60))} s", lines[k])
        else:
            shot = draw.choice(("slap", "one-timer", "wraparound", "tip", "backhand"))
            lines[k] = lines[k].replace("shoots", f"shoots {shot}").replace("to left", "to right")
    return "\n".join(lines)


@pytest.mark.parametrize("seed", range(45))
def test_a_mangled_library_drill_runs_or_is_refused(seed):
    draw = random.Random(seed)
    drill, faults = read_drill(changed(draw.choice(TEXTS), draw))
    if drill is None:
        assert all(one.line >= 1 and one.asked for one in faults)
        return
    assert drill_from_dict(drill_to_dict(drill)) == drill
    assert format_drill(mirror_drill(mirror_drill(drill))) == format_drill(drill)
    try:
        run = simulate(drill)
    except TendlineError:
        return  # a named refusal is as good
    check_drill(drill, run)
    for branch in run.branches:
        assert branch.period > 0
        assert all(one.gap > 0 for one in branch.releases)
        shown = tracks(run, branch.key, step=0.5)
        assert len(shown.time) == len(shown.her)
    load = run.total
    assert load.drops >= 0
    assert load.pushes_left + load.pushes_right >= 0
    assert 0.0 <= run.set_share <= 1.0
