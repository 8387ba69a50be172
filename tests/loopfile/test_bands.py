"""Values with their ranges: the user's own, the table's tolerance, and what stands in for "unknown"."""

from collections.abc import Callable

import pytest

from sanitize.basis.band import Band
from sanitize.basis.errors import InputError
from sanitize.basis.tables import default
from sanitize.loopfile.read import LoadedPlant, read_plant
from sanitize.plant.part import Part

LoopText = Callable[..., str]


def third(loaded: LoadedPlant) -> Part:
    return loaded.plant.loop.items[2]


def ends(band: Band) -> tuple[float, float, float]:
    return band.low, band.nominal, band.high


@pytest.mark.parametrize(
    ("part", "attribute", "expected", "scale"),
    [
        # relative tolerance of a length: 3 % of 2 m
        ('part = "pipe", length = "2 m"', "length_m", (1.94, 2.0, 2.06), "log"),
        # the user's own spread, absolute and in per cent, in any unit of the kind
        ('part = "pipe", length = "2 m +- 5 cm"', "length_m", (1.95, 2.0, 2.05), "log"),
        ('part = "pipe", length = "2 m +- 10 %"', "length_m", (1.8, 2.0, 2.2), "log"),
        ('part = "pipe", length = "2 m (1.5 m to 10 ft)"', "length_m", (1.5, 2.0, 3.048), "log"),
        # absolute tolerance of a tape: 10 mm; heights may lie below the mark
        ('part = "pipe", length = "2 m", height = "-0.10 m"', "height_m", (-0.11, -0.10, -0.09), "linear"),
        # absolute tolerance of a bore: 0.2 mm
        ('part = "pipe", length = "2 m", bore = "20.6 mm"', "bore_m", (0.0204, 0.0206, 0.0208), "linear"),
        # a handle cannot stand below 0 or beyond 90 degrees: the tolerance ends there
        ('part = "ball valve", handle = "1 deg"', "handle_deg", (0.0, 1.0, 4.0), "linear"),
        ('part = "ball valve", handle = "89 deg +- 5 deg"', "handle_deg", (84.0, 89.0, 90.0), "linear"),
        # plain numbers: no tolerance declared, the table's, the user's own
        ('part = "gate valve", open_share = 0.5', "open_ratio", (0.5, 0.5, 0.5), "linear"),
        ('part = "known loss", k = 2', "k_ratio", (1.6, 2.0, 2.4), "linear"),
        ('part = "known loss", k = "2 (1.5 to 4)"', "k_ratio", (1.5, 2.0, 4.0), "linear"),
        # a drop is drawn on the logarithm
        ('part = "known drop", drop = "10 kPa", at_flow = "40 L/min"', "drop_pa", (8e3, 10e3, 12e3), "log"),
        # what stands in for "unknown"; heights over the water, which stands at 0.80 m
        ('part = "pipe", length = "unknown"', "length_m", (0.5, 1.5, 4.0), "log"),
        ('part = "pipe", length = "2 m", height = " Unknown "', "height_m", (0.5, 0.9, 1.4), "linear"),
        ('part = "ball valve", handle = "unknown"', "handle_deg", (0.0, 20.0, 50.0), "linear"),
        ('part = "injector", height = "0.75 m", throat = "unknown"', "throat_m", (0.005, 0.008, 0.011), "log"),
    ],
)  # fmt: skip
def test_field_gives_its_band(
    loop_text: LoopText, part: str, attribute: str, expected: tuple[float, float, float], scale: str
) -> None:
    band = getattr(third(read_plant(loop_text(f"{{{part}}}"))), attribute)
    assert expected == pytest.approx(ends(band))
    assert scale == band.scale


def test_log_scale_falls_back_to_linear_where_the_range_reaches_zero(loop_text: LoopText) -> None:
    """The opening pressure of the gas check valve may be 0."""
    tail = '[gas_line]\ncheck_valve_opens_at = "0 kPa"\n'
    loaded = read_plant(loop_text('{part = "injector", throat = "8 mm", height = "0.75 m"}', tail=tail))
    expected = Band(0.0, 0.0, 0.0, "linear")
    assert loaded.plant.gas_line is not None
    assert expected == loaded.plant.gas_line.opens_at_pa


def test_gas_check_valve_left_out_takes_the_table_and_is_said(loop_text: LoopText) -> None:
    tail = '[gas_line]\nhighest_point = "1.5 m"\n'
    loaded = read_plant(loop_text('{part = "injector", throat = "8 mm", height = "0.75 m"}', tail=tail))
    expected = default("gas_check_opening_pressure_pa_diff").band
    assert loaded.plant.gas_line is not None
    assert expected == loaded.plant.gas_line.opens_at_pa
    assert [notice.code for notice in loaded.notices] == ["assumed-check-valve"]


def test_gas_line_without_check_valve_opens_at_once(loop_text: LoopText) -> None:
    tail = "[gas_line]\ncheck_valve = false\n"
    loaded = read_plant(loop_text('{part = "injector", throat = "8 mm", height = "0.75 m"}', tail=tail))
    expected = Band.exact(0.0)
    assert loaded.plant.gas_line is not None
    assert expected == loaded.plant.gas_line.opens_at_pa
    assert not loaded.notices


def test_unknown_is_noticed_once_with_part_range_and_measure(loop_text: LoopText) -> None:
    loaded = read_plant(loop_text('{part = "pipe", length = "unknown"}'))
    expected = (
        "loop[3] pipe, length is unknown; 1.5 m (0.50 to 4.0) stands in. "
        "Measure it with a tape measure along its middle."
    )
    assert [("unknown-value", expected)] == [(notice.code, notice.text) for notice in loaded.notices]


@pytest.mark.parametrize(
    ("shape", "expected"),
    [
        # pi/4 * 0.8^2 * 0.7 and 1.4 * 0.6 * 0.5
        ('shape = "cylinder"\ninside_diameter = "0.8 m"\nwater_depth = "70 cm"', 0.351858),
        ('shape = "box"\ninside_length = "1.4 m"\ninside_width = "60 cm"\nwater_depth = "0.5 m"', 0.42),
    ],
)
def test_volume_comes_from_the_shape(loop_text: LoopText, shape: str, expected: float) -> None:
    text = loop_text().replace('volume = "430 L"', shape)
    assert expected == pytest.approx(read_plant(text).plant.tub.volume_m3, rel=1e-5)


def test_stated_volume_within_a_tenth_of_the_shape_is_kept(loop_text: LoopText) -> None:
    """pi/4 * 0.85^2 * 0.72 = 0.4086 m3, 5 % from 430 L."""
    tail = 'shape = "cylinder"\ninside_diameter = "0.85 m"\nwater_depth = "0.72 m"\n'
    expected = 0.43
    assert expected == pytest.approx(read_plant(loop_text(tail=tail)).plant.tub.volume_m3)


def test_negative_percent_is_refused(loop_text: LoopText) -> None:
    with pytest.raises(InputError, match="has a spread that is negative or too large"):
        read_plant(loop_text('{part = "pipe", length = "2 m +- -5 %"}'))
