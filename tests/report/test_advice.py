"""Advice and throats as text, JSON, CSV and picture."""

import csv
import io
import json
import re
from dataclasses import replace

import pytest

from sanitize.basis.figure import Figure
from sanitize.report.advice import advice_csv, advice_json, advice_text
from sanitize.report.advice_throat import throats_csv, throats_json, throats_text
from sanitize.report.pictures.throat import throat_figure
from sanitize.studies.advice.result import Advice, Advised, Refused, ThroatRow, Throats
from sanitize.studies.cautions.caution import Caution

LITRE = 1.0 / 60000.0
FLOW = Figure(28.0 * LITRE, 30.0 * LITRE, 31.0 * LITRE)
GAS = Figure(0.5 * LITRE, 1.5 * LITRE, 4.5 * LITRE)
DANGER = Caution("no-suction-cover", "danger", "No cover is named.", "Fit one.", "", "the local authority")
OTHER = Caution("drowning", "caution", "A child drowns without a sound.", "Watch.", "", "the local authority")


def advised(words: tuple[str, ...], share: float, ratio: float = 0.93, pump: bool = False) -> Advised:
    return Advised(
        codes=("stronger-pump",) * len(words) if pump else ("lift-injector",) * len(words),
        words=words,
        verdict="draws",
        draws_share_ratio=share,
        loaded_share_ratio=0.85,
        flow_m3s=FLOW,
        flow_ratio=ratio,
        gas_flow_m3s=GAS,
        pump_head_m=4.2 if pump else None,
        pump_flow_m3s=40.0 * LITRE if pump else None,
        brings=(),
    )


def advice(**fields: object) -> Advice:
    whole = Advice(
        title="Invented tub",
        units="metric",
        cases_count=64,
        seed=20,
        verdict="marginal",
        now_share_ratio=0.42,
        now_loaded_share_ratio=0.3,
        now_flow_m3s=FLOW,
        now_gas_flow_m3s=GAS,
        why="Its throat pulls too little.",
        tried_count=30,
        changes=(
            advised(("Lift it by 0.20 m.",), 0.999),
            advised(("Take a pump with 1.6 times its head",), 0.7, pump=True),
        ),
        pairs=(),
        refused=(Refused(("lift-injector",), ("Lift it by 0.80 m.",), 1.0, ("the loop would drain.",)),),
        never=None,
        cautions=(DANGER, OTHER),
        notices=(),
    )  # fmt: skip
    return replace(whole, **fields)


def test_advice_text_puts_the_danger_before_any_advice() -> None:
    text = advice_text(advice())
    assert text.index("DANGER") < text.index("As it is") < text.index("One change") < text.index("Cautions")


def test_advice_text_ranks_with_share_and_cost_and_never_says_100_percent() -> None:
    text = advice_text(advice())
    assert re.search(r"^1 +>99 % +85 % +30 \(28 to 31\) +93 % +1\.5 \(0\.50 to 4\.5\)$", text, re.MULTILINE)
    assert text.index(" 1  Lift it by 0.20 m.") < text.index(" 2  Take a pump")
    assert "100 %" not in text


def test_advice_text_names_a_pump_by_head_and_flow() -> None:
    assert "It has to give 4.2 m of head at 40 L/min." in advice_text(advice())
    assert "It has to give" not in advice_text(advice(changes=(advised(("Lift it.",), 0.9),)))


def test_advice_text_of_a_refused_pair_is_two_sentences() -> None:
    pair = Refused(("stronger-pump", "lift-injector"), ("Take a pump", "Lift it."), 1.0, ("it drains.",))
    assert "- Take a pump. Lift it.\n" in advice_text(advice(refused=(pair,)))


def test_advice_text_says_why_a_change_is_refused_and_what_a_loop_cannot_do() -> None:
    text = advice_text(advice(never="At no flow does it draw.", changes=()))
    assert "- Lift it by 0.80 m.\n    Not advised: The loop would drain." in text
    assert "What this loop cannot do\n------------------------\nAt no flow does it draw." in text
    assert "One change\n" not in text


def test_advice_text_tells_a_loop_that_draws_that_nothing_is_needed() -> None:
    text = advice_text(advice(changes=(), refused=(), verdict="draws", now_share_ratio=0.99))
    assert "It draws as it is; none of 30 changes that were tried betters it by much." in text


def test_advice_text_keeps_to_its_width() -> None:
    assert all(len(line) <= 100 for line in advice_text(advice()).splitlines() if "://" not in line)


def test_advice_json_is_a_record_with_version_and_ranges() -> None:
    record = json.loads(advice_json(advice()))
    assert ("advice", 1) == (record["record"], record["schema_version"])
    assert ["Lift it by 0.20 m."] == record["changes"][0]["words"]
    assert {"low", "nominal", "high"} == set(record["changes"][0]["flow_m3s"])
    assert record["never"] is None


def table(text: str) -> list[dict[str, str]]:
    return list(csv.DictReader(io.StringIO(text), strict=True))


def test_advice_csv_holds_the_loop_as_it_is_the_changes_and_what_is_not_advised() -> None:
    rows = table(advice_csv(advice(pairs=(advised(("Lift it.", "Open it."), 0.99),))))
    assert ["as it is", "one change", "one change", "two changes", "not advised"] == [row["list"] for row in rows]
    assert ["", "lift-injector", "stronger-pump", "lift-injector; lift-injector", "lift-injector"] == [
        row["changes"] for row in rows
    ]
    assert [0.42, 0.999, 0.7, 0.99, 1.0] == [float(row["draws_share_ratio"]) for row in rows]
    assert ["marginal", "draws"] == [row["verdict"] for row in rows[:2]]
    assert (30.0 * LITRE, 0.5 * LITRE) == (float(rows[1]["flow_nominal_m3s"]), float(rows[1]["gas_flow_low_m3s"]))
    assert ("4.2", "") == (rows[2]["pump_head_m"], rows[1]["pump_head_m"])
    assert ("the loop would drain.", "") == (rows[4]["reasons"], rows[4]["flow_nominal_m3s"])


def test_throats_csv_has_a_row_for_each_throat_with_its_mark() -> None:
    rows = table(throats_csv(throats()))
    assert [("0.007", "no"), ("0.009", "take"), ("0.01", "present")] == [(row["throat_m"], row["mark"]) for row in rows]
    assert "It leaves 62 % of the present water flow." == rows[0]["objections"]
    assert 35.0 * LITRE == float(rows[1]["flow_nominal_m3s"])


def throats(take_m: float | None = 0.009) -> Throats:
    def row(throat_m: float, flow: float, objections: tuple[str, ...]) -> ThroatRow:
        water = Figure(0.9 * flow * LITRE, flow * LITRE, 1.1 * flow * LITRE)
        return ThroatRow(throat_m, 0.999, water, flow / 40.0, GAS, objections)

    rows = (
        row(0.007, 25.0, ("It leaves 62 % of the present water flow.",)),
        row(0.009, 35.0, ()),
        row(0.010, 40.0, ()),
    )
    return Throats("Invented tub", "metric", 64, 20, 0.010, 0.8, rows, take_m, "Take it.", (DANGER, OTHER), ())


def test_throats_text_marks_what_to_take_and_what_not() -> None:
    text = throats_text(throats())
    assert text.index("DANGER") < text.index("Which throat")
    assert re.search(r"^9\.0 .*88 % +>99 % +take$", text, re.MULTILINE)
    assert re.search(r"^7\.0 .*62 % +>99 % +no$", text, re.MULTILINE)
    assert re.search(r"^10 .* +present$", text, re.MULTILINE)
    assert "- 7.0 mm: It leaves 62 % of the present water flow." in text


def test_throats_json_is_a_record() -> None:
    record = json.loads(throats_json(throats()))
    assert ("throats", 1, 0.009) == (record["record"], record["schema_version"], record["take_m"])
    assert 3 == len(record["rows"])


def test_throat_picture_draws_both_strips_with_the_throat_to_take_and_the_least_flow() -> None:
    upper, lower = throat_figure(throats()).axes
    lines = {axes: {line.get_gid(): line for line in axes.lines} for axes in (upper, lower)}
    assert [7.0, 9.0, 10.0] == pytest.approx(list(lines[upper]["nominal"].get_xdata()))
    assert [25.0, 35.0, 40.0] == pytest.approx(list(lines[lower]["nominal"].get_ydata()))
    assert [9.0, 10.0] == pytest.approx(list(lines[upper]["acceptable"].get_xdata()))
    assert [7.0] == pytest.approx(list(lines[upper]["not acceptable"].get_xdata()))
    assert 9.0 == pytest.approx(lines[lower]["take"].get_xdata()[0])
    assert 32.0 == pytest.approx(lines[lower]["least flow"].get_ydata()[0])
    assert ("gas, line open [L/min]", "water, line open [L/min]") == (upper.get_ylabel(), lower.get_ylabel())


def test_throat_picture_without_a_throat_to_take_marks_none() -> None:
    upper, lower = throat_figure(throats(None)).axes
    assert "take" not in {line.get_gid() for axes in (upper, lower) for line in axes.lines}
    assert "dashes: take" not in lower.get_xlabel()
