"""Notices: an answer stands, and an assumption was made or a range was left."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Notice:
    """One assumption or limit, with a stable code (words joined by hyphens) and a sentence for people."""

    code: str
    text: str
