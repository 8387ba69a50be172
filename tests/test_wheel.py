"""The wheel: what it holds, and that the package in it finds its tables without a checkout beside it."""

import subprocess
import sys
import zipfile
from pathlib import Path

import pytest
from hatchling.builders.wheel import WheelBuilder

from sanitize.basis.tables import model_table_names, sources

ROOT = Path(__file__).resolve().parents[1]
CODE = """
import sys
sys.path.insert(0, sys.argv[1])
import sanitize
from sanitize.basis.tables import model_table, model_table_names, sources
assert sanitize.__file__.startswith(sys.argv[1]), sanitize.__file__
print(len(sources()), *(name for name in model_table_names() if model_table(name).entries))
"""


@pytest.fixture(scope="module")
def wheel(tmp_path_factory: pytest.TempPathFactory) -> Path:
    """The wheel of this checkout."""
    folder = tmp_path_factory.mktemp("wheel")
    (path,) = WheelBuilder(str(ROOT)).build(directory=str(folder), versions=["standard"])
    return Path(path)


def test_wheel_holds_the_package_and_the_tables_and_nothing_else(wheel: Path) -> None:
    names = set(zipfile.ZipFile(wheel).namelist())
    package = {str(path.relative_to(ROOT).as_posix()) for path in (ROOT / "sanitize").rglob("*.py")}
    tables = {f"sanitize/reference_tables/model/{name}.csv" for name in model_table_names()}
    expected = {*package, *tables, "sanitize/reference_tables/sources.csv", "sanitize/py.typed"}
    assert expected == {name for name in names if ".dist-info/" not in name}


@pytest.mark.parametrize("unpacked", [True, False], ids=["unpacked", "zipped"])
def test_wheel_reads_its_own_tables(wheel: Path, tmp_path: Path, unpacked: bool) -> None:
    place = wheel
    if unpacked:
        zipfile.ZipFile(wheel).extractall(tmp_path)
        place = tmp_path
    done = subprocess.run(
        [sys.executable, "-c", CODE, str(place)], cwd=tmp_path, capture_output=True, text=True, check=True
    )
    assert [str(len(sources())), *model_table_names()] == done.stdout.split()


def test_wheel_brings_the_command(wheel: Path) -> None:
    with zipfile.ZipFile(wheel) as archive:
        (name,) = (name for name in archive.namelist() if name.endswith("entry_points.txt"))
        assert b"sanitize = sanitize.cli:main" in archive.read(name).splitlines()
