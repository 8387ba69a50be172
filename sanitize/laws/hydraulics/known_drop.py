"""Pressure drop of a part that is known at a flow: filter, exchanger, anything with a data sheet."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

LARGEST_EXPONENT_RATIO = 2.2
"""Theory ends at 2; readings scatter, so a fit up to here is taken as it is."""


def known_drop(
    flow_m3s: ArrayLike,
    rated_drop_pa_diff: ArrayLike,
    rated_flow_m3s: ArrayLike,
    exponent: ArrayLike,
    density_kgm3: ArrayLike,
    viscosity_pas: ArrayLike,
    rated_density_kgm3: ArrayLike,
    rated_viscosity_pas: ArrayLike,
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Pressure drop at any flow and water from the drop at one flow, and its slope.

    Parameters
    ----------
    flow_m3s : float or array
        Volume flow, negative backwards [m3/s].
    rated_drop_pa_diff : float or array, broadcasting
        Drop at the rated flow [Pa].
    rated_flow_m3s : float or array, broadcasting
        Rated flow, above 0 [m3/s].
    exponent : float or array, broadcasting
        Power n of the flow, 1 or more [-].
    density_kgm3, rated_density_kgm3 : float or array, broadcasting
        Density now and at the rated point [kg/m3].
    viscosity_pas, rated_viscosity_pas : float or array, broadcasting
        Dynamic viscosity now and at the rated point [Pa s].

    Returns
    -------
    (loss_pa_diff, slope_pa_per_m3s), arrays of the broadcast shape
        Loss in the direction of positive flow [Pa], odd in the flow, and its derivative [Pa s/m3].
        At rest the slope is 0 for n above 1.

    Raises
    ------
    ValueError
        If a rated flow is not above 0 or an exponent is below 1.

    Notes
    -----
    dp = dp_r (Q/Q_r)^n (rho/rho_r)^(n-1) (mu/mu_r)^(2-n).
    A drop rho V^2 phi(Re) that goes with V^n has phi ~ Re^(n-2): with n = 1 it follows the viscosity, with
    n = 2 the density.
    Derived here; good where the exponent holds, about 0.3 to 2 times the rated flow (an estimate).

    References
    ----------
    None: dimensional analysis.

    Examples
    --------
    An exchanger rated 8 kPa at 30 L/min in water of 20 degC, at 20 L/min in water of 5 degC:

    >>> loss, slope = known_drop(20 / 60e3, 8000.0, 30 / 60e3, 1.85, 999.96, 1.5182e-3, 998.2, 1.0016e-3)
    >>> float(loss)
    4028.
    """
    viscosity_ratio = _array(viscosity_pas) / _array(rated_viscosity_pas)
    rated_flow = _array(rated_flow_m3s)
    power = _array(exponent)
    if not (np.all(rated_flow > 0.0) and np.all(power >= 1.0)):
        raise ValueError("a known drop needs a rated flow above 0 and an exponent of 1 or more")
    flow = _array(flow_m3s) / rated_flow
    reynolds_ratio = np.abs(flow) * (_array(density_kgm3) / _array(rated_density_kgm3) / viscosity_ratio)
    per_flow = _array(rated_drop_pa_diff) * viscosity_ratio * reynolds_ratio ** (power - 1.0)
    return np.asarray(per_flow * flow), np.asarray(per_flow * power / rated_flow)


def filter_drop(
    flow_m3s: ArrayLike,
    rated_drop_pa_diff: ArrayLike,
    rated_flow_m3s: ArrayLike,
    medium_share_ratio: ArrayLike,
    loading_ratio: ArrayLike,
    density_kgm3: ArrayLike,
    viscosity_pas: ArrayLike,
    rated_density_kgm3: ArrayLike,
    rated_viscosity_pas: ArrayLike,
) -> tuple[NDArray[np.float64], NDArray[np.float64]]:
    """Pressure drop of a cartridge filter, clean or loaded, and its slope.

    Parameters
    ----------
    flow_m3s : float or array
        Volume flow, negative backwards [m3/s].
    rated_drop_pa_diff : float or array, broadcasting
        Drop of the clean filter at the rated flow [Pa].
    rated_flow_m3s : float or array, broadcasting
        Rated flow, above 0 [m3/s].
    medium_share_ratio : float or array, broadcasting
        The medium's share m of the rated drop, 0 to 1; the rest is the housing's [-].
    loading_ratio : float or array, broadcasting
        Resistance of the medium over that of the clean medium, 1 when clean [-].
    density_kgm3, rated_density_kgm3 : float or array, broadcasting
        Density now and at the rated point [kg/m3].
    viscosity_pas, rated_viscosity_pas : float or array, broadcasting
        Dynamic viscosity now and at the rated point [Pa s].

    Returns
    -------
    (loss_pa_diff, slope_pa_per_m3s), arrays of the broadcast shape
        Loss in the direction of positive flow [Pa], odd in the flow, and its derivative [Pa s/m3].

    Raises
    ------
    ValueError
        If a rated flow is not above 0, a share is outside 0 to 1 or a loading is negative.

    Notes
    -----
    dp = dp_r [m L (mu/mu_r) (Q/Q_r) + (1 - m) (rho/rho_r) (Q/Q_r)^2].
    The medium's pores are laminar (Darcy), the housing's passages turbulent; dirt narrows the pores alone.
    Derived here; no source gives a range.

    References
    ----------
    None: dimensional analysis.

    Examples
    --------
    A filter rated 6 kPa at 40 L/min, three tenths of it in the medium, at half that flow:

    >>> loss, slope = filter_drop(20 / 60e3, 6000.0, 40 / 60e3, 0.3, 1.0, 998.2, 1e-3, 998.2, 1e-3)
    >>> float(loss)
    1950.
    """
    rated_flow = _array(rated_flow_m3s)
    share = _array(medium_share_ratio)
    loading = _array(loading_ratio)
    if not (np.all(rated_flow > 0.0) and np.all((share >= 0.0) & (share <= 1.0)) and np.all(loading >= 0.0)):
        raise ValueError("a filter needs a rated flow above 0, a medium's share of 0 to 1 and a loading of 0 or more")
    flow = _array(flow_m3s) / rated_flow
    rated_drop = _array(rated_drop_pa_diff)
    medium = rated_drop * share * loading * (_array(viscosity_pas) / _array(rated_viscosity_pas))
    housing = rated_drop * (1.0 - share) * (_array(density_kgm3) / _array(rated_density_kgm3)) * np.abs(flow)
    return np.asarray((medium + housing) * flow), np.asarray((medium + 2.0 * housing) / rated_flow)


def medium_share_from_two_points(
    first_flow_m3s: ArrayLike, first_drop_pa_diff: ArrayLike, rated_flow_m3s: ArrayLike, rated_drop_pa_diff: ArrayLike
) -> NDArray[np.float64]:
    """The medium's share of a clean filter's rated drop, from a second reading in the same water.

    Parameters
    ----------
    first_flow_m3s, first_drop_pa_diff : float or array
        One reading [m3/s], [Pa].
    rated_flow_m3s, rated_drop_pa_diff : float or array, broadcasting
        The reading at which the share is told [m3/s], [Pa].

    Returns
    -------
    array of the broadcast shape
        The share, 0 to 1 [-].

    Raises
    ------
    ValueError
        If a reading is not above 0, both flows are equal, or no share of 0 to 1 fits: the drops then grow
        more slowly than the flow, or faster than its square.

    Notes
    -----
    With x = Q1/Q_r: m = (dp1/dp_r - x^2) / (x - x^2), the inverse of `filter_drop`.

    References
    ----------
    None: derived here from `filter_drop`.

    Examples
    --------
    >>> float(medium_share_from_two_points(20 / 60e3, 1950.0, 40 / 60e3, 6000.0))
    0.3
    """
    readings = [_array(x) for x in (first_flow_m3s, first_drop_pa_diff, rated_flow_m3s, rated_drop_pa_diff)]
    if not all(np.all(reading > 0.0) for reading in readings) or np.any(readings[0] == readings[2]):
        raise ValueError("the medium's share needs two different flows above 0, each with its drop")
    flow = readings[0] / readings[2]
    share = np.asarray((readings[1] / readings[3] - flow * flow) / (flow - flow * flow))
    rounding = 1e-9
    if not np.all((share >= -rounding) & (share <= 1.0 + rounding)):
        raise ValueError(
            f"no filter has these two drops: the medium's share would be {share.ravel()[0]:.2f}, outside 0 to 1; "
            "a drop grows faster than the flow and more slowly than its square"
        )
    return np.clip(share, 0.0, 1.0)


def exponent_from_points(flows_m3s: ArrayLike, drops_pa_diff: ArrayLike) -> NDArray[np.float64]:
    """The power of the flow that fits several readings of a drop best.

    Parameters
    ----------
    flows_m3s, drops_pa_diff : array, shape (points,)
        Two readings or more in the same water, all above 0 [m3/s], [Pa].

    Returns
    -------
    array of shape ()
        The exponent for `known_drop`, 1 to 2.2 [-].

    Raises
    ------
    ValueError
        If there are fewer than two flows, a reading is not above 0, or the fit lies outside 1 to 2.2.

    Notes
    -----
    Slope of the least-squares line of ln(dp) on ln(Q).
    Theory allows 1 to 2; what lies a little above 2 is taken for scatter of the readings, not cut off.

    References
    ----------
    None: least squares.

    Examples
    --------
    >>> float(exponent_from_points([20 / 60e3, 40 / 60e3], [2000.0, 7000.0]))
    1.807
    """
    flows = _array(flows_m3s)
    drops = _array(drops_pa_diff)
    if flows.ndim != 1 or flows.shape != drops.shape or np.unique(flows).size < 2:
        raise ValueError("the exponent needs the drops at two different flows or more")
    if not (np.all(flows > 0.0) and np.all(drops > 0.0)):
        raise ValueError("the exponent needs flows and drops above 0")
    x = np.log(flows)
    x -= x.mean()
    exponent = float(x @ np.log(drops) / (x @ x))
    rounding = 1e-9
    if not 1.0 - rounding <= exponent <= LARGEST_EXPONENT_RATIO:
        raise ValueError(
            f"these drops grow with the flow to the power {exponent:.2f}; a part's drop grows with a power of 1 to 2"
        )
    return np.asarray(max(exponent, 1.0))


def loading_for_drop_ratio(drop_ratio: ArrayLike, medium_share_ratio: ArrayLike) -> NDArray[np.float64]:
    """How much more the medium resists when the whole filter's drop at the rated flow has grown by a factor.

    Parameters
    ----------
    drop_ratio : float or array
        Drop of the loaded filter over that of the clean one, both at the rated flow and in the same water, 1 or
        more [-].
    medium_share_ratio : float or array, broadcasting
        The medium's share of the clean filter's rated drop, above 0 and up to 1 [-].

    Returns
    -------
    array of the broadcast shape
        The loading for `filter_drop` [-].

    Raises
    ------
    ValueError
        If a ratio is below 1, or a share is not above 0 or exceeds 1.

    Notes
    -----
    m L + 1 - m = ratio, so L = 1 + (ratio - 1) / m.

    References
    ----------
    None: derived here from `filter_drop`.

    Examples
    --------
    >>> float(loading_for_drop_ratio(2.5, 0.3))
    6.0
    """
    ratio = _array(drop_ratio)
    share = _array(medium_share_ratio)
    if not (np.all(ratio >= 1.0) and np.all((share > 0.0) & (share <= 1.0))):
        raise ValueError("a loaded filter needs a drop ratio of 1 or more and a medium's share above 0, up to 1")
    return np.asarray(1.0 + (ratio - 1.0) / share)


def _array(value: ArrayLike) -> NDArray[np.float64]:
    return np.asarray(value, dtype=np.float64)
