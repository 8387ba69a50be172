"""Citations as text."""

from sanitize.basis.tables import sources
from sanitize.report.columns import paragraph


def citation(key: str, width: int) -> str:
    """One citation by its key, and how it was read."""
    source = sources()[key]
    parts = (source.authors, source.year, source.title, source.locator)
    text = ". ".join(part.rstrip(".") for part in parts if part)
    return paragraph(f"{text}. (read: {source.how_read})", width, f"[{key}] ", "    ")
