"""Errors as people read them: one block for each problem."""

import textwrap

from sanitize.basis.errors import InputError, Problem, SanitizeError

_WIDE = 100


def blocks(error: SanitizeError) -> str:
    """The text of an error for the screen.

    >>> print(blocks(InputError([Problem("loop[1] pump, height", "is missing", write='height = "0.1 m"')])))
    Error: loop[1] pump, height
      found:    is missing
      write:    height = "0.1 m"
    """
    if isinstance(error, InputError):
        found = [_block(problem) for problem in error.problems]
        counted = [f"{len(found)} problems; nothing was written."] if len(found) > 1 else []
        return "\n\n".join([*found, *counted])
    return _wrapped("Error: ", str(error))


def _block(problem: Problem) -> str:
    rows = {"found": problem.found, "accepted": problem.accepted, "write": problem.write}
    lines = [_wrapped("Error: ", problem.where)]
    lines += [_wrapped(f"  {name + ':':<10}", text) for name, text in rows.items() if text]
    return "\n".join(lines)


def _wrapped(start: str, text: str) -> str:
    printable = "".join(letter if letter.isprintable() else "?" for letter in text)
    return textwrap.fill(
        printable,
        _WIDE,
        initial_indent=start,
        subsequent_indent=" " * len(start),
        break_long_words=False,
        break_on_hyphens=False,
    )
