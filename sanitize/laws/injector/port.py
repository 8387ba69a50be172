"""Pressure that the gas port must have for an injector to carry a gas flow away."""

from typing import NamedTuple

import numpy as np

from sanitize.laws.injector.choke import choke_pressure_pa_abs
from sanitize.laws.injector.diffuser import (
    diffuser_balance,
    dry_bore_end_pa_abs,
    highest_bore_end_pa_abs,
)
from sanitize.laws.injector.geometry import Mask, Values
from sanitize.laws.injector.mixing import Mixer, bore_rise_coefficient, gas_weight_coefficient
from sanitize.laws.injector.root import Floats, falling_root


class Port(NamedTuple):
    """Port pressure with gas, its slopes with Z, G and outlet pressure, and what limits it.

    bore_end_pa_abs is only reported where the port stands at the vapour pressure.
    """

    pa_abs: Values
    per_z: Values
    per_gas: Values
    per_outlet: Values
    bore_end_pa_abs: Values
    is_choked: Mask
    is_at_vapour_pressure: Mask


def port_pressure_with_gas(
    throat_dynamic_pa: Values,
    gas_pa: Values,
    outlet_pa_abs: Values,
    mixer: Mixer,
    vapour_pa_abs: Values,
) -> Port:
    """Pressure at the gas port for a gas flow, a water flow and an outlet pressure.

    Parameters
    ----------
    throat_dynamic_pa : float or array
        Z, not negative [Pa].
    gas_pa : float or array
        G, not negative [Pa].
    outlet_pa_abs : float or array
        p2, above 0 [Pa absolute].
    mixer : Mixer
        Coefficients.
    vapour_pa_abs : float or array
        pv of the water [Pa absolute].

    Returns
    -------
    Port
        po [Pa absolute], its slopes with Z, G and p2 [-], pt [Pa absolute], whether gas chokes the bore, and
        whether po stands at the vapour pressure. Slopes are zero at that floor.

    Raises
    ------
    Nothing.

    Notes
    -----
    pt is the root of `diffuser_balance` above the choke ps = sqrt(w Z G); then po = pt - c0 Z + w Z G/pt.
    Where that balance is negative at ps the bore is choked: pt = ps, po = 2 ps - c0 Z, and p2 has no part.
    po never falls below pv. Without gas this is p2 - kappa Z. Above the floor po rises strictly with G; value
    and slopes are continuous through the choke.
    Validity: homogeneous bubbly flow without slip, mixing finished in the bore. Vapour in the bubbles is
    neglected (1 % at 10 degC, 7 % at 40 degC). With little friction and a port below 10 kPa absolute the
    momentum balance alone can break the bound of `most_gas_pa`. With b near 1 and Km Z above the supply
    pressure (jets past 25 m/s) the bore's own friction keeps gas out that the dry law would admit.

    References
    ----------
    cunningham_1974 and karassik_pump_handbook, read through another; derived here and matched to them.

    Examples
    --------
    >>> mixer = Mixer(0.8, 0.05, 0.15, 1.0, 0.15)
    >>> [round(float(port_pressure_with_gas(60e3, g, 108e3, mixer, 1.2e3).pa_abs)) for g in (0.0, 10e3, 20e3)]
    [59430, 69745, 82240]
    """
    rise, weight = bore_rise_coefficient(mixer), gas_weight_coefficient(mixer)
    z, gas, outlet, pv, ps, dry_end = (
        np.asarray(x, dtype=np.float64)
        for x in np.broadcast_arrays(
            throat_dynamic_pa,
            gas_pa,
            outlet_pa_abs,
            vapour_pa_abs,
            choke_pressure_pa_abs(throat_dynamic_pa, gas_pa, mixer),
            dry_bore_end_pa_abs(throat_dynamic_pa, outlet_pa_abs, mixer),
        )
    )
    has_bubbles = (gas > 0.0) & (z > 0.0)
    low = np.where(has_bubbles, ps, outlet)
    is_choked = has_bubbles & (diffuser_balance(low, outlet, z, gas, mixer).residual_pa < 0.0)
    is_sought = has_bubbles & ~is_choked
    high = np.where(is_sought, np.maximum(highest_bore_end_pa_abs(outlet, z, gas, mixer), low), low)

    def balance(end: Floats) -> tuple[Floats, Floats]:
        now = diffuser_balance(end, outlet, z, gas, mixer)
        return np.asarray(now.residual_pa), np.asarray(now.per_bore_end)

    end = np.where(has_bubbles, falling_root(balance, low, high, dry_end), dry_end)
    at_end = np.where(end > 0.0, end, pv)
    lift = weight * z / at_end
    port = end - rise * z + lift * gas
    is_at_vapour_pressure = port < pv
    here = diffuser_balance(at_end, outlet, z, gas, mixer)
    is_free = ~is_choked & (here.per_bore_end < 0.0)
    follows = np.where(is_free, (lift * gas / at_end - 1.0) / np.where(is_free, here.per_bore_end, -1.0), 0.0)
    slopes = (
        follows * here.per_z - rise + weight * gas / at_end,
        follows * here.per_gas + lift,
        follows * here.per_outlet,
    )
    per_z, per_gas, per_outlet = (np.where(is_at_vapour_pressure, 0.0, slope)[()] for slope in slopes)
    return Port(
        np.maximum(port, pv)[()],
        per_z,
        per_gas,
        per_outlet,
        end[()],
        is_choked[()],
        is_at_vapour_pressure[()],
    )


def small_draw_pa(
    supply_pa_abs: Values,
    outlet_pa_abs: Values,
    throat_dynamic_pa: Values,
    mixer: Mixer,
    vapour_pa_abs: Values,
) -> Values:
    """First guess of the gas flow from the slope at no gas.

    Parameters
    ----------
    supply_pa_abs : float or array
        Pressure that the gas line offers at no flow, p_atm - pc [Pa absolute].
    outlet_pa_abs : float or array
        p2 [Pa absolute].
    throat_dynamic_pa : float or array
        Z [Pa].
    mixer : Mixer
        Coefficients.
    vapour_pa_abs : float or array
        pv of the water [Pa absolute].

    Returns
    -------
    float or array of the broadcast shape
        G [Pa]; 0 where the dry port does not stand below the supply.

    Raises
    ------
    Nothing.

    Notes
    -----
    G = (p_supply - po_dry)/s, s = ln(p2/pt) + Z b^2 (Km + Kg + Kd)/pt + 2 Z r^2/p2 at the dry pt.
    Validity: leaves out the gas line's losses and the curvature; 15 to 20 % high in two loops that were
    tried.

    References
    ----------
    Derived here.

    Examples
    --------
    >>> float(small_draw_pa(99.8e3, 108e3, 60e3, Mixer(0.8, 0.05, 0.15, 1.0, 0.15), 1.2e3))
    41713.0
    """
    dry = port_pressure_with_gas(throat_dynamic_pa, 0.0, outlet_pa_abs, mixer, vapour_pa_abs)
    lack = np.maximum(supply_pa_abs - dry.pa_abs, 0.0)
    is_rising = np.greater(dry.per_gas, 0.0)
    return np.where(is_rising, lack / np.where(is_rising, dry.per_gas, 1.0), 0.0)[()]
