"""The model tables hold to their own rules, and their numbers to the prints they come from."""

import re
from collections.abc import Callable, Iterator
from pathlib import Path

import pint
import pytest

from sanitize.basis.tables import Entry, model_table, model_table_names, sources

TABLES = Path(__file__).resolve().parents[2] / "reference_tables"
Rows = Callable[[str], list[dict[str, str]]]
SIZES = ("1/2", "3/4", "1", "1-1/4", "1-1/2", "2")
UNIT_OF_ENDING = {
    "_m": "m",
    "_ms": "m/s",
    "_m3s": "m**3/s",
    "_pa_diff": "Pa",
    "_pa_abs": "Pa",
    "_deg": "degree",
    "_c": "degC",
    "_k": "K",
    "_s": "s",
    "_m_per_kg": "m/kg",
    "_ratio": "dimensionless",
    "_exponent": "dimensionless",
}
HEAT_UNITS = ("m**2*K/W", "W/m**2/K", "W/m**2/Pa", "W/m/K", "W/K", "J", "1/K", "J/kg/K", "K", "m**3/W")
OZONE_WATER_UNITS = ("1/min", "J/mol", "L/mg/min", "L/mol/s", "g", "mg*min/L")


def _entries() -> Iterator[tuple[str, Entry]]:
    for name in model_table_names():
        for key, entry in model_table(name).entries.items():
            yield f"{name} {key}", entry


def test_tables_on_disk_are_all_read() -> None:
    assert sorted(path.stem for path in (TABLES / "model").glob("*.csv")) == list(model_table_names())


def test_entry_every_unit_is_known_to_the_unit_library() -> None:
    registry: pint.UnitRegistry[float] = pint.UnitRegistry()
    for unit in {entry.unit for _, entry in _entries()}:
        assert isinstance(registry.parse_units(unit), pint.Unit), unit


def test_entry_every_unit_is_si_or_a_stated_exception() -> None:
    """Air and ozone are counted in ppm, mg/m3 and per hour, water in mg/L, as their sources do."""
    exceptions = {"ppm", "mg/m**3", "1/hour", "mg/L", "mL", "kg/m**3", "m/min", *HEAT_UNITS, *OZONE_WATER_UNITS}
    assert {entry.unit for _, entry in _entries()} <= {*UNIT_OF_ENDING.values(), "m**3", *exceptions}


def test_entry_with_a_source_cites_one_that_exists() -> None:
    assert [place for place, entry in _entries() if entry.source and entry.source not in sources()] == []


def test_entry_published_has_a_source_that_was_read() -> None:
    for place, entry in _entries():
        if entry.standing == "published":
            assert entry.source, place
            assert sources()[entry.source].how_read != "from memory", place


def test_entry_from_memory_claims_no_source_that_was_read() -> None:
    for place, entry in _entries():
        if entry.standing == "from memory" and entry.source:
            assert sources()[entry.source].how_read == "from memory", place


def test_entry_without_source_says_what_it_is() -> None:
    assert [place for place, entry in _entries() if not entry.source and not entry.note] == []


def test_entry_of_a_drawn_loss_is_logarithmic() -> None:
    for key, entry in model_table("fitting_losses").entries.items():
        assert entry.scale == "log", key


@pytest.mark.parametrize("name", [key[0] for key in model_table("defaults").entries])
def test_default_name_ends_in_its_unit(name: str) -> None:
    ending = max((end for end in UNIT_OF_ENDING if name.endswith(end)), key=len)
    assert UNIT_OF_ENDING[ending] == model_table("defaults")[(name,)].unit


def test_fittings_every_part_has_every_size() -> None:
    table = model_table("fitting_losses")
    assert table.words("size") == SIZES
    assert len(table.entries) == len(SIZES) * len(table.words("part"))


def test_valves_every_partly_open_valve_is_a_fitting_and_has_a_shut_position() -> None:
    valves = model_table("valve_positions").words("valve")
    assert model_table("valve_shut").words("valve") == valves
    assert set(valves) <= set(model_table("fitting_losses").words("part"))


def test_valves_loss_rises_towards_shut_and_ends_before_it() -> None:
    table = model_table("valve_positions")
    for valve in table.words("valve"):
        shut = model_table("valve_shut")[(valve,)].value
        rows = [(abs(float(key[1]) - shut), entry) for key, entry in table.entries.items() if key[0] == valve]
        distances = [distance for distance, _ in rows]
        assert min(distances) > 0.0
        assert distances == sorted(distances, reverse=True)
        for ends in ("low", "value", "high"):
            losses = [getattr(entry, ends) for _, entry in rows]
            assert losses == sorted(set(losses)), (valve, ends)


def test_reducers_three_sets_are_in_order_for_every_ratio() -> None:
    table = model_table("reducer_factors")
    for change, power in (("contraction", 1), ("expansion", 2)):
        for tenths in range(10):
            term = (1.0 - (tenths / 10.0) ** 2) ** power
            low, nominal, high = (
                table[change, end, "constant"].value + table[change, end, "factor"].value * term
                for end in ("low", "nominal", "high")
            )
            assert low <= nominal <= high, (change, tenths)


# The prints behind the numbers.


def test_pipe_bores_follow_from_the_walls_of_astm_d1785(check_rows: Rows) -> None:
    """Average bore as printed; thinnest wall t; thickest wall t + max(0.12 t, 0.020 in).

    Trade tables round inches and millimetres apart, hence 0.03 mm for the average and half a digit else.
    """
    rows = check_rows("pvc_pipe_walls")
    assert len(rows) == len(model_table("pipe_bores").entries)
    for row in rows:
        entry = model_table("pipe_bores")[row["schedule"], row["size"]]
        outside, wall = float(row["outside_in"]), float(row["wall_min_in"])
        assert float(row["bore_average_in"]) * 0.0254 == pytest.approx(entry.value, abs=6e-6)
        assert (outside - 2.0 * wall) * 0.0254 == pytest.approx(entry.high, abs=6e-6)
        assert (outside - 2.0 * (wall + max(0.12 * wall, 0.020))) * 0.0254 == pytest.approx(entry.low, abs=6e-6)
        assert outside * 0.0254 == pytest.approx(model_table("pipe_outside")[(row["size"],)].value, abs=1e-9)


def test_pipe_wall_of_1_inch_schedule_40_is_the_printed_range() -> None:
    """Trade table after ASTM D1785: wall 3.38 to 3.89 mm."""
    outside = model_table("pipe_outside")[("1",)].value
    bore = model_table("pipe_bores")["40", "1"]
    thinnest_m, thickest_m = (outside - bore.high) / 2.0, (outside - bore.low) / 2.0
    assert thinnest_m == pytest.approx(3.38e-3, abs=6e-6)
    assert thickest_m == pytest.approx(3.89e-3, abs=6e-6)


@pytest.mark.parametrize(
    ("part", "end"),
    [
        ("elbow 90", "high"),
        ("sweep elbow 90", "high"),
        ("tee turn", "high"),
        ("tee straight", "high"),
        ("gate valve", "value"),
        ("ball valve", "value"),
        ("swing check", "high"),
    ],
)
def test_fittings_screwed_end_is_the_print_of_rishel(check_rows: Rows, part: str, end: str) -> None:
    """Rishel, HVAC Pump Handbook, tables 3.8 to 3.12."""
    rows = [row for row in check_rows("screwed_fittings") if row["part"] == part]
    assert len(rows) >= 5
    for row in rows:
        assert float(row["loss"]) == getattr(model_table("fitting_losses")[part, row["size"]], end)


@pytest.mark.parametrize("part", ["elbow 90", "elbow 45", "tee straight", "tee turn", "globe valve", "thread"])
def test_fittings_other_prints_lie_inside_the_band(check_rows: Rows, part: str) -> None:
    """Screwed fittings of Rishel, and thermoplastic equivalent lengths as K = f L/D at 1.5 m/s and 20 degC."""
    from fluids.friction import Colebrook

    table = model_table("fitting_losses")
    prints = [(row["size"], float(row["loss"])) for row in check_rows("screwed_fittings") if row["part"] == part]
    for row in check_rows("thermoplastic_lengths"):
        if row["part"] == part:
            bore = model_table("pipe_bores")["40", row["size"]].value
            length = float(row["equivalent_length_ft"]) * 0.3048
            prints.append((row["size"], Colebrook(1.5 * bore / 1.0034e-6, 1.5e-6 / bore) * length / bore))
    assert prints
    for size, loss in prints:
        entry = table[part, size]
        assert entry.low - 0.01 <= loss <= entry.high + 0.005, (size, loss)


def _reynolds_at_40_lpm(bore_m: float) -> float:
    return 4.0 * (40.0 / 60000.0) / (3.14159265 * bore_m * 1.3063e-6)


@pytest.mark.parametrize(
    ("part", "name"),
    [
        ("elbow 90", "Elbow, 90°, threaded, standard, (r/D = 1)"),
        ("sweep elbow 90", "Elbow, 90°, threaded, long radius, (r/D = 1.5)"),
        ("elbow 45", "Elbow, 45°, threaded standard, (r/D = 1)"),
        ("tee straight", "Tee, Run-through, threaded, (r/D = 1)"),
        ("tee turn", "Tee, Through-branch, (as elbow), threaded, (r/D = 1)"),
        ("swing check", "Valve, Swing check"),
    ],
)
def test_fittings_nominal_is_the_three_constant_method(part: str, name: str) -> None:
    """Darby 2001 through the fluids library, at 40 L/min and 10 degC; the table keeps two digits."""
    from fluids.fittings import Darby3K

    for size, inches in zip(SIZES, (0.5, 0.75, 1.0, 1.25, 1.5, 2.0), strict=True):
        reynolds = _reynolds_at_40_lpm(model_table("pipe_bores")["40", size].value)
        printed = Darby3K(NPS=inches, Re=reynolds, name=name)
        assert printed == pytest.approx(model_table("fitting_losses")[part, size].value, rel=0.03, abs=0.01)


@pytest.mark.parametrize(
    ("part", "end", "lengths"),
    [
        ("sweep elbow 90", "low", 14),
        ("mitre elbow 90", "low", 60),
        ("street elbow 90", "low", 30),
        ("street elbow 90", "value", 50),
        ("street elbow 45", "low", 16),
        ("street elbow 45", "value", 26),
        ("tee turn", "low", 60),
        ("ball valve", "low", 3),
        ("gate valve", "low", 8),
        ("globe valve", "value", 340),
        ("swing check", "low", 50),
    ],
)
def test_fittings_crane_end_is_so_many_friction_factors(part: str, end: str, lengths: int) -> None:
    """Crane TP-410 through the fluids library, fT at the bore of the thinnest wall; the table keeps two digits."""
    from fluids.fittings import ft_Crane  # type: ignore[attr-defined]

    for size in SIZES:
        factor = ft_Crane(model_table("pipe_bores")["40", size].high)
        kept = getattr(model_table("fitting_losses")[part, size], end)
        assert lengths * factor == pytest.approx(kept, rel=0.03, abs=0.006), size


@pytest.mark.parametrize(
    ("part", "laminar", "constant", "digit"), [("mitre elbow 90", 1000, 1.15, 0.1), ("ball valve", 500, 0.15, 0.01)]
)
def test_fittings_hooper_end_is_the_two_constant_method(
    part: str, laminar: float, constant: float, digit: float
) -> None:
    """Hooper 1981: K = K1/Re + K_inf (1 + 1/D), D in inches; half a digit as the table keeps it, and 1 %."""
    for size in SIZES:
        bore = model_table("pipe_bores")["40", size].value
        printed = laminar / _reynolds_at_40_lpm(bore) + constant * (1.0 + 0.0254 / bore)
        kept = model_table("fitting_losses")[part, size].high
        assert printed == pytest.approx(kept, abs=0.5 * digit, rel=0.01), size


@pytest.mark.parametrize(
    ("print_name", "valve"), [("cock", "ball valve"), ("butterfly", "butterfly valve"), ("slide", "gate valve")]
)
def test_valves_partly_open_are_the_prints_of_weisbach(check_rows: Rows, print_name: str, valve: str) -> None:
    rows = [row for row in check_rows("valve_losses") if row["valve"] == print_name]
    table = model_table("valve_positions")
    published = [key for key, entry in table.entries.items() if key[0] == valve and entry.standing == "published"]
    assert [row["position"] for row in rows] == [key[1] for key in published]
    for row in rows:
        entry = table[valve, row["position"]]
        assert float(row["loss"]) == entry.value
        assert row["source"] == entry.source


def test_valves_gate_high_is_the_print_of_carvill(check_rows: Rows) -> None:
    for row in check_rows("valve_losses"):
        if row["valve"] == "wedge gate" and row["position"] != "1":
            assert float(row["loss"]) == model_table("valve_positions")["gate valve", row["position"]].high


def test_valves_globe_is_the_plug_disc_over_its_open_loss(check_rows: Rows) -> None:
    """9, 13, 36 and 112 as printed; the table rounds the ratios 1.44, 4 and 12.4 to 1.5, 4 and 12."""
    printed = {
        row["position"]: float(row["loss"]) for row in check_rows("valve_losses") if row["valve"] == "plug disc globe"
    }
    for position in ("0.75", "0.5", "0.25"):
        entry = model_table("valve_positions")["globe valve", position]
        assert printed[position] / printed["1"] == pytest.approx(entry.value, rel=0.04)


@pytest.mark.parametrize(
    ("name", "printed_fts"),
    [
        ("suction_velocity_limit_ms", 6.0),
        ("return_velocity_practice_ms", 8.0),
        ("return_velocity_limit_ms", 10.0),
        ("grate_velocity_limit_ms", 1.5),
    ],
)
def test_defaults_velocity_limit_is_the_print_in_feet_per_second(name: str, printed_fts: float) -> None:
    assert printed_fts * 0.3048 == pytest.approx(model_table("defaults")[(name,)].value, abs=1e-9)


@pytest.mark.parametrize(
    ("name", "printed_gpm_ft2"),
    [
        ("filter_face_velocity_public_ms", 0.30),
        ("filter_face_velocity_listed_ms", 0.375),
        ("filter_face_velocity_residential_ms", 1.0),
    ],
)
def test_defaults_face_velocity_is_the_print_in_gallons_per_square_foot(name: str, printed_gpm_ft2: float) -> None:
    flow_per_area = printed_gpm_ft2 * 231.0 * 0.0254**3 / 60.0 / 0.3048**2
    assert flow_per_area == pytest.approx(model_table("defaults")[(name,)].value, rel=1e-4)


def test_notes_name_no_key_that_looks_like_a_source_but_is_none() -> None:
    """Keys in notes are words with an underscore; the names of defaults may stand there too."""
    known = set(sources()) | {key[0] for key in model_table("defaults").entries}
    for place, entry in _entries():
        assert set(re.findall(r"\b[a-z]+(?:_[a-z0-9]+)+\b", entry.note)) <= known, place
