"""Ozone in the air against what goes into it, with the published limits."""

from matplotlib.figure import Figure
from matplotlib.ticker import FuncFormatter, LogFormatter

from sanitize.report.pictures.style import BAND, DPI, GREY, INK, SIZE_IN, label, plain, titled
from sanitize.studies.ozone.result import Ozone

ROOM_TO_SPARE = 2.0
SMALLEST_SHOWN_RATIO = 0.02
"""Of what brings the air to its limit: emissions below it are not shown."""
_STYLES = ("-", "--", "-.", ":")


class _Ticks(LogFormatter):
    """Numbers at the small ticks of a logarithmic axis where few decades are shown, never with an exponent."""

    def __call__(self, x: float, pos: int | None = None) -> str:
        return f"{x:g}" if super().__call__(x, pos) else ""


def ozone_figure(result: Ozone) -> Figure:
    """Air over emission, both on the logarithm: the air's line with its range, this tub's emission, the limits."""
    figure = Figure(figsize=SIZE_IN, dpi=DPI, layout="constrained")
    axes = figure.subplots()
    plain(axes)
    axes.set_xscale("log")
    axes.set_yscale("log")
    indoors = result.place == "indoors"
    what = "in the room" if indoors else "over the water"
    slopes = _slopes(result)
    at_limit = result.room_limit_ppmv / slopes[1]
    emission = (0.0, 0.0, 0.0) if result.emission_mg_per_h is None else result.emission_mg_per_h.ends
    low, nominal, high = (max(end, SMALLEST_SHOWN_RATIO * at_limit) for end in emission)
    ends = min(low, at_limit) / ROOM_TO_SPARE, max(high, at_limit) * ROOM_TO_SPARE
    axes.fill_between(ends, [slopes[0] * end for end in ends], [slopes[2] * end for end in ends], color=BAND, zorder=1)
    axes.plot(ends, [slopes[1] * end for end in ends], color=INK, linewidth=1.8, zorder=4, gid="air")
    levels: dict[float, list[str]] = {}
    for row in result.limits:
        levels.setdefault(row.limit_ppmv, []).append(f"{row.body} ({row.averaged})")
    tall = max(2.0 * slopes[2] * ends[1], ROOM_TO_SPARE * max(levels))
    for (level, names), style in zip(sorted(levels.items()), _STYLES, strict=True):
        axes.axhline(level, color=INK, linewidth=1.2, linestyle=style, zorder=3, gid="limit")
        # The words stand on the side on which the line of the air is farther from their level.
        is_left = (slopes[1] * ends[0] / level) * (slopes[1] * ends[1] / level) < 1.0
        side, shift = (ends[0], 6) if is_left else (ends[1], -6)
        words = f"{level:g} ppm: {'; '.join(names)}"
        label(axes, words, (side, level), (shift, 3), ha="left" if is_left else "right")
    lowest = min(0.5 * min(levels), slopes[0] * ends[0])
    if emission[1] > 0.0:
        axes.axvspan(low, high, facecolor="none", edgecolor=GREY, hatch="..", linewidth=0.0, alpha=0.5, zorder=2)
        axes.axvline(nominal, color=GREY, linestyle=":", linewidth=1.6, zorder=3, gid="emission")
        label(axes, "this tub", (nominal, lowest), (5, 5))
        axes.plot([nominal], [slopes[1] * nominal], marker="o", markersize=7, color=INK, zorder=5)
    else:
        when = ", so the air is not worked out" if emission[2] <= 0.0 else " in the likeliest case"
        label(axes, f"this tub: no ozone is drawn{when}", (ends[0], lowest), (6, 5))
    axes.set_xlim(*ends)
    axes.set_ylim(lowest, tall)
    for axis in (axes.xaxis, axes.yaxis):
        axis.set_major_formatter(FuncFormatter(lambda value, _: f"{value:g}"))
        axis.set_minor_formatter(_Ticks(minor_thresholds=(2, 0.4)))
    axes.set_xlabel("ozone into the air [mg/h]; dotted: this tub, hatched: its low to high")
    axes.set_ylabel(f"ozone {what} [ppm by volume]; line: nominal, band: low to high")
    titled(figure, result.title, f"ozone {what}, running on and on")
    return figure


def _slopes(result: Ozone) -> tuple[float, float, float]:
    """ppm for each mg/h that goes into the air: low, nominal, high."""
    bears = result.room_emission_limit_mg_per_h
    if bears is None:
        return result.over_water_per_emission_ppmv.ends
    low, nominal, high = bears.ends
    return result.room_limit_ppmv / high, result.room_limit_ppmv / nominal, result.room_limit_ppmv / low
