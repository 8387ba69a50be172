"""The simulated day as text, JSON, CSV and picture."""

import csv
import io
import json
from collections.abc import Callable
from dataclasses import replace
from itertools import pairwise
from pathlib import Path

import pytest
from matplotlib.colors import to_hex

from sanitize.basis.figure import Figure
from sanitize.loopfile.read import read_plant
from sanitize.report.day import day_text, ppm
from sanitize.report.day_record import day_columns, day_csv, day_json
from sanitize.report.pictures import day_picture
from sanitize.report.pictures.day import day_figure
from sanitize.studies.day.result import SimulatedDay
from sanitize.studies.day.study import study_day

DEMOS = Path(__file__).resolve().parents[2] / "demos"


@pytest.fixture(scope="module")
def guest_house() -> SimulatedDay:
    def read(path: str) -> str:
        return (DEMOS / Path(path).name).read_text(encoding="utf-8")

    loaded = read_plant(read("guest_house_day.toml"), path="guest_house_day.toml", reader=read)
    return study_day(loaded.plant, 16, days=2, notices=loaded.notices)


def flat(text: str) -> str:
    return " ".join(text.split())


def test_text_tells_the_day_then_water_air_and_bathers(guest_house: SimulatedDay) -> None:
    told = day_text(guest_house)
    places = [told.index(title) for title in ("The day", "Ozone in the water", "Ozone in the air", "What bathers")]
    assert sorted(places) == places
    assert "12:30-14:30, 23:30-01:30" in told
    assert max(len(line) for line in told.splitlines()) <= 100


def test_text_calls_every_wait_an_estimate(guest_house: SimulatedDay) -> None:
    told = flat(day_text(guest_house))
    assert len(guest_house.waits) == told.count("an estimate, no clearance")


def test_text_puts_dangers_first(guest_house: SimulatedDay) -> None:
    grave = replace(guest_house.cautions[0], severity="danger", text="Grave.")
    told = day_text(replace(guest_house, cautions=(grave,)))
    assert told.index("DANGER") < told.index("The day")


def test_text_without_ozone_leaves_its_blocks_out(guest_house: SimulatedDay) -> None:
    told = day_text(replace(guest_house, ways=()))
    assert "Ozone in the water\n" not in told
    assert "Ozone in the air\n" not in told
    assert "decay_at_10c_per_min" not in told


def test_text_of_a_wait_that_does_not_end_says_so(guest_house: SimulatedDay) -> None:
    endless = replace(guest_house.waits[0], wait_s=Figure(600.0, None, None), worst_s=None)
    assert "not before it runs again" in day_text(replace(guest_house, waits=(endless,)))


def test_text_of_a_wait_tells_its_worst_end(guest_house: SimulatedDay) -> None:
    """Also where nothing within the range is above the limit; only a worst end of nothing is "never"."""
    none = Figure(0.0, 0.0, 0.0)

    def told(wait: Figure, worst_s: float | None) -> str:
        return flat(
            day_text(replace(guest_house, waits=(replace(guest_house.waits[0], wait_s=wait, worst_s=worst_s),)))
        )

    assert "is never above it while the ozone is off" in told(none, 0.0)
    assert "is not above it while the ozone is off; at the worst end it is below from 20 min after" in told(
        none, 1200.0
    )
    assert "at the worst end not before it runs again" in told(Figure(60.0, 120.0, 600.0), None)


def test_ppm_tells_what_no_meter_shows() -> None:
    assert "less than 0.001 ppm" == ppm(Figure(0.0, 0.0, 5e-4))


def test_json_holds_every_field_and_its_version(guest_house: SimulatedDay) -> None:
    record = json.loads(day_json(guest_house))
    assert (1, "day") == (record["schema_version"], record["record"])
    assert {"low", "nominal", "high"} == set(record["room_peak_ppmv"])
    assert len(guest_house.moments) == len(record["moments"])


def test_csv_has_a_row_a_moment_and_empty_cells_where_nothing_is(guest_house: SimulatedDay) -> None:
    rows = list(csv.DictReader(io.StringIO(day_csv(guest_house))))
    assert day_columns() == list(rows[0])
    assert len(guest_house.moments) == len(rows)
    for row in rows:
        assert ("" == row["face_nominal_ppmv"]) == ("true" == row["lid"])


def test_picture_draws_the_room_its_limits_and_what_runs(guest_house: SimulatedDay) -> None:
    figure = day_figure(guest_house)
    switches, water, air = figure.axes[:3]
    assert ["lid closed", "bathing", "ozone", "pump"] == [label.get_text() for label in switches.get_yticklabels()]
    lines = {line.get_gid(): line for line in (*water.lines, *air.lines)}
    drawn = lines["room, with its range"].get_ydata()
    nominal = [moment.room_ppmv.ends[1] for moment in guest_house.moments if moment.room_ppmv is not None]
    assert [max(value, 1e-3) for value in nominal] == pytest.approx(list(drawn))
    assert 0.05 == pytest.approx(lines["entry limit"].get_ydata()[0])
    assert {"0.1 ppm: ceiling at work", "over the open water", "under the closed lid"} <= set(lines)
    assert {"#111111"} == {to_hex(line.get_color()) for line in lines.values()}


def test_picture_words_of_neighbouring_limits_keep_apart(guest_house: SimulatedDay) -> None:
    """Measured on the canvas: they stand in the margin, where no curve runs, and touch neither edge nor each other."""
    figure = day_figure(guest_house)
    figure.draw_without_rendering()
    air = figure.axes[2]
    boxes = {text.get_text(): text.get_window_extent() for text in air.texts}
    assert 3 == len(boxes)
    for words, box in boxes.items():
        assert air.get_window_extent().x1 < box.x0 < box.x1 < figure.bbox.x1, words
        assert not any(box.overlaps(other) for name, other in boxes.items() if name != words)


def test_picture_of_the_air_over_the_water_jumps_with_the_switch(guest_house: SimulatedDay) -> None:
    """At one and the same hour two readings: before the switch and after it."""
    (line,) = (one for one in day_figure(guest_house).axes[2].lines if one.get_gid() == "over the open water")
    hours = list(line.get_xdata())
    switched = [
        after.time_s / 3600.0
        for before, after in pairwise(guest_house.moments)
        if (before.pump, before.ozone, before.bathing) != (after.pump, after.ozone, after.bathing)
    ]
    assert switched
    assert all(2 == hours.count(hour) for hour in switched)


def test_picture_has_a_strip_for_the_other_oxidant_and_for_the_chiller(guest_house: SimulatedDay) -> None:
    strips: Callable[[SimulatedDay], int] = lambda result: len(day_figure(result).axes)  # noqa: E731
    here = strips(guest_house)
    assert here - 1 == strips(replace(guest_house, kept="none"))
    assert here - 1 == strips(replace(guest_house, chiller_run_s=None))
    assert here - 2 == strips(replace(guest_house, ways=()))


@pytest.mark.parametrize(("form", "start"), [("png", b"\x89PNG"), ("svg", b"<?xml")])
def test_picture_is_a_file_of_its_kind(guest_house: SimulatedDay, form: str, start: bytes) -> None:
    assert day_picture(guest_house, form).startswith(start)  # type: ignore[arg-type]
