"""Lines of plain text: wrapped paragraphs, labels with what they say, aligned tables."""

from collections.abc import Sequence
from textwrap import fill


def heading(title: str) -> str:
    """A title with a line under it.

    >>> print(heading("Cautions"))
    Cautions
    --------
    """
    return f"{title}\n{'-' * len(title)}"


def paragraph(text: str, width: int, first: str = "", rest: str = "") -> str:
    """A text wrapped to a width, with what stands before its first and its other lines."""
    return fill(
        text, width, initial_indent=first, subsequent_indent=rest, break_long_words=False, break_on_hyphens=False
    )


def labelled(rows: Sequence[tuple[str, str]], width: int) -> str:
    """Labels in a column, and beside each what it says.

    >>> print(labelled([("flow", "40 L/min"), ("head", "3.1 m")], 60))
    flow  40 L/min
    head  3.1 m
    """
    column = max(len(label) for label, _ in rows) + 2
    return "\n".join(paragraph(text, width, label.ljust(column), " " * column) for label, text in rows)


def table(head: Sequence[str], rows: Sequence[Sequence[str]], width: int, left: int = 1) -> str:
    """Aligned columns, the first `left` of them flush left; the first shrinks where the lines would be too long.

    >>> print(table(("part", "loss m"), [("pump", "-3.0"), ("hose", "1.2")], 40))
    part  loss m
    pump    -3.0
    hose     1.2
    """
    sizes = [max(len(cell) for cell in column) for column in zip(head, *rows, strict=True)]
    sizes[0] = max(8, min(sizes[0], width - sum(sizes[1:]) - 2 * (len(sizes) - 1)))
    lines = []
    for row in (head, *rows):
        cells = [_cut(row[0], sizes[0]), *row[1:]]
        lines.append(
            "  ".join(
                cell.ljust(size) if index < left else cell.rjust(size)
                for index, (cell, size) in enumerate(zip(cells, sizes, strict=True))
            ).rstrip()
        )
    return "\n".join(lines)


def _cut(text: str, size: int) -> str:
    """A name that fits: its middle is left out, as what tells two names apart mostly stands at their ends."""
    if len(text) <= size:
        return text
    behind = (size - 2) // 2
    return text[: size - 2 - behind] + ".." + text[-behind:]
