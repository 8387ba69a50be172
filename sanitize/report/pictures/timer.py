"""The day as a strip: pump, ozone unit and chiller, people in the tub, quiet hours, price."""

from collections.abc import Sequence
from typing import Any

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from sanitize.plant.day import DAY_S, Window, clock
from sanitize.report.hours_plan import stop_clock
from sanitize.report.pictures.style import DPI, GREY, INK, titled
from sanitize.studies.hours.result import Hours
from sanitize.studies.timer.result import Plan, PlanRun

WIDTH_IN, ROW_IN, PRICES_IN, AROUND_IN = 11.0, 0.72, 1.1, 1.0
HOUR_S = 3600.0
ROOM_H = 0.4
"""Half the width of a time, so that none stands over the edge."""
_LOOK: dict[str, dict[str, Any]] = {
    "pump": {"facecolor": INK},
    "ozone": {"facecolor": "white", "edgecolor": INK, "hatch": "////"},
    "chiller": {"facecolor": "#9a9a9a", "edgecolor": INK},
    "in the tub": {"facecolor": "white", "edgecolor": INK, "hatch": "ooo"},
    "quiet": {"facecolor": "#e2e2e2", "edgecolor": GREY, "hatch": ".."},
}


def timer_figure(hours: Hours, plan: Plan) -> Figure:
    """The drawing: a row for everything that has a time of the day, and the price above where there is one."""
    rows = _rows(hours, plan)
    prices_in = 0.0 if hours.wishes.prices is None else PRICES_IN
    rows_in = ROW_IN * max(len(rows), 1)
    figure = Figure(figsize=(WIDTH_IN, rows_in + prices_in + AROUND_IN), dpi=DPI, layout="constrained")
    if hours.wishes.prices is None:
        axes = figure.subplots()
    else:
        above, axes = figure.subplots(2, 1, sharex=True, height_ratios=(prices_in, rows_in))
        _draw_prices(above, hours)
    for at, (name, windows) in enumerate(rows):
        bars = [bar for window in windows for bar in pieces(window)]
        axes.broken_barh(bars, (at - 0.25, 0.5), gid=name, **_LOOK[name])
    for at, (name, _) in enumerate(rows):
        _label(axes, at, [run for run in plan.runs if run.what == name])
    axes.set_yticks(range(len(rows)), [name for name, _ in rows])
    axes.set_ylim(len(rows) - 0.3, -0.4)
    axes.set_xlim(0.0, 24.0)
    axes.set_xticks(range(0, 25, 2))
    axes.set_xlabel("time of the day [h]")
    axes.spines[["top", "right"]].set_visible(False)
    axes.grid(visible=True, axis="x", color="#dddddd", linewidth=0.6)
    axes.set_axisbelow(True)
    titled(figure, hours.title, "the timer's day, nearest plan" if plan.conflict else "the timer's day")
    return figure


def pieces(window: Window) -> list[tuple[float, float]]:
    """A window as bars of start and length in hours, cut at midnight.

    >>> pieces(Window(start_s=82800.0, end_s=7200.0))
    [(23.0, 1.0), (0.0, 2.0)]
    """
    start, length = window.start_s % DAY_S, window.length_s
    first = min(length, DAY_S - start)
    bars = [(start / HOUR_S, first / HOUR_S)]
    return bars if first == length else [*bars, (0.0, (length - first) / HOUR_S)]


def _rows(hours: Hours, plan: Plan) -> list[tuple[str, Sequence[Window]]]:
    rows: list[tuple[str, Sequence[Window]]] = []
    for what in ("pump", "ozone", "chiller"):
        runs = [Window(start_s=run.start_s, end_s=run.stop_s) for run in plan.runs if run.what == what]
        if runs:
            rows.append((what, runs))
    if hours.wishes.bathing:
        rows.append(("in the tub", hours.wishes.bathing))
    if hours.wishes.quiet:
        rows.append(("quiet", hours.wishes.quiet))
    return rows


def _label(axes: Axes, at: int, runs: list[PlanRun]) -> None:
    """Switch times under the bars, short ones in two lines."""
    for run in runs:
        longest = max(pieces(Window(start_s=run.start_s, end_s=run.stop_s)), key=lambda piece: piece[1])
        words = f"{clock(run.start_s)}{'-' if longest[1] >= 1.5 else chr(10)}{stop_clock(run)}"
        middle = min(max(longest[0] + 0.5 * longest[1], ROOM_H), 24.0 - ROOM_H)
        axes.annotate(
            words, (middle, at + 0.28), ha="center", va="top", fontsize=7.5, color=INK,
            linespacing=0.95,
        )  # fmt: skip


def _draw_prices(axes: Axes, hours: Hours) -> None:
    """The price of a kWh as a stepped line."""
    windows = sorted(hours.wishes.prices or (), key=lambda window: window.start_s)
    bars = sorted((start, length, one.price_per_kwh) for one in windows for start, length in pieces(one))
    times = [start for start, _, _ in bars] + [24.0]
    values = [price for _, _, price in bars]
    axes.step(times, [*values, values[-1]], where="post", color=INK, linewidth=1.6, gid="price")
    axes.set_ylim(0.0, 1.25 * max(values) or 1.0)
    axes.set_ylabel("price\n[a kWh]")
    axes.spines[["top", "right"]].set_visible(False)
    axes.grid(visible=True, axis="y", color="#e6e6e6", linewidth=0.6)
