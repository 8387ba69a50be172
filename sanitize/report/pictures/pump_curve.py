"""The pump's curve against the system's."""

from matplotlib.figure import Figure

from sanitize.basis.units import to_shown
from sanitize.report.phrases import figure as told
from sanitize.report.phrases import unit_of
from sanitize.report.pictures.style import DPI, INK, SIZE_IN, label, plain, titled
from sanitize.studies.suction.result import Suction


def pump_figure(result: Suction) -> Figure:
    """Head over flow of pump and system with their ranges, and the flow at which the loop runs."""
    head_unit, flow_unit = unit_of("head", result.units), unit_of("flow", result.units)
    figure = Figure(figsize=SIZE_IN, dpi=DPI, layout="constrained")
    axes = figure.subplots()
    plain(axes)
    axes.grid(visible=True, axis="x", color="#e6e6e6", linewidth=0.6)
    line = result.pump_line
    flows = [to_shown(flow, "flow", flow_unit) for flow in line.flow_m3s]
    for name, heads, dashes, hatch in (
        ("pump", line.pump_head_m, "-", ""),
        ("system", line.system_head_m, "--", "////"),
    ):
        low, nominal, high = (
            [to_shown(head[end], "head", head_unit) for head in heads] for end in range(3)
        )  # fmt: skip
        axes.fill_between(
            flows, low, high, facecolor="#e2e2e2" if not hatch else "none", edgecolor="#b5b5b5", hatch=hatch,
            linewidth=0.4, zorder=1,
        )  # fmt: skip
        axes.plot(flows, nominal, color=INK, linewidth=1.8, linestyle=dashes, label=f"{name}, with its range", zorder=3)
    start, at, end = (to_shown(flow, "flow", flow_unit) for flow in result.flow_port_closed_m3s.ends)
    head = to_shown(result.pump_head_m.ends[1], "head", head_unit)
    axes.plot((start, end), (head, head), color=INK, linewidth=1.2, marker="|", markersize=11, zorder=4, gid="range")
    axes.plot((at,), (head,), marker="o", markersize=9, color=INK, markerfacecolor="white", zorder=5, gid="runs")
    runs = told(result.flow_port_closed_m3s, "flow", result.units)
    label(axes, f"runs at {runs}", (end, head), (8, 0), va="center")
    titled(figure, result.title, "pump and system, gas line closed")
    axes.set_xlabel(f"flow out of the tub [{flow_unit}]")
    axes.set_ylabel(f"head [{head_unit}]")
    axes.set_xlim(left=0.0)
    top = max(end for heads in line.pump_head_m for end in heads)
    axes.set_ylim(0.0, 1.12 * to_shown(max(top, result.pump_head_m.ends[2]), "head", head_unit))
    axes.legend(loc="center left", frameon=False, handlelength=3.5)
    return figure
