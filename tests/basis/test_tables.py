"""The reader: what it finds, where it looks, and how it names what is wrong."""

import shutil
import subprocess
import sys
from pathlib import Path

import pytest

from sanitize.basis.band import Band
from sanitize.basis.tables import (
    Entry,
    TableError,
    default,
    model_table,
    model_table_names,
    parse_model_table,
    parse_sources,
    sources,
    tables_folder,
)

CHECKOUT = Path(__file__).resolve().parents[2]
HEADER = "part,size,value,unit,low,high,scale,source,standing,note\n"
GOOD_ROW = 'elbow,1/2,2,dimensionless,1,8,log,darby,published,"quoted, with a comma"\n'
SOURCES_HEADER = "key,kind,authors,year,title,locator,how_read\n"


def test_table_well_formed_gives_its_entries_by_key() -> None:
    table = parse_model_table("fittings", "# version 3\n" + HEADER + GOOD_ROW)
    assert (table.name, table.version, table.key_columns) == ("fittings", 3, ("part", "size"))
    assert table["elbow", "1/2"] == Entry(
        2.0, 1.0, 8.0, "dimensionless", "log", "darby", "published", "quoted, with a comma"
    )
    assert Band(1.0, 2.0, 8.0, "log") == table["elbow", "1/2"].band
    assert table.words("size") == ("1/2",)


def test_table_entries_cannot_be_changed() -> None:
    with pytest.raises(TypeError):
        model_table("pipe_bores").entries["40", "1"] = default("tape_tolerance_m")  # type: ignore[index]


def test_table_is_read_once() -> None:
    assert model_table("pipe_bores") is model_table("pipe_bores")


def test_row_unknown_names_what_the_table_knows() -> None:
    with pytest.raises(TableError) as caught:
        model_table("pipe_bores")["40", "7/8"]
    assert str(caught.value) == (
        "table pipe_bores has no row ('40', '7/8'); it knows schedule: 40, 80; size: 1/2, 3/4, 1, 1-1/4, 1-1/2, 2"
    )


def test_table_unknown_names_the_tables() -> None:
    with pytest.raises(TableError, match=r"there is no table pipe_bore; there are .*pipe_bores"):
        model_table("pipe_bore")


@pytest.mark.parametrize(
    ("text", "message"),
    [
        ("", "table t: the first line must be '# version ' and a whole number"),
        (HEADER + GOOD_ROW, "table t: the first line must be '# version ' and a whole number"),
        ("# version one\n" + HEADER, "table t: the first line must be '# version ' and a whole number"),
        (
            "# version 1\n",
            "table t: the header must be key columns, then value,unit,low,high,scale,source,standing,note",
        ),
        (
            "# version 1\nvalue,unit,low,high,scale,source,standing,note\n",
            "table t: the header must be key columns, then value,unit,low,high,scale,source,standing,note",
        ),
        (
            "# version 1\npart,value,unit,low,high,scale,standing,source,note\n",
            "table t: the header must be key columns, then value,unit,low,high,scale,source,standing,note",
        ),
        ("# version 1\n" + HEADER + "elbow,1/2,2\n", "table t, line 3: 3 fields where the header has 10"),
        ("# version 1\n" + HEADER + "\n", "table t, line 3: 0 fields where the header has 10"),
        ("# version 1\n" + HEADER + 'elbow,"1/2"x\n', "table t, line 3: ',' expected after '\"'"),
        (
            "# version 1\n" + HEADER + GOOD_ROW + GOOD_ROW,
            "table t, line 4: the row ('elbow', '1/2') stands there twice",
        ),
        ("# version 1\n" + HEADER + GOOD_ROW.replace("1/2", ""), "table t, line 3: a key is empty"),
        (
            "# version 1\n" + HEADER + GOOD_ROW.replace(",2,", ",two,"),
            "table t, line 3: value 'two' is not a number",
        ),
        ("# version 1\n" + HEADER + GOOD_ROW.replace(",8,", ",,"), "table t, line 3: high '' is not a number"),
        ("# version 1\n" + HEADER + GOOD_ROW.replace(",8,", ",inf,"), "table t, line 3: high 'inf' is not finite"),
        ("# version 1\n" + HEADER + GOOD_ROW.replace(",1,", ",nan,"), "table t, line 3: low 'nan' is not finite"),
        (
            "# version 1\n" + HEADER + GOOD_ROW.replace(",8,", ",1.5,"),
            "table t, line 3: band out of order: 1.0, 2.0, 1.5",
        ),
        (
            "# version 1\n" + HEADER + GOOD_ROW.replace(",1,", ",0,"),
            "table t, line 3: a logarithmic band must be positive: 0.0",
        ),
        (
            "# version 1\n" + HEADER + GOOD_ROW.replace("log", "cubic"),
            "table t, line 3: scale 'cubic' is none of linear, log",
        ),
        (
            "# version 1\n" + HEADER + GOOD_ROW.replace("published", "certain"),
            "table t, line 3: standing 'certain' is none of published, common practice, estimate, from memory",
        ),
        ("# version 1\n" + HEADER + GOOD_ROW.replace("dimensionless", ""), "table t, line 3: the unit is empty"),
    ],
)
def test_table_malformed_says_where_and_what(text: str, message: str) -> None:
    with pytest.raises(TableError) as caught:
        parse_model_table("t", text)
    assert str(caught.value) == message


@pytest.mark.parametrize(
    ("text", "message"),
    [
        (
            "# version 1\nkey,title\n",
            "table sources: the header must be key,kind,authors,year,title,locator,how_read",
        ),
        (
            "# version 1\n" + SOURCES_HEADER + "a,book,A,2000,T,p. 1,heard\n",
            "table sources, line 3: how_read 'heard' is none of primary, through another, from memory",
        ),
        (
            "# version 1\n" + SOURCES_HEADER + 2 * "a,book,A,2000,T,p. 1,primary\n",
            "table sources, line 4: the key 'a' is empty or stands there twice",
        ),
        (
            "# version 1\n" + SOURCES_HEADER + ",book,A,2000,T,p. 1,primary\n",
            "table sources, line 3: the key '' is empty or stands there twice",
        ),
    ],
)
def test_sources_malformed_says_where_and_what(text: str, message: str) -> None:
    with pytest.raises(TableError) as caught:
        parse_sources(text)
    assert str(caught.value) == message


def _lay_tables(root: Path, mark: str) -> None:
    folder = root / "reference_tables"
    folder.mkdir(parents=True)
    (folder / "sources.csv").write_text(mark, encoding="utf-8")


def test_folder_inside_the_package_comes_first(tmp_path: Path) -> None:
    _lay_tables(tmp_path / "package", "inside")
    _lay_tables(tmp_path / "checkout", "beside")
    found = tables_folder(tmp_path / "package", tmp_path / "checkout")
    assert (found / "sources.csv").read_text(encoding="utf-8") == "inside"


def test_folder_beside_the_package_serves_a_checkout(tmp_path: Path) -> None:
    (tmp_path / "package").mkdir()
    _lay_tables(tmp_path / "checkout", "beside")
    found = tables_folder(tmp_path / "package", tmp_path / "checkout")
    assert (found / "sources.csv").read_text(encoding="utf-8") == "beside"


def test_folder_in_neither_place_is_an_error(tmp_path: Path) -> None:
    with pytest.raises(TableError, match="missing from this installation"):
        tables_folder(tmp_path, tmp_path)


@pytest.mark.parametrize("place", ["inside the package", "beside the package"])
def test_reader_in_an_installation_of_its_own_reads_the_same_tables(tmp_path: Path, place: str) -> None:
    """A copy of the package elsewhere reads what is shipped with it, not what this checkout holds."""
    shutil.copytree(
        CHECKOUT / "sanitize" / "basis", tmp_path / "sanitize" / "basis", ignore=shutil.ignore_patterns("__pycache__")
    )
    shutil.copy(CHECKOUT / "sanitize" / "__init__.py", tmp_path / "sanitize")
    root = tmp_path / "sanitize" if place == "inside the package" else tmp_path
    shutil.copytree(CHECKOUT / "reference_tables", root / "reference_tables")
    table = root / "reference_tables" / "model" / "defaults.csv"
    text = table.read_text(encoding="utf-8")
    assert "tape_tolerance_m,0.01,m,0.01,0.01" in text
    table.write_text(
        text.replace("tape_tolerance_m,0.01,m,0.01,0.01", "tape_tolerance_m,0.02,m,0.02,0.02"), encoding="utf-8"
    )
    program = (
        f"import sys; sys.path.insert(0, {str(tmp_path)!r})\n"
        "from sanitize.basis.tables import default, model_table_names, sources\n"
        "print(default('tape_tolerance_m').value, len(model_table_names()), len(sources()))"
    )
    done = subprocess.run([sys.executable, "-I", "-c", program], capture_output=True, text=True, check=True)
    assert done.stdout.split() == ["0.02", str(len(model_table_names())), str(len(sources()))]
