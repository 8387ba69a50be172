"""Where the test stands against the targets, and where each step brings it: dots and bars."""

from dataclasses import dataclass

from matplotlib.axes import Axes
from matplotlib.figure import Figure

from sanitize.basis.figure import Figure as Ranged
from sanitize.basis.units import significant
from sanitize.report.pictures.style import BAND, DPI, GREY, INK, SIZE_IN, titled
from sanitize.studies.dosing.numbers import number
from sanitize.studies.dosing.result import FIELDS, SPOKEN, Dosing, Expected

_NEAR = 0.022
"""Labels nearer than this share of the width are written as one."""


@dataclass(frozen=True)
class Row:
    """One item: its label, the wanted range, as tested, and after each step by its number (0: change of water)."""

    label: str
    wanted: Ranged
    tested: Ranged
    points: tuple[tuple[str, float], ...]
    last: Ranged
    decimals: int | None

    @property
    def span(self) -> tuple[float, float]:
        """From the least to the largest of all that the row shows, with some room."""
        shown = [*self.wanted.ends, *self.tested.ends, *self.last.ends, *(value for _, value in self.points)]
        low, high = min(shown), max(shown)
        room = 0.06 * max(high - low, 1e-9)
        return low - room, high + room

    def place(self, value: float) -> float:
        """Where a value stands over the width of the row."""
        low, high = self.span
        return (value - low) / (high - low)

    def words(self, value: float) -> str:
        """A value as it is written."""
        return significant(value) if self.decimals is None else f"{value:.{self.decimals}f}"


def rows_of(result: Dosing) -> list[Row]:
    """The rows of the picture, in the order of the targets, and the saturation index below them."""
    rows = []
    for target in result.targets:
        unit = "" if target.item == "ph" else " [mg/L]"
        label, field = f"{SPOKEN[target.item]}{unit}", FIELDS[target.item]
        rows.append(_row(result, label, field, target.wanted, 1 if target.item == "ph" else None))
    rows.append(_row(result, "saturation index", "saturation_index", _balance(), 1))
    return rows


def _balance() -> Ranged:
    """Saturation index that neither attacks nor scales."""
    return Ranged(number("aggressive_index_low").value, 0.0, number("scaling_index_high").value)


def _row(result: Dosing, label: str, field: str, wanted: Ranged, decimals: int | None) -> Row:
    def at(expected: Expected) -> Ranged:
        found: Ranged = getattr(expected, field)
        return found

    now, points = at(result.before).ends[1], []
    states = [("W", result.water_change.after)] if result.water_change is not None else []
    states += [(str(step.number), step.after) for step in result.steps]
    for name, expected in states:
        value = at(expected).ends[1]
        if abs(value - now) > 0.03 * (wanted.ends[2] - wanted.ends[0]):
            points.append((name, value))
            now = value
    return Row(label, wanted, at(result.before), tuple(points), at(result.after), decimals)


def dosing_figure(result: Dosing) -> Figure:
    """A row an item: a bar for what is wanted, a ring for the test, numbered dots for the steps, lines for ranges."""
    figure = Figure(figsize=SIZE_IN, dpi=DPI, layout="constrained")
    axes = figure.subplots()
    rows = rows_of(result)
    for height, row in enumerate(rows):
        _draw(axes, float(height), row)
    axes.set_ylim(len(rows) - 0.4, -0.6)
    axes.set_xlim(-0.04, 1.04)
    axes.set_yticks(range(len(rows)), [f"{row.label}\ntested {row.words(row.tested.ends[1])}" for row in rows])
    axes.set_xticks([])
    axes.tick_params(axis="y", length=0)
    axes.spines[["top", "right", "left", "bottom"]].set_visible(False)
    axes.set_xlabel(
        "bar: wanted, with its ends; ring: as tested; dots: after the step of that number (W: change of water); "
        "lines: range by\nreading error. Each row has a scale of its own."
    )
    titled(figure, result.title, "the water against its targets, and where each step brings it")
    return figure


def _draw(axes: Axes, height: float, row: Row) -> None:
    low, _, high = row.wanted.ends
    left, right = row.place(low), row.place(high)
    axes.barh(height, right - left, left=left, height=0.34, color=BAND, edgecolor=INK, linewidth=1.0, gid="wanted")
    for place, value in ((left, low), (right, high)):
        axes.text(place, height - 0.28, row.words(value), ha="center", va="center", fontsize=8, color=GREY)
    _range(axes, height - 0.07, row, row.tested)
    _dot(axes, height - 0.07, row.place(row.tested.ends[1]), "white", "tested")
    if not row.points:
        return
    _range(axes, height + 0.07, row, row.last)
    for _, value in row.points:
        _dot(axes, height + 0.07, row.place(value), INK, "step")
    for names, place in labels_of(row):
        axes.text(place, height + 0.29, names, ha="center", va="center", fontsize=8, color=INK)


def labels_of(row: Row) -> list[tuple[str, float]]:
    """The numbers of the steps where their dots stand; those that would lie on each other are joined."""
    joined: list[list[tuple[str, float]]] = []
    for name, place in sorted(((name, row.place(value)) for name, value in row.points), key=lambda one: one[1]):
        if joined and place - joined[-1][-1][1] < _NEAR:
            joined[-1].append((name, place))
        else:
            joined.append([(name, place)])
    return [(",".join(name for name, _ in group), sum(place for _, place in group) / len(group)) for group in joined]


def _range(axes: Axes, height: float, row: Row, value: Ranged) -> None:
    low, _, high = value.ends
    axes.plot([row.place(low), row.place(high)], [height, height], color=INK, linewidth=1.2, zorder=3, gid="range")


def _dot(axes: Axes, height: float, place: float, face: str, name: str) -> None:
    axes.plot(
        [place], [height], marker="o", markersize=7, markerfacecolor=face, markeredgecolor=INK, zorder=4,
        linestyle="none", gid=name,
    )  # fmt: skip
