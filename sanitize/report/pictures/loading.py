"""Flow, vacuum and gas over the days since the filter was cleaned, with the limits."""

from collections.abc import Sequence

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from sanitize.basis.figure import Figure as Range
from sanitize.basis.units import to_shown
from sanitize.report.phrases import unit_of
from sanitize.report.pictures.style import BAND, DPI, GREY, INK, SIZE_IN, from_zero, plain, titled
from sanitize.studies.loading.result import Lasts

DAY_S = 86400.0
MARKS = {
    "injector stops drawing": ("v", "injector stops drawing"),
    "chiller below its least flow": ("p", "below its least flow"),
    "flow down by a fifth": ("o", "flow down by a fifth"),
}


def lasts_figure(result: Lasts) -> Figure:
    """Three strips over the days: water, vacuum at the closed port, gas with the line open, each with its range.

    A chiller's flow is drawn where it is not all the water's.
    """
    figure = Figure(figsize=SIZE_IN, dpi=DPI, layout="constrained")
    flow, vacuum, gas = (unit_of(kind, result.units) for kind in ("flow", "vacuum", "gas flow"))
    upper, middle, lower = figure.subplots(3, 1, sharex=True)
    days = [moment.time_s / DAY_S for moment in result.moments]
    _strip(upper, days, [moment.flow_m3s for moment in result.moments], "flow", flow, 1.0)
    for index, first in enumerate(result.moments[0].chiller_flows):
        if first.flow_m3s == result.moments[0].flow_m3s:
            continue
        flows = [moment.chiller_flows[index].flow_m3s.nominal for moment in result.moments]
        drawn = [float("nan") if value is None else to_shown(value, "flow", flow) for value in flows]
        upper.plot(days, drawn, color=INK, linewidth=1.2, linestyle="--", label=f"through {first.name}", zorder=3)
        upper.legend(loc="lower left", frameon=False, fontsize=8.5)
    closed = [moment.port_pressure_closed_pa_gauge for moment in result.moments]
    _strip(middle, days, closed, "vacuum", vacuum, -1.0)
    _strip(lower, days, [moment.gas_flow_m3s for moment in result.moments], "gas flow", gas, 1.0)
    middle.axhline(0.0, color=INK, linewidth=1.0, zorder=2)
    _limits(upper, result, days[-1])
    upper.set_ylabel(f"water [{flow}]")
    middle.set_ylabel(f"vacuum, closed [{vacuum}]")
    lower.set_ylabel(f"gas, open [{gas}]")
    from_zero(upper)
    from_zero(lower)
    figure.align_ylabels()
    lower.set_xlim(0.0, days[-1])
    lower.set_xlabel("days since the filter was cleaned; line: nominal, band: low to high; below 0 the port pushes")
    titled(figure, result.title, "what the days between cleanings do")
    return figure


def _strip(axes: Axes, days: Sequence[float], figures: Sequence[Range], kind: str, unit: str, sign: float) -> None:
    """One quantity over the days; a day without an answer is a gap."""
    plain(axes)
    nothing = (float("nan"),) * 3
    drawn = [
        nothing if item.nominal is None else tuple(to_shown(sign * end, kind, unit) for end in item.ends)
        for item in figures
    ]
    low, nominal, high = (list(line) for line in zip(*drawn, strict=True))
    axes.fill_between(days, low, high, color=BAND, zorder=1)
    axes.plot(days, nominal, color=INK, linewidth=1.8, marker="o", markersize=3.5, zorder=3, gid=kind)


def _limits(axes: Axes, result: Lasts, last_day: float) -> None:
    """A mark at the nominal day of each limit, with its range as a bar, on lines above the strip."""
    rows = [limit for limit in result.limits if limit.ends_the_time and not limit.nominal_met_when_clean]
    for number, limit in enumerate(rows):
        if limit.time_s.low is None or limit.time_s.low / DAY_S > last_day:
            continue
        mark, words = MARKS[limit.limit]
        height = 1.10 + 0.13 * number
        low, nominal, high = (min(end / DAY_S, last_day) for end in limit.time_s.ends)
        where = axes.get_xaxis_transform()
        axes.plot((low, high), (height, height), color=GREY, linewidth=1.4, transform=where, clip_on=False)
        if limit.time_s.ends[1] / DAY_S <= last_day:
            axes.plot((nominal,), (height,), marker=mark, color=INK, transform=where, clip_on=False, gid=limit.limit)
            axes.axvline(nominal, color=GREY, linestyle=":", linewidth=1.2, zorder=2)
        text = f"{limit.part} {words}" if limit.limit.startswith("chiller") else words
        axes.annotate(
            text, (low, height), xycoords=("data", "axes fraction"), xytext=(-4, 0), textcoords="offset points",
            ha="right", va="center", fontsize=8.5, color=INK, annotation_clip=False,
        )  # fmt: skip
