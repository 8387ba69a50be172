"""Gas and water in the mixing bore: momentum from the gas port to the bore's end.

Z is the throat's dynamic pressure and G = p Qgas/Qwater, a pressure that stays constant along the device as
the gas keeps the water's temperature; the volume ratio at a pressure p is phi = G/p. All arguments broadcast.
"""

from typing import NamedTuple

import numpy as np

from sanitize.laws.injector.geometry import Values


class Mixer(NamedTuple):
    """What gas and water meet behind the throat.

    throat_to_bore_ratio: b = An/Am [-]; bore_loss: Km [-]; diffuser_loss: Kd [-]; gas_loss: Kg, acts with
    gas only (slip, unfinished mixing) [-], these three on the mixing bore's dynamic pressure;
    throat_to_outlet_ratio: r = An/A2 [-].
    """

    throat_to_bore_ratio: Values
    bore_loss: Values
    diffuser_loss: Values
    gas_loss: Values
    throat_to_outlet_ratio: Values


def bore_rise_coefficient(mixer: Mixer) -> Values:
    """Rise of pressure along the mixing bore without gas, on the throat's dynamic pressure.

    Parameters
    ----------
    mixer : Mixer
        Only b and Km are read.

    Returns
    -------
    float or array of the broadcast shape
        c0 = (pt - po)/Z [-].

    Raises
    ------
    Nothing.

    Notes
    -----
    c0 = 2b - b^2 (2 + Km).
    Validity: mixing ends inside the bore; the source gives no range for Km.

    References
    ----------
    karassik_pump_handbook, read through another; derived here from momentum.

    Examples
    --------
    >>> bore_rise_coefficient(Mixer(0.8, 0.05, 0.15, 1.0, 0.15))
    0.288
    """
    b = mixer.throat_to_bore_ratio
    return 2.0 * b - b**2 * (2.0 + mixer.bore_loss)


def gas_weight_coefficient(mixer: Mixer) -> Values:
    """How much the gas takes from the rise along the mixing bore.

    Parameters
    ----------
    mixer : Mixer
        Only b, Km and Kg are read.

    Returns
    -------
    float or array of the broadcast shape
        w = b^2 (2 + Km + Kg) [-]; the rise is Z (c0 - w phi_t).

    Raises
    ------
    Nothing.

    Notes
    -----
    Validity: as `bore_rise_coefficient`; Kg is an estimate without source.

    References
    ----------
    cunningham_1974 for Kg = 0, read through another; derived here.

    Examples
    --------
    >>> gas_weight_coefficient(Mixer(0.8, 0.05, 0.15, 1.0, 0.15))
    1.952
    """
    return mixer.throat_to_bore_ratio**2 * (2.0 + mixer.bore_loss + mixer.gas_loss)


class MixingBalance(NamedTuple):
    """Residual of the mixing bore's momentum balance [Pa] and its slopes; that with the port's pressure is 1."""

    residual_pa: Values
    per_bore_end: Values
    per_z: Values
    per_gas: Values


def mixing_balance(
    port_pa_abs: Values,
    bore_end_pa_abs: Values,
    throat_dynamic_pa: Values,
    gas_pa: Values,
    mixer: Mixer,
) -> MixingBalance:
    """What is missing in the momentum balance of the mixing bore, with its slopes.

    Parameters
    ----------
    port_pa_abs : float or array
        po [Pa absolute].
    bore_end_pa_abs : float or array
        pt, above 0 [Pa absolute].
    throat_dynamic_pa : float or array
        Z [Pa].
    gas_pa : float or array
        G [Pa].
    mixer : Mixer
        Coefficients.

    Returns
    -------
    MixingBalance
        Residual, 0 in balance [Pa], and its slopes with pt, Z and G [-].

    Raises
    ------
    Nothing.

    Notes
    -----
    po - pt + c0 Z - w Z G/pt: po Am + rho Q V1 = pt Am + rho Q Vt (1 + phi_t) + wall loss, gas momentum
    neglected (gas over water mass is about 0.0012 phi), homogeneous mixture at the end. The slope with pt is
    w Z G/pt^2 - 1, which is 0 at the choke.
    Validity: accurate "providing the mixing zone remains in the throat" (cunningham_dopkin_1974).

    References
    ----------
    cunningham_1974, read through another; derived here and matched to it.

    Examples
    --------
    >>> balance = mixing_balance(100e3, 114.4e3, 50e3, 0.0, Mixer(0.8, 0.05, 0.15, 1.0, 0.15))
    >>> float(balance.residual_pa), float(balance.per_bore_end)
    (0.0, -1.0)
    """
    rise = bore_rise_coefficient(mixer)
    per_gas = gas_weight_coefficient(mixer) * throat_dynamic_pa / bore_end_pa_abs
    taken = per_gas * gas_pa
    return MixingBalance(
        port_pa_abs - bore_end_pa_abs + rise * throat_dynamic_pa - taken,
        taken / bore_end_pa_abs - 1.0,
        rise - gas_weight_coefficient(mixer) * gas_pa / bore_end_pa_abs,
        -per_gas,
    )


class BoreEnd(NamedTuple):
    """Pressure at the end of the mixing bore, and its change with port pressure, Z and G.

    Where `is_possible` is false the port pressure is too low for so much gas: the pressure is then that of
    the choke and the slopes are zero.
    """

    pa_abs: Values
    per_port: Values
    per_z: Values
    per_gas: Values
    is_possible: Values


def bore_end_pressure(port_pa_abs: Values, throat_dynamic_pa: Values, gas_pa: Values, mixer: Mixer) -> BoreEnd:
    """Pressure at the end of the mixing bore from that at the port, in closed form.

    Parameters
    ----------
    port_pa_abs : float or array
        po [Pa absolute].
    throat_dynamic_pa : float or array
        Z [Pa].
    gas_pa : float or array
        G [Pa].
    mixer : Mixer
        Coefficients.

    Returns
    -------
    BoreEnd
        pt [Pa absolute], its slopes with po [-], Z [-] and G [-], and whether the balance has a root.

    Raises
    ------
    Nothing.

    Notes
    -----
    pt = (T + S)/2 with T = po + c0 Z, S = sqrt(T^2 - 4 w Z G): the larger root of `mixing_balance`,
    which is bubbly flow slower than sound. dpt/dpo = pt/S; dpt/dZ = (c0 pt - w G)/S; dpt/dG = -w Z/S.
    Validity: T > 0 and S > 0; S = 0 is the choke.

    References
    ----------
    cunningham_1974, read through another; derived here.

    Examples
    --------
    >>> end = bore_end_pressure(100e3, 50e3, 10e3, Mixer(0.8, 0.05, 0.15, 1.0, 0.15))
    >>> float(end.pa_abs), bool(end.is_possible)
    (105114.9, True)
    """
    rise, weight = bore_rise_coefficient(mixer), gas_weight_coefficient(mixer)
    total = port_pa_abs + rise * throat_dynamic_pa
    product = weight * throat_dynamic_pa * gas_pa
    square = total**2 - 4.0 * product
    is_possible = (total > 0.0) & (square > 0.0)
    root = np.sqrt(np.where(is_possible, square, 1.0))
    pressure = np.where(is_possible, 0.5 * (total + root), np.sqrt(product))
    per_port = np.where(is_possible, pressure / root, 0.0)
    per_z = np.where(is_possible, (rise * pressure - weight * gas_pa) / root, 0.0)
    per_gas = np.where(is_possible, -weight * throat_dynamic_pa / root, 0.0)
    return BoreEnd(pressure[()], per_port[()], per_z[()], per_gas[()], np.asarray(is_possible)[()])


def mach_squared(
    bore_end_pa_abs: Values, throat_dynamic_pa: Values, gas_pa: Values, throat_to_bore_ratio: Values
) -> Values:
    """Square of the mixture's velocity over its speed of sound at the end of the mixing bore.

    Parameters
    ----------
    bore_end_pa_abs : float or array
        pt, above 0 [Pa absolute].
    throat_dynamic_pa : float or array
        Z [Pa].
    gas_pa : float or array
        G [Pa].
    throat_to_bore_ratio : float or array
        b [-].

    Returns
    -------
    float or array of the broadcast shape
        M^2 [-].

    Raises
    ------
    Nothing.

    Notes
    -----
    M^2 = 2 Z b^2 G/pt^2, from the isothermal speed of sound c^2 = p/(rho alpha (1 - alpha)) of a bubbly
    mixture.
    Validity: homogeneous bubbly flow, no slip.

    References
    ----------
    Derived here.

    Examples
    --------
    >>> mach_squared(100e3, 50e3, 20e3, 0.8)
    0.128
    """
    return 2.0 * throat_dynamic_pa * throat_to_bore_ratio**2 * gas_pa / bore_end_pa_abs**2
