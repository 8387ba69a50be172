"""The ranking of the causes before and after the answers."""

import textwrap

from matplotlib.figure import Figure

from sanitize.report.pictures.style import BAND, DPI, INK, SIZE_IN, plain, titled
from sanitize.studies.cloudy.knowledge import rule
from sanitize.studies.cloudy.result import Cloudy

MOST_BARS = 12
_LINE = 40


def cloudy_figure(result: Cloudy) -> Figure:
    """Two bars for each of the first causes: hollow before any evidence, filled after it, with its range as a line.

    The axis is told in words only, as every chance is judgement.
    """
    figure = Figure(figsize=SIZE_IN, dpi=DPI, layout="constrained")
    axes = figure.subplots()
    plain(axes)
    rows = result.causes[:MOST_BARS]
    places = list(range(len(rows)))
    after = [row.chance_ratio.ends for row in rows]
    before = [row.before_ratio for row in rows]
    axes.barh([place - 0.2 for place in places], before, 0.32, facecolor="white", edgecolor=INK,
              hatch="////", linewidth=1.0, label="before any evidence", gid="before", zorder=2)  # fmt: skip
    axes.barh([place + 0.2 for place in places], [ends[1] for ends in after], 0.38, facecolor=BAND, edgecolor=INK,
              linewidth=1.0, label="after it", gid="after", zorder=2)  # fmt: skip
    for place, (low, _, high) in zip(places, after, strict=True):
        axes.plot((low, high), (place + 0.2, place + 0.2), color=INK, linewidth=1.6, zorder=3, gid="range",
                  label="its range" if place == 0 else "_")  # fmt: skip
    bounds = (rule("possible_from_ratio"), rule("likely_from_ratio"))
    for bound in bounds:
        axes.axvline(bound, color=INK, linestyle="--", linewidth=1.0, zorder=1)
    axes.set_xlim(0.0, 1.0)
    axes.set_ylim(len(rows) - 0.4, -0.9)
    axes.set_xticks([bounds[0] / 2.0, sum(bounds) / 2.0, (bounds[1] + 1.0) / 2.0], ["unlikely", "possible", "likely"])
    axes.tick_params(axis="x", length=0)
    axes.set_yticks(places, [_short(row.name) for row in rows])
    axes.set_xlabel("judgement in words; dashes part them")
    axes.grid(visible=False)
    axes.legend(loc="lower right", frameon=False)
    titled(figure, result.title, "what clouds the water, before and after the answers")
    return figure


def _short(name: str) -> str:
    """A name in two lines at the most."""
    lines = textwrap.wrap(name, _LINE)
    return "\n".join(lines if len(lines) <= 2 else [lines[0], lines[1][: _LINE - 2] + ".."])
