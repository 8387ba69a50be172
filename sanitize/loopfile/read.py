"""The loop file: text to plant, with every problem at once."""

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Any

from sanitize.basis.errors import InputError, Problem
from sanitize.basis.notices import Notice
from sanitize.basis.units import Family
from sanitize.loopfile.ask import Ask
from sanitize.loopfile.fields import Fields, read_field, read_fields
from sanitize.loopfile.files import Reader, own_parts, with_base, with_readings
from sanitize.loopfile.kinds_of_file import refuse_other_kind
from sanitize.loopfile.names import give_names
from sanitize.loopfile.overrides import apply_changes, apply_settings
from sanitize.loopfile.part_checks import check_part
from sanitize.loopfile.plant_tables import check_tables, read_tables
from sanitize.loopfile.reading import Reading, in_order
from sanitize.loopfile.running_size import ANY_SIZE, Sizes
from sanitize.loopfile.structure import check_structure
from sanitize.loopfile.toml_text import load
from sanitize.loopfile.top_level import ALL_KEYS, SIZE, TITLE, TOP_KEYS, UNITS
from sanitize.loopfile.tree import Node, RawChain, Tree, build_tree
from sanitize.loopfile.water_checks import read_rows
from sanitize.loopfile.wording import listed, nearest, shown
from sanitize.loopfile.written import Written, written
from sanitize.plant.injector import Injector
from sanitize.plant.loop import ROW_TABLES, TABLES, Chain, Plant
from sanitize.plant.machines import Chiller, Filter
from sanitize.plant.spec import Spec


@dataclass(frozen=True, slots=True)
class LoadedPlant:
    """What a loop file describes, what was assumed on the way, and every value's text by its place and key.

    has_new_readings: whether readings came beside the file, from one of their own or from settings.
    """

    plant: Plant
    notices: tuple[Notice, ...]
    written: Written
    has_new_readings: bool = False


def read_plant(
    text: str,
    *,
    path: str = "loop file",
    overrides: Sequence[str] = (),
    reader: Reader | None = None,
    measured: tuple[str, str] | None = None,
) -> LoadedPlant:
    """A loop file's text to the plant that it describes.

    path: the file's own path, for messages and for the files it names; overrides: settings such as
    "return hose.length=2 m"; reader: gives the text of another file by its path; measured: path and text of a file with
    the readings, which are laid over those of the loop file; those that a fit was made from do not stay beside them.
    Raises InputError with every problem of the file.
    """
    doc = load(text, path)
    if not doc:
        raise InputError(
            [Problem(path, "it says nothing: it is empty, or all comment", "a loop file", "sanitize new FILE")]
        )
    refuse_other_kind(doc, path, "a loop file")
    reading = Reading()
    doc = with_base(doc, path, reader, reading)
    new = measured is not None or any(setting.strip().startswith("measured.") for setting in overrides)
    if new and "fitted" in doc:
        doc["measured"] = {}
    if measured is not None:
        with_readings(doc, *measured, reading)
    own, parts_path = own_parts(doc, path, reader, reading)
    _override(doc, own, parts_path, overrides, reading)
    loaded = _Plant(doc, reading).build(build_tree(doc, own, reading, parts_path))
    return replace(loaded, has_new_readings=new)


def _override(
    doc: dict[str, Any], own: dict[str, dict[str, Any]], parts_path: str, overrides: Sequence[str], reading: Reading
) -> None:
    """Changes and settings, which address parts by the names that the file gives without them."""
    if "change" not in doc and not overrides:
        return
    tree = build_tree(doc, own, Reading(), parts_path)
    give_names(tree, Reading())
    apply_changes(doc, tree, reading)
    apply_settings(doc, tree, overrides, reading)


class _Plant:
    def __init__(self, doc: dict[str, Any], reading: Reading) -> None:
        self.doc, self.reading = doc, reading
        self.fields: dict[str, Fields] = {}
        self.sizes: dict[str, str] = {}

    def build(self, tree: Tree) -> LoadedPlant:
        doc, reading = self.doc, self.reading
        units: Family = self.single(UNITS) or "metric"
        reading.family = units
        title, size = self.single(TITLE) or "", self.single(SIZE)
        meant = self.unknown_keys()
        tables = read_tables(doc, meant, reading)
        rows = read_rows(doc, reading)
        give_names(tree, reading)
        if "loop" not in {*doc, *meant} and not reading.base_lost:
            reading.problem(
                "loop", "is missing", "the list of parts", 'loop = [ {part = "suction fitting", ...}, ... ]'
            )
        nodes = [node for node in tree.nodes() if node.record is not None]
        for node in nodes:
            self.read_part(node)
        check_structure(tree, reading)
        if size is None and ("size" in doc or "size" in meant):
            size = ANY_SIZE
        sizes = Sizes(size, self.fields, reading)
        sizes.run(tree)
        self.sizes = sizes.of
        for node in nodes:
            assert node.record is not None
            check_part(node.record, self.fields[node.where], self.sizes.get(node.where), reading)
        lacks = {
            kind
            for kind in (Injector, Filter, Chiller)
            if tree.whole and all(node.record is not kind for node in nodes)
        }
        check_tables(tables, doc, lacks, reading)
        if reading.problems:
            raise InputError(in_order(reading.problems))
        records = {name: TABLES[name](**fields.values) for name, fields in tables.items()}
        several = {name: tuple(ROW_TABLES[name](**row.values) for row in fields) for name, fields in rows.items()}
        plant = Plant(title=title, units=units, loop=self.chain(tree.loop), **records, **several)
        texts = written(doc, nodes, (TITLE.key, UNITS.key, SIZE.key))
        return LoadedPlant(plant, tuple(reading.notices), texts)

    def single(self, spec: Spec) -> Any:
        if spec.key not in self.doc:
            return None
        where = self.reading.origins.get(("", spec.key), spec.key)
        return read_field(self.doc[spec.key], Ask(spec, where, "the file", False, self.reading))

    def unknown_keys(self) -> set[str]:
        """Note the keys that no loop file has; gives back the keys that they most likely mean."""
        meant: set[str] = set()
        for key, value in self.doc.items():
            if key in ALL_KEYS:
                continue
            where = f"[{shown(key)[1:-1]}]" if isinstance(value, dict) else shown(key)[1:-1]
            what = "table" if isinstance(value, dict) else "key"
            accepted = (*TABLES, *ROW_TABLES) if isinstance(value, dict) else TOP_KEYS
            near = nearest(key, ALL_KEYS)
            meant.add(near)
            write = f"[{near}]" if near in TABLES else f"[[{near}]]" if near in ROW_TABLES else near
            self.reading.problem(where, f"there is no such {what} in a loop file", listed(accepted), write)
        return meant

    def read_part(self, node: Node) -> None:
        assert node.record is not None
        self.fields[node.where] = read_fields(
            node.record, node.raw, node.place(self.reading), node.word, self.reading, ("part",)
        )

    def chain(self, chain: RawChain) -> Chain:
        return Chain(name=chain.name, items=tuple(self.part(node) for node in chain.nodes))

    def part(self, node: Node) -> Any:
        assert node.record is not None
        values = dict(self.fields[node.where].values)
        values.update(word=node.word, name=node.name, where=node.where, size=self.sizes[node.where])
        if node.ways:
            values["chains"] = tuple(self.chain(way) for way in node.ways)
        return node.record(**values)
