"""The comparison as text, JSON and CSV."""

import csv
import io
import json
from pathlib import Path

import pytest

from sanitize.basis.figure import Figure
from sanitize.jobs.draw import _label
from sanitize.loopfile.read import read_plant
from sanitize.report.comparison import comparison_text
from sanitize.report.comparison_record import comparison_csv, comparison_json
from sanitize.report.comparison_words import TELLINGS, change_words, told_by_file
from sanitize.studies.comparison.described import Described
from sanitize.studies.comparison.measures import MEASURES
from sanitize.studies.comparison.result import Change, Comparison
from sanitize.studies.comparison.study import study_comparison

DEMOS = Path(__file__).resolve().parents[2] / "demos"


def described(label: str, name: str, *overrides: str) -> Described:
    def beside(path: str) -> str:
        return (DEMOS / Path(path).name).read_text(encoding="utf-8")

    loaded = read_plant(beside(name), path=name, reader=beside, overrides=overrides)
    return Described(label, name, loaded.plant, loaded.written, loaded.notices)


@pytest.fixture(scope="module")
def result() -> Comparison:
    return study_comparison([described("A", "net_loft.toml"), described("B", "net_loft_open_return.toml")], 64)


@pytest.fixture(scope="module")
def same() -> Comparison:
    return study_comparison([described("A", "reed_house.toml"), described("B", "reed_house.toml")], 16)


@pytest.mark.parametrize("width", [80, 100])
def test_comparison_text_keeps_to_the_width_and_says_everything(result: Comparison, width: int) -> None:
    text = comparison_text(result, width=width)
    assert max(len(line) for line in text.splitlines()) <= width
    flat = " ".join(text.split())
    for file in result.files:
        assert f"{file.label} {file.path}: {file.title}" in flat
        assert file.why in flat
    for item in result.cautions:
        if len(item.files) < len(result.files) or item.caution.severity == "danger":
            assert item.caution.action in flat
    for notice in result.notices:
        assert (len(notice.files) < len(result.files)) == (notice.notice.text in flat)
    for telling in TELLINGS.values():
        assert (telling.title == "Of it through the injector") != (telling.title in flat)


def test_comparison_text_begins_with_the_danger_and_the_file_that_has_it(result: Comparison) -> None:
    lines = comparison_text(result).splitlines()
    assert ["DANGER", "------", "In A:"] == lines[:3]
    assert lines[3].startswith("! ")


def test_comparison_text_tells_the_difference_in_the_words_of_the_files(result: Comparison) -> None:
    assert '\nreturn\n  nozzle_bore: A "8.5 mm"; B "20 mm"\n' in comparison_text(result)


def test_comparison_text_in_short_counts_dangers_that_came_and_went(result: Comparison) -> None:
    flat = " ".join(comparison_text(result).split())
    assert "1 danger that is a caution now." in flat
    assert "1 danger that was a caution." in " ".join(
        comparison_text(
            study_comparison([described("A", "net_loft_open_return.toml"), described("B", "net_loft.toml")], 16)
        ).split()
    )


def test_comparison_text_of_one_file_twice_says_that_nothing_differs(same: Comparison) -> None:
    text = comparison_text(same)
    assert "\nNothing differs: the same parts, the same values.\n" in text
    assert len(TELLINGS) == text.count("; as A\n") + ("Of it through the injector" not in text)
    assert "that not all files give" not in text
    assert "as much water; as much gas" in " ".join(text.split())


@pytest.mark.parametrize(
    ("difference", "tendency", "shares", "expected"),
    [
        (Figure(-3e3, -2e3, -1e3), "less", (0.0, 1.0, 1.0),
         "2.0 kPa (1.0 to 3.0) deeper than A, in >99 % of the cases"),
        (Figure(-1e3, 0.0, 1e3), "either", (0.5, 0.5, 1.0),
         "as A, within the range: from 1.0 kPa deeper to 1.0 kPa less deep; "
         "less deep in 50 %, deeper in 50 % of the cases"),
        (Figure(0.0, 0.0, 0.0), "same", (0.0, 0.0, 1.0), "as A"),
        (Figure(None, None, None), "none", (0.0, 0.0, 0.0), "in no case do both this and A have it"),
        (Figure(1e3, 2e3, 3e3), "more", (1.0, 0.0, 0.4),
         "2.0 kPa (1.0 to 3.0) less deep than A, in >99 % of the cases, of the 40 % in which both have it"),
        (Figure(0.0, 1e3, 2e3), "more", (0.9, 0.0, 1.0), "1.0 kPa (0 to 2.0) less deep than A, in 90 % of the cases"),
        (Figure(0.0, 0.0, 0.0), "either", (0.01, 0.02, 1.0),
         "mostly as A; less deep in 1 %, deeper in 2 % of the cases"),
    ],
)  # fmt: skip
def test_change_in_words(difference: Figure, tendency: str, shares: tuple[float, float, float], expected: str) -> None:
    """The sign of the port's pressure is turned: less of it is a deeper vacuum."""
    change = Change(difference, *shares, tendency)  # type: ignore[arg-type]
    assert expected == change_words(change, TELLINGS["port_pressure_closed_pa_gauge"], "metric", "A")


def test_onset_of_no_flow_is_any_flow(result: Comparison) -> None:
    (onset,) = [measure for measure in result.measures if measure.name == "onset_flow_m3s"]
    assert told_by_file(onset, result)[0].startswith("any flow (any to ")


def test_comparison_json_is_the_record(result: Comparison) -> None:
    record = json.loads(comparison_json(result))
    assert ("comparison", 1) == (record["record"], record["schema_version"])
    assert list(MEASURES) == [measure["name"] for measure in record["measures"]]
    change = record["measures"][0]["changes"][0]
    assert {"low", "nominal", "high"} == set(change["difference"])
    assert "more" == change["tendency"]
    expected = {"kind": "value", "places": ["return"], "key": "nozzle_bore", "values": ['"8.5 mm"', '"20 mm"']}
    assert [expected] == record["differences"]
    first, second = record["files"]
    assert first["draws_change"] is None
    assert second["draws_change"]["only_here_ratio"] > 0.0


def test_comparison_csv_has_a_row_for_every_file(result: Comparison) -> None:
    rows = list(csv.DictReader(io.StringIO(comparison_csv(result))))
    assert ["A", "B"] == [row["label"] for row in rows]
    flows = [float(row["flow_port_closed_nominal_m3s"]) for row in rows]
    assert ("", flows[1] - flows[0]) == (
        rows[0]["flow_port_closed_difference_nominal_m3s"],
        pytest.approx(float(rows[1]["flow_port_closed_difference_nominal_m3s"])),
    )
    assert {"port_pressure_closed_difference_low_pa_diff", "turnover_high_s", "gas_flow_tendency"} <= set(rows[0])


def test_job_labels_run_past_z() -> None:
    assert ["A", "Z", "AA", "AZ", "BA"] == [_label(number) for number in (0, 25, 26, 51, 52)]
