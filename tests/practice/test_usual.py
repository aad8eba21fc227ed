"""What is usual for a goaltender, and plans that stay near it (expected values by hand)."""

from dataclasses import replace

from tendline.base import Settings
from tendline.practice import (
    Load,
    PracticeRules,
    Roster,
    RosterGoaltender,
    SegmentKind,
    plan_practice,
    validate,
)
from tendline.practice.fitting import fewest_stations, misfits
from tendline.practice.usual import mean_load, shot_budgets, usual_loads
from tendline.practice.ways import ways_of
from tests.practice.samples import (
    ARC,
    BEA,
    CORNER_WITH_NET,
    CYN,
    DROP,
    GAME,
    IDA,
    LIBRARY,
    LONG,
    SECOND,
    block_request,
    evening,
    practice_request,
)

RULES = PracticeRules()
PAST = (
    Load(shots=20, drops=30, hard_stops=40, recoveries=10),
    Load(shots=30, drops=30, hard_stops=20, recoveries=10),
)
EVA = RosterGoaltender(id="eva", name="Eva", game_shots=20.0, past=PAST)
FAY = RosterGoaltender(id="fay", name="Fay", game_shots=10.0)
FREE = Settings.of({"practice.weight.load": 0, "practice.weight.shot": 0})


def roster(*goaltenders):
    return Roster(goaltenders=goaltenders, skaters=16, helpers=1)


def test_her_own_past_decides_then_the_others_then_her_games():
    own, other = usual_loads(roster(EVA, FAY), RULES)
    assert own.most == Load(shots=37.5, drops=45, hard_stops=45, recoveries=15)  # 1.5 x the mean
    assert own.basis == "1.5 times her own last practices"
    assert other.most == own.most
    assert "others" in other.basis
    (alone,) = usual_loads(roster(FAY), RULES)
    assert alone.most == Load(shots=12.5, drops=25, hard_stops=25, recoveries=25)
    assert "10 shots each" in alone.basis
    assert usual_loads(roster(CYN), RULES) == ()


def test_the_coachs_own_factor_is_taken():
    (own,) = usual_loads(roster(EVA), PracticeRules(load_of_past=2))
    assert own.most.shots == 50


def test_only_counts_above_the_usual_are_named_and_unknown_ones_are_not_compared():
    (own,) = usual_loads(roster(replace(EVA, past=(Load(shots=20, drops=0),))), RULES)
    assert own.over(Load(shots=32, drops=99)) == (("shots", 32.0, 30.0),)
    assert own.over(Load(shots=31)) == ()  # within 5 in 100
    assert mean_load(()) is None


def test_a_plan_stays_near_her_own_past_and_would_not_without_the_wish():
    request = practice_request(roster=roster(EVA, FAY))
    own, _ = usual_loads(request.roster, RULES)
    near = plan_practice(request, LIBRARY)
    far = plan_practice(request, LIBRARY, settings=FREE)
    assert own.over(near.loads[0].load) == ()
    assert {kind for kind, _, _ in own.over(far.loads[0].load)} >= {"shots", "hard_stops"}
    assert any("within what is usual (1.5 times her own" in one for one in near.reasons)
    assert near.is_proven_best


def test_the_sheet_says_what_could_not_be_kept_with_the_checkers_figures():
    little = replace(EVA, past=(Load(shots=2, drops=2, hard_stops=2, recoveries=2),))
    request = practice_request(roster=roster(little))
    sheet = plan_practice(request, LIBRARY)
    reason = next(one for one in sheet.reasons if "could not keep" in one)
    (v12,) = (one for one in sheet.checks if one.rule == "V12")
    assert not v12.kept
    shots = f"shots {sheet.loads[0].load.shots:.0f} against 3"
    assert shots in reason
    assert shots in v12.text


def test_the_checker_adds_the_lines_up_again():
    request = practice_request(roster=roster(EVA))
    sheet = plan_practice(request, LIBRARY)
    false = replace(sheet.loads[0], load=replace(sheet.loads[0].load, shots=1))
    checks = validate(replace(sheet, loads=(false,)), request, LIBRARY)
    v12 = next(one for one in checks if one.rule == "V12")
    assert (
        f"the lines add up to {sheet.loads[0].load.shots:.0f} shots, the sheet says 1" in v12.text
    )


def test_ways_go_from_all_nets_at_the_drills_rhythm_to_one_net_at_half():
    request = practice_request(roster=roster(EVA, FAY))
    ways = ways_of(LONG, request, RULES, with_team=True)
    assert [(one.places, one.rhythm, one.left_out) for one in ways] == [
        (2, 1.0, 0), (2, 1.5, 0), (2, 2.0, 0), (1, 1.0, 1), (1, 1.5, 1), (1, 2.0, 1),
    ]  # fmt: skip
    # a shift of 60 s is never made slower than 60 s from start to start
    assert {one.rhythm for one in ways_of(GAME, request, RULES, with_team=True)} == {1.0}
    still = replace(ARC, load=Load())
    assert [one.rhythm for one in ways_of(still, request, RULES, with_team=False)] == [1.0]


def test_a_drill_for_two_goaltenders_keeps_two_in_nets():
    request = practice_request(roster=roster(EVA, FAY))
    two = replace(LONG, goaltenders_low=2)
    assert {one.places for one in ways_of(two, request, RULES, with_team=True)} == {2}


def test_slower_starts_stand_in_her_line_and_in_the_reasons():
    request = practice_request(roster=roster(EVA), slot=evening(minutes=25), needs=())
    sheet = plan_practice(request, (ARC, DROP, replace(LONG, load=Load(shots=3))))
    (team,) = (one for one in sheet.segments if one.kind is SegmentKind.TEAM)
    assert "a start every 20 s" in team.lines[0].text  # own rhythm 3 + 7 s, twice as slow
    assert any("every 20 s instead of 10 s" in one for one in team.reasons)
    # 16 skaters, four at once at the one net: four starts of 20 s
    assert any("16 skaters has a turn about every 80 s" in one for one in team.reasons)


def test_three_may_take_turns_at_the_one_net_with_the_one_person_there():
    three = Roster(goaltenders=(EVA, FAY, CYN), skaters=16, helpers=2)
    request = block_request(roster=three, slot=evening(minutes=10, block_space=CORNER_WITH_NET))
    assert fewest_stations(SECOND, 3) == 1
    assert fewest_stations(replace(SECOND, goaltenders_high=1), 3) == 3
    assert fewest_stations(SECOND, 4) == 2
    assert misfits(SECOND, request, RULES, with_team=False) == ()
    sheet = plan_practice(request, (ARC, SECOND))
    segment = next(one for one in sheet.segments if one.drill_id == "second")
    assert {line.station for line in segment.lines} == {"net"}
    assert len({line.repetitions for line in segment.lines}) == 1
    assert all(line.longest_wait >= 2 * SECOND.work for line in segment.lines)


def test_three_nets_are_never_planned_where_two_stand():
    three = replace(GAME, id="three", nets_low=3, nets_high=3, goaltenders_low=3)
    request = practice_request(roster=roster(EVA, FAY, CYN))
    sheet = plan_practice(request, (*LIBRARY, three))
    assert "three" not in {one.drill_id for one in sheet.segments}
    assert all(one.nets <= 2 for one in sheet.segments)


def over_budget(sheet, request, rules) -> float:
    budgets = shot_budgets(request.roster, rules)
    return sum(
        max(0.0, one.load.shots - budgets[one.goaltender_id])
        for one in sheet.loads
        if one.goaltender_id in budgets
    )


def test_the_budget_of_shots_is_hers_and_only_where_her_games_are_known():
    roster = Roster(goaltenders=(IDA, BEA, CYN))
    # By hand: 1.25 times 27 and 25 shots a game; Cyn has no games.
    assert shot_budgets(roster, RULES) == {"ida": 33.75, "bea": 31.25}


def test_the_dearer_a_shot_too_many_the_nearer_the_plan_is_to_her_games():
    request, rules = practice_request(), RULES
    over = [
        over_budget(
            plan_practice(request, LIBRARY, settings=Settings.of({"practice.weight.shot": price})),
            request,
            rules,
        )
        for price in (0, 30, 200)
    ]
    assert over[0] > over[1] >= over[2]
    assert over[2] == 0.0
    assert all(one >= 0.0 for one in over)


def test_a_net_left_out_says_how_long_each_skater_then_waits():
    sheet = plan_practice(
        practice_request(), LIBRARY, settings=Settings.of({"practice.weight.shot": 200})
    )
    reasons = [line for one in sheet.segments for line in one.reasons if "could be used" in line]
    assert reasons
    assert all("skaters has a turn about every" in line for line in reasons)
