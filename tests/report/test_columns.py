"""Aligned tables of plain text."""

from sanitize.report.columns import table


def test_table_long_names_that_differ_at_their_end_stay_apart() -> None:
    rows = [("chiller bypass leaves", "8.3"), ("chiller bypass rejoins", "8.3")]
    _, first, second = table(("part", "flow"), rows, 24).splitlines()
    assert "chiller ..s leaves   8.3" == first
    assert "chiller .. rejoins   8.3" == second
