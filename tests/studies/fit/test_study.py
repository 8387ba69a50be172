"""A fit finds what made the readings, says what they cannot tell apart, and carries over to the other commands."""

import numpy as np
import pytest
from scipy.special import ndtr

from sanitize.basis.errors import InputError, NoSolutionError
from sanitize.loopfile.read import read_plant
from sanitize.report.fit import fit_text, fitted_loop_text
from sanitize.studies.draws import Draws
from sanitize.studies.fit.opened import opened
from sanitize.studies.fit.result import RELATIVE
from sanitize.studies.fit.scores import ScoredLoop
from sanitize.studies.fit.study import study_fit
from sanitize.studies.operating_point.builder import Condition
from sanitize.studies.operating_point.run import run
from sanitize.studies.suction.predicted import error_of, given
from sanitize.studies.suction.states import levels
from sanitize.studies.suction.study import study_suction
from tests.studies.fit.conftest import LOOP

READINGS = ("bucket_flow_m3s", "port_vacuum_pa", "pump_pa_gauge", "filter_drop_pa")
KEYS = {
    "bucket_flow_m3s": ("bucket_flow", 60e3, "L/min"),
    "port_vacuum_pa": ("port_vacuum", 1e-3, "kPa"),
    "pump_pa_gauge": ("pump_pressure", 1e-3, "kPa"),
    "filter_drop_pa": ("filter_drop", 1e-3, "kPa"),
}


def settings_of(values: dict[str, float]) -> tuple[str, ...]:
    """Readings with their usual error as --set would give them."""
    return tuple(
        f"measured.{KEYS[name][0]}={KEYS[name][1] * value:.6g} {KEYS[name][2]}" for name, value in values.items()
    )


def readings_at(plant, names=READINGS) -> dict[str, float]:
    """What a loop shows at nominal."""
    loop = ScoredLoop(plant, names)
    shown = loop.at(np.zeros((len(loop.inputs), 1))).readings[:, 0]
    return {name: float(value) for name, value in zip(names, shown, strict=True)}


def test_scores_of_zero_are_the_nominal_loop(plant_of) -> None:
    plant = plant_of()
    nominal = study_suction(plant, 0)
    shown = readings_at(plant)
    assert nominal.flow_port_closed_m3s.nominal == pytest.approx(shown["bucket_flow_m3s"], rel=1e-9)
    assert nominal.port_pressure_closed_pa_gauge.nominal == pytest.approx(-shown["port_vacuum_pa"], rel=1e-9)


def test_scores_move_an_input_along_its_range(plant_of) -> None:
    """A score is the normal quantile of the rank in the band, whose low end is rank 0."""
    loop = ScoredLoop(plant_of("injector.height=0.9 m (0.8 m to 1.0 m)"), ["port_vacuum_pa"])
    index = list(loop.inputs).index("injector.height")
    scores = np.zeros((len(loop.inputs), 3))
    scores[index] = [-9.0, 0.0, 0.67448975]
    heights = loop.at(scores).running.port.height_m
    assert [0.8, 0.9, 0.95] == pytest.approx(heights, abs=1e-6)


def test_fit_finds_a_worn_pump_and_a_fouled_filter(plant_of) -> None:
    """The truth stands in the file that makes the readings, outside of what a new pump's label allows."""
    truth = readings_at(plant_of("pump.head_share=0.7", "filter.fouling=2.5"))
    result = study_fit(plant_of(*settings_of(truth)), 256)
    after = {unknown.key: unknown.after for unknown in result.unknowns}
    assert after["pump.head"].low < 0.7 < after["pump.head"].high
    assert after["pump.head"].high < 0.85
    assert after["filter.fouling"].low < 2.5 < after["filter.fouling"].high
    assert all(abs(reading.miss_errors) < 1.0 for reading in result.readings)
    for reading in result.readings:
        assert reading.after.low < reading.measured < reading.after.high
        assert reading.after.high - reading.after.low < 4.0 * reading.error


def test_fit_leaves_a_healthy_pump_near_its_label(plant_of) -> None:
    truth = readings_at(plant_of("pump.head_share=0.95", "filter.fouling=1.1"))
    after = {unknown.key: unknown.after for unknown in study_fit(plant_of(*settings_of(truth)), 256).unknowns}
    assert after["pump.head"].low > 0.85
    assert after["filter.fouling"].high < 1.6


def test_spread_of_a_fit_holds_the_truth_about_as_often_as_it_says(plant_of) -> None:
    """Truths from the ranges, readings with their error: nine of ten scores lie between the 5th and 95th percentile.

    Ten loops of some eight fitted unknowns each, which are partly told together: 0.90 give or take 0.06.
    """
    random = np.random.default_rng(11)
    inside = []
    for _ in range(10):
        wide, _ = opened(plant_of())
        loop = ScoredLoop(wide, READINGS)
        truth = random.standard_normal((len(loop.inputs), 1))
        shown = dict(zip(READINGS, loop.at(truth).readings[:, 0], strict=True))
        stated = given(plant_of(*settings_of({name: float(value) for name, value in shown.items()})).measured)
        noisy = {name: band.nominal + error_of(name, band) * random.standard_normal() for name, band in stated.items()}
        result = study_fit(plant_of(*settings_of(noisy)), 128)
        cases = np.array(result.fitted.cases)
        low, high = np.percentile(cases[1:], [5.0, 95.0], axis=0)
        for column, key in enumerate(result.fitted.unknowns):
            score = truth[list(loop.inputs).index(key), 0]
            inside.append(low[column] <= score <= high[column])
    assert len(inside) > 60
    assert np.mean(inside) == pytest.approx(0.9, abs=0.08)


def test_fit_says_that_flow_alone_cannot_part_pump_and_filter(plant_of) -> None:
    thick = "filter.drop=20 kPa"
    truth = readings_at(plant_of(thick, "pump.head_share=0.8", "filter.fouling=2"), ["bucket_flow_m3s"])
    result = study_fit(plant_of(thick, *settings_of(truth)), 256)
    pair = result.together[0]
    assert {"real head of pump against its curve", "fouling of filter"} == {pair.first, pair.second}
    assert pair.correlation_ratio > 0.5
    assert pair.reading in ("filter_drop_pa", "pump_pa_gauge")
    assert 0.0 < pair.parts_ratio < 0.6


def test_fitted_file_gives_back_the_readings_and_their_narrow_ranges(plant_of) -> None:
    truth = readings_at(plant_of("pump.head_share=0.7", "filter.fouling=2.5"))
    result = study_fit(plant_of(*settings_of(truth)), 256)
    text = fitted_loop_text(result, "loop.toml")
    again = read_plant(text, path="fitted.toml", reader=lambda path: {"loop.toml": LOOP}[path]).plant
    flow = study_suction(again, 256).flow_port_closed_m3s
    error = next(item.error for item in result.readings if item.reading == "bucket_flow_m3s")
    assert truth["bucket_flow_m3s"] == pytest.approx(flow.nominal, abs=error)
    assert flow.high - flow.low < 4.0 * error
    wide = study_suction(opened(plant_of())[0], 256).flow_port_closed_m3s
    assert flow.high - flow.low < 0.5 * (wide.high - wide.low)
    assert "readings-in-the-fit" in {notice.code for notice in study_suction(again, 16).notices}


def test_fitted_cases_stay_whole_in_the_draws(plant_of) -> None:
    """Every case takes one row for all its fitted unknowns, the nominal case the first row."""
    rows = '[fitted]\nunknowns = ["pump.head", "injector.height"]\ncases = [[0.0, 1.0], [-1.0, 0.5], [-2.0, -0.5]]\n'
    plant = read_plant(LOOP + rows).plant
    draws = Draws.of_plant(plant, 64)
    run(plant, draws, Condition(levels(plant, draws)["normal"]))
    ranks = np.stack([draws.inputs[key].rank for key in ("pump.head", "injector.height")])
    allowed = ndtr(np.array([[0.0, 1.0], [-1.0, 0.5], [-2.0, -0.5]]))
    assert allowed[0] == pytest.approx(ranks[:, 0])
    picked = [int(np.argmin(np.abs(allowed - rank).sum(axis=1))) for rank in ranks.T]
    assert allowed[picked].T == pytest.approx(ranks)
    assert {0, 1, 2} == set(picked)


def test_fit_without_readings_is_refused(plant_of) -> None:
    with pytest.raises(InputError, match="there are no readings"):
        study_fit(plant_of(), 64)


def test_fit_of_a_fitted_file_is_refused(plant_of) -> None:
    rows = '[measured]\nbucket_flow = "30 L/min"\n[fitted]\nunknowns = ["pump.head"]\ncases = [[0.0]]\n'
    with pytest.raises(InputError, match="holds a fit already"):
        study_fit(read_plant(LOOP + rows).plant, 64)


def test_flow_above_what_the_pump_can_give_is_refused(plant_of) -> None:
    with pytest.raises(InputError, match=r"bucket_flow: 90 L/min is more than the pump's largest flow, 60 L/min"):
        study_fit(plant_of("measured.bucket_flow=90 L/min"), 64)


def test_pressure_that_nothing_in_the_file_explains_is_refused(plant_of) -> None:
    with pytest.raises(InputError, match=r"pump_pressure: nothing that the file allows explains 90 kPa"):
        study_fit(plant_of("measured.pump_pressure=90 kPa"), 64)


def test_reading_that_fits_badly_is_named(plant_of) -> None:
    """Flow and port vacuum of one loop, and a pump gauge that reads half as much."""
    truth = readings_at(plant_of("pump.head_share=0.9", "filter.fouling=1.5"))
    settings = [*settings_of(truth), "measured.pump_pressure=19 kPa +- 3 kPa"]
    codes = {notice.code for notice in study_fit(plant_of(*settings), 64).notices}
    assert "reading-fits-badly" in codes


def test_fitted_unknown_that_the_loop_no_longer_has_is_told(plant_of) -> None:
    rows = '[fitted]\nunknowns = ["pump.head", "old pump.head"]\ncases = [[0.0, 1.0]]\n'
    notices = {notice.code: notice.text for notice in study_suction(read_plant(LOOP + rows).plant, 16).notices}
    assert "old pump.head" in notices["fitted-but-not-there"]
    assert "pump.head" not in notices["fitted-but-not-there"].replace("old pump.head", "")


def test_reading_that_teaches_nothing_still_gives_a_file_that_reads(plant_of) -> None:
    result = study_fit(plant_of("measured.bucket_flow=30 L/min +- 300 L/min"), 64)
    assert result.fitted.unknowns
    text = fitted_loop_text(result, "loop.toml")
    read = read_plant(text, path="fitted.toml", reader=lambda path: {"loop.toml": LOOP}[path])
    assert read.plant.fitted == result.fitted
    assert "unknown-value" not in {notice.code for notice in read.notices}


def test_loop_whose_water_stands_still_is_refused(plant_of) -> None:
    shut = LOOP.replace('  {part = "return"', '  {part = "ball valve", handle = "90 deg"},\n  {part = "return"')
    with pytest.raises(NoSolutionError):
        study_fit(read_plant(shut, overrides=("measured.bucket_flow=30 L/min",)).plant, 64)


def test_loop_without_an_injector_is_fitted_by_its_flow() -> None:
    plain = "\n".join(line for line in LOOP.splitlines() if "injector" not in line).partition("[gas_line]")[0]
    result = study_fit(read_plant(plain, overrides=("measured.bucket_flow=38 L/min",)).plant, 64)
    assert result.draws_share_after_ratio is None
    assert {"pump.head"} <= set(result.fitted.unknowns)


CHILLED = (
    LOOP.replace(
        '  {part = "return", height = "0.5 m"},',
        '  {part = "chiller", drop = "9 kPa", at_flow = "35 L/min"},\n  {part = "return", height = "0.5 m"},',
    )
    + """
[chiller]
capacity = "3 kW"
rated_water = "20 degC"
rated_air = "25 degC"
[surroundings]
air_temperature = "20 degC"
"""
)


def test_drop_over_a_chiller_of_stated_capacity_is_evidence_of_the_flow() -> None:
    """The pump's share of its head is taught by the chiller's drop alone, and the water then carries it."""
    worn = read_plant(CHILLED, overrides=("pump.head_share=0.6", "filter.fouling=2")).plant
    drop = readings_at(worn, ["chiller_drop_k"])["chiller_drop_k"]
    taught = {}
    for name, value in (("worn", drop), ("sound", 0.6 * drop)):
        plant = read_plant(CHILLED, overrides=(f"measured.chiller_drop={value:.4f} degC +- 0.1 degC",)).plant
        result = study_fit(plant, 256)
        taught[name] = float(np.mean(np.array(result.fitted.cases)[1:, result.fitted.unknowns.index("pump.head")]))
    assert taught["worn"] < taught["sound"] - 0.5


def test_temperatures_of_the_readings_go_into_the_fitted_file_and_are_no_unknown() -> None:
    settings = (
        "measured.bucket_flow=20 L/min", "measured.chiller_drop=1.3 degC", "measured.water_temperature=9 degC",
        "measured.air_temperature=23 degC +- 0.5 degC",
    )  # fmt: skip
    result = study_fit(read_plant(CHILLED, overrides=settings).plant, 128)
    assert not {"water as read", "air as read"} & set(result.fitted.unknowns)
    text = fitted_loop_text(result, "loop.toml")
    again = read_plant(text, path="fitted.toml", reader=lambda path: {"loop.toml": CHILLED}[path]).plant
    assert (9.0, 23.5) == pytest.approx(
        (again.measured.water_temperature_c.nominal, again.measured.air_temperature_c.high), abs=1e-3
    )
    assert "fitted-but-not-there" not in {notice.code for notice in study_suction(again, 16).notices}


def test_bench_figures_are_told_by_how_they_moved() -> None:
    """An injector of 12 kPa to its port at 20 L/min that pulls less than its bench said."""
    bench = LOOP.replace(
        'throat = "9 mm"', 'inlet_to_port = ["20 kPa", "20 L/min"], outlet_to_port = ["15 kPa", "20 L/min"]'
    )
    assert bench != LOOP
    usual = readings_at(read_plant(bench).plant, ["port_vacuum_pa"])["port_vacuum_pa"]
    plant = read_plant(bench, overrides=(f"measured.port_vacuum={0.9 * usual / 1e3:.3f} kPa +- 0.3 kPa",)).plant
    result = study_fit(plant, 128)
    kinds = {item.label: item.kind for item in result.unknowns}
    assert RELATIVE == kinds["bench outlet to port of injector"]
    line = next(line for line in fit_text(result).splitlines() if line.startswith("bench outlet to port of injector"))
    assert "%" in line
    assert " 100 (" in line
