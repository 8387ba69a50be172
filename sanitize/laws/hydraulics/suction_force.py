"""The force that holds whoever covers a suction opening."""

import numpy as np
from numpy.typing import ArrayLike, NDArray


def blocked_suction_force_n(vacuum_pa_diff: ArrayLike, opening_area_m2: ArrayLike) -> NDArray[np.float64]:
    """Force on a body that seals a suction opening.

    Parameters
    ----------
    vacuum_pa_diff : float or array
        Pressure of the water in front of the opening less that behind it, once nothing flows [Pa].
    opening_area_m2 : float or array, broadcasting
        Area that is sealed [m2].

    Returns
    -------
    array of the broadcast shape
        Force towards the opening [N].

    Raises
    ------
    Nothing.

    Notes
    -----
    F = dp A; exact for a full seal.
    The impulse of the water that is stopped at first comes on top and is not in it.

    References
    ----------
    Definition of pressure.

    Examples
    --------
    A sealed opening of 100 mm at 20 and at 85 kPa:

    >>> blocked_suction_force_n([20e3, 85e3], 0.25 * np.pi * 0.1**2).tolist()
    [157.1, 667.6]
    """
    return np.asarray(np.asarray(vacuum_pa_diff, dtype=np.float64) * np.asarray(opening_area_m2, dtype=np.float64))
