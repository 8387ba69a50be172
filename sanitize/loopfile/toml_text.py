"""Bytes to text, and text to the raw tables of TOML."""

import codecs
import re
import tomllib
from typing import Any

from sanitize.basis.errors import InputError, Problem
from sanitize.loopfile.wording import quoted

LARGEST_BYTES = 1_000_000
_PIECE = r"(?:[A-Za-z0-9_-]++|\"[^\"\n]*+\"|'[^'\n]*+')[ \t]*+"
_LONG_DOTTED_KEY = re.compile(rf"(?<![A-Za-z0-9_-])(?:{_PIECE}\.[ \t]*+){{40}}")
_PLACE = re.compile(
    r"^(?P<said>.*?)\s*\(at (?:line (?P<line>\d+), column (?P<column>\d+)|(?P<end>end of document))\)$", re.S
)
_HINT = 'text and quantities in quotes, as in length = "5.5 m"'
_UNQUOTED = re.compile(
    r"(?P<key>\w+)\s*=\s*(?P<value>[+-]?\d[\d./-]*\s*(?:[A-Za-z°][A-Za-z0-9/]*|[\"']))\s*(?=[,}#]|$)"
)
_MEANINGS = (
    ("Unclosed inline table", "a part that begins with { is not closed on the same line",
     'close it with } on its own line, or write the parts as [[loop]] tables'),
    ("Unclosed array", "a list that begins with [ is not closed, or a comma is missing", "close it with ]"),
    ("Invalid initial character for a key part", "a key was expected here; a comma too many, or a part over two lines",
     "one part on one line, no comma before }"),
    ("Cannot overwrite a value", "the same key stands twice", "leave one of the two out"),
    ("Duplicate inline table key", "the same key stands twice in one part", "leave one of the two out"),
    ("Cannot declare", "the same table stands twice", "put its keys under one header"),
    ("Cannot mutate immutable", "something is added to a list or part that is already closed",
     "one way of writing it: either the list in brackets or [[...]] tables"),
    ("Unterminated string", "a text is not closed", "close it with a quotation mark"),
    ("Illegal character '\\n'", "a text is not closed on its line", "close it with a quotation mark"),
    ("Expected '=' after a key", "an equals sign is missing behind a key", 'key = "value"'),
    ("Expected newline or end of document after a statement", "something stands behind the value", _HINT),
    ("Invalid value", "this is no value", _HINT),
)  # fmt: skip


def decode(data: bytes, path: str = "loop file") -> str:
    """The text of a file's bytes; raises InputError when they are too many, not UTF-8, or hold NUL."""
    if len(data) > LARGEST_BYTES:
        raise InputError([_too_large(len(data), path)])
    try:
        text = data.decode("utf-8-sig")
    except UnicodeDecodeError as error:
        if data.startswith((codecs.BOM_UTF16_LE, codecs.BOM_UTF16_BE)):
            found = "it is saved as UTF-16, which some editors call Unicode"
            raise InputError([Problem(path, found, "a text file saved as UTF-8")]) from error
        line = data.count(b"\n", 0, error.start) + 1
        raise InputError(
            [Problem(path, f"line {line} holds bytes that are no UTF-8 text", "a text file saved as UTF-8")]
        ) from error
    if "\0" in text:
        raise InputError([Problem(path, "it holds NUL bytes, so it is no text file", "a text file in TOML")])
    return text


def _too_large(size: int, path: str) -> Problem:
    return Problem(path, f"it is {size} bytes long", f"at most {LARGEST_BYTES} bytes")


def load(text: str, path: str) -> dict[str, Any]:
    """The raw tables of a text; raises InputError with one problem when it is no TOML."""
    if len(text) > LARGEST_BYTES:
        raise InputError([_too_large(len(text), path)])
    too_deep = Problem(path, "it is nested too deeply", "lists and tables a few levels deep")
    if _LONG_DOTTED_KEY.search(text):
        raise InputError([too_deep])
    try:
        return tomllib.loads(text)
    except tomllib.TOMLDecodeError as error:
        raise InputError([_toml_problem(str(error), text, path)]) from error
    except RecursionError as error:
        raise InputError([too_deep]) from error
    except ValueError as error:
        raise InputError(
            [Problem(path, "it holds a number that cannot be read", "numbers of ordinary length")]
        ) from error


def _toml_problem(message: str, text: str, path: str) -> Problem:
    match = _PLACE.match(message)
    said = match["said"] if match else message
    where, stands, line = path, "", ""
    if match and match["line"]:
        where = f"{path}, line {match['line']}, column {match['column']}"
        lines = text.split("\n")
        line = lines[min(int(match["line"]), len(lines)) - 1].strip()
        stands = f", in {quoted(line)}" if line else ""
        unquoted = _UNQUOTED.search(line)
        if unquoted:
            write = f'{unquoted["key"]} = "{unquoted["value"]}"'
            return Problem(where, f"a quantity without quotes{stands}", "text and quantities in quotes", write)
    elif match:
        found = "the file ends in the middle of a list, a part or a value"
        return Problem(f"{path}, at its end", found, write="close what is open with ], } or a quotation mark")
    for start, meaning, write in _MEANINGS:
        if said.startswith(start):
            return Problem(where, f"{meaning}{stands}", write=write)
    return Problem(where, f"not readable as TOML: {quoted(said)[1:-1]}{stands}")
