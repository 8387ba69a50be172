"""How much gas an injector draws at a given water flow and outlet pressure."""

from typing import NamedTuple

import numpy as np

from sanitize.basis.constants import CELSIUS_ZERO_K
from sanitize.laws.injector.choke import largest_gas_pa
from sanitize.laws.injector.diffuser import diffuser_balance
from sanitize.laws.injector.gas_line import GasLine, line_flow_m3s, port_supply
from sanitize.laws.injector.geometry import Mask, Values, throat_dynamic_pressure
from sanitize.laws.injector.mixing import Mixer, bore_end_pressure, bore_rise_coefficient, gas_weight_coefficient
from sanitize.laws.injector.port import port_pressure_with_gas, small_draw_pa
from sanitize.laws.injector.root import Floats, falling_root

GAS_FLOW_TEMPERATURE_K = CELSIUS_ZERO_K + 20.0
"""Temperature at which gas flows are stated [K], a convention of this package."""


def gas_pressure_per_flow(flow_m3s: Values, temperature_c: Values, atmosphere_pa_abs: Values) -> Values:
    """G = p Qgas/Qwater for each unit of gas flow stated at local atmospheric pressure and 20 degC.

    Parameters
    ----------
    flow_m3s : float or array
        Water flow Q, above 0 [m3/s].
    temperature_c : float or array
        Water temperature, which the gas takes [degC].
    atmosphere_pa_abs : float or array
        Local [Pa absolute].

    Returns
    -------
    float or array of the broadcast shape
        G/q [Pa s/m3].

    Raises
    ------
    Nothing.

    Notes
    -----
    G = q p_atm/Q T_w/293.15 K.
    Validity: ideal gas; vapour in the bubbles neglected.

    References
    ----------
    Derived here.

    Examples
    --------
    >>> gas_pressure_per_flow(5e-4, 20.0, 101325.0) * 5e-5
    10132.5
    """
    return atmosphere_pa_abs / flow_m3s * (temperature_c + CELSIUS_ZERO_K) / GAS_FLOW_TEMPERATURE_K


class GasDraw(NamedTuple):
    """The state with the gas line open.

    gas_flow_m3s: at local atmospheric pressure and 20 degC; gas_pa: G, 0 where no water flows; port_pa_abs;
    bore_end_pa_abs; is_choked: gas chokes the mixing bore; is_at_vapour_pressure: the port stands at the
    floor; is_line_choked: the port's hole is choked.
    """

    gas_flow_m3s: Values
    gas_pa: Values
    port_pa_abs: Values
    bore_end_pa_abs: Values
    is_choked: Mask
    is_at_vapour_pressure: Mask
    is_line_choked: Mask


def gas_draw_at(
    flow_m3s: Values,
    outlet_pa_abs: Values,
    throat_m2: Values,
    density_kgm3: Values,
    temperature_c: Values,
    vapour_pa_abs: Values,
    mixer: Mixer,
    line: GasLine,
) -> GasDraw:
    """Gas flow at which the port pressure that the injector needs is the one that the gas line leaves.

    Parameters
    ----------
    flow_m3s : float or array
        Water flow Q, not negative [m3/s].
    outlet_pa_abs : float or array
        p2, static, with this gas flowing [Pa absolute].
    throat_m2 : float or array
        An [m2].
    density_kgm3, temperature_c, vapour_pa_abs : float or array
        Of the water [kg/m3], [degC], pv [Pa absolute].
    mixer : Mixer
        Coefficients of the injector.
    line : GasLine
        The gas line.

    Returns
    -------
    GasDraw
        The draw is 0 exactly where the dry port pressure is not below p_atm - pc. Without water flow it is
        what the line passes at p2 (np.inf where nothing resists).

    Raises
    ------
    ValueError
        If a flow is negative.

    Notes
    -----
    `port_pressure_with_gas` rises strictly with the gas flow and `port_supply` falls, so there is one root.
    It is sought below the least of two flows: the one that the line passes at the vapour pressure, and the
    one that chokes the mixing bore, T = 2 sqrt(w Z G); where the diffuser's balance is not positive there,
    that flow is the answer. Otherwise q = q_least (1 - s^2) and the diffuser's balance is solved for s,
    which is regular at the choke.
    Validity: the model's own; a factor of 3 either way until calibrated on the device (estimate), and an
    efficiency above 0.45 is doubtful.

    References
    ----------
    cunningham_1974 and karassik_pump_handbook, read through another; the method is derived here.

    Examples
    --------
    >>> mixer = Mixer(0.8, 0.05, 0.15, 1.0, 0.15)
    >>> line = GasLine(101325.0, 1.2, 1.81e-5, 1.8, 4e-3, 0.0, 0.0, 500.0, 2 / 60e3, 2.0, 1.5e3, 7e-6)
    >>> draw = gas_draw_at(np.array([4e-4, 5e-4, 6e-4]), 108e3, 5e-5, 999.7, 10.0, 1228.0, mixer, line)
    >>> (draw.gas_flow_m3s * 60e3).round(2).tolist()
    [6.17, 7.93, 8.05]
    """
    if np.any(np.less(flow_m3s, 0.0)):
        raise ValueError("the water flow must not be negative")
    arrays = np.broadcast_arrays(
        flow_m3s, outlet_pa_abs, throat_m2, density_kgm3, temperature_c, vapour_pa_abs, *mixer, *line
    )
    flow, outlet, throat, density, warmth, pv, *rest = (np.asarray(x, dtype=np.float64) for x in arrays)
    mixer, line = Mixer(*rest[: len(mixer)]), GasLine(*rest[len(mixer) :])
    z = np.asarray(throat_dynamic_pressure(flow, throat, density))
    supply = line.atmosphere_pa_abs - line.cracking_pa_diff
    moves = z > 0.0
    per_gas = np.asarray(gas_pressure_per_flow(np.where(moves, flow, 1.0), warmth, line.atmosphere_pa_abs))
    draws = moves & (port_pressure_with_gas(z, 0.0, outlet, mixer, pv).pa_abs < supply)

    most = np.minimum(line_flow_m3s(pv, line), largest_gas_pa(supply, z, mixer) / per_gas)
    most = np.where(draws, most, 0.0)
    least = _choking_flow(most, z, per_gas, mixer, line)
    gas_flow = _balanced_flow(least, z, per_gas, outlet, pv, mixer, line)
    still = np.where(moves, 0.0, line_flow_m3s(outlet, line))
    gas = per_gas * gas_flow
    port = port_pressure_with_gas(z, gas, outlet, mixer, pv)
    offered = np.asarray(port_supply(gas_flow, line).pa_abs)
    is_line_choked = draws & np.isfinite(line.hole_m2) & (port.pa_abs < offered * (1.0 - 1e-9))
    return GasDraw(
        np.where(moves, gas_flow, still)[()],
        gas[()],
        port.pa_abs,
        port.bore_end_pa_abs,
        port.is_choked,
        port.is_at_vapour_pressure,
        is_line_choked[()],
    )


def _choking_flow(most: Floats, z: Floats, per_gas: Floats, mixer: Mixer, line: GasLine) -> Floats:
    """The gas flow that chokes the mixing bore at what the line then leaves, or `most` where that is less."""
    rise = np.asarray(bore_rise_coefficient(mixer)) * z
    pull = 2.0 * np.sqrt(np.asarray(gas_weight_coefficient(mixer)) * z * per_gas)

    def margin(root_flow: Floats) -> tuple[Floats, Floats]:
        now = port_supply(root_flow**2, line)
        return now.pa_abs + rise - pull * root_flow, 2.0 * root_flow * now.slope_pa_sm3 - pull

    high = np.sqrt(most)
    is_reached = margin(high)[0] < 0.0
    low = np.where(is_reached, 0.0, high)
    return np.asarray(falling_root(margin, low, high, 0.7 * high) ** 2)


def _balanced_flow(
    least: Floats, z: Floats, per_gas: Floats, outlet: Floats, pv: Floats, mixer: Mixer, line: GasLine
) -> Floats:
    """The gas flow up to `least` at which the diffuser's balance holds, or `least` where none does."""

    def balance(share: Floats) -> tuple[Floats, Floats]:
        gas_flow = least * (1.0 - share**2)
        now = port_supply(gas_flow, line)
        end = bore_end_pressure(now.pa_abs, z, per_gas * gas_flow, mixer)
        pressure = np.where(np.greater(end.pa_abs, 0.0), end.pa_abs, pv)
        here = diffuser_balance(pressure, outlet, z, per_gas * gas_flow, mixer)
        per_end = end.per_port * now.slope_pa_sm3 + end.per_gas * per_gas
        slope = here.per_bore_end * per_end + here.per_gas * per_gas
        return np.asarray(here.residual_pa), np.asarray(-2.0 * least * share * slope)

    zeros, ones = np.zeros_like(least), np.ones_like(least)
    is_inside = (least > 0.0) & (balance(zeros)[0] > 0.0)
    high = np.where(is_inside, ones, 0.0)
    supply = line.atmosphere_pa_abs - line.cracking_pa_diff
    guess = small_draw_pa(supply, outlet, z, mixer, pv) / np.where(least > 0.0, per_gas * least, 1.0)
    start = np.sqrt(1.0 - np.clip(guess, 0.0, 0.98))
    return np.asarray(least * (1.0 - falling_root(balance, zeros, high, start) ** 2))
