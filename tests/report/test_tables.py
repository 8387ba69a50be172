"""Numbers and cautions behind the answers, as text."""

import pytest

from sanitize.basis.tables import TableError, model_table, model_table_names, sources
from sanitize.report.cautions import cautions_text
from sanitize.report.tables import tables_text
from sanitize.studies.cautions.rules import RULES


def test_tables_without_a_name_lists_all() -> None:
    lines = tables_text().splitlines()
    assert [line.split()[0] for line in lines[1:]] == list(model_table_names())


@pytest.mark.parametrize("name", model_table_names())
def test_table_shows_every_number_and_cites_its_sources(name: str) -> None:
    text = tables_text(name)
    unwrapped = " ".join(text.split())
    for key, entry in model_table(name).entries.items():
        assert f"{' '.join(key)}: {entry.value:g}" in unwrapped
        assert not entry.source or f"[{entry.source}] " in text
    assert "\n\n\n" not in text


def test_table_says_how_its_sources_were_read() -> None:
    assert "(read: through another)" in tables_text("pipe_bores")


def test_table_unknown_names_those_there_are() -> None:
    with pytest.raises(TableError, match="pipe_bores"):
        tables_text("pipe_boars")


def test_cautions_text_has_every_rule_once_with_its_source() -> None:
    text = cautions_text()
    for rule in RULES:
        assert text.count(f"\n{rule.code} (") == 1
        assert not rule.source or f"[{rule.source}] " in text
    assert set(sources()) >= {rule.source for rule in RULES} - {""}


def test_cautions_text_keeps_to_the_width() -> None:
    assert max(len(line) for line in cautions_text(width=80).splitlines()) <= 80


def test_cautions_text_follows_the_family() -> None:
    assert "6.0 ft/s" in cautions_text(family="us")
    assert "1.8 m/s" in cautions_text(family="metric")
