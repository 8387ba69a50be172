"""What a mole of each product brings into the water: stoichiometry, and the active part of a gram or a millilitre."""

from typing import NamedTuple

import numpy as np
from numpy.typing import ArrayLike, NDArray

from sanitize.laws.chemistry.halogens import CHLORINE_GMOL, PEROXIDE_GMOL

Array = NDArray[np.float64]
SODIUM_HYPOCHLORITE_GMOL = 74.442
"""NaOCl [g/mol]."""
_SODIUM_CHLORIDE_GMOL = 58.443


class Brings(NamedTuple):
    """What one mole of the active part brings.

    counted_gmol: mass that the strength on a label counts for one mole [g/mol]; alkalinity: equivalents [-], as
    strong cations less strong anions, so that it counts hypochlorite and cyanurate as bases; used_alkalinity: what is
    left of it when the oxidizer has done its work and is chloride, bromide or sulfate [-]; the rest in moles [-];
    solids_g: dissolved solids [g/mol].
    """

    counted_gmol: float
    alkalinity: float = 0.0
    used_alkalinity: float = 0.0
    carbon: float = 0.0
    calcium: float = 0.0
    sodium: float = 0.0
    chlorine: float = 0.0
    bromide: float = 0.0
    bromine: float = 0.0
    cyanuric: float = 0.0
    peroxide: float = 0.0
    persulfate: float = 0.0
    chloride: float = 0.0
    sulfate: float = 0.0
    solids_g: float = 0.0


BRINGS: dict[str, Brings] = {
    "sodium hypochlorite": Brings(
        CHLORINE_GMOL, alkalinity=1.0, sodium=2.0, chlorine=1.0, chloride=1.0,
        solids_g=SODIUM_HYPOCHLORITE_GMOL + _SODIUM_CHLORIDE_GMOL,
    ),
    "calcium hypochlorite": Brings(
        CHLORINE_GMOL, alkalinity=1.0, calcium=0.5, chlorine=1.0, solids_g=142.98 / 2.0
    ),
    "dichlor": Brings(
        CHLORINE_GMOL, alkalinity=0.5, used_alkalinity=-0.5, sodium=0.5, chlorine=1.0, cyanuric=0.5,
        solids_g=219.95 / 2.0,
    ),
    "trichlor": Brings(
        CHLORINE_GMOL, used_alkalinity=-1.0, chlorine=1.0, cyanuric=1.0 / 3.0, solids_g=232.41 / 3.0
    ),
    "bromine tablets": Brings(CHLORINE_GMOL, used_alkalinity=-1.0, bromine=1.0, solids_g=241.47 / 2.0),
    "sodium bromide": Brings(102.894, sodium=1.0, bromide=1.0, solids_g=102.894),
    "potassium monopersulfate": Brings(
        152.168, alkalinity=-0.5, used_alkalinity=-1.5, persulfate=1.0, sulfate=1.0, solids_g=307.38
    ),
    "hydrogen peroxide": Brings(PEROXIDE_GMOL, peroxide=1.0),
    "hydrochloric acid": Brings(36.461, alkalinity=-1.0, used_alkalinity=-1.0, chloride=1.0, solids_g=35.453),
    "sodium bisulfate": Brings(
        120.06, alkalinity=-1.0, used_alkalinity=-1.0, sodium=1.0, sulfate=1.0, solids_g=120.06
    ),
    "sodium bicarbonate": Brings(
        84.007, alkalinity=1.0, used_alkalinity=1.0, carbon=1.0, sodium=1.0, solids_g=84.007
    ),
    "sodium carbonate": Brings(
        105.988, alkalinity=2.0, used_alkalinity=2.0, carbon=1.0, sodium=2.0, solids_g=105.988
    ),
    "calcium chloride": Brings(110.984, calcium=1.0, chloride=2.0, solids_g=110.984),
}  # fmt: skip
"""By the product's word; chlorine and bromine in moles of Cl2 and Br2, as which tests count them."""


def strongest_ratio(product: str) -> float:
    """Strength of a product that is nothing but its pure substance, as its label counts it.

    Parameters
    ----------
    product : str
        A key of BRINGS.

    Returns
    -------
    float
        Counted mass over whole mass, at most 1 [-].

    Raises
    ------
    KeyError
        If there is no such product.

    Notes
    -----
    Counted molar mass over the molar mass of the solids of one mole of the active part (stoichiometry); of products
    that are solutions of a gas or a liquid, and of salts, 1. The monopersulfate is the triple salt.

    Examples
    --------
    Trichlor, and the hydantoin of bromine tablets as available chlorine:

    >>> strongest_ratio("trichlor"), strongest_ratio("bromine tablets"), strongest_ratio("sodium bicarbonate")
    (0.915, 0.587, 1.000)
    """
    brings = BRINGS[product]
    return min(brings.counted_gmol / brings.solids_g, 1.0) if brings.solids_g > 0.0 else 1.0


def active_mol(product: str, amount: ArrayLike, strength_ratio: ArrayLike) -> Array:
    """Moles of the active part in an amount of a product whose strength counts its own active mass.

    Parameters
    ----------
    product : str
        A key of BRINGS.
    amount : float or array
        Mass of a solid or a liquid [g], or with the strength by volume a volume [mL].
    strength_ratio : float or array, broadcasting
        Active mass over the amount [g/g, or g/mL].

    Returns
    -------
    array of the broadcast shape
        Moles [mol].

    Raises
    ------
    KeyError
        If there is no such product.

    Notes
    -----
    amount strength / counted molar mass (stoichiometry); chlorine products count available chlorine, Cl2.

    Examples
    --------
    8.00 mL of a hypochlorite with 12.5 g of chlorine in 100 mL hold 1 g of chlorine; 16.8 g of bicarbonate, 0.2 mol:

    >>> 70.906 * float(active_mol("sodium hypochlorite", 8.0, 0.125))
    1.000
    >>> float(active_mol("sodium bicarbonate", 16.79, 1.0))
    0.19986
    """
    found = np.asarray(amount, dtype=np.float64) * np.asarray(strength_ratio, dtype=np.float64)
    return np.asarray(found / BRINGS[product].counted_gmol)


def chlorine_of_hypochlorite_ratio(sodium_hypochlorite_ratio: ArrayLike) -> Array:
    """Available chlorine of a solution that is labelled by its sodium hypochlorite.

    Parameters
    ----------
    sodium_hypochlorite_ratio : float or array
        NaOCl, by weight or by volume [-].

    Returns
    -------
    array of the same shape
        Chlorine, as Cl2, on the same base [-].

    Notes
    -----
    Mole for mole: 70.906 / 74.442 (stoichiometry).

    Examples
    --------
    >>> float(chlorine_of_hypochlorite_ratio(0.06))
    0.0571
    """
    return np.asarray(CHLORINE_GMOL / SODIUM_HYPOCHLORITE_GMOL * np.asarray(sodium_hypochlorite_ratio))
