"""The loop: parts in order, splits and joins with their ways, and everything around them."""

from typing import Annotated, ClassVar, Literal

from sanitize.plant.day import Bathers, Timer
from sanitize.plant.ends import Return, Strainer, Suction
from sanitize.plant.fitted import Fitted
from sanitize.plant.gas import GasLine, OzoneUnit
from sanitize.plant.heat import ChillerUnit, Surroundings
from sanitize.plant.injector import Injector
from sanitize.plant.machines import Chiller, Filter, Pump
from sanitize.plant.measured import Measured
from sanitize.plant.part import Part
from sanitize.plant.pipework import Barb, Fitting, Hose, KnownDrop, KnownLoss, Pipe, Reducer, Tee
from sanitize.plant.spec import Record, Spec
from sanitize.plant.tub import Room, Tub
from sanitize.plant.valves import CheckValve, Valve
from sanitize.plant.water import FillWater, Product, Sanitizer, WaterTest

WAYS = Spec(
    key="ways",
    kind="names",
    help="Names of the ways, at least two, each a [way] list of its own.",
    example='["side stream", "bypass"]',
    required=True,
)
STRAIGHT = Spec(
    key="straight",
    kind="text",
    help="The way that goes straight through the tees; left out, every way turns.",
    example='"bypass"',
)


class Junction(Part):
    """Tees at which ways part or meet; n ways own n-1 tees, in the bore of the part before."""

    ways: Annotated[tuple[str, ...], WAYS]
    straight: Annotated[str | None, STRAIGHT] = None
    chains: tuple["Chain", ...] = ()


class Split(Junction):
    """The flow divides; ways that do not end in the tub meet again behind it."""

    words: ClassVar[tuple[str, ...]] = ("split",)
    help: ClassVar[str] = "The flow divides into ways, which meet again behind it unless they end in the tub."


class Join(Junction):
    """Ways that start in the tub meet."""

    words: ClassVar[tuple[str, ...]] = ("join",)
    help: ClassVar[str] = "Ways that start in the tub with a suction fitting meet, as for two suctions."


class Chain(Record):
    """Parts in a row: the loop itself or one way."""

    name: str
    items: tuple[
        Pipe | Hose | Fitting | Tee | Reducer | Barb | KnownLoss | KnownDrop | Valve | CheckValve
        | Suction | Strainer | Return | Pump | Filter | Chiller | Injector | Split | Join,
        ...,
    ]  # fmt: skip

    @property
    def starts_in_tub(self) -> bool:
        """Whether its first part takes water from the tub."""
        return bool(self.items) and isinstance(self.items[0], Suction | Join)

    @property
    def ends_in_tub(self) -> bool:
        """Whether its last part gives the water back to the tub."""
        if not self.items:
            return False
        last = self.items[-1]
        if isinstance(last, Split):
            return all(chain.ends_in_tub for chain in last.chains)
        return isinstance(last, Return)


Junction.model_rebuild()
Split.model_rebuild()
Join.model_rebuild()

PART_TYPES: tuple[type[Part], ...] = (
    Suction, Pipe, Hose, Fitting, Tee, Reducer, Barb, Valve, CheckValve, Strainer, Pump, Filter, Chiller, Injector,
    Return, KnownDrop, KnownLoss, Split, Join,
)  # fmt: skip
PART_OF_WORD: dict[str, type[Part]] = {word: record for record in PART_TYPES for word in record.words}


class Plant(Record):
    """Everything that the loop file describes."""

    title: str = ""
    units: Literal["metric", "us"] = "metric"
    loop: Chain
    tub: Tub
    room: Room | None = None
    gas_line: GasLine | None = None
    ozone: OzoneUnit | None = None
    measured: Measured | None = None
    fitted: Fitted | None = None
    bathers: Bathers | None = None
    timer: Timer | None = None
    chiller: ChillerUnit | None = None
    surroundings: Surroundings | None = None
    fill_water: FillWater | None = None
    sanitizer: Sanitizer | None = None
    water_test: tuple[WaterTest, ...] = ()
    product: tuple[Product, ...] = ()


def walk(chain: Chain) -> list[Part]:
    """Every part of a chain and of its ways, in order."""
    found: list[Part] = []
    for item in chain.items:
        found.append(item)
        if isinstance(item, Junction):
            for way in item.chains:
                found.extend(walk(way))
    return found


TABLES: dict[str, type[Record]] = {
    "tub": Tub,
    "room": Room,
    "gas_line": GasLine,
    "ozone": OzoneUnit,
    "measured": Measured,
    "fitted": Fitted,
    "bathers": Bathers,
    "timer": Timer,
    "chiller": ChillerUnit,
    "surroundings": Surroundings,
    "fill_water": FillWater,
    "sanitizer": Sanitizer,
}
ROW_TABLES: dict[str, type[Record]] = {
    "water_test": WaterTest,
    "product": Product,
}
"""Tables in double brackets, of which a file may hold several."""
