"""Screens, suction covers and strainer baskets."""

import numpy as np
from numpy.typing import ArrayLike, NDArray


def plate_face_loss_coefficient(free_area_ratio: ArrayLike) -> NDArray[np.float64]:
    """Loss coefficient of a thin perforated plate or square-edged grid, on the velocity before its whole face.

    Parameters
    ----------
    free_area_ratio : float or array
        Open area over whole face area, 0 to 1 [-].

    Returns
    -------
    array of the same shape
        K [-]; infinite where nothing is open, which means a way without flow.

    Raises
    ------
    ValueError
        If a share lies outside 0 to 1.

    Notes
    -----
    K = (0.707 sqrt(1 - a) + 1 - a)^2 / a^2.
    The source gives a Reynolds number in the holes of at least 1e5; within 15 % of a second source's table
    (blevins_1984) for a share of 0.06 to 0.70.

    References
    ----------
    idelchik_1994, from memory; blevins_1984, through another.

    Examples
    --------
    >>> plate_face_loss_coefficient([0.1, 0.3, 0.5]).tolist()
    [246.7, 18.5, 4.0]
    """
    share = _share(free_area_ratio)
    closed = 1.0 - share
    return _over_square((0.707 * np.sqrt(closed) + closed) ** 2, share)


def round_wire_face_loss_coefficient(free_area_ratio: ArrayLike) -> NDArray[np.float64]:
    """Loss coefficient of a screen of round wire, on the velocity before its whole face.

    Parameters
    ----------
    free_area_ratio : float or array
        Open area over whole face area, 0 to 1 [-].

    Returns
    -------
    array of the same shape
        K [-]; infinite where nothing is open.

    Raises
    ------
    ValueError
        If a share lies outside 0 to 1.

    Notes
    -----
    K = 0.52 (1 - a^2) / a^2.
    Range as the source prints it: share 0.05 to 0.8, Reynolds number on the gap between wires 400 and more;
    below 400 the coefficient is larger.

    References
    ----------
    blevins_1984, through another.

    Examples
    --------
    >>> round_wire_face_loss_coefficient([0.3, 0.5, 0.7]).tolist()
    [5.3, 1.56, 0.54]
    """
    share = _share(free_area_ratio)
    return _over_square(0.52 * (1.0 - share * share), share)


def clogged_free_area_ratio(free_area_ratio: ArrayLike, clogged_ratio: ArrayLike) -> NDArray[np.float64]:
    """Share of a screen's face that is still open when a share of its holes is covered.

    Parameters
    ----------
    free_area_ratio : float or array
        Open area over whole face area of the clean screen, 0 to 1 [-].
    clogged_ratio : float or array, broadcasting
        Share of the holes covered, 0 to 1 [-].

    Returns
    -------
    array of the broadcast shape
        Open area over whole face area [-].

    Raises
    ------
    ValueError
        If a share lies outside 0 to 1.

    Notes
    -----
    a (1 - c); exact by definition.

    References
    ----------
    Definition.

    Examples
    --------
    >>> float(clogged_free_area_ratio(0.3, 0.9))
    0.03
    """
    return np.asarray(_share(free_area_ratio) * (1.0 - _share(clogged_ratio)))


def screened_suction_loss_coefficient(
    free_area_ratio: ArrayLike,
    clogged_ratio: ArrayLike,
    face_diameter_m: ArrayLike,
    bore_m: ArrayLike,
    entrance_loss_coefficient: ArrayLike,
) -> NDArray[np.float64]:
    """Loss coefficient of a suction with a perforated cover before it, on the velocity in the pipe.

    Parameters
    ----------
    free_area_ratio : float or array
        Open area over whole area of the clean cover, 0 to 1 [-].
    clogged_ratio : float or array, broadcasting
        Share of its holes that is covered, 0 to 1 [-].
    face_diameter_m : float or array, broadcasting
        Diameter of the whole round face, holes and bars; a dome counts as its disc [m].
    bore_m : float or array, broadcasting
        Bore of the pipe behind [m].
    entrance_loss_coefficient : float or array, broadcasting
        K of the pipe's entrance, 0.5 with a square edge [-].

    Returns
    -------
    array of the broadcast shape
        K [-], the entrance in it; infinite where nothing is open.

    Raises
    ------
    ValueError
        If a share lies outside 0 to 1.

    Notes
    -----
    K = K_face (A_pipe / A_face)^2 + K_entrance, K_face of `plate_face_loss_coefficient`.
    Holds where the water slows down fully between face and entrance; the source gives no range.

    References
    ----------
    As `plate_face_loss_coefficient`; the sum is an estimate.

    Examples
    --------
    A clean dome of 150 mm and 0.3 free area on 1-1/2 in pipe; the same with 90 % of it covered:

    >>> screened_suction_loss_coefficient(0.30, [0.0, 0.9], 0.150, 0.04044, 0.5).tolist()
    [0.60, 16.8]
    """
    area_ratio = (np.asarray(bore_m, dtype=np.float64) / np.asarray(face_diameter_m, dtype=np.float64)) ** 2
    face = plate_face_loss_coefficient(clogged_free_area_ratio(free_area_ratio, clogged_ratio))
    return np.asarray(face * area_ratio * area_ratio + np.asarray(entrance_loss_coefficient, dtype=np.float64))


def strainer_loss_coefficient(
    free_area_ratio: ArrayLike, clogged_ratio: ArrayLike, basket_area_m2: ArrayLike, bore_m: ArrayLike
) -> NDArray[np.float64]:
    """Loss coefficient of an in-line strainer with its basket, on the velocity in the pipe.

    Parameters
    ----------
    free_area_ratio : float or array
        Open area over whole area of the clean basket's wall, 0 to 1 [-].
    clogged_ratio : float or array, broadcasting
        Share of its holes that is covered, 0 to 1 [-].
    basket_area_m2 : float or array, broadcasting
        Whole area of the basket's wall, holes and bars [m2].
    bore_m : float or array, broadcasting
        Bore of the pipe before and behind [m].

    Returns
    -------
    array of the broadcast shape
        K [-]; infinite where nothing is open.

    Raises
    ------
    ValueError
        If a share lies outside 0 to 1.

    Notes
    -----
    K = 1 (exit into the housing) + 0.5 (entrance behind) + K_face (A_pipe / A_basket)^2.
    Holds for a housing much wider than the pipe; the source gives no range.

    References
    ----------
    crane_tp410_2009 for exit and entrance, through another; the sum is an estimate.

    Examples
    --------
    >>> strainer_loss_coefficient(0.3, [0.0, 0.9], 0.02, 0.04044).tolist()
    [1.58, 14.2]
    """
    area_ratio = 0.25 * np.pi * np.asarray(bore_m, dtype=np.float64) ** 2 / np.asarray(basket_area_m2, dtype=np.float64)
    face = plate_face_loss_coefficient(clogged_free_area_ratio(free_area_ratio, clogged_ratio))
    return np.asarray(1.5 + face * area_ratio * area_ratio)


def _share(ratio: ArrayLike) -> NDArray[np.float64]:
    share = np.asarray(ratio, dtype=np.float64)
    if not np.all((share >= 0.0) & (share <= 1.0)):
        raise ValueError("a share must lie between 0 and 1")
    return share


def _over_square(above: NDArray[np.float64], share: NDArray[np.float64]) -> NDArray[np.float64]:
    opened = np.where(share > 0.0, share, 1.0)
    return np.where(share > 0.0, above / (opened * opened), np.inf)
