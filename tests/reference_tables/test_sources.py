"""Citations: every key that is used exists, every citation is used, and the README names every file."""

import ast
import csv
import re
from collections.abc import Iterator
from pathlib import Path

from sanitize.basis.tables import model_table, model_table_names, sources

ROOT = Path(__file__).resolve().parents[2]
TABLES = ROOT / "reference_tables"
KEY = re.compile(r"(?<![`\w])[a-z]+(?:_[a-z0-9]+)+(?![`\w])")


def _docstrings() -> Iterator[tuple[str, str]]:
    for path in sorted((ROOT / "sanitize" / "laws").rglob("*.py")):
        tree = ast.parse(path.read_text(encoding="utf-8"))
        for node in ast.walk(tree):
            if isinstance(node, ast.Module | ast.ClassDef | ast.FunctionDef):
                yield f"{path.stem}.{getattr(node, 'name', '')}", ast.get_docstring(node) or ""


def _references(docstring: str) -> str:
    """The lines below the heading References, up to the next heading."""
    _, _, rest = docstring.partition("References\n----------\n")
    return re.split(r"\n\w[^\n]*\n-{4,}\n", rest)[0]


def _check_sources() -> set[str]:
    found = set()
    for path in sorted((TABLES / "checks").glob("*.csv")):
        for row in csv.DictReader(path.read_text(encoding="utf-8").splitlines()[1:], strict=True):
            assert row["source"] in sources(), (path.name, row)
            found |= {row["source"], *KEY.findall(row["note"])}
    return found


def test_laws_every_key_under_references_exists() -> None:
    for place, docstring in _docstrings():
        assert set(KEY.findall(_references(docstring))) <= set(sources()), place


def test_checks_every_row_has_all_fields_and_a_source_that_exists() -> None:
    for path in sorted((TABLES / "checks").glob("*.csv")):
        lines = path.read_text(encoding="utf-8").splitlines()
        assert re.fullmatch(r"# version \d+", lines[0])
        rows = list(csv.reader(lines[1:], strict=True))
        assert rows[0][-2:] == ["source", "note"], path.name
        assert {len(row) for row in rows} == {len(rows[0])}, path.name
    assert _check_sources()


def test_sources_none_is_an_orphan() -> None:
    """A citation serves a model table (as its source or in a note), a check, a law or a caution."""
    used = _check_sources()
    for name in model_table_names():
        for entry in model_table(name).entries.values():
            used |= {entry.source, *re.findall(r"\w+", entry.note)}
    for path in (ROOT / "sanitize").rglob("*.py"):
        used |= set(re.findall(r"\w+", path.read_text(encoding="utf-8")))
    assert sorted(set(sources()) - used) == []


def test_sources_stand_in_the_order_of_their_keys() -> None:
    assert list(sources()) == sorted(sources())


def test_sources_every_one_has_a_title_and_a_place_to_look() -> None:
    assert [source.key for source in sources().values() if not (source.kind and source.title and source.locator)] == []


def test_readme_has_a_paragraph_for_every_file_and_no_other() -> None:
    text = (TABLES / "README.md").read_text(encoding="utf-8")
    described = re.findall(r"^`([\w/]+\.csv)`: ", text, flags=re.MULTILINE)
    assert sorted(str(path.relative_to(TABLES).as_posix()) for path in TABLES.rglob("*.csv")) == sorted(described)
    assert len(described) == len(set(described))
