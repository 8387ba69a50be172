"""How every picture looks: size, greys, marks."""

from typing import Any

from matplotlib.axes import Axes
from matplotlib.figure import Figure

SIZE_IN = (11.0, 6.2)
DPI = 100
INK = "#111111"
GREY = "#777777"
BAND = "#d4d4d4"
RC: Any = {
    "font.family": "DejaVu Sans",
    "font.size": 9.5,
    "svg.hashsalt": "sanitize-tub",
    "svg.fonttype": "none",
    "axes.edgecolor": INK,
    "axes.unicode_minus": False,
    "text.parse_math": False,
}

MARKS = {
    "suction fitting": (">", 9),
    "return": ("D", 8),
    "pump": ("o", 15),
    "filter": ("s", 12),
    "chiller": ("p", 13),
    "injector": ("v", 13),
    "strainer": ("h", 10),
    "check valve": ("<", 9),
    "ball valve": ("X", 9),
    "throttle valve": ("X", 9),
    "butterfly valve": ("X", 9),
    "gate valve": ("X", 9),
    "globe valve": ("X", 9),
}
PLAIN_MARK = ("o", 5)
TEE_MARK = ("|", 7)


def mark(word: str) -> tuple[str, int]:
    """Shape and size of a part's mark by its word."""
    return TEE_MARK if word == "tee" else MARKS.get(word, PLAIN_MARK)


def titled(figure: Figure, title: str, what: str) -> None:
    """The picture's title: whose loop, and what is shown."""
    whose = title if len(title) <= 60 else title[:58] + ".."
    figure.suptitle(f"{whose or 'Loop'}: {what}", x=0.01, ha="left", fontweight="bold", fontsize=11)


def label(axes: Axes, text: str, at: tuple[float, float], shift: tuple[float, float], **how: Any) -> None:
    """A small text beside a place, on white so that lines do not cross it."""
    axes.annotate(
        text, at, xytext=shift, textcoords="offset points", fontsize=8.5, zorder=6,
        bbox={"boxstyle": "square,pad=0.1", "facecolor": "white", "edgecolor": "none"}, **how,
    )  # fmt: skip


def from_zero(axes: Axes) -> None:
    """The upward axis from zero to what is drawn, to one where all of it is zero."""
    axes.set_ylim(0.0, 1.05 * max(axes.dataLim.y1, 0.0) or 1.0)


def plain(axes: Axes) -> None:
    """A frame without top and right, and a faint grid."""
    axes.spines[["top", "right"]].set_visible(False)
    axes.grid(visible=True, axis="y", color="#e6e6e6", linewidth=0.6)
    axes.set_axisbelow(True)
