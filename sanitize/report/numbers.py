"""Which numbers of the tables stand behind an answer, and where they come from."""

from collections.abc import Iterator

from sanitize.basis.tables import Entry, model_table
from sanitize.report.columns import paragraph
from sanitize.report.sources import citation
from sanitize.studies.suction.result import Suction

_OF_WORD = {
    "pump": ("rated_pump_head_ratio", "pump_high_curve_ratio"),
    "pipe": ("smooth_plastic_roughness_m",),
    "flexible hose": ("smooth_plastic_roughness_m",),
    "vinyl tube": ("smooth_plastic_roughness_m",),
    "filter": ("filter_medium_share_ratio", "filter_loaded_ratio"),
    "chiller": ("exchanger_drop_exponent",),
    "tee": ("tee_shift_loss_ratio",),
    "injector": (
        "injector_discharge_ratio",
        "injector_throat_area_ratio",
        "injector_mixing_loss_ratio",
        "injector_diffuser_loss_ratio",
        "injector_loss_ratio",
        "injector_gas_loss_ratio",
        "gas_check_opening_pressure_pa_diff",
    ),
}


def number_line(name: str, entry: Entry) -> str:
    """One number with its range, unit, standing and source.

    >>> number_line("cold", Entry(15.0, 10.0, 15.0, "degC", "linear", "", "common practice", ""))
    'cold: 15 degC (10 to 15), common practice'
    """
    value, low, high = (f"{number:g}" for number in (entry.value, entry.low, entry.high))
    spread = "" if low == high == value else f" ({low} to {high})"
    unit = "" if entry.unit == "dimensionless" else f" {entry.unit}"
    source = f" [{entry.source}]" if entry.source else ""
    return f"{name}: {value}{unit}{spread}, {entry.standing}{source}"


def _entries(result: Suction) -> Iterator[tuple[str, Entry]]:
    words = list(dict.fromkeys(part.part for part in result.parts))
    for name in dict.fromkeys(name for word in words for name in _OF_WORD.get(word, ())):
        yield name, model_table("defaults")[(name,)]
    fittings = model_table("fitting_losses")
    for part in {part.part: part for part in result.parts}.values():
        if part.part in fittings.words("part"):
            size = _nearest_size(part.bore_m, fittings.words("size"))
            yield f"{part.part} {size} in", fittings[(part.part, size)]


def _nearest_size(bore_m: float, sizes: tuple[str, ...]) -> str:
    bores = model_table("pipe_bores")
    return min(sizes, key=lambda size: abs(bores[("40", size)].value - bore_m))


def numbers_lines(result: Suction, width: int) -> str:
    """The numbers of the tables for the parts of this loop, and the citations of those and of the cautions."""
    found = list(_entries(result))
    lines = [
        paragraph(
            "What the file states comes first; where it says nothing, these stand in for the parts of this loop "
            "(value, low to high; all of them: the tables command).",
            width,
        )
    ]
    lines += [paragraph(number_line(name, entry), width, "- ", "  ") for name, entry in found]
    keys = {entry.source for _, entry in found} | {caution.source for caution in result.cautions}
    lines += [citation(key, width) for key in sorted(keys - {""})]
    return "\n".join(lines)
