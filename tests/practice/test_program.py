"""Both solvers on small problems with known answers (all by hand)."""

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from tendline.practice import (
    CpSatSolver,
    ExhaustiveSolver,
    PlanWeights,
    PracticeRules,
    Program,
    Row,
    Status,
)
from tendline.practice.choosing import make_menu
from tests.practice.samples import ARC, DROP, LADDER, SECOND, block_request

SOLVERS = [CpSatSolver(), ExhaustiveSolver()]


def name(solver):
    return type(solver).__name__


def all_rows(*rows):
    return tuple(rows)


KNAPSACK = Program(
    gain=(6, 5, 4),
    rows=all_rows(Row(rule="weight", terms=((0, 3), (1, 2), (2, 2)), high=4)),
)


@pytest.mark.parametrize("solver", SOLVERS, ids=name)
def test_best_choice_of_a_small_knapsack(solver):
    choice = solver.choose(KNAPSACK)
    assert choice.status is Status.BEST
    assert choice.chosen == {1, 2}  # by hand: 5 + 4 = 9 beats 6
    assert choice.value == 9


@pytest.mark.parametrize("solver", SOLVERS, ids=name)
def test_a_soft_row_costs_its_penalty_for_each_unit(solver):
    soft = Program(
        gain=(6, 5, 4),
        rows=(Row(rule="weight", terms=((0, 3), (1, 2), (2, 2)), high=4, penalty=1),),
    )
    choice = solver.choose(soft)
    assert choice.chosen == {0, 1, 2}  # by hand: 15 - 3 = 12, better than 9
    assert choice.value == 12


@pytest.mark.parametrize("solver", SOLVERS, ids=name)
def test_impossible_is_said_and_the_least_stretch_found(solver):
    program = Program(
        gain=(1, 1),
        rows=(
            Row(rule="both", terms=((0, 1), (1, 1)), low=2),
            Row(rule="room", terms=((0, 3), (1, 4)), high=5),
        ),
    )
    assert solver.choose(program).status is Status.IMPOSSIBLE
    assert solver.stretch(program, frozenset({"room"})).amount == 2  # by hand: 7 - 5
    assert solver.stretch(program, frozenset({"both"})).amount == 1
    assert solver.stretch(program, frozenset()).status is Status.IMPOSSIBLE


small_rows = st.builds(
    lambda terms, low, high, penalty: Row(
        rule="r", terms=tuple(dict(terms).items()), low=low, high=high, penalty=penalty
    ),
    st.lists(st.tuples(st.integers(0, 5), st.integers(-4, 4)), min_size=1, max_size=4),
    st.one_of(st.none(), st.integers(-3, 3)),
    st.one_of(st.none(), st.integers(-3, 5)),
    st.one_of(st.none(), st.integers(0, 5)),
)


@settings(deadline=None, max_examples=40)
@given(st.lists(st.integers(-9, 9), min_size=6, max_size=6), st.lists(small_rows, max_size=4))
def test_both_solvers_agree_on_the_value(gain, rows):
    program = Program(gain=tuple(gain), rows=tuple(rows))
    ours, twin = CpSatSolver().choose(program), ExhaustiveSolver().choose(program)
    assert ours.status is twin.status
    assert ours.value == twin.value
    if ours.is_usable:
        assert program.is_kept_by(ours.chosen)
        assert program.value_of(ours.chosen) == ours.value


def test_both_solvers_agree_on_a_real_block():
    rules = PracticeRules(longest_rhythm=1)
    menu = make_menu(block_request(), (ARC, DROP, SECOND, LADDER), rules, PlanWeights())
    assert 6 < menu.program.size <= 20
    ours, twin = CpSatSolver().choose(menu.program), ExhaustiveSolver().choose(menu.program)
    assert ours.value == twin.value
    assert ours.status is twin.status is Status.BEST


def test_the_twin_refuses_what_it_cannot_finish():
    with pytest.raises(ValueError, match="at most 26 variables, got 40"):
        ExhaustiveSolver().choose(Program(gain=(1,) * 40, rows=()))


def test_rows_of_a_rule_can_be_left_out():
    assert KNAPSACK.without({"weight"}).rows == ()
    assert CpSatSolver().choose(KNAPSACK.without({"weight"})).value == 15


def test_a_row_that_no_choice_can_keep_is_broken_by_the_worse_side():
    row = Row(rule="r", terms=((0, 1),), low=2, high=-1, penalty=1)
    assert row.broken_by(frozenset()) == 2  # 2 short of 2, 1 beyond -1
    program = Program(gain=(0,), rows=(row,))
    assert {solver.choose(program).value for solver in SOLVERS} == {-2}
