"""How far the loss coefficients of a tee may be moved without its making energy."""

import numpy as np
from numpy.typing import ArrayLike, NDArray

LARGEST_SHIFT_RATIO = 0.3
"""How far the loss coefficients of a tee's two legs may lie above or below nominal, both together [-]."""

Array = NDArray[np.float64]


def dissipation(branch_ratio: ArrayLike, branch_k: ArrayLike, run_k: ArrayLike) -> Array:
    """Power that a tee turns into heat, over the combined flow's rho V^2 / 2 times its volume flow.

    Parameters
    ----------
    branch_ratio : float or array
        Flow of the branch over the combined flow, 0 to 1 [-].
    branch_k, run_k : float or array, broadcasting
        Loss coefficients of branch and run on the combined velocity [-].

    Returns
    -------
    array of the broadcast shape
        q K_branch + (1 - q) K_run [-]; no tee can have it below 0.

    Raises
    ------
    Nothing.

    Notes
    -----
    Exact by the balance of energy.

    References
    ----------
    Derived here.

    Examples
    --------
    >>> float(dissipation(0.25, -0.042, 0.325))
    0.233
    """
    q = np.asarray(branch_ratio, dtype=np.float64)
    return np.asarray(q * np.asarray(branch_k, dtype=np.float64) + (1.0 - q) * np.asarray(run_k, dtype=np.float64))


def admissible_shift(branch_ratio: ArrayLike, branch_k: ArrayLike, run_k: ArrayLike) -> tuple[Array, Array]:
    """How far both loss coefficients of a tee may be moved together without its making energy.

    Parameters
    ----------
    branch_ratio, branch_k, run_k : float or array, broadcasting
        As in `dissipation`, with nominal loss coefficients [-].

    Returns
    -------
    (low, high), arrays of the broadcast shape
        Ends of the shift [-], low from -0.3 to 0, high 0.3.

    Raises
    ------
    Nothing.

    Notes
    -----
    low = -min(0.3, q K_branch + (1 - q) K_run), high = 0.3.

    References
    ----------
    The 0.3 is an estimate, from the distance between published sets of formulas; the limit is derived here.

    Examples
    --------
    >>> low, high = admissible_shift(0.25, -0.042, 0.325)
    >>> float(low), float(high)
    (-0.233, 0.3)
    """
    spent = dissipation(branch_ratio, branch_k, run_k)
    low = -np.clip(spent, 0.0, LARGEST_SHIFT_RATIO)
    return low, np.full(low.shape, LARGEST_SHIFT_RATIO)


def limited_shift(shift: ArrayLike, branch_ratio: ArrayLike, branch_k: ArrayLike, run_k: ArrayLike) -> Array:
    """The part of a shift that acts: all of it upwards, downwards its share of what is admissible.

    Parameters
    ----------
    shift : float or array
        -0.3 to 0.3 [-].
    branch_ratio, branch_k, run_k : float or array, broadcasting
        As in `admissible_shift`.

    Returns
    -------
    array of the broadcast shape
        Shift [-], within `admissible_shift`.

    Raises
    ------
    Nothing.

    Notes
    -----
    shift for shift >= 0, else shift min(0.3, q K_branch + (1 - q) K_run) / 0.3: the rank of a drawn shift
    is kept while the tee's lower end moves with the split.

    References
    ----------
    Derived here.

    Examples
    --------
    >>> float(limited_shift(-0.15, 0.25, -0.042, 0.325))
    -0.117
    """
    low, _ = admissible_shift(branch_ratio, branch_k, run_k)
    moved = np.asarray(shift, dtype=np.float64)
    return np.where(moved >= 0.0, moved, moved * (-low / LARGEST_SHIFT_RATIO))
