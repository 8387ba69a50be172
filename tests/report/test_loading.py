"""The answer about the days between cleanings: what is said, the record, the table and the picture's data."""

import csv
import io
import json
from dataclasses import replace

import pytest

from sanitize.basis.figure import Figure
from sanitize.report.loading import lasts_csv, lasts_json, lasts_text
from sanitize.report.pictures import lasts_picture
from sanitize.report.pictures.loading import lasts_figure
from sanitize.studies.loading.result import ChillerFlow, FilterLoading, Lasts, Limit, Moment

DAY_S = 86400.0
L_MIN = 1.0 / 60_000.0
NONE = Figure(None, None, None)


def days(low: float | None, nominal: float | None, high: float | None) -> Figure:
    return Figure(*(None if end is None else end * DAY_S for end in (low, nominal, high)))


def flow(nominal: float) -> Figure:
    return Figure(0.9 * nominal * L_MIN, nominal * L_MIN, 1.1 * nominal * L_MIN)


def moment(day: float, water: float, gas: float) -> Moment:
    return Moment(
        day * DAY_S, 1.0, 0.9, Figure(5e3, 6e3, 7e3), flow(water), flow(water), (ChillerFlow("chiller", flow(water)),),
        Figure(-5e3, -4e3, -3e3), 0.8, flow(gas), Figure(2e4, 2.1e4, 2.2e4),
    )  # fmt: skip


@pytest.fixture
def lasts() -> Lasts:
    rise = Figure(4e3, 6e3, 8e3)
    return Lasts(
        title="Shed tub",
        units="metric",
        cases_count=512,
        seed=20,
        filters=(FilterLoading("filter", "exponential", 2.5, days(20, 30, 40), True, None, None),),
        lasts_s=days(12, 21, 33),
        comes_to_an_end_ratio=1.0,
        limits=(
            Limit(
                "injector stops drawing", "injector", True, days(12, 21, None), 0.1, False, 0.7, rise, rise, flow(30)
            ),
            Limit("flow down by a fifth", "", True, days(20, 28, 40), 0.0, False, 0.3, rise, rise, flow(28)),
            Limit("gauge rule", "pump", False, NONE, 0.0, False, 0.0, NONE, NONE, NONE),
        ),
        gauge="pump",
        gauge_clean_pa_gauge=Figure(1.9e4, 2e4, 2.1e4),
        gauge_at_end_pa_gauge=Figure(2.4e4, 2.6e4, 2.8e4),
        gauge_rise_at_end_pa_diff=rise,
        gauge_rule_pa_diff=55158.0,
        gauge_rule_high_pa_diff=68948.0,
        gauge_largest_rise_pa_diff=Figure(1.9e4, 2.2e4, 2.5e4),
        gauge_rule_can_trigger=False,
        flow_clean_m3s=flow(36),
        moments=(moment(0, 36, 2), moment(15, 33, 1.5), moment(30, 27, 0.5)),
        notices=(),
        cautions=(),
    )


def said(result: Lasts) -> str:
    return " ".join(lasts_text(result).split())


def test_lasts_text_says_days_what_ends_them_and_the_gauge(lasts: Lasts) -> None:
    text = said(lasts)
    assert "21 days (12 to 33) over 512 cases (seed 20). What ends it first: injector stops drawing in 70 %" in text
    assert "flow down by a fifth in 30 %." in text
    assert "20 kPa (19 to 21) over the air with the filter clean, 26 kPa (24 to 28) when the time is over" in text
    assert "clean when it has risen by 4.0 kPa." in text
    assert "already with the filter clean in 10 % of the cases" in text
    assert "21 days (12 to never)" in text


def test_lasts_text_usual_rule_is_common_practice_that_a_small_pump_cannot_show(lasts: Lasts) -> None:
    text = said(lasts)
    assert "Pools are cleaned at 55 kPa to 69 kPa (8 to 10 psi) over the clean reading." in text
    assert "Here that sign never comes: with nothing moving the pump lifts its gauge by 25 kPa at the most" in text
    assert "filter_clean_rise_pa_diff: 55158 Pa (55158 to 68948), common practice" in text
    assert "never comes" not in said(replace(lasts, gauge_rule_can_trigger=True))


def test_lasts_text_names_the_law_and_its_source(lasts: Lasts) -> None:
    assert "[hermia_1982]" in said(lasts)
    cake = FilterLoading("filter", "cake", 2.5, days(20, 30, 40), True, Figure(1, 2, 3), Figure(1e10, 1e11, 1e13))
    text = said(replace(lasts, filters=(cake,)))
    assert "2.0 g/day (1.0 to 3.0) of dirt lie on the cloth as a cake of 1.0e+11 (1e+10 to 1e+13) m/kg" in text
    assert "[ruth_1935]" in text
    assert "[hermia_1982]" not in text


def test_lasts_text_us_units(lasts: Lasts) -> None:
    text = said(replace(lasts, units="us"))
    assert "8.0 psi to 10 psi over the clean reading" in text
    assert "kPa" not in text


def test_lasts_text_limit_from_the_start_and_gauge_that_falls(lasts: Lasts) -> None:
    """A filter before the pump: the gauge behind it falls."""
    met = replace(lasts.limits[0], time_s=NONE, met_when_clean_ratio=1.0, nominal_met_when_clean=True)
    fall = Figure(-8e3, -6e3, -4e3)
    text = said(replace(lasts, limits=(met, *lasts.limits[1:]), gauge_rise_at_end_pa_diff=fall))
    assert "Injector stops drawing Already with the filter clean." in text
    assert "Injector stops drawing: so with the filter clean, which no cleaning mends" in text
    assert "6.0 kPa (4.0 to 8.0) below its clean reading" in text
    assert "clean when it has fallen by 4.0 kPa." in text


def test_lasts_text_is_no_wider_than_asked(lasts: Lasts) -> None:
    assert 100 >= max(len(line) for line in lasts_text(lasts).splitlines())


def test_lasts_json_has_its_name_version_and_figures(lasts: Lasts) -> None:
    record = json.loads(lasts_json(lasts))
    assert (1, "lasts") == (record["schema_version"], record["record"])
    assert {"low": 12 * DAY_S, "nominal": 21 * DAY_S, "high": 33 * DAY_S} == record["lasts_s"]
    assert record["limits"][0]["time_s"]["high"] is None


def test_lasts_csv_has_a_row_a_moment(lasts: Lasts) -> None:
    rows = list(csv.DictReader(io.StringIO(lasts_csv(lasts))))
    assert [0.0, 15 * DAY_S, 30 * DAY_S] == [float(row["time_s"]) for row in rows]
    assert 27 * L_MIN == pytest.approx(float(rows[2]["flow_nominal_m3s"]))
    assert 27 * L_MIN == pytest.approx(float(rows[2]["chiller flow_nominal_m3s"]))


def test_lasts_picture_draws_days_flows_and_marks(lasts: Lasts) -> None:
    figure = lasts_figure(lasts)
    upper, middle, lower = figure.axes
    lines = {line.get_gid(): line for axes in figure.axes for line in axes.get_lines()}
    assert [0.0, 15.0, 30.0] == list(lines["flow"].get_xdata())
    assert [36.0, 33.0, 27.0] == pytest.approx(list(lines["flow"].get_ydata()))
    assert [4.0] * 3 == pytest.approx(list(lines["vacuum"].get_ydata()))
    assert [2.0, 1.5, 0.5] == pytest.approx(list(lines["gas flow"].get_ydata()))
    assert 21.0 == pytest.approx(float(lines["injector stops drawing"].get_xdata()[0]))
    assert ["water [L/min]", "vacuum, closed [kPa]", "gas, open [L/min]"] == [
        axes.get_ylabel() for axes in (upper, middle, lower)
    ]


def test_lasts_picture_leaves_a_gap_where_there_is_no_answer(lasts: Lasts) -> None:
    last = replace(lasts.moments[-1], flow_m3s=NONE, gas_flow_m3s=NONE)
    figure = lasts_figure(replace(lasts, moments=(*lasts.moments[:2], last)))
    (line,) = [line for line in figure.axes[0].get_lines() if line.get_gid() == "flow"]
    assert str(list(line.get_ydata())[-1]) == "nan"


def test_lasts_picture_is_a_file(lasts: Lasts) -> None:
    assert b"\x89PNG" == lasts_picture(lasts, "png")[:4]


def test_lasts_picture_draws_a_chiller_that_has_only_a_part_of_the_water(lasts: Lasts) -> None:
    def labels(result: Lasts) -> list[str]:
        return [str(line.get_label()) for line in lasts_figure(result).axes[0].get_lines()]

    assert "through chiller" not in labels(lasts)
    parted = [replace(item, chiller_flows=(ChillerFlow("chiller", flow(20)),)) for item in lasts.moments]
    assert "through chiller" in labels(replace(lasts, moments=tuple(parted)))


def test_lasts_text_of_one_case_has_no_range_and_no_share(lasts: Lasts) -> None:
    one = Figure(6e3, 6e3, 6e3)
    text = said(replace(lasts, cases_count=0, gauge_rise_at_end_pa_diff=one))
    assert "What ends it first: injector stops drawing" in text
    assert "which is 6.0 kPa over its clean reading" in text
