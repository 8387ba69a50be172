"""The keys that stand above the first table of a loop file, and of a file of own parts."""

from sanitize.basis.units import FAMILIES
from sanitize.plant.loop import ROW_TABLES, TABLES
from sanitize.plant.spec import Spec

FORMAT = 1
"""The format that this version writes; every released one is read."""

FORMAT_SPEC = Spec(
    key="format",
    kind="count",
    help="Version of the file format.",
    example=str(FORMAT),
    low=FORMAT,
    high=FORMAT,
    required=True,
)
TITLE = Spec(key="title", kind="text", help="What the answers call this tub.", example='"Orchard larch tub"')
UNITS = Spec(
    key="units",
    kind="word",
    help="Units of the answers; the file itself may mix any units.",
    example='"metric"',
    words=FAMILIES,
)
SIZE = Spec(
    key="size",
    kind="size",
    help="Trade size of every part that names none, until a reducer changes it.",
    example='"3/4 in"',
)
LOOP = Spec(
    key="loop",
    kind="parts",
    help="The parts in the order in which the water meets them, from the tub back to the tub.",
    example='[{part = "suction fitting", height = "0.20 m"}]',
    required=True,
)
WAY = Spec(
    key="way",
    kind="ways",
    help="The parts of each way that a split or a join names.",
    example='{bypass = [{part = "throttle valve", handle = "35 deg"}]}',
)
BASED_ON = Spec(
    key="based_on",
    kind="text",
    help="Another loop file that this one starts from; what stands here replaces what stands there.",
    example='"other.toml"',
)
CHANGE = Spec(
    key="change",
    kind="changes",
    help="With `based_on`: new values for parts of the other file, by their names.",
    example='{"return hose" = {length = "2 m"}}',
)
PARTS_FILE = Spec(
    key="parts_file",
    kind="text",
    help='A file of parts of your own, each under [part."its name"] with the fields of a part.',
    example='"my_parts.toml"',
)

TOP: tuple[Spec, ...] = (FORMAT_SPEC, TITLE, UNITS, SIZE, LOOP, WAY, BASED_ON, CHANGE, PARTS_FILE)
TOP_KEYS: tuple[str, ...] = tuple(spec.key for spec in TOP)
ALL_KEYS: tuple[str, ...] = (*TOP_KEYS, *TABLES, *ROW_TABLES)
