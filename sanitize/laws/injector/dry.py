"""Pressures in an injector whose gas port is closed, with the vapour pressure as the floor at the port."""

import numpy as np

from sanitize.laws.injector.geometry import Mask, Values


def port_pressure_dry(
    outlet_pa_abs: Values, throat_dynamic_pa: Values, recovery: Values, vapour_pa_abs: Values
) -> Values:
    """Pressure at the closed gas port.

    Parameters
    ----------
    outlet_pa_abs : float or array
        p2, static [Pa absolute].
    throat_dynamic_pa : float or array
        Z [Pa].
    recovery : float or array
        kappa [-].
    vapour_pa_abs : float or array
        pv of the water [Pa absolute].

    Returns
    -------
    float or array of the broadcast shape
        po [Pa absolute].

    Raises
    ------
    Nothing.

    Notes
    -----
    Equation: po = max(p2 - kappa Z, pv); at the floor the water boils and the outlet no longer matters.
    Validity: recovery coefficients of a filled device; dissolved air comes out well above pv (common
    practice: treat below 20 kPa absolute as doubtful).

    References
    ----------
    karassik_pump_handbook for the recovery, read through another; the floor derived here.

    Examples
    --------
    >>> float(port_pressure_dry(110e3, 50e3, 0.8, 1.2e3)), float(port_pressure_dry(110e3, 150e3, 0.8, 1.2e3))
    (70000.0, 1200.0)
    """
    return np.maximum(outlet_pa_abs - recovery * throat_dynamic_pa, vapour_pa_abs)[()]


def is_cavitating_dry(
    outlet_pa_abs: Values, throat_dynamic_pa: Values, recovery: Values, vapour_pa_abs: Values
) -> Mask:
    """Whether the closed port stands at the vapour pressure, so that the flow is choked.

    Parameters
    ----------
    outlet_pa_abs : float or array
        p2, static [Pa absolute].
    throat_dynamic_pa : float or array
        Z [Pa].
    recovery : float or array
        kappa [-].
    vapour_pa_abs : float or array
        pv of the water [Pa absolute].

    Returns
    -------
    bool or array of the broadcast shape
        True where the port is at the floor.

    Raises
    ------
    Nothing.

    Notes
    -----
    Equation: p2 - kappa Z < pv.
    Validity: as `port_pressure_dry`.

    References
    ----------
    As `port_pressure_dry`.

    Examples
    --------
    >>> bool(is_cavitating_dry(110e3, 150e3, 0.8, 1.2e3))
    True
    """
    return np.less(outlet_pa_abs - recovery * throat_dynamic_pa, vapour_pa_abs)


def inlet_pressure(port_pa_abs: Values, throat_dynamic_pa: Values, nozzle_drop: Values) -> Values:
    """Static pressure that the inlet needs, with the gas port closed or open, cavitating or not.

    Parameters
    ----------
    port_pa_abs : float or array
        po [Pa absolute].
    throat_dynamic_pa : float or array
        Z [Pa].
    nozzle_drop : float or array
        1 + Kn - B4 [-].

    Returns
    -------
    float or array of the broadcast shape
        p1 [Pa absolute].

    Raises
    ------
    Nothing.

    Notes
    -----
    Equation: p1 = po + (1 + Kn - B4) Z.
    Validity: exact by the definition of the discharge coefficient.

    References
    ----------
    Derived here.

    Examples
    --------
    >>> inlet_pressure(70e3, 50e3, 1.04)
    122000.0
    """
    return port_pa_abs + nozzle_drop * throat_dynamic_pa


def port_pressure_from_inlet(inlet_pa_abs: Values, throat_dynamic_pa: Values, nozzle_drop: Values) -> Values:
    """Pressure at the port from the inlet's, the inverse of `inlet_pressure`, without the vapour floor.

    Parameters
    ----------
    inlet_pa_abs : float or array
        p1, static [Pa absolute].
    throat_dynamic_pa : float or array
        Z [Pa].
    nozzle_drop : float or array
        1 + Kn - B4 [-].

    Returns
    -------
    float or array of the broadcast shape
        po [Pa absolute]; a value below the vapour pressure says that this flow is not possible.

    Raises
    ------
    Nothing.

    Notes
    -----
    Equation: po = p1 - (1 + Kn - B4) Z.
    Validity: as `inlet_pressure`.

    References
    ----------
    Derived here.

    Examples
    --------
    >>> port_pressure_from_inlet(122e3, 50e3, 1.04)
    70000.0
    """
    return inlet_pa_abs - nozzle_drop * throat_dynamic_pa


def choked_flow_m3s(
    inlet_pa_abs: Values, vapour_pa_abs: Values, throat_m2: Values, density_kgm3: Values, nozzle_drop: Values
) -> Values:
    """Largest flow an inlet pressure can drive: the throat stands at the vapour pressure.

    Parameters
    ----------
    inlet_pa_abs : float or array
        p1, static [Pa absolute].
    vapour_pa_abs : float or array
        pv [Pa absolute].
    throat_m2 : float or array
        An [m2].
    density_kgm3 : float or array
        Density of the water [kg/m3].
    nozzle_drop : float or array
        1 + Kn - B4 [-].

    Returns
    -------
    float or array of the broadcast shape
        Qc [m3/s], 0 where p1 is not above pv.

    Raises
    ------
    Nothing.

    Notes
    -----
    Equation: Qc = An sqrt(2 (p1 - pv)/(rho (1 + Kn - B4))) = Cd An sqrt(2 (p1 - pv)/(rho (1 - B4))).
    Validity: holds while p2/p1 is below `critical_pressure_ratio`.

    References
    ----------
    Derived here.

    Examples
    --------
    >>> float(choked_flow_m3s(201.2e3, 1.2e3, 1e-4, 1000.0, 1.0))
    0.002
    """
    head = np.maximum(inlet_pa_abs - vapour_pa_abs, 0.0)
    return throat_m2 * np.sqrt(2.0 * head / (density_kgm3 * nozzle_drop))


def critical_pressure_ratio(loss_ratio: Values, inlet_pa_abs: Values, vapour_pa_abs: Values) -> Values:
    """Outlet over inlet pressure, both absolute, below which the flow is choked by vapour.

    Parameters
    ----------
    loss_ratio : float or array
        xi [-].
    inlet_pa_abs : float or array
        p1 [Pa absolute].
    vapour_pa_abs : float or array
        pv [Pa absolute].

    Returns
    -------
    float or array of the broadcast shape
        p2/p1 [-].

    Raises
    ------
    Nothing.

    Notes
    -----
    Equation: 1 - xi (1 - pv/p1), from p1 - p2 = xi (p1 - po) with po = pv.
    Validity: the measured ratio of one cavitating venturi is 0.74, independent of p1, which is xi = 0.26.

    References
    ----------
    Derived here; ahn_kang_kim_2021 for the measurement, its abstract read.

    Examples
    --------
    >>> critical_pressure_ratio(0.26, 400e3, 0.0)
    0.74
    """
    return 1.0 - loss_ratio * (1.0 - vapour_pa_abs / inlet_pa_abs)


def dead_head_vacuum_pa_diff(port_dry_pa_abs: Values, atmosphere_pa_abs: Values) -> Values:
    """Reading of a vacuum gauge on the closed gas port.

    Parameters
    ----------
    port_dry_pa_abs : float or array
        po with no gas flowing [Pa absolute].
    atmosphere_pa_abs : float or array
        Local [Pa absolute].

    Returns
    -------
    float or array of the broadcast shape
        p_atm - po [Pa difference]; negative means that water stands under pressure at the port.

    Raises
    ------
    Nothing.

    Notes
    -----
    Validity: a definition.

    References
    ----------
    Definition.

    Examples
    --------
    >>> dead_head_vacuum_pa_diff(85e3, 101e3)
    16000.0
    """
    return atmosphere_pa_abs - port_dry_pa_abs
