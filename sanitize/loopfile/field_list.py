"""The list of all fields of a loop file as Markdown, generated from their declarations."""

from collections.abc import Iterable, Iterator

from pydantic_core import PydanticUndefined

from sanitize.basis.band import Band
from sanitize.basis.tables import default
from sanitize.basis.units import KINDS, accepted_units, show, show_range
from sanitize.loopfile.ask import limits_text
from sanitize.loopfile.fields import holds_band
from sanitize.loopfile.quantities import stand_in
from sanitize.loopfile.top_level import TOP
from sanitize.plant.loop import PART_TYPES, ROW_TABLES, TABLES
from sanitize.plant.part import Part
from sanitize.plant.spec import Record, Spec, default_of, specs

_HEADER = ("key", "takes", "limits", "left out", "range", "meaning", "example")

_RANGES = (
    'A value may state its own range: `"2.2 m +- 5 cm"`, `"2.2 m +- 3 %"`, `"2.2 m (2.0 m to 2.5 m)"`.',
    "Without one it carries the range of the column above, where there is one.",
    "A tolerance that would carry a value beyond a limit which the thing itself has, such as a handle below 0 deg, "
    "ends at that limit; ends that are written out must keep the limits.",
)


def field_list() -> str:
    """Markdown: one table for the keys above the first header, one for each table, one for each kind of part."""
    parts = ["## Above the first table", "", *_rows((spec, _must(spec), "") for spec in TOP)]
    for name, record in TABLES.items():
        parts += ["", f"## [{name}]", "", (record.__doc__ or "").strip(), "", *_rows(_fields(record))]
    for name, record in ROW_TABLES.items():
        about = f"{(record.__doc__ or '').strip()} There may be several, each under a header of its own."
        parts += ["", f"## [[{name}]]", "", about, "", *_rows(_fields(record))]
    heights = ", ".join(f"`{word}`" for part in PART_TYPES if part.needs_height for word in part.words)
    parts += ["", "## Every part", "", f"The height must be given for {heights}.", "", *_rows(_fields(Part))]
    parts += ["", "## Parts"]
    for part in PART_TYPES:
        words = ", ".join(f"`{word}`" for word in part.words)
        parts += ["", f"### {words}", "", part.help]
        rows = list(_fields(part))
        parts += ["", *_rows(rows)] if rows else []
    parts += ["", "## Ranges", "", *_RANGES, "", "## Units", ""]
    parts += [f"- {kind}: {accepted_units(kind)}" for kind in KINDS]
    return "\n".join(parts) + "\n"


def _fields(record: type[Record]) -> Iterator[tuple[Spec, str, str]]:
    common = specs(Part) if issubclass(record, Part) and record is not Part else {}
    for attribute, spec in specs(record).items():
        if attribute in common:
            continue
        left_out = _must(spec) or _default(record, attribute, spec)
        yield spec, left_out, _range(spec) if holds_band(record, attribute) else ""


def _must(spec: Spec) -> str:
    return "must be given" if spec.required else ""


def _default(record: type[Record], attribute: str, spec: Spec) -> str:
    value = default_of(record, attribute)
    if value is PydanticUndefined or value is None or value == ():
        return ""
    if isinstance(value, bool):
        return "true" if value else "false"
    if isinstance(value, Band):
        return _band(value, spec)
    if isinstance(value, str):
        return f'"{value}"'
    return show(value, spec.kind, "metric") if spec.kind in KINDS else f"{value:g}"


def _band(band: Band, spec: Spec) -> str:
    if spec.kind in KINDS:
        return show_range(band.low, band.nominal, band.high, spec.kind, "metric")
    return f"{band.nominal:g} ({band.low:g} to {band.high:g})"


def _range(spec: Spec) -> str:
    """The range that a stated value carries, and the one that stands in for "unknown"."""
    said = []
    if spec.tolerance:
        half = default(spec.tolerance).value
        said.append(
            f"+- {100.0 * half:g} %" if spec.tolerance.endswith("_ratio") else f"+- {show(half, spec.kind, 'metric')}"
        )
    if spec.unknown:
        where = " over the water" if spec.from_water else ""
        said.append(f'"unknown": {_band(stand_in(spec, 0.0), spec)}{where}')
    return "; ".join(said)


def _takes(spec: Spec) -> str:
    if spec.kind == "words":
        return "list of " + ", ".join(f'"{word}"' for word in spec.words)
    if spec.words:
        return " or ".join(f'"{word}"' for word in spec.words)
    return spec.kind


def _rows(rows: Iterable[tuple[Spec, str, str]]) -> Iterator[str]:
    yield _row(_HEADER)
    yield _row("---" for _ in _HEADER)
    for spec, left_out, carried in rows:
        limits = limits_text(spec, "metric")
        yield _row((f"`{spec.key}`", _takes(spec), limits, left_out, carried, spec.help, f"`{spec.example}`"))


def _row(cells: Iterable[str]) -> str:
    return f"| {' | '.join(cell.replace('|', '/') for cell in cells)} |"
