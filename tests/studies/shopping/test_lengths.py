"""Socket depths and threads against their prints, nipples by hand."""

import pytest

from sanitize.basis.figure import Figure
from sanitize.basis.tables import model_table
from sanitize.studies.shopping.lengths import nipple_m, socket_depth_m, tape_m, with_saw_cuts, with_trimming

INCH_M = 0.0254
SIZES = ("1/2", "3/4", "1", "1-1/4", "1-1/2", "2")


@pytest.mark.parametrize(
    ("schedule", "depths_in"),
    [
        ("40", (0.688, 0.719, 0.875, 0.938, 1.094, 1.156)),
        ("80", (0.875, 1.000, 1.125, 1.250, 1.375, 1.500)),
    ],
    ids=["ASTM D2466 table 1", "ASTM D2467 table 1"],
)
def test_socket_depth_is_the_standards(schedule: str, depths_in: tuple[float, ...]) -> None:
    for size, depth_in in zip(SIZES, depths_in, strict=True):
        assert depth_in * INCH_M == pytest.approx(socket_depth_m(schedule, size), abs=0.0005 * INCH_M)


@pytest.mark.parametrize(
    ("size", "hand_tight_in", "per_inch", "millimetres"),
    [
        ("1/2", 0.320, 14.0, 10.9),
        ("3/4", 0.339, 14.0, 11.3),
        ("1", 0.400, 11.5, 13.5),
        ("1-1/4", 0.420, 11.5, 14.0),
        ("1-1/2", 0.420, 11.5, 14.0),
        ("2", 0.436, 11.5, 14.4),
    ],
)
def test_thread_takes_up_hand_tight_length_and_a_turn_and_a_half(
    size: str, hand_tight_in: float, per_inch: float, millimetres: float
) -> None:
    """ASME B1.20.1, L1 and threads per inch; its ends are a turn off at one and at two turns."""
    entry = model_table("thread_lengths")["taken up", size]
    assert (hand_tight_in + 1.5 / per_inch) * INCH_M == pytest.approx(entry.value, abs=1e-6)
    assert hand_tight_in * INCH_M == pytest.approx(entry.low, abs=1e-6)
    assert (hand_tight_in + 3.0 / per_inch) * INCH_M == pytest.approx(entry.high, abs=1e-6)
    assert millimetres == pytest.approx(1000.0 * entry.value, abs=0.06)


@pytest.mark.parametrize(
    ("schedule", "size", "expected_mm"),
    [("40", "3/4", 35.025), ("40", "1", 42.95), ("80", "3/4", 49.3), ("40", "1-1/2", 54.075)],
)
def test_nipple_is_two_depths_less_a_little(schedule: str, size: str, expected_mm: float) -> None:
    """By hand: 2 x 0.719 in = 36.525 mm, 2 x 0.875 in = 44.45 mm, 2 x 1.000 in = 50.8 mm, 2 x 1.094 in = 55.575 mm,
    each 1.5 mm (0 to 3) short."""
    nipple = nipple_m(schedule, size)
    expected = [expected_mm - 1.5, expected_mm, expected_mm + 1.5]
    assert expected == pytest.approx([1000.0 * end_m for end_m in nipple.ends], abs=0.001)


def test_close_nipple_is_longer_than_what_two_threads_take_up() -> None:
    for size in SIZES:
        taken_up = model_table("thread_lengths")["taken up", size]
        assert 2.0 * taken_up.value < model_table("thread_lengths")["close nipple", size].value


def test_tape_goes_three_times_round() -> None:
    """3/4 in: 26.67 mm outside, 83.79 mm round; three turns 251 mm, for two joints 503 mm."""
    assert 0.503 == pytest.approx(tape_m("3/4", 2).ends[1], abs=0.0005)
    assert [2.0 / 3.0, 4.0 / 3.0] == pytest.approx([tape_m("1", 1).ends[n] / tape_m("1", 1).ends[1] for n in (0, 2)])


def test_length_to_buy_has_the_range_of_its_allowance_too() -> None:
    """2 m cut into four: 8, 12 and 16 mm of saw; 2 m of hose: 5, 10 and 20 % more."""
    net = Figure(1.9, 2.0, 2.1)
    assert (1.908, 2.012, 2.116) == pytest.approx(with_saw_cuts(net, 4).ends)
    assert (1.995, 2.2, 2.52) == pytest.approx(with_trimming(net).ends)
