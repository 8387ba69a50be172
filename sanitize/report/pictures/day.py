"""The simulated day in strips over one axis of time, with the limits."""

from collections.abc import Callable, Sequence
from math import inf
from typing import Literal

from matplotlib.axes import Axes
from matplotlib.figure import Figure
from matplotlib.ticker import FuncFormatter

from sanitize.basis.figure import Figure as Ranged
from sanitize.basis.units import to_shown
from sanitize.report.phrases import unit_of
from sanitize.report.pictures.style import BAND, DPI, INK, plain, titled
from sanitize.studies.day.cautions import entry_limit_mgl
from sanitize.studies.day.result import Moment, SimulatedDay

SIZE_IN = (11.0, 9.0)
LEAST_PPMV = 1e-3
"""Bottom of the strip of the air, whose axis is logarithmic."""
LEAST_TOP_PPMV = 12.0
"""Least top of that strip, so that the highest limit stands inside."""
LEAST_MGL = 1e-2
"""Smallest height of the strips of the water [mg/L]."""
Side = Literal["bottom", "center", "top"]
_LIMITS_PPMV: tuple[tuple[float, str, str, Side], ...] = (
    (0.05, ":", "0.05 ppm: most in\nan occupied space", "top"),
    (0.1, "--", "0.1 ppm: ceiling\nat work", "bottom"),
    (5.0, "-.", "5 ppm: immediately\ndangerous", "center"),
)
Pick = Callable[[Moment], Ranged | None]


def day_figure(result: SimulatedDay) -> Figure:
    """What is switched, ozone in the water, ozone in the air, the other oxidant, haze and temperature over the day."""
    has_ozone, has_oxidant = bool(result.ways), result.kept != "none"
    warms = result.chiller_run_s is not None
    heights = [1.1, *([1.2, 2.2] if has_ozone else []), *([1.2] if has_oxidant else []), 1.2, *([1.0] if warms else [])]
    figure = Figure(figsize=SIZE_IN, dpi=DPI, layout="constrained")
    strips = list(figure.subplots(len(heights), 1, sharex=True, height_ratios=heights, squeeze=False)[:, 0])
    for axes in strips:
        plain(axes)
        axes.grid(visible=True, axis="x", color="#e6e6e6", linewidth=0.6)
    _switches(strips.pop(0), result)
    if has_ozone:
        _ozone(strips.pop(0), result)
        _air(strips.pop(0), result)
    if has_oxidant:
        axes = strips.pop(0)
        _line(axes, result, lambda moment: moment.oxidant_mgl, "-", result.kept, jumps_with=("bathing",))
        axes.set_ylim(bottom=0.0)
        axes.set_ylabel(f"{result.kept}\n[mg/L]")
    axes = strips.pop(0)
    _line(axes, result, lambda moment: moment.haze_ntu, "-", "haze")
    axes.set_ylim(bottom=0.0)
    axes.set_ylabel("haze\n[NTU]")
    if warms:
        axes = strips.pop(0)
        unit = unit_of("temperature", result.units)
        _line(axes, result, lambda moment: moment.water_c, "-", "water", lambda c: to_shown(c, "temperature", unit))
        axes.set_ylabel(f"water\n[{unit}]")
    axes.set_xlim(0.0, 24.0)
    axes.set_xticks(range(0, 25, 2))
    axes.set_xlabel("time of the day [h]; line: nominal, band: low to high")
    titled(figure, result.title, f"day {result.days_count} of the simulation")
    return figure


def _hours(result: SimulatedDay) -> list[float]:
    return [moment.time_s / 3600.0 for moment in result.moments]


def _switches(axes: Axes, result: SimulatedDay) -> None:
    """A bar for everything that is on, one above the other."""
    rows = (("lid closed", "lid", "////"), ("bathing", "bathing", "...."), ("ozone", "ozone", ""), ("pump", "pump", ""))
    hours = _hours(result)
    for height, (name, flag, hatch) in enumerate(rows):
        spans: list[tuple[float, float]] = []
        for start, end, moment in zip(hours[:-1], hours[1:], result.moments[:-1], strict=True):
            if getattr(moment, flag):
                if spans and abs(spans[-1][0] + spans[-1][1] - start) < 1e-9:
                    spans[-1] = (spans[-1][0], end - spans[-1][0])
                else:
                    spans.append((start, end - start))
        face = {"ozone": INK, "pump": BAND}.get(flag, "white")
        axes.broken_barh(
            spans, (height - 0.35, 0.7), facecolor=face, edgecolor=INK, hatch=hatch, linewidth=0.8, gid=name
        )
    axes.set_yticks(range(len(rows)), [row[0] for row in rows])
    axes.set_ylim(-0.6, len(rows) - 0.4)
    axes.grid(visible=False, axis="y")


def _ozone(axes: Axes, result: SimulatedDay) -> None:
    _line(axes, result, lambda moment: moment.ozone_mgl, "-", "ozone in the water")
    limit = entry_limit_mgl()
    axes.axhline(limit, color=INK, linestyle="--", linewidth=1.0, zorder=2, gid="entry limit")
    top = max([limit, LEAST_MGL, *(moment.ozone_mgl.ends[2] for moment in result.moments)])
    axes.set_ylim(0.0, 1.2 * top)
    _beside(axes, f"{limit:g} mg/L: most\nwhen people get in", limit)
    axes.set_ylabel("ozone in\nwater [mg/L]")


def _air(axes: Axes, result: SimulatedDay) -> None:
    """Room, right over the open water, and under the closed lid, on a logarithmic axis."""
    names: Sequence[tuple[str, Pick, str]] = (
        ("room", lambda moment: moment.room_ppmv, "-"),
        ("over the open water", lambda moment: moment.face_ppmv, "--"),
        ("under the closed lid", lambda moment: moment.under_ppmv, ":"),
    )
    for name, pick, dashes in names:
        if any(pick(moment) is not None for moment in result.moments):
            words = "room, with its range" if name == "room" else name
            jumps = ("pump", "ozone", "bathing") if name == "over the open water" else ()
            _line(
                axes,
                result,
                pick,
                dashes,
                words,
                lambda value: max(value, LEAST_PPMV),
                name == "room",
                jumps_with=jumps,
            )
    for limit, dashes, words, side in _LIMITS_PPMV:
        axes.axhline(limit, color=INK, linestyle=dashes, linewidth=0.8, zorder=2, gid=words.replace("\n", " "))
        _beside(axes, words, limit, side)
    axes.set_yscale("log")
    axes.yaxis.set_major_formatter(FuncFormatter(lambda value, _: f"{value:g}"))
    axes.set_ylim(LEAST_PPMV, max(LEAST_TOP_PPMV, 1.5 * axes.dataLim.y1))
    axes.set_ylabel("ozone in the air [ppm]")
    axes.legend(loc="lower left", bbox_to_anchor=(0.0, 1.0), ncols=3, frameon=False, handlelength=3.5, fontsize=8.5,
                borderaxespad=0.1)  # fmt: skip


def _line(
    axes: Axes, result: SimulatedDay, pick: Pick, dashes: str, name: str,
    shown: Callable[[float], float] = lambda value: value, banded: bool = True, jumps_with: Sequence[str] = (),
) -> None:  # fmt: skip
    """Nominal and band of what is picked; gaps where there is nothing.

    jumps_with: what makes the reading jump when it is switched; until then it goes on as at the moment before.
    """
    nothing = (inf, inf, inf)
    ends: list[tuple[float, float, float]] = []
    hours: list[float] = []
    before = result.moments[0]
    for hour, moment in zip(_hours(result), result.moments, strict=True):
        if any(getattr(moment, flag) != getattr(before, flag) for flag in jumps_with):
            hours.append(hour)
            ends.append(ends[-1])
        before, figure = moment, pick(moment)
        hours.append(hour)
        ends.append(nothing if figure is None else figure.ends)
    low, nominal, high = (
        [float("nan") if row[end] == inf else shown(row[end]) for row in ends] for end in range(3)
    )  # fmt: skip
    if banded:
        axes.fill_between(hours, low, high, facecolor=BAND, edgecolor="none", alpha=0.7, zorder=1, gid=f"{name} range")
    axes.plot(hours, nominal, color=INK, linewidth=1.6, linestyle=dashes, label=name, zorder=3, gid=name)


def _beside(axes: Axes, words: str, height: float, side: Side = "center") -> None:
    """Words in the margin right of a level, where no curve runs; side: of the level on which they stand."""
    axes.annotate(
        words, (24.0, height), xytext=(4, 0), textcoords="offset points", fontsize=8, color=INK, va=side,
        annotation_clip=False,
    )  # fmt: skip
