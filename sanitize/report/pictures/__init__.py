"""Pictures of an answer: plain, of fixed size, readable in black and white."""

import io
from collections.abc import Callable
from typing import TYPE_CHECKING, Literal

from sanitize.plant.loop import Plant
from sanitize.studies.advice.result import Throats
from sanitize.studies.cloudy.result import Cloudy
from sanitize.studies.day.result import SimulatedDay
from sanitize.studies.dosing.result import Dosing
from sanitize.studies.hours.result import Hours
from sanitize.studies.loading.result import Lasts
from sanitize.studies.ozone.result import Ozone
from sanitize.studies.suction.gas_sweep import GasSweep
from sanitize.studies.suction.result import Suction
from sanitize.studies.timer.result import Plan

if TYPE_CHECKING:
    from matplotlib.figure import Figure

SuctionView = Literal["elevation", "pressure", "pump"]
View = Literal[SuctionView, "gas"]
PictureFormat = Literal["png", "svg"]


def suction_picture(result: Suction, plant: Plant, view: SuctionView, picture_format: PictureFormat) -> bytes:
    """One picture of the suction answer as the bytes of a file.

    elevation: every part at its height against the water line; pressure: along the loop, with the throat's dip;
    pump: the pump's curve and the system's. The plant says in which order parts stand and which heights were given.
    """
    return _file(lambda: suction_figure(result, plant, view), picture_format)


def gas_picture(sweep: GasSweep, picture_format: PictureFormat) -> bytes:
    """Gas flow and vacuum over the quantity that a sweep varies, as the bytes of a file."""
    from sanitize.report.pictures.gas import gas_figure

    return _file(lambda: gas_figure(sweep), picture_format)


def day_picture(result: SimulatedDay, picture_format: PictureFormat) -> bytes:
    """A simulated day in strips over one axis of time, as the bytes of a file."""
    from sanitize.report.pictures.day import day_figure

    return _file(lambda: day_figure(result), picture_format)


def throat_picture(result: Throats, picture_format: PictureFormat) -> bytes:
    """Gas and water over the injector's throat, as the bytes of a file."""
    from sanitize.report.pictures.throat import throat_figure

    return _file(lambda: throat_figure(result), picture_format)


def lasts_picture(result: Lasts, picture_format: PictureFormat) -> bytes:
    """Water, vacuum and gas over the days since the filter was cleaned, as the bytes of a file."""
    from sanitize.report.pictures.loading import lasts_figure

    return _file(lambda: lasts_figure(result), picture_format)


def dosing_picture(result: Dosing, picture_format: PictureFormat) -> bytes:
    """The water against its targets, and where each step brings it, as the bytes of a file."""
    from sanitize.report.pictures.dosing import dosing_figure

    return _file(lambda: dosing_figure(result), picture_format)


def cloudy_picture(result: Cloudy, picture_format: PictureFormat) -> bytes:
    """The causes of clouded water before and after the answers, as the bytes of a file."""
    from sanitize.report.pictures.cloudy import cloudy_figure

    return _file(lambda: cloudy_figure(result), picture_format)


def ozone_picture(result: Ozone, picture_format: PictureFormat) -> bytes:
    """Ozone in the air over what goes into it, as the bytes of a file."""
    from sanitize.report.pictures.ozone import ozone_figure

    return _file(lambda: ozone_figure(result), picture_format)


def timer_picture(hours: Hours, plan: Plan, picture_format: PictureFormat) -> bytes:
    """The timer's day as a strip, as the bytes of a file."""
    from sanitize.report.pictures.timer import timer_figure

    return _file(lambda: timer_figure(hours, plan), picture_format)


def suction_figure(result: Suction, plant: Plant, view: SuctionView) -> "Figure":
    """The drawing behind a picture of the suction answer."""
    from sanitize.report.pictures.elevation import elevation_figure
    from sanitize.report.pictures.pressure import pressure_figure
    from sanitize.report.pictures.pump_curve import pump_figure

    if view == "elevation":
        return elevation_figure(result, plant)
    if view == "pressure":
        return pressure_figure(result, plant)
    return pump_figure(result)


def _file(draw: "Callable[[], Figure]", picture_format: PictureFormat) -> bytes:
    """What is drawn, in the project's look, as the bytes of a file without a date."""
    import matplotlib

    from sanitize.report.pictures.style import RC

    with matplotlib.rc_context(RC):
        out = io.BytesIO()
        draw().savefig(out, format=picture_format, metadata={"Date": None} if picture_format == "svg" else None)
    return out.getvalue()
