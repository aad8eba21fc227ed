"""A plain table of shots and its mapping, which the tests of importing share; invented."""

from datetime import date

from tendline.log import ColumnMapping, import_table, read_table, ready_mappings, replay

DAY = date(2026, 11, 25)
PLAIN = ColumnMapping(
    name="plain",
    columns={
        "game": "game", "team": "team", "goaltender": "goalie", "period": "period",
        "elapsed": "time", "x": "x", "y": "y", "result": "result", "shot_type": "type",
        "situation": "situation", "readiness": "state", "screened": "screen",
    },
    values={"result": {"G": "goal", "S": "save"}, "period": {"OT": "4"}},
)  # fmt: skip
HEAD = "game,team,goalie,period,time,x,y,result,type,situation,state,screen"
STREAM = next(one for one in ready_mappings() if one.name == "event stream")
STREAM_HEAD = (
    "game,season,period,clock_left_s,seq,team,home,skaters_own,skaters_opp,goals_own,goals_opp,"
    "player,event,kind,completed,x_m,y_m,player2,x2_m,y2_m,outcome,traffic,one_timer"
)


def table(*lines, head=HEAD):
    return read_table("\n".join([head, *lines]))


def games(read):
    return [replay(one.events, game=one.id) for one in read.games]


def one_game(*lines, mapping=PLAIN, **more):
    (game,) = games(import_table(table(*lines), mapping, day=DAY, **more))
    return game
