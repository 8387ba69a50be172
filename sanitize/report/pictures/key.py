"""The list beside a picture that says which number is which part."""

from matplotlib.axes import Axes

from sanitize.report.pictures.layout import Layout
from sanitize.report.pictures.style import INK, mark

LINES = 36
_WIDTH = 28


def write_key(axes: Axes, layout: Layout, *, marks: bool = False) -> None:
    """Number and name of every part from the top, on request with its mark; what does not fit is counted."""
    axes.set_axis_off()
    axes.set_xlim(0.0, 1.0)
    axes.set_ylim(LINES, 0.0)
    nodes = layout.numbered
    fitting = nodes if len(nodes) <= LINES else nodes[: LINES - 1]
    for line, node in enumerate(fitting):
        name = node.row.name if len(node.row.name) <= _WIDTH else node.row.name[: _WIDTH - 2] + ".."
        axes.text(0.10, line + 0.5, str(node.number), va="center", ha="right", color=INK, fontsize=8.5)
        axes.text(0.26 if marks else 0.14, line + 0.5, name, va="center", color=INK, fontsize=8.5)
        if marks:
            shape, size = mark(node.row.part)
            axes.plot(
                (0.18,), (line + 0.5,), marker=shape, markersize=0.6 * size, color=INK, markeredgewidth=1.0,
                markerfacecolor=INK if node.height_given else "white",
            )  # fmt: skip
    if len(nodes) > LINES:
        axes.text(0.14, LINES - 0.5, f"and {len(nodes) - LINES + 1} more: see the table", va="center", fontsize=8.5)
