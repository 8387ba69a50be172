"""What the study of the doses answers."""

from collections.abc import Mapping
from dataclasses import dataclass
from typing import Literal

from sanitize.basis.figure import Figure
from sanitize.basis.notices import Notice
from sanitize.basis.tables import Standing
from sanitize.basis.units import Family
from sanitize.studies.cautions.caution import Caution, Severity

Item = Literal[
    "ph", "total_alkalinity", "calcium_hardness", "free_chlorine", "combined_chlorine", "cyanuric_acid", "bromine",
    "peroxide", "dissolved_solids",
]  # fmt: skip
"""What a test reads and a guideline asks for."""
Place = Literal["below", "inside", "above"]
SPOKEN: Mapping[Item, str] = {
    "ph": "pH",
    "total_alkalinity": "total alkalinity",
    "calcium_hardness": "calcium hardness",
    "free_chlorine": "free chlorine",
    "combined_chlorine": "combined chlorine",
    "cyanuric_acid": "cyanuric acid",
    "bromine": "bromine",
    "peroxide": "peroxide",
    "dissolved_solids": "dissolved solids",
}
"""What people call an item."""
FIELDS: Mapping[Item, str] = {
    "ph": "ph",
    "total_alkalinity": "carbonate_alkalinity_mgl",
    "calcium_hardness": "calcium_hardness_mgl",
    "free_chlorine": "free_chlorine_mgl",
    "combined_chlorine": "combined_chlorine_mgl",
    "cyanuric_acid": "cyanuric_acid_mgl",
    "bromine": "bromine_mgl",
    "peroxide": "peroxide_mgl",
    "dissolved_solids": "dissolved_solids_mgl",
}
"""The field of an expected test that an item's target is compared with; alkalinity without that of cyanurate."""


@dataclass(frozen=True, slots=True)
class Target:
    """What is wanted of one item: low to high with the value aimed at; where it stands: by nominal."""

    item: Item
    tested: Figure
    wanted: Figure
    stands: Place
    origin: str
    standing: Standing | Literal["stated"]
    source: str
    note: str


@dataclass(frozen=True, slots=True)
class Expected:
    """What a test would read; alkalinity as titrated, hardness and alkalinity as calcium carbonate.

    hocl_mgl: the acid that acts, hypochlorous as chlorine; hobr_mgl: hypobromous as bromine; saturation_index: of
    calcite; simplified_index: the trade's, for comparison; None where the water holds no such thing.
    """

    ph: Figure
    total_alkalinity_mgl: Figure
    carbonate_alkalinity_mgl: Figure
    calcium_hardness_mgl: Figure
    free_chlorine_mgl: Figure
    combined_chlorine_mgl: Figure
    bromine_mgl: Figure
    cyanuric_acid_mgl: Figure
    peroxide_mgl: Figure
    dissolved_solids_mgl: Figure
    saturation_index: Figure
    simplified_index: Figure
    hocl_mgl: Figure
    hobr_mgl: Figure


@dataclass(frozen=True, slots=True)
class Stock:
    """A dose too small to weigh or measure: dissolve more of it, and add a part of that.

    made_ml: volume that the solution is filled up to; add_ml: of it into the tub.
    """

    mass_g: float | None
    volume_ml: float | None
    made_ml: float
    add_ml: float


@dataclass(frozen=True, slots=True)
class Step:
    """One addition.

    mass_g or volume_ml: what to add; low, high: the same, by the reading errors; portion of portions_count; wait_s:
    before the next step; retest: what to test after the wait; how: carrying it out; after: the test expected then;
    at_hand: whether the file lists the product; only_if_retest: not the first portion.
    """

    number: int
    product: str
    strength: str
    at_hand: bool
    mass_g: float | None
    volume_ml: float | None
    low: float
    high: float
    portion: int
    portions_count: int
    only_if_retest: bool
    stock: Stock | None
    steps_of_scale_count: float
    wait_s: float
    retest: tuple[Item, ...]
    why: str
    how: str
    after: Expected


@dataclass(frozen=True, slots=True)
class WaterChange:
    """Water to let out and replace by fill water before anything is added."""

    share_ratio: Figure
    volume_l: Figure
    items: tuple[Item, ...]
    why: str
    after: Expected


@dataclass(frozen=True, slots=True)
class Unreached:
    """A target that no addition of this plan reaches, and what does."""

    item: Item
    text: str


@dataclass(frozen=True, slots=True)
class Conflict:
    """Two things that must not meet, and what to do about it."""

    code: str
    severity: Severity
    between: tuple[str, str]
    text: str
    action: str
    source: str


@dataclass(frozen=True, slots=True)
class Drift:
    """pH after some days in which carbon dioxide leaves through bubbles and surface and nothing is added."""

    days: float
    ph: Figure


@dataclass(frozen=True, slots=True)
class Dosing:
    """The water as tested, the steps, and the water after them; ph, saturation_index and hocl_mgl are as tested.

    gas_flow_m3s: air through the injector at local air pressure and 20 degC;
    used_up_alkalinity_mgl: what the alkalinity falls by when the oxidizers of the plan have done their work.
    """

    title: str
    units: Family
    uses: str
    profile: str
    tested_on: str | None
    temperature_c: float
    volume_l: Figure
    turnover_s: Figure | None
    gas_flow_m3s: Figure
    ph: Figure
    saturation_index: Figure
    simplified_index: Figure
    hocl_mgl: Figure
    before: Expected
    targets: tuple[Target, ...]
    water_change: WaterChange | None
    steps: tuple[Step, ...]
    after: Expected
    used_up_alkalinity_mgl: Figure
    unreached: tuple[Unreached, ...]
    conflicts: tuple[Conflict, ...]
    blind_spots: tuple[str, ...]
    drift: tuple[Drift, ...]
    advice: tuple[str, ...]
    cases_count: int
    seed: int
    notices: tuple[Notice, ...]
    sources: tuple[str, ...]
    cautions: tuple[Caution, ...]
