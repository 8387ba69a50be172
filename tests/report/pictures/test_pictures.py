"""Pictures are tested on what they draw and say, not on their pixels."""

import re
import struct
import subprocess
import sys
from collections.abc import Callable
from dataclasses import replace
from typing import Any, get_args

import numpy as np
import pytest
from matplotlib.axes import Axes
from matplotlib.collections import PolyCollection
from matplotlib.figure import Figure
from matplotlib.lines import Line2D

from sanitize.basis.figure import Figure as Range
from sanitize.plant.loop import Plant
from sanitize.report.pictures import PictureFormat, SuctionView, suction_figure, suction_picture
from sanitize.report.pictures.key import LINES
from sanitize.report.pictures.layout import lay_out
from sanitize.report.pictures.pressure import THROAT_STEP
from sanitize.studies.suction.result import Suction

MakeAnswer = Callable[..., Suction]
VIEWS: tuple[SuctionView, ...] = get_args(SuctionView)
FORMATS: tuple[PictureFormat, ...] = get_args(PictureFormat)


def _line(axes: Axes, gid: str) -> Line2D:
    return next(line for line in axes.get_lines() if line.get_gid() == gid)


def _xy(line: Line2D) -> tuple[list[float], list[float]]:
    return [float(x) for x in line.get_xdata()], [float(y) for y in line.get_ydata()]  # type: ignore[union-attr, arg-type]


def _said(figure: Figure) -> str:
    return "\n".join(text.get_text() for axes in figure.axes for text in axes.texts)


def _title(figure: Figure) -> str:
    return str(figure.get_suptitle())


# Every view.


@pytest.mark.parametrize("view", VIEWS)
def test_png_has_its_fixed_size(answer: MakeAnswer, plant: Plant, view: SuctionView) -> None:
    data = suction_picture(answer(), plant, view, "png")
    assert data.startswith(b"\x89PNG\r\n\x1a\n")
    assert struct.unpack(">II", data[16:24]) == (1100, 620)


@pytest.mark.parametrize("view", VIEWS)
def test_svg_keeps_its_words_as_text(answer: MakeAnswer, plant: Plant, view: SuctionView) -> None:
    text = suction_picture(answer(), plant, view, "svg").decode("utf-8")
    assert "Boathouse larch barrel" in text
    assert "<dc:date>" not in text


@pytest.mark.parametrize("picture_format", FORMATS)
@pytest.mark.parametrize("view", VIEWS)
def test_picture_drawn_twice_is_the_same(
    answer: MakeAnswer, plant: Plant, view: SuctionView, picture_format: PictureFormat
) -> None:
    assert suction_picture(answer(), plant, view, picture_format) == suction_picture(
        answer(), plant, view, picture_format
    )


@pytest.mark.parametrize(
    ("view", "units", "labels"),
    [
        ("elevation", "metric", ["height above the mark of all heights [m]"]),
        ("elevation", "us", ["height above the mark of all heights [ft]"]),
        ("pressure", "metric", ["pressure over the air behind each part [kPa]", "pressure over the air [kPa]"]),
        ("pressure", "us", ["pressure over the air behind each part [psi]", "pressure over the air [psi]"]),
        ("pump", "metric", ["head [m]"]),
        ("pump", "us", ["head [ft]"]),
    ],
)
def test_axes_carry_the_units_of_the_family(
    answer: MakeAnswer, plant: Plant, view: SuctionView, units: str, labels: list[str]
) -> None:
    figure = suction_figure(answer(units=units), plant, view)
    assert labels == [axes.get_ylabel() for axes in figure.axes if axes.get_ylabel()]


@pytest.mark.parametrize("view", VIEWS)
def test_title_with_signs_of_its_own_is_drawn_as_written(answer: MakeAnswer, plant: Plant, view: SuctionView) -> None:
    made = answer(title="Barrel for $5 or $6_x")
    assert _title(suction_figure(made, plant, view)).startswith("Barrel for $5 or $6_x: ")
    svg = suction_picture(made, plant, view, "svg").decode("utf-8")
    assert re.search(r">[^<>-]*\$5 or \$6_x[^<>-]*</text>", svg)


def test_every_line_is_black_or_grey(answer: MakeAnswer, plant: Plant) -> None:
    for view in VIEWS:
        for axes in suction_figure(answer(), plant, view).axes:
            for line in axes.get_lines():
                colour = str(line.get_color()).lstrip("#")
                assert len({colour[0:2], colour[2:4], colour[4:6]}) == 1, colour


def test_drawing_library_loads_only_when_a_picture_is_drawn() -> None:
    code = (
        "import sys, sanitize.report.pictures, sanitize.report.text, sanitize.report.record;"
        "assert 'matplotlib' not in sys.modules; assert 'pint' not in sys.modules;"
        "import sanitize.report.pictures.pressure; assert 'matplotlib.pyplot' not in sys.modules"
    )
    assert subprocess.run([sys.executable, "-c", code], check=False).returncode == 0


# Side elevation.


def test_elevation_every_part_stands_at_its_height(answer: MakeAnswer, plant: Plant) -> None:
    axes = suction_figure(answer(), plant, "elevation").axes[0]
    for part in answer().parts:
        assert _xy(_line(axes, part.name))[1] == [pytest.approx(part.height_m.nominal)]


def test_elevation_in_us_units_is_in_feet(answer: MakeAnswer, plant: Plant) -> None:
    """0.75 m is 2.46 ft."""
    axes = suction_figure(answer(units="us"), plant, "elevation").axes[0]
    assert _xy(_line(axes, "ozone venturi"))[1] == [pytest.approx(2.46, abs=0.005)]


def test_elevation_shows_water_line_rim_and_ozone_unit(answer: MakeAnswer, plant: Plant) -> None:
    figure = suction_figure(answer(), plant, "elevation")
    axes = figure.axes[0]
    assert _xy(_line(axes, "water line"))[1] == [0.8, 0.8]
    assert _xy(_line(axes, "rim"))[1] == [0.9, 0.9]
    assert _xy(_line(axes, "ozone unit"))[1] == [1.6]
    assert _xy(_line(axes, "gas line"))[1] == [0.75, 1.75, 1.6]
    for words in ("water line 0.80 m", "rim 0.90 m", "ozone unit"):
        assert words in _said(figure)


def test_elevation_without_gas_side_draws_none(answer: MakeAnswer, plant: Plant) -> None:
    bare = plant.model_copy(update={"gas_line": None, "ozone": None})
    axes = suction_figure(answer(), bare, "elevation").axes[0]
    assert [line for line in axes.get_lines() if line.get_gid() in ("gas line", "ozone unit")] == []


def test_elevation_heights_not_given_are_open_and_dashed(answer: MakeAnswer, plant: Plant) -> None:
    axes = suction_figure(answer(), plant, "elevation").axes[0]
    assert _line(axes, "pump").get_markerfacecolor() != "white"
    assert _line(axes, "suction hose").get_markerfacecolor() == "white"
    pieces = [line for line in axes.get_lines() if line.get_linewidth() == 1.6]
    assert len(pieces) == len(lay_out(answer(), plant).edges)
    assert {line.is_dashed() for line in pieces} == {True}


def test_elevation_piece_between_two_given_heights_is_solid(answer: MakeAnswer, plant: Plant) -> None:
    items = tuple(item for item in plant.loop.items if item.name in ("suction fitting", "pump", "return"))
    short = plant.model_copy(
        update={"loop": plant.loop.model_copy(update={"items": items}), "ozone": None, "gas_line": None}
    )
    made = answer(injector="pump", parts=tuple(part for part in answer().parts if part.name in {i.name for i in items}))
    axes = suction_figure(made, short, "elevation").axes[0]
    assert [line.is_dashed() for line in axes.get_lines() if line.get_linewidth() == 1.6] == [False, False]


def test_key_names_every_part_by_its_number(answer: MakeAnswer, plant: Plant) -> None:
    for view in VIEWS[:2]:
        key = suction_figure(answer(), plant, view).axes[-1]
        words = [text.get_text() for text in key.texts]
        assert words[:4] == ["1", "suction fitting", "2", "suction hose"]
        assert len(words) == 2 * 8


def test_key_that_is_too_long_counts_the_rest(answer: MakeAnswer, plant: Plant) -> None:
    more = [plant.loop.items[1].model_copy(update={"name": f"hose {n}"}) for n in range(LINES)]
    items = (*plant.loop.items[:4], *more, *plant.loop.items[4:])
    long = plant.model_copy(update={"loop": plant.loop.model_copy(update={"items": items})})
    rows = (*answer().parts, *(replace(answer().parts[1], name=item.name) for item in more))
    key = suction_figure(answer(parts=rows), long, "elevation").axes[-1]
    assert key.texts[-1].get_text() == "and 9 more: see the table"


# Pressure along the loop.


def test_pressure_dips_to_the_port_just_before_the_injectors_outlet(answer: MakeAnswer, plant: Plant) -> None:
    axes = suction_figure(answer(), plant, "pressure").axes[0]
    x, y = _xy(_line(axes, "throat"))
    assert y == [pytest.approx(-5.8)]
    assert x == [lay_out(answer(), plant).node("ozone venturi").x - THROAT_STEP]
    through = [line for line in axes.get_lines() if len(_xy(line)[0]) == 3]
    assert len(through) == 1
    assert _xy(through[0])[1] == [pytest.approx(8.3), pytest.approx(-5.8), pytest.approx(4.9)]


def test_pressure_band_holds_low_and_high_of_the_port(answer: MakeAnswer, plant: Plant) -> None:
    axes = suction_figure(answer(), plant, "pressure").axes[0]
    bands = [one for one in axes.collections if isinstance(one, PolyCollection)]
    assert len(bands) == len(lay_out(answer(), plant).edges)
    corners = np.concatenate([np.asarray(path.vertices) for band in bands for path in band.get_paths()])
    heights = corners[:, 1]
    assert min(heights) == pytest.approx(-12.0)
    assert max(heights) == pytest.approx(1.1 * 23.0)


def test_pressure_port_is_shown_between_the_air_and_boiling(answer: MakeAnswer, plant: Plant) -> None:
    """Boiling at 0.935 kPa under air of 99.9 kPa: -98.965 kPa."""
    figure = suction_figure(answer(), plant, "pressure")
    whole = figure.axes[1]
    assert _xy(_line(whole, "boiling"))[1] == [pytest.approx(-98.965)] * 2
    assert _xy(_line(whole, "air"))[1] == [0.0, 0.0]
    assert _xy(_line(whole, "port"))[1] == [pytest.approx(-5.8)] * 2
    assert "water boils\n-99 kPa" in _said(figure)


def test_pressure_ways_are_told_apart_by_their_dashes(answer: MakeAnswer, plant: Plant) -> None:
    legend = suction_figure(answer(), plant, "pressure").axes[0].get_legend()
    assert legend is not None
    assert [text.get_text() for text in legend.get_texts()] == ["loop", "side stream", "bypass"]
    handles: list[Any] = list(legend.get_lines())
    assert len({str(handle._dash_pattern) for handle in handles}) == 3


# Pump against system.


def test_pump_lines_run_through_the_heads_of_the_answer(answer: MakeAnswer, plant: Plant) -> None:
    axes = suction_figure(answer(), plant, "pump").axes[0]
    line = answer().pump_line
    for name, heads in (("pump", line.pump_head_m), ("system", line.system_head_m)):
        drawn = next(one for one in axes.get_lines() if str(one.get_label()).startswith(name))
        x, y = _xy(drawn)
        assert x == [pytest.approx(flow * 60000.0) for flow in line.flow_m3s]
        assert y == [pytest.approx(head[1]) for head in heads]


def test_pump_picture_marks_where_the_loop_runs(answer: MakeAnswer, plant: Plant) -> None:
    figure = suction_figure(answer(), plant, "pump")
    axes = figure.axes[0]
    assert _xy(_line(axes, "runs"))[0] == [pytest.approx(36.0)]
    assert _xy(_line(axes, "runs"))[1] == [pytest.approx(2.5)]
    assert _xy(_line(axes, "range"))[0] == [pytest.approx(33.0), pytest.approx(37.0)]
    assert "runs at 36 L/min (33 to 37)" in _said(figure)
    assert axes.get_xlabel() == "flow out of the tub [L/min]"


def test_pump_picture_in_us_units_converts_both_axes(answer: MakeAnswer, plant: Plant) -> None:
    """36 L/min is 9.51 gal/min; 2.5 m is 8.20 ft."""
    axes = suction_figure(answer(units="us"), plant, "pump").axes[0]
    x, y = _xy(_line(axes, "runs"))
    assert x == [pytest.approx(9.51, abs=0.005)]
    assert y == [pytest.approx(8.20, abs=0.005)]


def test_pump_picture_of_a_loop_that_has_no_range_is_drawn(answer: MakeAnswer, plant: Plant) -> None:
    sharp = answer(flow_port_closed_m3s=Range(0.0006, 0.0006, 0.0006))
    assert "runs at 36 L/min" in _said(suction_figure(sharp, plant, "pump"))
