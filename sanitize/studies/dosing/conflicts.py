"""What must not meet: in the jar, on the shelf, or in the water."""

from collections.abc import Callable, Mapping, Sequence
from dataclasses import dataclass

from sanitize.basis.band import Band
from sanitize.plant.loop import Plant
from sanitize.studies.cautions.caution import Severity
from sanitize.studies.dosing.numbers import number
from sanitize.studies.dosing.products import ACIDS, HALOGENS, STABILISED
from sanitize.studies.dosing.result import Conflict, Item


@dataclass(frozen=True)
class Scene:
    """What is at hand, in the plan and in the water."""

    have: frozenset[str]
    used: frozenset[str]
    uses: str
    ozone: bool
    bands: Mapping[Item, Band]
    temperature_c: float

    @property
    def around(self) -> frozenset[str]:
        """At hand or in the plan."""
        return self.have | self.used

    def reads(self, item: Item, least: str) -> bool:
        """Whether a test found so much of an item."""
        return item in self.bands and self.bands[item].nominal >= number(least).value


@dataclass(frozen=True)
class _Rule:
    when: Callable[[Scene], bool]
    code: str
    severity: Severity
    between: tuple[str, str]
    text: str
    action: str
    source: str = ""


def destroyer_of(uses: str, bands: Mapping[Item, Band]) -> Item | None:
    """What a test found in the water that destroys the residual which is wanted, so that none may be added."""
    reads: Mapping[str, tuple[tuple[Item, str], ...]] = {
        "chlorine": (("peroxide", "peroxide_from_mgl"),),
        "bromine": (("peroxide", "peroxide_from_mgl"),),
        "peroxide": (("free_chlorine", "residual_from_mgl"), ("bromine", "residual_from_mgl")),
    }
    return next(
        (item for item, least in reads.get(uses, ()) if item in bands and bands[item].nominal >= number(least).value),
        None,
    )


def _both(first: Sequence[str], second: Sequence[str]) -> Callable[[Scene], bool]:
    return lambda scene: bool(scene.around & set(first)) and bool(scene.around & set(second))


_RULES = (
    _Rule(
        _both(HALOGENS, ACIDS), "chlorine-with-acid", "danger", ("chlorine or bromine products", "acid"),
        "A chlorine or bromine product and an acid that meet, even as traces in one cup, give off poison gas.",
        "Measures and jars of their own for each; apart on the shelf; never into the water within an hour and three "
        "turnovers of each other.",
        "maryland_pool_chemicals",
    ),
    _Rule(
        _both(["calcium hypochlorite"], STABILISED), "hypochlorite-with-cyanurates", "danger",
        ("calcium hypochlorite", "dichlor or trichlor"),
        "Calcium hypochlorite and chlorinated cyanurates burn or explode when they meet, dry or damp.",
        "Never in one scoop, floater or shelf; keep only one of the two kinds.",
    ),
    _Rule(
        _both(HALOGENS, ["hydrogen peroxide"]), "peroxide-with-chlorine", "danger",
        ("hydrogen peroxide", "chlorine or bromine products"),
        "Peroxide and hypochlorite foam up, heat and burst what holds them; in the water they destroy each other, "
        "0.48 mg of peroxide for each mg of chlorine.",
        "Use one of the two; change over only with the other at 0 by a test, and store them apart.",
    ),
    _Rule(
        lambda scene: destroyer_of(scene.uses, scene.bands) in ("free_chlorine", "bromine"),
        "chlorine-in-the-water", "danger", ("chlorine or bromine in the water", "hydrogen peroxide"),
        "The water still holds chlorine or bromine; it and peroxide destroy each other, so none is in this plan.",
        "Let the chlorine or bromine fall to 0 by a test first, or change the water.",
    ),
    _Rule(
        lambda scene: destroyer_of(scene.uses, scene.bands) == "peroxide",
        "peroxide-in-the-water", "danger", ("hydrogen peroxide in the water", "chlorine or bromine products"),
        "The water still holds peroxide; it and chlorine or bromine destroy each other, so none is in this plan.",
        "Let the peroxide fall to 0 by strips made for it first, or change the water.",
    ),
    _Rule(
        lambda scene: scene.uses == "peroxide" and scene.ozone, "peroxide-with-ozone", "caution",
        ("hydrogen peroxide", "ozone"),
        "Peroxide and ozone use each other up, so little is left of either.",
        "Expect more peroxide to be needed on days with ozone; test before and after.",
    ),
    _Rule(
        lambda scene: scene.ozone and (scene.uses == "bromine" or bool(scene.around & {"sodium bromide"})),
        "bromide-with-ozone", "caution", ("bromide", "ozone"),
        "Ozone turns bromide into bromate, which stays in the water; a German standard allows 2.0 mg/L.",
        "With an ozone unit prefer chlorine; with bromine change the water often.",
        "din_19643",
    ),
    _Rule(
        _both(["potassium monopersulfate"], HALOGENS),
        "persulfate-with-chlorine", "danger", ("potassium monopersulfate", "chlorine or bromine products"),
        "Monopersulfate is sour: dry, damp or dissolved it drives poison gas out of chlorine and bromine products.",
        "Scoops, jars and shelves of their own; never into the water within an hour and three turnovers of each other.",
    ),
    _Rule(
        _both(["sodium bicarbonate", "sodium carbonate"], ["calcium chloride"]), "carbonate-with-calcium", "caution",
        ("bicarbonate or soda", "calcium chloride"),
        "Together they fall out as chalk and cloud the water.",
        "Never in one jar; two hours apart.",
    ),
    _Rule(
        lambda scene: "trichlor" in scene.have, "trichlor-in-a-small-tub", "caution", ("trichlor", "a small tub"),
        "Trichlor is sour, dissolves for days and leaves 0.6 mg of cyanuric acid for each mg of chlorine: it is never "
        "in this plan.",
        "Use a chlorine without stabiliser.",
    ),
    _Rule(
        lambda scene: bool(scene.around & {"dichlor"})
        or (scene.uses == "chlorine" and scene.reads("cyanuric_acid", "stabilised_from_mgl")),
        "stabiliser-in-the-cold", "caution", ("cyanuric acid", "cold water"),
        "Cyanuric acid binds chlorine, and more of it in the cold: at 5 degC, pH 7.5 and 30 mg/L only 0.011 of 3 mg/L "
        "act, at 25 degC 0.029.",
        "Use a chlorine without stabiliser, and change water to get rid of it.",
        "wahman_alexander_2019",
    ),
    _Rule(
        lambda scene: scene.uses in ("chlorine", "none") and scene.reads("bromine", "residual_from_mgl"),
        "bromine-turns-chlorine", "caution", ("bromide in the water", "chlorine"),
        "Water that holds bromide turns chlorine into bromine, so a chlorine test shows bromine.",
        "Keep to bromine, or drain and rinse before changing over.",
    ),
)  # fmt: skip


def conflicts_of(plant: Plant, uses: str, used: Sequence[str], bands: Mapping[Item, Band]) -> tuple[Conflict, ...]:
    """The conflicts that this tub has, dangers first."""
    scene = Scene(
        have=frozenset(item.product for item in plant.product),
        used=frozenset(used),
        uses=uses,
        ozone=plant.ozone is not None,
        bands=bands,
        temperature_c=plant.tub.temperature_c,
    )
    found = [_conflict(rule) for rule in _RULES if rule.when(scene)]
    return tuple(sorted(found, key=lambda one: one.severity != "danger"))


def all_conflicts() -> tuple[Conflict, ...]:
    """Every conflict that there is."""
    return tuple(_conflict(rule) for rule in _RULES)


def _conflict(rule: _Rule) -> Conflict:
    return Conflict(rule.code, rule.severity, rule.between, rule.text, rule.action, rule.source)
