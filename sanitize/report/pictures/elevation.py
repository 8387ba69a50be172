"""The loop from the side: every part at its height against the water line."""

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from sanitize.basis.units import Family, significant, to_shown
from sanitize.plant.loop import Plant
from sanitize.report.pictures.key import write_key
from sanitize.report.pictures.layout import Layout, Node, lay_out
from sanitize.report.pictures.style import DPI, GREY, INK, SIZE_IN, label, mark, plain, titled
from sanitize.studies.suction.result import Suction

_UNIT: dict[Family, str] = {"metric": "m", "us": "ft"}


def elevation_figure(result: Suction, plant: Plant) -> Figure:
    """Every part at its height; pieces whose height the file leaves open are dashed."""
    layout = lay_out(result, plant)
    unit = _UNIT[result.units]

    def shown(height_m: float) -> float:
        return to_shown(height_m, "length", unit)

    figure = Figure(figsize=SIZE_IN, dpi=DPI, layout="constrained")
    axes, key = figure.subplots(1, 2, width_ratios=(4.4, 1.0))
    plain(axes)
    for start, end in layout.edges:
        dashed = not (start.height_given and end.height_given)
        axes.plot(
            (start.x, end.x),
            (shown(start.row.height_m.ends[1]), shown(end.row.height_m.ends[1])),
            color=INK,
            linewidth=1.6,
            linestyle=(0, (4, 3)) if dashed else "-",
            zorder=2,
        )
    for node in layout.nodes:
        _draw_part(axes, node, unit)
    _draw_levels(axes, result, plant, layout, unit)
    _draw_gas_line(axes, result, plant, layout, unit)
    titled(figure, result.title, "side elevation")
    axes.set_ylabel(f"height above the mark of all heights [{unit}]")
    axes.set_xlabel("parts in the order of the water; filled: height given, open and dashed: spread in between")
    axes.set_xticks([])
    axes.set_xlim(0.0, layout.last_x + 2.0)
    axes.margins(y=0.14)
    write_key(key, layout, marks=True)
    return figure


def _draw_part(axes: Axes, node: Node, unit: str) -> None:
    low, height, high = (to_shown(end, "length", unit) for end in node.row.height_m.ends)
    shape, size = mark(node.row.part)
    axes.plot((node.x, node.x), (low, high), color=GREY, linewidth=1.0, zorder=1)
    axes.plot(
        (node.x,), (height,), marker=shape, markersize=size, color=INK, markeredgewidth=1.4,
        markerfacecolor=INK if node.height_given else "white", zorder=3, gid=node.row.name,
    )  # fmt: skip
    if node.number:
        away = size / 2 + 6
        shift, side = ((0, away), "bottom") if node.second else ((0, -away), "top")
        label(axes, str(node.number), (node.x, height), shift, ha="center", va=side)


def _draw_levels(axes: Axes, result: Suction, plant: Plant, layout: Layout, unit: str) -> None:
    low, level, high = (to_shown(end, "length", unit) for end in result.water_level_m.ends)
    axes.axhspan(low, high, color="#ececec", zorder=0)
    axes.axhline(level, color=INK, linewidth=1.0, zorder=1, gid="water line")
    axes.text(
        layout.last_x + 1.95, level, f"water line {significant(level)} {unit}", ha="right", va="bottom", fontsize=8.5
    )
    rim = plant.tub.rim_m
    if rim is not None:
        top = to_shown(rim.nominal, "length", unit)
        axes.axhline(top, color=GREY, linewidth=1.0, linestyle=":", zorder=1, gid="rim")
        axes.text(layout.last_x + 1.95, top, f"rim {significant(top)} {unit}", ha="right", va="bottom", fontsize=8.5)


def _draw_gas_line(axes: Axes, result: Suction, plant: Plant, layout: Layout, unit: str) -> None:
    """From the injector's port over the line's highest point to the ozone unit, as far as heights are given."""
    port = layout.node(result.injector)
    points = [(port.x, to_shown(port.row.height_m.ends[1], "length", unit))]
    line, ozone = plant.gas_line, plant.ozone
    if line is not None and line.highest_point_m is not None:
        points.append((port.x + 0.35, to_shown(line.highest_point_m.nominal, "length", unit)))
    if ozone is not None and ozone.height_m is not None:
        points.append((port.x + 0.9, to_shown(ozone.height_m.nominal, "length", unit)))
        label(axes, "ozone unit", points[-1], (10, 0), va="center")
        axes.plot(*points[-1], marker="s", markersize=11, color=INK, markerfacecolor=GREY, zorder=3, gid="ozone unit")
    if len(points) > 1:
        x, y = zip(*points, strict=True)
        axes.plot(x, y, color=INK, linewidth=1.1, linestyle=(0, (1, 1.5)), zorder=1, gid="gas line")
