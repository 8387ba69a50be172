"""What needs no loop file of its own: the starter file, tables, cautions, the schema."""

import json
from typing import TYPE_CHECKING

if TYPE_CHECKING:
    from sanitize.basis.units import Family


def starter_file() -> str:
    """A commented loop file to start from."""
    from sanitize.loopfile.starter import starter_file

    return starter_file()


def tables(name: str | None = None) -> str:
    """The list of the tables, or the rows of one; raises TableError where there is none of that name."""
    from sanitize.report.tables import tables_text

    return tables_text(name)


def cautions(units: "Family" = "metric") -> str:
    """Every caution that there is, in general words."""
    from sanitize.report.cautions import cautions_text

    return cautions_text(family=units)


def schema() -> str:
    """The JSON Schema of a loop file."""
    from sanitize.loopfile.schema import json_schema

    return json.dumps(json_schema(), indent=2, ensure_ascii=False) + "\n"
