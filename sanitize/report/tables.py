"""The numbers behind the answers, table by table."""

from sanitize.basis.tables import Table, model_table, model_table_names
from sanitize.report.columns import heading, paragraph, table
from sanitize.report.numbers import number_line
from sanitize.report.sources import citation


def tables_text(name: str | None = None, *, width: int = 100) -> str:
    """One table with its sources, or the list of all where no name is given; raises TableError on another name."""
    if name is not None:
        return _one(model_table(name), width)
    rows = []
    for each in model_table_names():
        one = model_table(each)
        rows.append((each, str(len(one.entries)), str(one.version), ", ".join(one.key_columns)))
    return table(("table", "numbers", "version", "by"), rows, width) + "\n"


def _one(one: Table, width: int) -> str:
    lines = [heading(f"{one.name}, version {one.version}, by {', '.join(one.key_columns)}")]
    for key, entry in one.entries.items():
        text = number_line(" ".join(key), entry) + (f"; {entry.note}" if entry.note else "")
        lines.append(paragraph(text, width, "", "    "))
    keys = sorted({entry.source for entry in one.entries.values() if entry.source})
    if keys:
        lines += ["", heading("Sources"), *(citation(key, width) for key in keys)]
    return "\n".join(lines) + "\n"
