"""How a part joins its neighbours: words for its ends, its material and what its joints are sealed with."""

from typing import Literal, get_args

from sanitize.plant.spec import Spec

End = Literal[
    "socket",
    "spigot",
    "tapered male",
    "tapered female",
    "hose thread male",
    "hose thread female",
    "barb",
    "hose end",
    "tube end",
    "union",
    "bulkhead thread",
]
"""Hose end: flexible PVC hose with the outside of pipe; tube end: vinyl tubing, named by its bore; union: the tail with
a socket comes with it; bulkhead thread: the straight thread of a tank fitting, which a gasket and a nut seal."""

Material = Literal[
    "PVC", "CPVC", "flexible PVC", "vinyl tubing", "ABS", "acrylic", "polypropylene", "polyethylene", "nylon", "acetal",
    "PVDF", "PTFE", "PFA", "FKM", "EPDM", "silicone", "nitrile rubber", "natural rubber", "neoprene", "glass",
    "stainless steel", "galvanized steel", "copper", "brass", "bronze", "aluminium",
]  # fmt: skip

Sealant = Literal["solvent cement", "thread tape", "thread paste", "hose clamp", "washer", "none"]

ENDS: tuple[End, ...] = get_args(End)
MATERIALS: tuple[Material, ...] = get_args(Material)
SEALANTS: tuple[Sealant, ...] = get_args(Sealant)

INLET_END = Spec(
    key="inlet_end",
    kind="word",
    help="How the end joins at which the water comes in; left out, the usual end of such a part.",
    example='"tapered male"',
    words=ENDS,
)
OUTLET_END = Spec(
    key="outlet_end",
    kind="word",
    help="How the end joins at which the water goes out; left out, the usual end of such a part.",
    example='"socket"',
    words=ENDS,
)
MATERIAL = Spec(
    key="material",
    kind="word",
    help="What it is made of where water or gas touches it; left out, the usual one.",
    example='"PVC"',
    words=MATERIALS,
)
CHECK_VALVE_MATERIAL = Spec(
    key="check_valve_material",
    kind="word",
    help="What the check valve's body and seal are made of, the worse of them.",
    example='"FKM"',
    words=MATERIALS,
)
SEALANT = Spec(
    key="sealant",
    kind="word",
    help="What its joints are sealed with; left out, the usual for each joint.",
    example='"thread tape"',
    words=SEALANTS,
)
