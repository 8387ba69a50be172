"""Gas flow and vacuum against the most telling free quantity."""

from typing import cast

from matplotlib.figure import Figure

from sanitize.basis.units import Family, to_shown
from sanitize.report.phrases import unit_of
from sanitize.report.pictures.style import BAND, DPI, GREY, INK, SIZE_IN, from_zero, plain, titled
from sanitize.studies.suction.gas_sweep import GasSweep


def gas_figure(sweep: GasSweep) -> Figure:
    """Two strips over one axis: gas flow with the line open, vacuum with it closed, each with its range."""
    family = cast(Family, sweep.units)
    length, flow, vacuum = unit_of("head", family), unit_of("gas flow", family), unit_of("vacuum", family)
    figure = Figure(figsize=SIZE_IN, dpi=DPI, layout="constrained")
    upper, lower = figure.subplots(2, 1, sharex=True)
    along = [to_shown(value, "head", length) for value in sweep.values_m]
    for axes, figures, kind, unit, sign in (
        (upper, sweep.gas_flow_m3s, "gas flow", flow, 1.0),
        (lower, sweep.port_pressure_closed_pa_gauge, "vacuum", vacuum, -1.0),
    ):
        plain(axes)
        drawn = [sorted(to_shown(sign * end, kind, unit) for end in item.ends) for item in figures]
        nominal = [to_shown(sign * item.ends[1], kind, unit) for item in figures]
        axes.fill_between(along, [item[0] for item in drawn], [item[2] for item in drawn], color=BAND, zorder=1)
        axes.plot(along, nominal, color=INK, linewidth=1.8, marker="o", markersize=4, zorder=3, clip_on=False)
        here = to_shown(sweep.here_m, "head", length)
        axes.axvline(here, color=GREY, linestyle=":", linewidth=1.4, zorder=2, gid="here")
    upper.annotate(
        "as in the file", (to_shown(sweep.here_m, "head", length), 1.0), xycoords=("data", "axes fraction"),
        xytext=(4, -12), textcoords="offset points", fontsize=8.5, color=INK,
    )  # fmt: skip
    lower.axhline(0.0, color=INK, linewidth=1.0, zorder=2)
    upper.set_ylabel(f"gas, line open [{flow}]")
    lower.set_ylabel(f"vacuum, line closed [{vacuum}]")
    lower.set_xlabel(f"{sweep.label} [{length}]; line: nominal, band: low to high; below 0 the port pushes")
    from_zero(upper)
    figure.align_ylabels()
    titled(figure, sweep.title, f"what the {sweep.label} does")
    return figure
