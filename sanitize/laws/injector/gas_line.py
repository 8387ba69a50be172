"""The gas line: air, ozone unit, valve, tube, check valve and the port's hole, in that order."""

from typing import NamedTuple

import numpy as np

from sanitize.laws.injector.gas_tube import Drop, tube_drop
from sanitize.laws.injector.geometry import Mask, Values
from sanitize.laws.injector.port_hole import CRITICAL_HOLE_RATIO, hole_flow, hole_outlet
from sanitize.laws.injector.root import Floats, falling_root

NO_RESISTANCE = 1e-100
"""A constant of a part of the line below which the part counts as absent, so that no flow overflows."""


class GasLine(NamedTuple):
    """What the gas passes from the air to the port; all flows at local atmospheric pressure and 20 degC.

    atmosphere_pa_abs: local; density_kgm3 and viscosity_pas of the gas there; tube_length_m, tube_bore_m;
    tube_loss: loss coefficients on the tube's bore [-]; valve_pa_s2m6: square-law constant of a needle valve
    (0: none); unit_drop_pa_diff at unit_flow_m3s with unit_exponent, 1 or more, of the ozone unit (0 Pa:
    none); cracking_pa_diff: opening pressure of the check valve with rho g h of standing water, a constant
    drop; hole_m2: discharge coefficient times area of the port's hole (np.inf: none).
    """

    atmosphere_pa_abs: Values
    density_kgm3: Values
    viscosity_pas: Values
    tube_length_m: Values
    tube_bore_m: Values
    tube_loss: Values
    valve_pa_s2m6: Values
    unit_drop_pa_diff: Values
    unit_flow_m3s: Values
    unit_exponent: Values
    cracking_pa_diff: Values
    hole_m2: Values


def line_drop(gas_flow_m3s: Values, line: GasLine) -> Drop:
    """Pressure that ozone unit, valve and tube take, before check valve and hole.

    Parameters
    ----------
    gas_flow_m3s : float or array
        q at local atmospheric pressure and 20 degC, not negative [m3/s].
    line : GasLine
        The line.

    Returns
    -------
    Drop
        Drop [Pa difference] and its slope [Pa s/m3]; both rise with the flow.

    Raises
    ------
    Nothing.

    Notes
    -----
    Sum of the unit's power law, the valve's square law and `tube_drop`.
    Validity: density at local atmospheric pressure throughout.

    References
    ----------
    As `tube_drop`.

    Examples
    --------
    >>> line = GasLine(101325.0, 1.2, 1.81e-5, 1.8, 4e-3, 0.0, 0.0, 500.0, 2 / 60e3, 2.0, 1.5e3, np.inf)
    >>> float(line_drop(2 / 60e3, line).pa_diff)
    672.8
    """
    tube = tube_drop(
        gas_flow_m3s,
        line.tube_length_m,
        line.tube_bore_m,
        line.tube_loss,
        line.density_kgm3,
        line.viscosity_pas,
    )
    share = gas_flow_m3s / line.unit_flow_m3s
    power = line.unit_exponent
    return Drop(
        tube.pa_diff + line.valve_pa_s2m6 * gas_flow_m3s**2 + line.unit_drop_pa_diff * share**power,
        tube.slope_pa_sm3
        + 2.0 * line.valve_pa_s2m6 * gas_flow_m3s
        + line.unit_drop_pa_diff * power * share ** (power - 1.0) / line.unit_flow_m3s,
    )


class PortSupply(NamedTuple):
    """Pressure that the line leaves at the port for a flow, its slope, and whether the flow passes at all."""

    pa_abs: Values
    slope_pa_sm3: Values
    is_passable: Mask


def port_supply(gas_flow_m3s: Values, line: GasLine) -> PortSupply:
    """Pressure that the gas line leaves at the port for a gas flow.

    Parameters
    ----------
    gas_flow_m3s : float or array
        q at local atmospheric pressure and 20 degC, not negative [m3/s].
    line : GasLine
        The line.

    Returns
    -------
    PortSupply
        po [Pa absolute], its slope, not positive [Pa s/m3], and a mask. Where the mask is false the hole is
        choked below this flow and no pressure passes it; see `hole_outlet` for what is returned there.

    Raises
    ------
    Nothing.

    Notes
    -----
    po = hole(p_atm - dp_line(q) - pc). At no flow p_atm - pc.
    Validity: as `line_drop` and `hole_flow`; the check valve has no hysteresis.

    References
    ----------
    As `line_drop` and `hole_flow`.

    Examples
    --------
    >>> line = GasLine(101325.0, 1.2, 1.81e-5, 1.8, 4e-3, 0.0, 0.0, 500.0, 2 / 60e3, 2.0, 1.5e3, np.inf)
    >>> float(port_supply(2 / 60e3, line).pa_abs)
    99152.16
    """
    drop = line_drop(gas_flow_m3s, line)
    outlet = hole_outlet(
        line.atmosphere_pa_abs - drop.pa_diff - line.cracking_pa_diff,
        gas_flow_m3s,
        line.hole_m2,
        line.atmosphere_pa_abs,
        line.density_kgm3,
    )
    return PortSupply(
        outlet.pa_abs,
        outlet.per_flow_pa_sm3 - outlet.per_upstream * drop.slope_pa_sm3,
        outlet.is_passable,
    )


def line_flow_m3s(port_pa_abs: Values, line: GasLine) -> Values:
    """Gas flow that the line passes at a port pressure, the inverse of `port_supply`.

    Parameters
    ----------
    port_pa_abs : float or array
        po [Pa absolute].
    line : GasLine
        The line.

    Returns
    -------
    float or array of the broadcast shape
        q at local atmospheric pressure and 20 degC [m3/s]; 0 where po is not below p_atm - pc, np.inf where
        nothing in the line resists.

    Raises
    ------
    Nothing.

    Notes
    -----
    Root of hole(p_atm - dp_line(q) - pc, po) - q, which falls with q; without a hole, of p_atm - dp_line(q)
    - pc - po. A choked hole makes it constant below the port pressure at which it chokes.
    Validity: as `port_supply`.

    References
    ----------
    As `port_supply`.

    Examples
    --------
    >>> line = GasLine(101325.0, 1.2, 1.81e-5, 1.8, 4e-3, 0.0, 0.0, 500.0, 2 / 60e3, 2.0, 1.5e3, np.inf)
    >>> float(line_flow_m3s(99152.158, line)) * 60e3
    2.0
    """
    fields = np.broadcast_arrays(port_pa_abs, *line)
    port, *rest = (np.asarray(field, dtype=np.float64) for field in fields)
    line = GasLine(*rest)
    lack = line.atmosphere_pa_abs - line.cracking_pa_diff - port
    is_open = lack > 0.0
    high = _largest_flow(np.where(is_open, lack, 0.0), line)
    is_resisted = np.isfinite(high)
    high = np.where(is_resisted, high, 0.0)
    has_hole = np.isfinite(line.hole_m2)
    hole_m2 = np.where(has_hole, line.hole_m2, 0.0)

    def excess(flow: Floats) -> tuple[Floats, Floats]:
        drop = line_drop(flow, line)
        upstream = line.atmosphere_pa_abs - line.cracking_pa_diff - drop.pa_diff
        hole = hole_flow(upstream, port, hole_m2, line.atmosphere_pa_abs, line.density_kgm3)
        return (
            np.where(has_hole, hole.flow_m3s - flow, upstream - port),
            np.where(has_hole, -hole.per_upstream_m3s_pa * drop.slope_pa_sm3 - 1.0, -drop.slope_pa_sm3),
        )

    flow = falling_root(excess, np.zeros_like(high), high, high)
    return np.where(is_open & ~is_resisted, np.inf, flow)[()]


def _largest_flow(lack_pa_diff: Floats, line: GasLine) -> Floats:
    """A flow that the line cannot pass: the least of what each part would pass alone."""
    laminar = 128.0 * line.viscosity_pas * line.tube_length_m / np.pi / line.tube_bore_m**4
    fittings = line.tube_loss * 0.5 * line.density_kgm3 * (4.0 / np.pi / line.tube_bore_m**2) ** 2
    hole = np.where(np.isfinite(line.hole_m2), line.hole_m2, 0.0)
    full = line.atmosphere_pa_abs - line.cracking_pa_diff
    choked = hole_flow(full, CRITICAL_HOLE_RATIO * full, hole, line.atmosphere_pa_abs, line.density_kgm3).flow_m3s
    powers = (
        (laminar, 1.0, 1.0),
        (fittings + line.valve_pa_s2m6, 1.0, 0.5),
        (line.unit_drop_pa_diff, line.unit_flow_m3s, 1.0 / line.unit_exponent),
    )
    least = np.where(hole > 0.0, choked, np.inf)
    for constant, unit, power in powers:
        resists = np.greater(constant, NO_RESISTANCE)
        alone = unit * (lack_pa_diff / np.where(resists, constant, 1.0)) ** power
        least = np.where(resists, np.minimum(least, alone), least)
    return np.asarray(least)
