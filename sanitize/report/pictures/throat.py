"""Gas and water over the injector's throat: the trade-off."""

from matplotlib.figure import Figure

from sanitize.basis.units import to_shown
from sanitize.report.phrases import unit_of
from sanitize.report.pictures.style import BAND, DPI, GREY, INK, SIZE_IN, from_zero, label, plain, titled
from sanitize.studies.advice.result import Throats


def throat_figure(result: Throats) -> Figure:
    """Two strips over the throat: gas with its range, and water with the least that is acceptable.

    Filled marks are acceptable, hollow ones not; the throat to take stands between dashes, the present one on dots.
    """
    family = result.units
    bore, gas, flow = unit_of("bore", family), unit_of("gas flow", family), unit_of("flow", family)
    figure = Figure(figsize=SIZE_IN, dpi=DPI, layout="constrained")
    upper, lower = figure.subplots(2, 1, sharex=True)
    along = [to_shown(row.throat_m, "bore", bore) for row in result.rows]
    strips = (
        (upper, [row.gas_flow_m3s for row in result.rows], "gas flow", gas),
        (lower, [row.flow_m3s for row in result.rows], "flow", flow),
    )
    for axes, figures, kind, unit in strips:
        plain(axes)
        ends = [[to_shown(end, kind, unit) for end in item.ends] for item in figures]
        axes.fill_between(along, [end[0] for end in ends], [end[2] for end in ends], color=BAND, zorder=1)
        axes.plot(along, [end[1] for end in ends], color=INK, linewidth=1.8, zorder=3, gid="nominal")
        for fits, face in ((True, INK), (False, "white")):
            chosen = [(x, end[1]) for x, end, row in zip(along, ends, result.rows, strict=True)
                      if (not row.objections) == fits]  # fmt: skip
            if chosen:
                axes.plot(
                    [x for x, _ in chosen], [y for _, y in chosen], linestyle="none", marker="o", markersize=6,
                    markerfacecolor=face, markeredgecolor=INK, zorder=4, gid="acceptable" if fits else "not acceptable",
                    clip_on=False,
                )  # fmt: skip
        axes.axvline(to_shown(result.here_m, "bore", bore), color=GREY, linestyle=":", linewidth=1.4, zorder=2)
        if result.take_m is not None:
            axes.axvline(
                to_shown(result.take_m, "bore", bore), color=INK, linestyle="--", linewidth=1.2, zorder=2, gid="take"
            )
        from_zero(axes)
    here = next((row for row in result.rows if row.throat_m == result.here_m), None)
    if here is not None:
        least = result.least_flow_ratio * to_shown(here.flow_m3s.ends[1], "flow", flow)
        lower.axhline(least, color=INK, linestyle="-.", linewidth=1.0, zorder=2, gid="least flow")
        words = f"least: {100.0 * result.least_flow_ratio:.0f} % of the present flow"
        label(lower, words, (along[-1], least), (0, -4), ha="right", va="top")
    upper.set_ylabel(f"gas, line open [{gas}]")
    lower.set_ylabel(f"water, line open [{flow}]")
    lower.set_xlabel(
        f"throat [{bore}]; line: nominal, band: low to high; hollow: not acceptable; dots: present"
        + ("" if result.take_m is None else "; dashes: take")
    )
    figure.align_ylabels()
    titled(figure, result.title, "gas and water over the throat")
    return figure
