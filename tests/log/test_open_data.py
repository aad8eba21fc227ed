"""Several games of one goaltender from the open game data; skipped where the data are absent.

Counts are by hand: with a spreadsheet-like count over the file's own columns, not our code.
"""

import csv
from datetime import date
from pathlib import Path

import pytest

from tendline.base import ScoringSituation
from tendline.log import (
    findings,
    fitting,
    import_table,
    read_table,
    ready_mappings,
    records_of,
    replay,
    text_of,
)

DATA = Path(__file__).resolve().parents[3] / "shared" / "data"
pytestmark = pytest.mark.skipif(not DATA.exists(), reason="the open game data are not here")
DAY = date(2026, 11, 25)


def bring(name, **more):
    table = read_table(text_of((DATA / name).read_bytes()))
    mapping = fitting(table.columns, ready_mappings())
    read = import_table(table, mapping, day=DAY, **more)
    return read, [replay(one.events, game=one.id) for one in read.games]


def rows(name):
    with (DATA / name).open(newline="") as file:
        return list(csv.DictReader(file))


def test_one_goaltenders_games_from_the_shots_file():
    _, games = bring("shots_pw24.csv", goaltenders=["pw24-k11"])
    hers = [
        r for r in rows("shots_pw24.csv") if r["goaltender"] == "pw24-k11" and r["empty_net"] == "0"
    ]
    found = records_of(games, "pw24-k11")
    assert found.total.shots == len(hers)
    assert found.total.goals == sum(r["outcome"] == "goal" for r in hers)
    assert found.games == len({r["game"] for r in hers})
    assert findings([s for g in games for s in g.shots_of("pw24-k11")]).goals == found.total.goals


@pytest.mark.parametrize("name", ["events_wo22.csv", "events_wi23.csv", "events_mp2x.csv"])
def test_event_streams_keep_every_shot_and_know_the_play_before(name):
    read, games = bring(name)
    shots = [r for r in rows(name) if r["event"] == "shot"]
    assert sum(one.shots for one in read.games) == len(shots)
    assert read.left_out == ()
    found = [s for g in games for s in g.shots]
    assert sum(s.is_goal for s in found) == sum(r["outcome"] == "goal" for r in shots)
    said = [s for s in found if s.situation is not None]
    assert len(said) == len(found)
    across = sum(s.situation is ScoringSituation.EAST_WEST for s in said)
    assert 0.10 < across / len(said) < 0.30


def test_tracked_events_place_the_goaltender_in_front_of_her_goal():
    _, games = bring("tracked_events_st23.csv")
    depths = sorted(
        s.context.goaltender_x for g in games for s in g.shots if s.context.goaltender_x is not None
    )
    assert len(depths) > 150
    # published beside the data: median depth 1.05-1.3 m after the reference correction
    assert 0.7 < depths[len(depths) // 2] < 1.5
