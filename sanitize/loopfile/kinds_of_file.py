"""Which kind of file a text is by its keys, so that one file in place of another is one problem and not one a key."""

from collections.abc import Mapping
from typing import Any, Literal

from sanitize.basis.errors import InputError, Problem
from sanitize.loopfile.wording import listed

KindOfFile = Literal[
    "a loop file", "a file of readings", "a file of bench readings", "a file of answers", "a file of judgement",
    "a file of own parts",
]  # fmt: skip
_ITS_OWN: dict[KindOfFile, tuple[str, ...]] = {
    "a loop file": ("loop", "based_on", "tub", "way"),
    "a file of bench readings": ("bench",),
    "a file of answers": ("saw", "not_seen", "unsure"),
    "a file of judgement": ("weight", "usual", "shows"),
    "a file of own parts": ("part",),
    "a file of readings": ("measured",),
}
"""Keys that tell a kind, the surest kind first: a loop file may hold readings too."""
_SURE = ("loop", "based_on")
"""Keys that stand in loop files only, whatever stands beside them."""
_NO_TABLES = (*_SURE, "saw", "not_seen", "unsure")
_GOES: dict[KindOfFile, str] = {
    "a loop file": "as LOOP",
    "a file of readings": "behind --measured",
    "a file of bench readings": "with sanitize fit --bench --measured",
    "a file of answers": "with sanitize cloudy --answers",
    "a file of judgement": "with sanitize cloudy --judgement",
    "a file of own parts": "as `parts_file` of a loop file",
}


def refuse_other_kind(raw: Mapping[str, Any], path: str, wanted: KindOfFile) -> None:
    """Raise InputError, one problem, where the keys are those of another kind of file than the wanted one.

    raw: the tables of the text; path: of the file, for the message. A file without a telling key passes.
    """
    if wanted != "a loop file" and any(key in raw for key in _SURE):
        _refuse(raw, path, wanted, "a loop file")
    if any(key in raw for key in _ITS_OWN[wanted]):
        return
    for kind, keys in _ITS_OWN.items():
        if any(key in raw for key in keys):
            _refuse(raw, path, wanted, kind)


def _refuse(raw: Mapping[str, Any], path: str, wanted: KindOfFile, kind: KindOfFile) -> None:
    held = listed(_written(key) for key in _ITS_OWN[kind] if key in raw)
    raise InputError(
        [
            Problem(
                path,
                f"this looks like {kind} (it holds {held}), and {wanted} is wanted here",
                f"a file that holds {' or '.join(_written(key) for key in _ITS_OWN[wanted])}",
                f"give {path} {_GOES[kind]}",
            )
        ]
    )


def _written(key: str) -> str:
    """A key as it stands in the file: a list or a text by its name, a table in brackets."""
    return f"`{key}`" if key in _NO_TABLES else f"[{key}]"
