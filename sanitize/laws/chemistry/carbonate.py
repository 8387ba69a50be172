"""Carbonate in water with its ion pairs: from pH and alkalinity to carbon, and back from carbon to pH."""

from collections.abc import Callable, Sequence
from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from sanitize.laws.chemistry.activity import log_activity_coefficient
from sanitize.laws.chemistry.constants import (
    log_calcium_bicarbonate_pair,
    log_calcium_carbonate_pair,
    log_k1,
    log_k2,
    log_kw,
    log_sodium_bicarbonate_pair,
    log_sodium_carbonate_pair,
)

LOWEST_PH, HIGHEST_PH = 2.0, 12.0
_NEWTON_STEPS = 8
_HALVINGS = 46

Array = NDArray[np.float64]
Sum = Callable[[Array, "Water"], tuple[Array, Array]]
Acids = Sequence[tuple[ArrayLike, ArrayLike]]
"""Weak acids with one proton besides carbonic acid: the total [mol/L] and the pK (on activities) of each."""


class Water(NamedTuple):
    """What the equilibrium needs besides pH, alkalinity and carbon; floats or arrays that broadcast.

    calcium_moll, sodium_moll: all of it, free and paired [mol/L]; ionic_strength_moll [mol/L]; temperature_c [degC];
    acids: weak acids besides carbonic acid.
    """

    calcium_moll: ArrayLike
    sodium_moll: ArrayLike
    ionic_strength_moll: ArrayLike
    temperature_c: ArrayLike
    acids: Acids = ()


class Species(NamedTuple):
    """Concentrations of the species of carbonate [mol/L], and the activity product of calcium and carbonate [-]."""

    carbon_dioxide: Array
    bicarbonate: Array
    carbonate: Array
    calcium: Array
    sodium: Array
    calcium_carbonate: Array
    calcium_bicarbonate: Array
    sodium_carbonate: Array
    sodium_bicarbonate: Array
    calcium_carbonate_activity: Array


def carbon_moll(ph: ArrayLike, alkalinity_moll: ArrayLike, water: Water) -> Array:
    """Total inorganic carbon of a water of which pH and alkalinity were measured.

    Parameters
    ----------
    ph : float or array
        pH, the negative log10 of the activity of hydrogen [-].
    alkalinity_moll : float or array, broadcasting
        Total alkalinity as titrated, with that of the weak acids [eq/L].
    water : Water
        Calcium, sodium, ionic strength, temperature and weak acids.

    Returns
    -------
    array of the broadcast shape
        Carbon dioxide, bicarbonate, carbonate and their pairs together [mol/L].

    Raises
    ------
    ValueError
        If the weak acids and the hydroxide hold more than the alkalinity, or a pH is outside 2 to 12.

    Notes
    -----
    Alk = [HCO3-] + 2 [CO3--] + pairs + [OH-] - [H+] + sum of the weak acids' anions;
    one unknown, [CO3--], by Newton steps from 0: the sum is concave in it, so they rise to the root.
    The source of the constants gives 0 to 90 degC; the activities hold to 0.5 mol/L.

    References
    ----------
    plummer_busenberg_1982 and phreeqc_dat for the constants, read primary.

    Examples
    --------
    Alkalinity 80 mg/L as calcium carbonate, calcium 150 mg/L as such, pH 7.656 at 5 degC:

    >>> water = Water(1.5e-3, 1.6e-3, 6.0e-3, 5.0)
    >>> 1e3 * float(carbon_moll(7.656, 1.6e-3, water))
    1.700
    """
    state = _Constants.of(water).at(ph, water)
    wanted = np.asarray(alkalinity_moll, dtype=np.float64) - state.other_alkalinity
    if not np.all(wanted > 0.0):
        raise ValueError("weak acids and hydroxide hold more than the alkalinity")
    root = _root(state.alkalinity_of, wanted, water)
    return state.carbon_of(root, water)[0]


def alkalinity_moll(ph: ArrayLike, carbon_moll: ArrayLike, water: Water) -> Array:
    """Total alkalinity of a water of known pH and total carbon: the proton balance.

    Parameters
    ----------
    ph : float or array
        pH [-].
    carbon_moll : float or array, broadcasting
        Total inorganic carbon [mol/L].
    water : Water
        As `carbon_moll`.

    Returns
    -------
    array of the broadcast shape
        Alkalinity as titrated [eq/L].

    Raises
    ------
    ValueError
        If a pH is outside 2 to 12 or carbon is negative.

    Notes
    -----
    As `carbon_moll`. It rises with pH.

    References
    ----------
    plummer_busenberg_1982 and phreeqc_dat for the constants, read primary.

    Examples
    --------
    >>> 1e3 * float(alkalinity_moll(7.656, 1.7e-3, Water(1.5e-3, 1.6e-3, 6.0e-3, 5.0)))
    1.600
    """
    state = _Constants.of(water).at(ph, water)
    root = _root(state.carbon_of, _carbon(carbon_moll), water)
    return np.asarray(state.alkalinity_of(root, water)[0] + state.other_alkalinity)


def ph_of(alkalinity_moll: ArrayLike, carbon_moll: ArrayLike, water: Water) -> Array:
    """pH of a water of known alkalinity and carbon, as after an addition.

    Parameters
    ----------
    alkalinity_moll : float or array
        Total alkalinity [eq/L]; negative where acid is in excess.
    carbon_moll : float or array, broadcasting
        Total inorganic carbon [mol/L].
    water : Water
        As `carbon_moll`.

    Returns
    -------
    array of the broadcast shape
        pH [-].

    Raises
    ------
    ValueError
        If carbon is negative, or the pH would lie outside 2 to 12.

    Notes
    -----
    The pH at which `alkalinity_moll` gives the alkalinity, between brackets by halving.

    References
    ----------
    plummer_busenberg_1982 and phreeqc_dat for the constants, read primary.

    Examples
    --------
    The same water after 0.2 mmol/L of acid:

    >>> float(ph_of(1.4e-3, 1.7e-3, Water(1.5e-3, 1.6e-3, 6.2e-3, 5.0)))
    7.143
    """
    wanted = np.asarray(alkalinity_moll, dtype=np.float64)
    carbon = _carbon(carbon_moll)
    others = [np.asarray(value) for value in water[:4]] + [np.asarray(value) for acid in water.acids for value in acid]
    shape = np.broadcast_shapes(wanted.shape, carbon.shape, *(value.shape for value in others))
    low, high = np.full(shape, LOWEST_PH), np.full(shape, HIGHEST_PH)
    constants = _Constants.of(water)
    lowest, highest = (_alkalinity_at(end, carbon, water, constants) for end in (low, high))
    if not (np.all(lowest <= wanted) and np.all(highest >= wanted)):
        raise ValueError(f"the pH would lie outside {LOWEST_PH:g} to {HIGHEST_PH:g}")
    for _ in range(_HALVINGS):
        middle = 0.5 * (low + high)
        below = _alkalinity_at(middle, carbon, water, constants) < wanted
        low, high = np.where(below, middle, low), np.where(below, high, middle)
    return np.asarray(0.5 * (low + high))


def species(ph: ArrayLike, carbon_moll: ArrayLike, water: Water) -> Species:
    """What the carbon of a water is made of, and how much calcium and sodium is free.

    Parameters
    ----------
    ph : float or array
        pH [-].
    carbon_moll : float or array, broadcasting
        Total inorganic carbon [mol/L].
    water : Water
        As `carbon_moll`.

    Returns
    -------
    Species
        Arrays of the broadcast shape.

    Raises
    ------
    ValueError
        If a pH is outside 2 to 12 or carbon is negative.

    Notes
    -----
    As `carbon_moll`.

    References
    ----------
    plummer_busenberg_1982 and phreeqc_dat for the constants, read primary.

    Examples
    --------
    >>> found = species(7.656, 1.7e-3, Water(1.5e-3, 1.6e-3, 6.0e-3, 5.0))
    >>> round(1e3 * float(found.carbon_dioxide), 3)
    0.105
    """
    state = _Constants.of(water).at(ph, water)
    root = _root(state.carbon_of, _carbon(carbon_moll), water)
    calcium = np.asarray(water.calcium_moll) / (1.0 + (state.calcium_carbonate + state.calcium_bicarbonate) * root)
    sodium = np.asarray(water.sodium_moll) / (1.0 + (state.sodium_carbonate + state.sodium_bicarbonate) * root)
    return Species(
        np.asarray(state.carbon_dioxide * root),
        np.asarray(state.bicarbonate * root),
        np.asarray(root),
        np.asarray(calcium),
        np.asarray(sodium),
        np.asarray(state.calcium_carbonate * root * calcium),
        np.asarray(state.calcium_bicarbonate * root * calcium),
        np.asarray(state.sodium_carbonate * root * sodium),
        np.asarray(state.sodium_bicarbonate * root * sodium),
        np.asarray(state.double**2 * calcium * root),
    )


def _carbon(carbon_moll: ArrayLike) -> Array:
    carbon = np.asarray(carbon_moll, dtype=np.float64)
    if not np.all(carbon >= 0.0):
        raise ValueError("carbon is 0 or more")
    return carbon


def _alkalinity_at(ph: Array, carbon: Array, water: Water, constants: "_Constants") -> Array:
    state = constants.at(ph, water)
    root = _root(state.carbon_of, carbon, water)
    return np.asarray(state.alkalinity_of(root, water)[0] + state.other_alkalinity)


class _Constants(NamedTuple):
    """Activity coefficients by charge, and constants, of a water whatever its pH."""

    none: Array
    one: Array
    two: Array
    bicarbonate: Array
    carbon_dioxide: Array
    hydroxide: Array
    calcium_carbonate: Array
    calcium_bicarbonate: Array
    sodium_carbonate: Array
    sodium_bicarbonate: Array

    @classmethod
    def of(cls, water: Water) -> "_Constants":
        t, strength = water.temperature_c, water.ionic_strength_moll
        none, one, two = (10.0 ** log_activity_coefficient(charge, strength, t) for charge in (0, 1, 2))
        bicarbonate = two / (10.0 ** log_k2(t) * one)
        return cls(
            none,
            one,
            two,
            np.asarray(bicarbonate),
            np.asarray(two / (10.0 ** (log_k1(t) + log_k2(t)) * none)),
            np.asarray(10.0 ** log_kw(t) / one),
            np.asarray(10.0 ** log_calcium_carbonate_pair(t) * two * two / none),
            np.asarray(10.0 ** log_calcium_bicarbonate_pair(t) * two * bicarbonate),
            np.asarray(10.0 ** log_sodium_carbonate_pair(t) * two),
            np.asarray(10.0 ** log_sodium_bicarbonate_pair(t) * one * one * bicarbonate / none),
        )

    def at(self, ph: ArrayLike, water: Water) -> "_State":
        acidity = np.asarray(ph, dtype=np.float64)
        if not np.all((acidity >= LOWEST_PH) & (acidity <= HIGHEST_PH)):
            raise ValueError(f"a pH must lie between {LOWEST_PH:g} and {HIGHEST_PH:g}")
        proton = 10.0**-acidity
        other = self.hydroxide / proton - proton / self.one
        for total, pk in water.acids:
            other = other + np.asarray(total) / (1.0 + 10.0 ** np.asarray(pk) * proton * self.one / self.none)
        return _State(
            self.carbon_dioxide * proton**2,
            self.bicarbonate * proton,
            self.calcium_carbonate,
            self.calcium_bicarbonate * proton,
            self.sodium_carbonate,
            self.sodium_bicarbonate * proton,
            self.two,
            np.asarray(other),
        )


class _State(NamedTuple):
    """Every species over [CO3--], those of the metals over the free metal too, at one pH; and all other alkalinity."""

    carbon_dioxide: Array
    bicarbonate: Array
    calcium_carbonate: Array
    calcium_bicarbonate: Array
    sodium_carbonate: Array
    sodium_bicarbonate: Array
    double: Array
    other_alkalinity: Array

    def carbon_of(self, root: Array, water: Water) -> tuple[Array, Array]:
        """Total carbon and its slope."""
        return self._sum(
            root,
            1.0 + self.bicarbonate + self.carbon_dioxide,
            self.calcium_carbonate + self.calcium_bicarbonate,
            self.sodium_carbonate + self.sodium_bicarbonate,
            water,
        )

    def alkalinity_of(self, root: Array, water: Water) -> tuple[Array, Array]:
        """Alkalinity of the carbonate and its slope."""
        return self._sum(
            root,
            2.0 + self.bicarbonate,
            2.0 * self.calcium_carbonate + self.calcium_bicarbonate,
            2.0 * self.sodium_carbonate + self.sodium_bicarbonate,
            water,
        )

    def _sum(self, root: Array, own: Array, calcium: Array, sodium: Array, water: Water) -> tuple[Array, Array]:
        total, slope = own * root, own
        for weight, binding, metal in (
            (calcium, self.calcium_carbonate + self.calcium_bicarbonate, water.calcium_moll),
            (sodium, self.sodium_carbonate + self.sodium_bicarbonate, water.sodium_moll),
        ):
            free = np.asarray(metal) / (1.0 + binding * root)
            total = total + weight * free * root
            slope = slope + weight * free / (1.0 + binding * root)
        return np.asarray(total), np.asarray(slope)


def _root(function: Sum, wanted: Array, water: Water) -> Array:
    """[CO3--] at which a rising concave sum comes to what is wanted."""
    root = np.zeros(np.shape(wanted))
    for _ in range(_NEWTON_STEPS):
        value, slope = function(root, water)
        root = root + (wanted - value) / slope
    return np.asarray(root)
