"""What is in the water and what may be put into it: tests, fill water, products at hand, what the keeper wants."""

from datetime import date as Date  # noqa: N812
from typing import Annotated, Literal, get_args

from sanitize.basis.band import Band
from sanitize.plant.spec import Record, Spec

Method = Literal["strips", "drops", "photometer"]
Uses = Literal["chlorine", "bromine", "peroxide", "none"]
ProductWord = Literal[
    "sodium hypochlorite", "calcium hypochlorite", "dichlor", "trichlor", "bromine tablets", "sodium bromide",
    "potassium monopersulfate", "hydrogen peroxide", "hydrochloric acid", "sodium bisulfate", "sodium bicarbonate",
    "sodium carbonate", "calcium chloride",
]  # fmt: skip
Profile = Literal[
    "private cold tub", "Austria plunge pool", "DIN 19643 whirlpool", "New South Wales spa", "Florida spa",
    "Montana spa", "Quebec", "HSG282 spa", "CDC home hot tub",
]  # fmt: skip
PRODUCTS: tuple[ProductWord, ...] = get_args(ProductWord)
HYPOCHLORITE_SOLUTION: ProductWord = "sodium hypochlorite"
LIQUIDS: tuple[ProductWord, ...] = (HYPOCHLORITE_SOLUTION, "hydrogen peroxide", "hydrochloric acid")
PROFILES: tuple[Profile, ...] = get_args(Profile)


def _concentration(key: str, help_text: str, example: str, high: float) -> Spec:
    return Spec(key=key, kind="concentration", help=help_text, example=example, low=0.0, high=high)


def _ph(help_text: str) -> Spec:
    return Spec(key="ph", kind="number", help=help_text, example="7.4", low=4.0, high=10.5)


METHOD = Spec(
    key="method",
    kind="word",
    help="How it was tested: each has its reading error, unless a value states its own.",
    example='"drops"',
    words=get_args(Method),
)
ALKALINITY = _concentration("total_alkalinity", "Total alkalinity, as calcium carbonate.", '"80 mg/L"', 1000.0)
CALCIUM = _concentration("calcium_hardness", "Calcium hardness, as calcium carbonate.", '"150 mg/L"', 2000.0)
SOLIDS = _concentration("dissolved_solids", "Total dissolved solids.", '"350 mg/L"', 20000.0)
CONDUCTIVITY = Spec(
    key="conductivity",
    kind="conductivity",
    help="Conductivity at 25 degC, as most meters show it, in place of dissolved solids.",
    example='"550 uS/cm"',
    low=0.0,
    high=30000.0,
)


class WaterTest(Record):
    """One test of the tub's water; leave out what was not tested."""

    date: Annotated[
        Date | None, Spec(key="date", kind="date", help="Day of the test, for its age.", example="2026-03-14")
    ] = None
    method: Annotated[Method, METHOD] = "strips"
    ph: Annotated[Band | None, _ph("pH as tested.")] = None
    alkalinity_mgl: Annotated[Band | None, ALKALINITY] = None
    calcium_mgl: Annotated[Band | None, CALCIUM] = None
    free_chlorine_mgl: Annotated[
        Band | None, _concentration("free_chlorine", "Free chlorine.", '"1.0 mg/L"', 100.0)
    ] = None
    total_chlorine_mgl: Annotated[
        Band | None, _concentration("total_chlorine", "Total chlorine, free and combined.", '"1.2 mg/L"', 100.0)
    ] = None
    bromine_mgl: Annotated[Band | None, _concentration("bromine", "Total bromine.", '"3 mg/L"', 200.0)] = None
    cyanuric_mgl: Annotated[
        Band | None, _concentration("cyanuric_acid", "Cyanuric acid (stabiliser).", '"0 mg/L"', 500.0)
    ] = None
    peroxide_mgl: Annotated[Band | None, _concentration("peroxide", "Hydrogen peroxide.", '"30 mg/L"', 2000.0)] = None
    solids_mgl: Annotated[Band | None, SOLIDS] = None
    conductivity_us_cm: Annotated[Band | None, CONDUCTIVITY] = None
    added_mgl: Annotated[
        float | None,
        _concentration(
            "added", "Sanitizer added right after this test, as the rise of its residual.", '"2 mg/L"', 200.0
        ),
    ] = None
    temperature_c: Annotated[
        float | None,
        Spec(
            key="temperature",
            kind="temperature",
            help="Temperature of the water at the test; left out, that of [tub].",
            example='"6 degC"',
            low=0.0,
            high=45.0,
        ),
    ] = None


class FillWater(Record):
    """The water that the tub is filled from, as it really is."""

    method: Annotated[Method, METHOD] = "strips"
    ph: Annotated[Band | None, _ph("pH of the fill water.")] = None
    alkalinity_mgl: Annotated[Band | None, ALKALINITY] = None
    calcium_mgl: Annotated[Band | None, CALCIUM] = None
    solids_mgl: Annotated[Band | None, SOLIDS] = None
    conductivity_us_cm: Annotated[Band | None, CONDUCTIVITY] = None
    iron_mgl: Annotated[Band | None, _concentration("iron", "Iron.", '"0.05 mg/L"', 50.0)] = None
    manganese_mgl: Annotated[Band | None, _concentration("manganese", "Manganese.", '"0.02 mg/L"', 50.0)] = None
    copper_mgl: Annotated[Band | None, _concentration("copper", "Copper.", '"0.1 mg/L"', 50.0)] = None


class Product(Record):
    """One product at hand, by its kind and strength as its label gives them."""

    product: Annotated[
        ProductWord,
        Spec(
            key="product",
            kind="word",
            help="What is in it, never a brand.",
            example='"sodium hypochlorite"',
            words=PRODUCTS,
            required=True,
        ),
    ]
    strength_ratio: Annotated[
        float | None,
        Spec(
            key="strength_percent",
            kind="percent",
            help="Strength on the label: available chlorine for chlorine products, else what the product is named for.",
            example="12.5",
            above=0.0,
            high=1.0,
        ),
    ] = None
    by: Annotated[
        Literal["weight", "volume"] | None,
        Spec(
            key="strength_by",
            kind="word",
            help="Of a liquid: weight is g in 100 g (hypochlorite as NaOCl); volume is g in 100 mL (as chlorine).",
            example='"volume"',
            words=("weight", "volume"),
        ),
    ] = None
    age_s: Annotated[
        float,
        Spec(
            key="age",
            kind="time",
            help="Of a hypochlorite solution: time since it was made; it loses strength.",
            example='"90 days"',
            low=0.0,
            high=3.2e8,
        ),
    ] = 0.0
    may_dissolve: Annotated[
        bool | None,
        Spec(
            key="may_dissolve",
            kind="flag",
            help="Whether its label lets it be dissolved or thinned before it is added; left out, as is usual.",
            example="true",
        ),
    ] = None


def _target(key: str, attribute_help: str, example: str, high: float) -> Spec:
    return _concentration(key, f"Own target for {attribute_help}, with its range.", example, high)


class Sanitizer(Record):
    """What keeps the water, what the keeper wants of it, and what he can weigh and measure with."""

    uses: Annotated[
        Uses,
        Spec(
            key="uses",
            kind="word",
            help="What keeps a residual in the water.",
            example='"chlorine"',
            words=get_args(Uses),
            required=True,
        ),
    ]
    profile: Annotated[
        Profile,
        Spec(
            key="targets",
            kind="word",
            help="The guideline that the targets come from; own targets go before it.",
            example='"private cold tub"',
            words=PROFILES,
        ),
    ] = "private cold tub"
    ph: Annotated[
        Band | None,
        Spec(
            key="ph",
            kind="number",
            help="Own target for pH, with its range.",
            example='"7.4 (7.2 to 7.6)"',
            low=6.5,
            high=8.5,
        ),
    ] = None
    alkalinity_mgl: Annotated[
        Band | None, _target("total_alkalinity", "total alkalinity", '"80 mg/L (60 mg/L to 100 mg/L)"', 300.0)
    ] = None
    calcium_mgl: Annotated[
        Band | None, _target("calcium_hardness", "calcium hardness", '"150 mg/L (100 mg/L to 250 mg/L)"', 1000.0)
    ] = None
    free_chlorine_mgl: Annotated[
        Band | None, _target("free_chlorine", "free chlorine", '"3 mg/L (2 mg/L to 4 mg/L)"', 10.0)
    ] = None
    bromine_mgl: Annotated[Band | None, _target("bromine", "bromine", '"5 mg/L (4 mg/L to 6 mg/L)"', 20.0)] = None
    peroxide_mgl: Annotated[
        Band | None, _target("peroxide", "hydrogen peroxide", '"40 mg/L (30 mg/L to 50 mg/L)"', 100.0)
    ] = None
    scale_step_g: Annotated[
        float,
        Spec(
            key="scale_step",
            kind="mass",
            help="Smallest step that the scale shows.",
            example='"1 g"',
            low=0.001,
            high=100.0,
        ),
    ] = 1.0
    syringe_step_ml: Annotated[
        float,
        Spec(
            key="syringe_step",
            kind="dose volume",
            help="Smallest step on the syringe or measuring cup.",
            example='"1 mL"',
            low=0.01,
            high=100.0,
        ),
    ] = 1.0
