"""Pictures of an answer: plain, of fixed size, readable in black and white."""

import io
from typing import TYPE_CHECKING, Literal

from sanitize.plant.loop import Plant
from sanitize.studies.suction.gas_sweep import GasSweep
from sanitize.studies.suction.result import Suction

if TYPE_CHECKING:
    from matplotlib.figure import Figure

View = Literal["elevation", "pressure", "pump", "gas"]
PictureFormat = Literal["png", "svg"]


def suction_picture(
    result: Suction, plant: Plant, view: View, picture_format: PictureFormat, sweep: GasSweep | None = None
) -> bytes:
    """One picture of the suction answer as the bytes of a file.

    elevation: every part at its height against the water line; pressure: along the loop, with the throat's dip;
    pump: the pump's curve and the system's; gas: gas flow and vacuum over what `sweep` varies, which it needs.
    The plant says in which order parts stand and which heights were given. Raises ValueError for gas without a sweep.
    """
    import matplotlib

    from sanitize.report.pictures.style import RC

    with matplotlib.rc_context(RC):
        figure = suction_figure(result, plant, view, sweep)
        out = io.BytesIO()
        figure.savefig(out, format=picture_format, metadata={"Date": None} if picture_format == "svg" else None)
    return out.getvalue()


def suction_figure(result: Suction, plant: Plant, view: View, sweep: GasSweep | None = None) -> "Figure":
    """The drawing behind a picture."""
    from sanitize.report.pictures.elevation import elevation_figure
    from sanitize.report.pictures.pressure import pressure_figure
    from sanitize.report.pictures.pump_curve import pump_figure

    if view == "gas":
        from sanitize.report.pictures.gas import gas_figure

        if sweep is None:
            raise ValueError("the picture of the gas flow needs a sweep")
        return gas_figure(sweep)
    if view == "elevation":
        return elevation_figure(result, plant)
    if view == "pressure":
        return pressure_figure(result, plant)
    return pump_figure(result)
