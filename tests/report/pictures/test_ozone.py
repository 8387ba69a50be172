"""The picture of ozone in the air: what is drawn and said."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from matplotlib.figure import Figure

from sanitize.loopfile.read import read_plant
from sanitize.report.pictures import ozone_picture
from sanitize.report.pictures.ozone import ozone_figure
from sanitize.studies.ozone.result import Ozone
from sanitize.studies.ozone.study import study_ozone

DEMOS = Path(__file__).resolve().parents[3] / "demos"
Answer = Callable[..., Ozone]


@pytest.fixture(scope="module")
def ozone() -> Answer:
    """The ozone answer of a demo, with a few cases."""

    def answered(name: str, *settings: str) -> Ozone:
        path = DEMOS / f"{name}.toml"
        loaded = read_plant(path.read_text(encoding="utf-8"), path=str(path), overrides=settings)
        return study_ozone(loaded.plant, 16)

    return answered


def line(figure: Figure, gid: str) -> Any:
    return next(item for item in figure.axes[0].get_lines() if item.get_gid() == gid)


def said(figure: Figure) -> str:
    return "\n".join(text.get_text() for text in figure.axes[0].texts)


def test_air_passes_the_limit_where_the_room_bears_no_more(ozone: Answer) -> None:
    result = ozone("bathroom")
    figure = ozone_figure(result)
    bears = result.room_emission_limit_mg_per_h
    assert bears is not None
    x, y = line(figure, "air").get_data()
    assert y[0] / x[0] == pytest.approx(result.room_limit_ppmv / (bears.nominal or 0.0))
    assert result.emission_mg_per_h.nominal == pytest.approx(line(figure, "emission").get_xdata()[0])


def test_every_limit_is_named_with_its_body(ozone: Answer) -> None:
    result = ozone("bathroom")
    figure = ozone_figure(result)
    levels = [item.get_ydata()[0] for item in figure.axes[0].get_lines() if item.get_gid() == "limit"]
    assert sorted({row.limit_ppmv for row in result.limits}) == sorted(levels)
    assert all(row.body in said(figure) for row in result.limits)


def test_numbers_on_the_axes_have_no_exponent(ozone: Answer) -> None:
    """Where no gas is drawn the picture reaches down to hundredths of a mg/h."""
    figure = ozone_figure(ozone("bathroom", "gas_line.check_valve_opens_at=90 kPa"))
    figure.draw_without_rendering()
    words = [tick.get_text() for tick in figure.axes[0].get_xticklabels(which="both")]
    assert "0.02" in words
    assert not any("e-" in word for word in words)


def test_axes_name_their_units(ozone: Answer) -> None:
    axes = ozone_figure(ozone("bathroom")).axes[0]
    assert "[mg/h]" in axes.get_xlabel()
    assert "[ppm by volume]" in axes.get_ylabel()
    assert "in the room" in axes.get_ylabel()


def test_outdoors_shows_the_air_over_the_water(ozone: Answer) -> None:
    assert "over the water" in ozone_figure(ozone("icehouse")).axes[0].get_ylabel()


def test_nothing_drawn_says_so_and_marks_no_tub(ozone: Answer) -> None:
    figure = ozone_figure(ozone("ferry_landing"))
    assert "no ozone is drawn" in said(figure)
    assert [] == [item for item in figure.axes[0].get_lines() if item.get_gid() == "emission"]


def test_svg_keeps_its_words(ozone: Answer) -> None:
    assert "Bathroom tub with the door shut" in ozone_picture(ozone("bathroom"), "svg").decode("utf-8")


def test_ticks_between_the_decades_are_plain_numbers(ozone: Answer) -> None:
    """Outdoors the axis spans little more than a decade, so that its smaller ticks are told as well."""
    figure = ozone_figure(ozone("bakehouse"))
    figure.draw_without_rendering()
    told = [text.get_text() for text in figure.axes[0].get_xticklabels(minor=True) if text.get_text()]
    assert told
    assert all(float(text) > 0.0 for text in told)
