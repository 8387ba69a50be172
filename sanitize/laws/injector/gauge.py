"""A gauge that stands in another bore than the injector's own."""

from sanitize.laws.injector.geometry import Values


def pressure_in_own_bore_pa(
    gauge_pa: Values, flow_m3s: Values, gauge_m2: Values, bore_m2: Values, density_kgm3: Values
) -> Values:
    """Static pressure in the injector's own end bore from a gauge that stands in another bore.

    Parameters
    ----------
    gauge_pa : float or array
        Static pressure at the gauge [Pa absolute or gauge].
    flow_m3s : float or array
        Flow [m3/s].
    gauge_m2 : float or array
        Area where the gauge stands [m2].
    bore_m2 : float or array
        Area of the injector's end [m2].
    density_kgm3 : float or array
        Density of the water [kg/m3].

    Returns
    -------
    float or array of the broadcast shape
        The static pressure in the same datum [Pa].

    Raises
    ------
    Nothing.

    Notes
    -----
    Equation: p = p_gauge + rho/2 (V_gauge^2 - V^2); the loss between the two is neglected.
    Validity: same height.

    References
    ----------
    Derived here.

    Examples
    --------
    >>> pressure_in_own_bore_pa(50e3, 5e-4, 5e-4, 2.5e-4, 1000.0)
    48500.0
    """
    return gauge_pa + 0.5 * density_kgm3 * flow_m3s**2 * (1.0 / gauge_m2**2 - 1.0 / bore_m2**2)
