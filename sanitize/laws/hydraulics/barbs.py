"""Barbed hose fittings: a narrow bore between two wider ones."""

import numpy as np
from numpy.typing import ArrayLike, NDArray


def barb_loss_coefficient(
    barb_bore_m: ArrayLike,
    bore_before_m: ArrayLike,
    bore_behind_m: ArrayLike,
    length_m: ArrayLike,
    friction_factor: ArrayLike,
) -> NDArray[np.float64]:
    """Loss coefficient of a barbed fitting on the velocity in its own bore.

    Parameters
    ----------
    barb_bore_m : float or array
        Inside diameter of the barb [m].
    bore_before_m, bore_behind_m : float or array, broadcasting
        Bores of what the water comes from and goes to, hose or pipe [m].
    length_m : float or array, broadcasting
        Length of the narrow bore [m].
    friction_factor : float or array, broadcasting
        Darcy friction factor in the barb at its own Reynolds number [-].

    Returns
    -------
    array of the broadcast shape
        K on the barb's bore d [-]; on another bore D it is K (D/d)^4.

    Raises
    ------
    Nothing.

    Notes
    -----
    K = 0.5 (1 - (d/D1)^2) + f l/d + (1 - (d/D2)^2)^2: a sudden contraction, pipe friction, a sudden expansion.
    Where the bore before is narrower than the barb, the first term is the expansion ((d/D1)^2 - 1)^2;
    where the bore behind is narrower, the last is the contraction 0.5 ((d/D2)^4 - (d/D2)^2).
    The barb stands for all its steps: none is counted besides.
    Measured connectors keep a constant K above Re 10 000, ruled by the ratio of the bores
    (micro_irrigation_connections_2019, its abstract alone).
    A burred or square-cut barb loses up to half as much again (an estimate).

    References
    ----------
    crane_tp410_2009 for the steps, through another; that a barb is their sum is an estimate.

    Examples
    --------
    A 1/2 in barb of 9.7 mm between hoses of 12.7 mm, on the hose's velocity:

    >>> float(barb_loss_coefficient(0.0097, 0.0127, 0.0127, 0.025, 0.026) * (12.7 / 9.7) ** 4)
    1.32
    """
    bore = np.asarray(barb_bore_m, dtype=np.float64)
    before = (bore / np.asarray(bore_before_m, dtype=np.float64)) ** 2
    behind = (bore / np.asarray(bore_behind_m, dtype=np.float64)) ** 2
    friction = np.asarray(friction_factor, dtype=np.float64) * np.asarray(length_m, dtype=np.float64) / bore
    inlet = np.where(before <= 1.0, 0.5 * (1.0 - before), (before - 1.0) ** 2)
    outlet = np.where(behind <= 1.0, (1.0 - behind) ** 2, 0.5 * behind * (behind - 1.0))
    return np.asarray(inlet + friction + outlet)
