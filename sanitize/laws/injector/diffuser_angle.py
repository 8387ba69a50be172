"""Loss of a conical diffuser from its full angle."""

import numpy as np

from sanitize.laws.injector.geometry import Values


def diffuser_loss_by_angle(angle_deg: Values, bore_to_outlet_ratio: Values, friction_factor: Values) -> Values:
    """Loss coefficient of a conical diffuser on the dynamic pressure of its small end.

    Parameters
    ----------
    angle_deg : float or array
        Full angle between the walls [deg].
    bore_to_outlet_ratio : float or array
        Area of the small over that of the large end [-].
    friction_factor : float or array
        Friction factor of Darcy in the cone [-].

    Returns
    -------
    float or array of the broadcast shape
        Kd [-].

    Raises
    ------
    ValueError
        For an angle outside 0 < angle <= 180 or a ratio outside 0 to 1.

    Notes
    -----
    With B the area ratio, a the angle, c = (1 - B)^2 and F = f (1 - B^2)/(8 sin(a/2)):
    up to 20 deg, Kd = 8.30 tan(a/2)^1.75 c + F;
    up to 60 deg, Kd = (1.366 sqrt(sin(2 (a - 15 deg))) - 0.170 - D) c + F;
    above, Kd = (1.205 - E) c.
    B < 0.25: D = 3.28 (0.0625 - B^2) sqrt((a - 20)/40),
    E = 3.28 (0.0625 - B^2) + 12.8 B^3 sqrt((a - 60)/120); otherwise D = 0, E = 0.20 sqrt((a - 60)/120).
    Validity: 0 to 180 deg as printed; small-bore losses scatter between methods by a factor of two below 10
    deg.

    References
    ----------
    rennels_hudson_2012, read through another (a library of fluid formulas).

    Examples
    --------
    >>> diffuser_loss_by_angle(np.array([7.0, 15.0, 30.0]), 0.146, 0.02).round(3).tolist()
    [0.086, 0.193, 0.541]
    """
    angle, ratio, f = np.broadcast_arrays(angle_deg, bore_to_outlet_ratio, friction_factor)
    if not (np.all(angle > 0.0) and np.all(angle <= 180.0)):
        raise ValueError("the full angle of a diffuser lies above 0 and up to 180 degrees")
    if not (np.all(ratio >= 0.0) and np.all(ratio <= 1.0)):
        raise ValueError("the bore of a diffuser is not larger than its outlet")
    half = np.radians(np.minimum(angle, 60.0)) / 2.0
    friction = f * (1.0 - ratio**2) / (8.0 * np.sin(half))
    step = np.square(1.0 - ratio)
    is_small = ratio < 0.25
    spare = 3.28 * (0.0625 - ratio**2)
    slender = 8.30 * np.tan(half) ** 1.75
    middle_angle = np.clip(angle, 20.0, 60.0)
    middle = 1.366 * np.sqrt(np.sin(np.radians(2.0 * (middle_angle - 15.0)))) - 0.170
    middle = middle - np.where(is_small, spare * np.sqrt((middle_angle - 20.0) / 40.0), 0.0)
    far = np.sqrt(np.maximum(angle - 60.0, 0.0) / 120.0)
    wide = 1.205 - np.where(is_small, spare + 12.8 * ratio**3 * far, 0.20 * far)
    shape = np.where(angle <= 20.0, slender, np.where(angle <= 60.0, middle, wide))
    return (shape * step + np.where(angle <= 60.0, friction, 0.0))[()]
