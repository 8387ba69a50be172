"""What a difference does: facts of the trade as directions, shared draws, readings, cautions and hazards."""

from collections.abc import Callable

import numpy as np
import pytest

from sanitize.basis.errors import InputError, NoSolutionError
from sanitize.studies.comparison.described import Described
from sanitize.studies.comparison.measures import MEASURES, change
from sanitize.studies.comparison.result import Comparison
from sanitize.studies.comparison.study import study_comparison
from sanitize.studies.suction.study import study_suction

FileOf = Callable[..., Described]
CASES = 64
ELBOWS = 'THIS, {part = "elbow 90", count = 4}'
SWEPT = 'THIS, {part = "sweep elbow 90", count = 4}'
VALVE = 'THIS, {{part = "throttle valve", handle = "{}"}}'
FLOW, PORT, OUTLET = "flow_port_closed_m3s", "port_pressure_closed_pa_gauge", "injector_outlet_pressure_pa_gauge"


def tendencies(result: Comparison, number: int = 0) -> dict[str, str]:
    return {measure.name: measure.changes[number].tendency for measure in result.measures}


def compared(one: Described, other: Described, cases: int = CASES) -> Comparison:
    return study_comparison([one, other], cases)


def test_same_file_twice_does_the_same_in_every_case(file_of: FileOf) -> None:
    result = compared(file_of("A"), file_of("B"))
    assert () == result.differences == result.states == result.hazards
    assert dict.fromkeys(MEASURES, "same") == tendencies(result)
    assert [(0.0, 0.0, 0.0)] * len(MEASURES) == [measure.changes[0].difference.ends for measure in result.measures]
    assert {("A", "B")} == {item.files for item in (*result.cautions, *result.notices)}
    change_of = result.files[1].draws_change
    assert change_of is not None
    assert (0.0, 0.0) == (change_of.only_here_ratio, change_of.only_first_ratio)


@pytest.mark.parametrize(
    ("one", "other", "expected"),
    [
        ({"between": ELBOWS}, {}, {FLOW: "more", "turnover_s": "less"}),
        ({}, {"back": ("3.0 m", "1.0 m")},
         {FLOW: "more", PORT: "less", OUTLET: "less"}),
        ({}, {"injector": ("0.55 m", "0.85 m")}, {PORT: "less"}),
        ({}, {"injector": ("15 mm", "12 mm")},
         {FLOW: "less", PORT: "less", "pump_head_m": "more"}),
        ({"between": VALVE.format("10 deg")}, {"between": VALVE.format("50 deg")},
         {FLOW: "less", PORT: "more", "pump_head_m": "more"}),
        ({}, {"tub": ("400 L", "500 L")}, {FLOW: "same", "turnover_s": "more"}),
        ({}, {"pump": ('"4 m"', '"4.5 m"')}, {FLOW: "more", "pump_head_m": "more"}),
    ],
    ids=["no elbows", "short return", "injector lifted", "small throat", "valve shut", "larger tub", "strong pump"],
)  # fmt: skip
def test_change_moves_what_the_trade_knows_that_it_moves(
    file_of: FileOf, one: dict[str, str], other: dict[str, str], expected: dict[str, str]
) -> None:
    """Common practice, no source: what is easier to flow through passes more; a narrower throat pulls more."""
    found = tendencies(compared(file_of(**one), file_of("B", **other)))
    assert expected == {name: found[name] for name in expected}


def test_swept_elbows_pass_more_but_their_ranges_overlap(file_of: FileOf) -> None:
    """Of 1 in (darby_2001 and the others of the table): elbow 0.65, 0.73, 1.5; swept 0.31, 0.40, 0.76, drawn apart."""
    flow = compared(file_of(between=ELBOWS), file_of("B", between=SWEPT), 256).measures[0].changes[0]
    assert flow.difference.ends[1] > 0.0
    assert 0.9 < flow.more_ratio < 1.0
    assert 1.0 == pytest.approx(flow.more_ratio + flow.less_ratio)


def test_larger_tub_takes_longer_in_the_ratio_of_its_volume(file_of: FileOf) -> None:
    """500 L over 400 L: a quarter longer, in every case."""
    result = compared(file_of(), file_of("B", tub=("400 L", "500 L")))
    (turnover,) = [measure for measure in result.measures if measure.name == "turnover_s"]
    expected = 0.25 * np.array(turnover.values[0].ends)
    assert expected.tolist() == pytest.approx(list(turnover.changes[0].difference.ends), rel=1e-9)


def test_difference_of_shared_cases_is_narrower_than_either_range(file_of: FileOf) -> None:
    result = compared(file_of(), file_of("B", back=("3.0 m", "2.8 m")))
    flow = result.measures[0]
    low, _, high = flow.changes[0].difference.ends
    widths = [value.ends[2] - value.ends[0] for value in flow.values]
    assert high - low < 0.2 * min(widths)
    assert "more" == flow.changes[0].tendency


def test_part_with_another_name_shares_its_cases_all_the_same(file_of: FileOf) -> None:
    result = compared(file_of(), file_of("B", between=('"riser"', '"lift"')))
    assert ["name"] == [item.kind for item in result.differences]
    assert dict.fromkeys(MEASURES, "same") == tendencies(result)


def test_figures_are_those_of_the_suction_study(file_of: FileOf) -> None:
    """The first file's to the last digit, the second's nominal case: the same numbers by another command."""
    one, other = file_of(), file_of("B", back=("3.0 m", "1.0 m"))
    result = compared(one, other)
    alone, beside = study_suction(one.plant, CASES), study_suction(other.plant, CASES)
    for measure in result.measures:
        assert getattr(alone, measure.name) == measure.values[0]
        assert getattr(beside, measure.name).nominal == pytest.approx(measure.values[1].nominal, rel=1e-9)
    assert alone.draws_share_ratio == result.files[0].draws_share_ratio
    nominal = beside.flow_port_closed_m3s.ends[1] - alone.flow_port_closed_m3s.ends[1]
    assert nominal == pytest.approx(result.measures[0].changes[0].difference.ends[1], rel=1e-9)


def test_shares_of_cases_in_which_only_one_draws_add_up(file_of: FileOf) -> None:
    """Share of B = share of A + only B - only A, over the same cases."""
    result = compared(file_of(), file_of("B", back=("3.0 m", "0.8 m")))
    here = result.files[1].draws_change
    assert here is not None
    expected = result.files[0].draws_share_ratio + here.only_here_ratio - here.only_first_ratio
    assert expected == pytest.approx(result.files[1].draws_share_ratio)
    assert here.only_here_ratio > 0.0


@pytest.mark.parametrize(
    ("first", "other", "tendency", "ratios"),
    [
        ([1.0, 1.0, 1.0, 1.0, 1.0], [2.0, 2.0, 3.0, 2.0, 2.0], "more", (1.0, 0.0, 1.0)),
        ([1.0, 1.0, 1.0, 1.0, 1.0], [0.5, 0.5, 0.9, 0.5, 0.5], "less", (0.0, 1.0, 1.0)),
        ([1.0, 1.0, 1.0, 1.0, 1.0], [1.0, 2.0, 0.5, 2.0, 2.0], "either", (0.75, 0.25, 1.0)),
        ([1.0, 1.0, 1.0, 1.0, 1.0], [2.0, 1.0, 1.0, 2.0, 2.0], "more", (0.5, 0.0, 1.0)),
        ([1.0, 1.0, 1.0, 1.0, 1.0], [1.0, 1.0, 1.0, 0.5, 0.5], "less", (0.0, 0.5, 1.0)),
        ([1.0, 2.0, 3.0, 4.0, 5.0], [1.0, 2.0, 3.0, 4.0, 5.0], "same", (0.0, 0.0, 1.0)),
        ([1.0, np.inf, np.nan, 1.0, 1.0], [2.0, 2.0, 2.0, np.inf, 2.0], "more", (1.0, 0.0, 0.25)),
        ([np.nan, np.nan, np.inf, 1.0, 1.0], [2.0, 2.0, 2.0, np.inf, np.nan], "none", (0.0, 0.0, 0.0)),
    ],
)  # fmt: skip
def test_change_over_cases_by_hand(
    first: list[float], other: list[float], tendency: str, ratios: tuple[float, float, float]
) -> None:
    """Case 0 is nominal and counts in no share; what one of the two does not have is not compared."""
    found = change("pump_head_m", np.array(first), np.array(other))
    assert (tendency, ratios) == (found.tendency, (found.more_ratio, found.less_ratio, found.compared_ratio))


def test_gas_flows_differ_by_as_wide_a_factor_as_they_have() -> None:
    """1 and 3 L/min in every case, a factor of 3 either way: the difference of 2 lies between 2/3 and 6."""
    found = change("gas_flow_m3s", np.full(5, 1.0), np.full(5, 3.0)).difference
    assert (2.0 / 3.0, 2.0, 6.0) == pytest.approx(found.ends)
    less = change("gas_flow_m3s", np.full(5, 3.0), np.full(5, 1.0)).difference
    assert (-6.0, -2.0, -2.0 / 3.0) == pytest.approx(less.ends)


def test_danger_that_goes_stands_with_the_file_that_has_it(file_of: FileOf) -> None:
    """The water stands at 0.80 m: over the line's highest point in A, far below it in B, where no state reaches it."""
    low = """
[gas_line]
length = "1.6 m"
bore = "4 mm"
check_valve_opens_at = "1.5 kPa"
highest_point = "0.75 m"
[ozone]
output = "90 mg/h"
at_gas_flow = "8 L/min"
height = "0.70 m"
"""
    high = ("1.90 m", "9.00 m")
    result = compared(file_of(tables=low), file_of("B", tables=high))
    found = {
        item.caution.severity: item.files for item in result.cautions if item.caution.code == "water-reaches-ozone-unit"
    }
    assert {"danger": ("A",)} == found
    assert {"off", "running", "returns shut"} >= {state.state for state in result.states} > set()
    brought = {(item.hazard, item.severity): item.faults for item in result.hazards}
    assert () == brought["water-in-ozone-unit", "danger"][1]
    assert "gas check valve leaking" in brought["water-in-ozone-unit", "danger"][0]


def test_readings_of_the_first_file_narrow_the_others(file_of: FileOf) -> None:
    read = 'THIS\n[measured]\nbucket_flow = "72 L/min +- 1 L/min"\n'
    result = compared(file_of(tables=read), file_of("B", tables=read, back=("3.0 m", "2.0 m")), 64)
    free = compared(file_of(), file_of("B", back=("3.0 m", "2.0 m")), 64)
    widths = [[value.ends[2] - value.ends[0] for value in one.measures[0].values] for one in (result, free)]
    assert widths[0][0] < widths[1][0]
    assert widths[0][1] < widths[1][1]
    assert (True, True) == tuple(file.same_cases for file in result.files)
    assert [("B",)] == [item.files for item in result.notices if item.notice.code == "readings-of-the-first-file"]


def test_part_that_the_readings_do_not_know_keeps_its_range(file_of: FileOf) -> None:
    read = 'THIS\n[measured]\nbucket_flow = "72 L/min +- 1 L/min"\n'
    drop = 'THIS, {part = "known drop", drop = "10 kPa (1 kPa to 30 kPa)", at_flow = "60 L/min"}'
    flow = compared(file_of(tables=read), file_of("B", tables=read, between=drop)).measures[0]
    first, other = (value.ends[2] - value.ends[0] for value in flow.values)
    assert other > 3.0 * first


def test_readings_of_its_own_give_a_file_cases_of_its_own(file_of: FileOf) -> None:
    read = 'THIS\n[measured]\nbucket_flow = "72 L/min +- 2 L/min"\n'
    result = compared(file_of(), file_of("B", tables=read))
    assert (True, False) == tuple(file.same_cases for file in result.files)
    assert [("B",)] == [item.files for item in result.notices if item.notice.code == "cases-not-shared"]
    assert tendencies(result)["flow_port_closed_m3s"] in ("either", "more", "less")


def test_file_without_injector_is_named(file_of: FileOf) -> None:
    with pytest.raises(InputError, match=r"B\.toml: loop: no injector"):
        compared(file_of(), file_of("B", injector="", tables=""))


def test_file_without_solution_is_named(file_of: FileOf) -> None:
    high = ("0.50 m", "7.0 m")
    with pytest.raises(NoSolutionError, match=r"B\.toml: The pump cannot lift"):
        compared(file_of(), file_of("B", back=high))


def test_one_case_has_no_ranges(file_of: FileOf) -> None:
    result = compared(file_of(), file_of("B", back=("3.0 m", "1.0 m")), 0)
    low, nominal, high = result.measures[0].changes[0].difference.ends
    assert low == nominal == high > 0.0


def test_less_than_two_loops_are_no_comparison(file_of: FileOf) -> None:
    with pytest.raises(ValueError, match="two loops or more"):
        study_comparison([file_of()], 0)
