"""CT of ozone: printed tables, the pair of one paper, rival formulas, limits."""

from collections.abc import Callable

import numpy as np
import pytest

from sanitize.basis.tables import model_table
from sanitize.laws.ozone.disinfection import (
    CRYPTOSPORIDIUM,
    GIARDIA,
    VIRUS,
    Organism,
    ct_by_formula_mg_min_l,
    ct_by_infectivity_mg_min_l,
    ct_by_table_mg_min_l,
    log_of_ct,
    survivors_ratio,
)

Rows = Callable[[str], list[dict[str, str]]]


def test_ct_cryptosporidium_is_what_was_printed(check_rows: Rows) -> None:
    """Half a unit of the last digit; the rule's table (from memory) rounds up at 30 degC, by 0.06."""
    for row in check_rows("ozone_ct"):
        found = float(ct_by_formula_mg_min_l(float(row["log"]), float(row["temperature_c"]), CRYPTOSPORIDIUM))
        digits = len(row["ct_mg_min_l"].partition(".")[2])
        slack = 0.07 if "1.54" in row["note"] else 0.51 * 10.0**-digits
        assert float(row["ct_mg_min_l"]) == pytest.approx(found, abs=slack), row


def test_ct_cryptosporidium_agrees_with_another_regression() -> None:
    """A treatment model of the US EPA prints 25.16 exp(-0.0929 T) for each log; within its rounding, 5 %."""
    t = np.linspace(1.0, 25.0, 13)
    assert 25.16 * np.exp(-0.0929 * t) == pytest.approx(ct_by_formula_mg_min_l(1.0, t, CRYPTOSPORIDIUM), rel=0.05)


@pytest.mark.parametrize(("name", "organism"), [("Giardia", GIARDIA), ("virus", VIRUS)])
def test_ct_formula_lies_within_a_tenth_of_the_printed_table(name: str, organism: Organism) -> None:
    """The table's numbers are rounded to one or two digits, and its steps are those of an older rule."""
    for (word, log, temperature), entry in model_table("ozone_ct").entries.items():
        if word == name:
            found = float(ct_by_formula_mg_min_l(float(log), float(temperature), organism))
            assert entry.value == pytest.approx(found, abs=0.1 * entry.value), temperature


def test_ct_table_gives_no_more_credit_beyond_its_last_column() -> None:
    ct = ct_by_table_mg_min_l(3.0, [-1.0, 1.0, 25.0, 40.0], [1.0, 25.0], [2.9, 0.48], 3.0)
    assert [2.9, 2.9, 0.48, 0.48] == ct.tolist()


def test_ct_half_the_logs_take_half_the_ct() -> None:
    """EPA's 2-log row for viruses at 5 degC is 0.60, half of the 4-log row."""
    assert 0.60 == pytest.approx(float(ct_by_table_mg_min_l(2.0, 5.0, [5.0], [1.2], 4.0)))


def test_ct_infectivity_asks_for_more_in_the_cold_and_less_in_the_warm() -> None:
    """The formula's 2-log CT is 38.1 at 3 degC and 7.83 at 20 degC."""
    formula = ct_by_formula_mg_min_l(2.0, [3.0, 20.0], CRYPTOSPORIDIUM)
    infectivity = ct_by_infectivity_mg_min_l(2.0, [3.0, 20.0])
    assert [True, False] == (infectivity > formula).tolist()


def test_log_of_the_ct_needed_is_the_log_asked_for() -> None:
    ct = ct_by_formula_mg_min_l(3.0, 7.0, GIARDIA)
    assert 3.0 == pytest.approx(float(log_of_ct(ct, 7.0, GIARDIA)))


def test_water_colder_than_half_a_degree_counts_as_that() -> None:
    assert float(log_of_ct(1.0, 0.5, VIRUS)) == float(log_of_ct(1.0, -1.0, VIRUS))


def test_survivors_of_a_perfect_side_stream_follow_the_law_of_dilution() -> None:
    """Gage and Bidwell: 63.2, 86.5 and 95.0 % gone after one, two and three turnovers."""
    gone = 100.0 * (1.0 - survivors_ratio([1.0, 2.0, 3.0], 300.0))
    assert [63.2, 86.5, 95.0] == pytest.approx(gone.tolist(), abs=0.05)


@pytest.mark.parametrize(
    "call",
    [
        lambda: log_of_ct(-1.0, 5.0, VIRUS),
        lambda: ct_by_formula_mg_min_l(-1.0, 5.0, VIRUS),
        lambda: ct_by_table_mg_min_l(-1.0, 5.0, [5.0], [1.0], 4.0),
        lambda: ct_by_infectivity_mg_min_l(-1.0, 5.0),
        lambda: survivors_ratio(-1.0, 1.0),
    ],
)
def test_numbers_that_make_no_sense_are_refused(call: Callable[[], object]) -> None:
    with pytest.raises(ValueError, match="0 or more"):
        call()
