"""Pressure along the loop, with the dip in the injector's throat against the air and the water's boiling."""

from typing import Any

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from sanitize.basis.figure import Figure as Range
from sanitize.basis.units import significant, to_shown
from sanitize.plant.loop import Plant
from sanitize.report.phrases import unit_of
from sanitize.report.pictures.key import write_key
from sanitize.report.pictures.layout import Layout, Node, lay_out
from sanitize.report.pictures.style import BAND, DPI, INK, SIZE_IN, label, plain, titled
from sanitize.studies.suction.result import Suction

Point = tuple[float, tuple[float, float, float]]
_DASHES = (
    "-", (0, (6, 2)), (0, (2, 1.5)), (0, (6, 2, 1, 2)), (0, (1, 1)), (0, (10, 3)), (0, (6, 2, 1, 2, 1, 2)), (0, (3, 3)),
)  # fmt: skip
THROAT_STEP = 0.5
"""How far before the injector's own place, which is its outlet, the throat is drawn."""


def pressure_figure(result: Suction, plant: Plant) -> Figure:
    """Gauge pressure behind every part, gas line closed, with its range; beside it the port on the whole scale."""
    layout = lay_out(result, plant)
    unit = unit_of("pressure", result.units)
    figure = Figure(figsize=SIZE_IN, dpi=DPI, layout="constrained")
    axes, whole, key = figure.subplots(1, 3, width_ratios=(4.0, 0.75, 1.0))
    plain(axes)
    ways = list(dict.fromkeys([plant.loop.name, *(node.row.way for node in layout.nodes)]))
    throat = (layout.node(result.injector).x - THROAT_STEP, _ends(result.port_pressure_closed_pa_gauge, unit))
    labelled: set[str] = set()
    for start, end in layout.edges:
        way = end.row.way if end.row.way != ways[0] else start.row.way
        points = [_point(start, unit), _point(end, unit)]
        if end.row.name == result.injector:
            points.insert(1, throat)
        _draw_piece(axes, points, _DASHES[ways.index(way) % len(_DASHES)], "" if way in labelled else way)
        labelled.add(way)
    axes.plot(
        (throat[0],), (throat[1][1],), marker="v", markersize=11, color=INK, markerfacecolor="white", zorder=4,
        gid="throat",
    )  # fmt: skip
    label(axes, "gas port", (throat[0], throat[1][1]), (9, -3), va="top")
    axes.axhline(0.0, color=INK, linewidth=1.0, gid="air")
    _number(axes, layout, unit)
    titled(figure, result.title, "pressure along the loop, gas line closed")
    axes.set_ylabel(f"pressure over the air behind each part [{unit}]")
    axes.set_xlabel(
        "parts in the order of the water; line: nominal, band: low to high; level line: pressure of the air"
    )
    axes.set_xticks([])
    axes.set_xlim(0.0, layout.last_x + 0.6)
    axes.margins(y=0.12)
    if len(ways) > 1:
        axes.legend(loc="best", frameon=False, title="way", handlelength=3.5)
    _draw_whole(whole, result, unit)
    write_key(key, layout)
    return figure


def _ends(value: Range, unit: str) -> tuple[float, float, float]:
    low, nominal, high = (to_shown(end, "pressure", unit) for end in value.ends)
    return low, nominal, high


def _point(node: Node, unit: str) -> Point:
    return node.x, _ends(node.row.pressure_behind_pa_gauge, unit)


def _draw_piece(axes: Axes, points: list[Point], dashes: Any, name: str) -> None:
    x = [point[0] for point in points]
    low, nominal, high = zip(*(point[1] for point in points), strict=True)
    axes.fill_between(x, low, high, color=BAND, linewidth=0.0, zorder=1)
    axes.plot(x, nominal, color=INK, linewidth=1.5, linestyle=dashes, label=name or "_", zorder=3)


def _number(axes: Axes, layout: Layout, unit: str) -> None:
    for node in layout.nodes:
        x, (_, nominal, _) = _point(node, unit)
        axes.plot((x,), (nominal,), marker="o", markersize=4 if node.number else 2, color=INK, zorder=4)
        if node.number:
            shift, side = ((0, -7), "top") if node.second else ((0, 7), "bottom")
            label(axes, str(node.number), (x, nominal), shift, ha="center", va=side)


def _draw_whole(axes: Axes, result: Suction, unit: str) -> None:
    """The port's range between the air and the pressure at which the water boils."""
    plain(axes)
    boiling = to_shown(result.vapour_pressure_pa_abs - result.atmosphere_pa_abs, "pressure", unit)
    low, nominal, high = _ends(result.port_pressure_closed_pa_gauge, unit)
    axes.axhline(0.0, color=INK, linewidth=1.0, gid="air")
    axes.axhline(boiling, color=INK, linewidth=1.0, linestyle="--", gid="boiling")
    axes.fill_between((0.3, 0.7), (low, low), (high, high), color=BAND, zorder=2)
    axes.plot((0.3, 0.7), (nominal, nominal), color=INK, linewidth=2.0, zorder=3, gid="port")
    label(axes, f"water boils\n{significant(boiling)} {unit}", (0.5, boiling), (0, -3), ha="center", va="top")
    label(axes, "air", (0.0, 0.0), (3, 3), va="bottom")
    axes.set_title("gas port", fontsize=9.5)
    axes.set_xlim(0.0, 1.0)
    span = max(high, 0.0) - boiling
    axes.set_ylim(boiling - 0.12 * span, max(high, 0.0) + 0.08 * span)
    axes.set_xticks([])
    axes.set_ylabel(f"pressure over the air [{unit}]", fontsize=8.5)
