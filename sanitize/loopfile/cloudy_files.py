"""Answers about clouded water and a person's own judgement: checked against the known codes, every problem at once."""

from collections.abc import Callable, Iterable, Mapping, Sequence
from typing import Any

from sanitize.basis.errors import InputError, Problem
from sanitize.basis.units import QuantityError, parse
from sanitize.loopfile.kinds_of_file import refuse_other_kind
from sanitize.loopfile.toml_text import load
from sanitize.loopfile.wording import alike, listed, nearest, quoted, shown
from sanitize.plant.answers import Answers, Judgement

LISTS = ("saw", "not_seen", "unsure")
LEAST_CHANCE, MOST_CHANCE = 0.001, 0.999
_LARGEST_WEIGHT = 1000.0


def read_answers(
    given: Answers,
    file: tuple[str, str] | None,
    signs: Mapping[str, str],
    excluded: Iterable[tuple[str, str, str]],
    needed: Iterable[tuple[str, str, str]],
) -> Answers:
    """Answers from options and from a file together, an option over the file; codes may be written with hyphens.

    file: its path and text; signs: every known code with its few words; excluded: pairs of codes that cannot both be
    so, and why; needed: codes that can be so only where another is, and why.
    Raises InputError with every unknown code (nearest ones offered), every code answered twice and every contradiction.
    """
    problems: list[Problem] = []
    options = _known(given, signs, problems, {"saw": "--saw", "not_seen": "--not", "unsure": "--unsure"})
    stored = Answers()
    if file is not None:
        path, text = file
        stored = _known(_stored(path, text, problems), signs, problems, {name: f"{path}, {name}" for name in LISTS})
    said = set(options.all)
    found = Answers(*(
        tuple(dict.fromkeys((*getattr(options, name), *(code for code in getattr(stored, name) if code not in said))))
        for name in LISTS
    ))  # fmt: skip
    problems += _contradictions(found, signs, excluded, needed)
    if problems:
        raise InputError(problems)
    return found


def _stored(path: str, text: str, problems: list[Problem]) -> Answers:
    raw = load(text, path)
    refuse_other_kind(raw, path, "a file of answers")
    for key in raw:
        if key not in LISTS:
            close = nearest(key, LISTS)
            problems.append(Problem(f"{path}, {quoted(key)}", "no list of answers has this name", listed(LISTS), close))
    lists = []
    for name in LISTS:
        value = raw.get(name, [])
        odd = [item for item in value if not isinstance(item, str)] if isinstance(value, list) else [value]
        if odd:
            found = f"{shown(odd[0])} is no {'code' if isinstance(value, list) else 'list of codes'}"
            problems.append(Problem(f"{path}, {name}", found, "codes in quotes", f'{name} = ["foam"]'))
            value = [item for item in value if isinstance(item, str)] if isinstance(value, list) else []
        lists.append(tuple(value))
    return Answers(*lists)


def _known(given: Answers, signs: Mapping[str, str], problems: list[Problem], places: Mapping[str, str]) -> Answers:
    """The codes as they are spelt right; unknown ones become problems."""
    lists = []
    for name in LISTS:
        right = []
        for word in getattr(given, name):
            code = word.strip().casefold().replace("-", "_").replace(" ", "_")
            if code in signs:
                right.append(code)
                continue
            problems.append(_unknown(places[name], word, code, signs))
        lists.append(tuple(dict.fromkeys(right)))
    return Answers(*lists)


def _unknown(where: str, word: str, code: str, signs: Mapping[str, str]) -> Problem:
    by_words = [known for known, text in signs.items() if code and code.replace("_", " ") in text.casefold()]
    meant = {
        part
        for piece in code.split("_")
        for part in alike(piece, {part for known in signs for part in known.split("_")})
    }
    parts = [known for known in signs if meant & set(known.split("_"))]
    close = list(dict.fromkeys([*alike(code, signs), *by_words, *parts]))[:4]
    accepted = f"nearest: {', '.join(f'{item} ({signs[item]})' for item in close)}" if close else "a code of --list"
    return Problem(where, f"{quoted(word)} is no observation that is known", accepted, "sanitize cloudy --list")


def _contradictions(
    found: Answers,
    signs: Mapping[str, str],
    excluded: Iterable[tuple[str, str, str]],
    needed: Iterable[tuple[str, str, str]],
) -> list[Problem]:
    problems = []
    names = (("saw", found.saw), ("not seen", found.not_seen), ("unsure", found.unsure))
    for code in dict.fromkeys(found.all):
        answered = [name for name, codes in names if code in codes]
        if len(answered) > 1:
            told = " and ".join(answered)
            problems.append(
                Problem(
                    code, f"it is answered as {told} at once", "one answer for each observation", f"--unsure {code}"
                )
            )
    saw = set(found.saw)
    for one, other, reason in excluded:
        if {one, other} <= saw:
            problems.append(
                Problem(f"{one} and {other}", f"{reason}", "one of the two", f"--saw for one of them, --unsure {other}")
            )
    for one, other, reason in needed:
        if one in saw and other in found.not_seen:
            problems.append(Problem(f"{one} without {other}", reason, f"{other} too, or neither", f"--saw {other}"))
    return problems


def read_judgement(path: str, text: str, causes: Sequence[str], signs: Sequence[str]) -> Judgement:
    """A person's own numbers: [weight], [usual] and [shows.CAUSE]; raises InputError with every problem.

    A weight is relative to those of the table cloudy_causes, a chance lies between 0.001 and 0.999.
    """
    raw = load(text, path)
    refuse_other_kind(raw, path, "a file of judgement")
    problems: list[Problem] = []
    tables = ("weight", "usual", "shows")
    for key in raw:
        if key not in tables:
            problems.append(
                Problem(f"{path}, {quoted(key)}", "no table has this name", listed(tables), nearest(key, tables))
            )
    weights = {
        code: value
        for code, value in _table(path, "weight", raw.get("weight", {}), causes, problems).items()
        if _inside(f"{path}, [weight] {code}", value, 0.0, _LARGEST_WEIGHT, problems)
    }
    usual = {
        code: value
        for code, value in _table(path, "usual", raw.get("usual", {}), signs, problems).items()
        if _inside(f"{path}, [usual] {code}", value, LEAST_CHANCE, MOST_CHANCE, problems)
    }
    shows = {}
    for cause, table in _table(path, "shows", raw.get("shows", {}), causes, problems, inner=True).items():
        for code, value in _table(path, f"shows.{cause}", table, signs, problems).items():
            if _inside(f"{path}, [shows.{cause}] {code}", value, LEAST_CHANCE, MOST_CHANCE, problems):
                shows[cause, code] = value
    if problems:
        raise InputError(problems)
    return Judgement(weights, usual, shows)


def _table(
    path: str, name: str, raw: object, known: Sequence[str], problems: list[Problem], *, inner: bool = False
) -> dict[str, Any]:
    """The keys that are known, with their values; numbers unless tables are wanted."""
    if not isinstance(raw, dict):
        problems.append(Problem(f"{path}, {name}", f"{shown(raw)} is no table", f"[{name}]"))
        return {}
    found = {}
    for key, value in raw.items():
        where = f"{path}, [{name}] {quoted(key)}"
        if key not in known:
            close = nearest(key, known)
            problems.append(
                Problem(
                    where,
                    "no such code",
                    listed(alike(key, known)) or "a code of `sanitize tables cloudy_shows`",
                    close,
                )
            )
        elif inner:
            found[key] = value
        elif isinstance(value, bool) or not isinstance(value, int | float):
            problems.append(Problem(where, f"{shown(value)} is no number", "a plain number", f"{key} = 0.3"))
        else:
            found[key] = float(value)
    return found


def _inside(where: str, value: float, low: float, high: float, problems: list[Problem]) -> bool:
    right = low <= value <= high and (low > 0.0 or value > 0.0)
    if not right:
        accepted = f"above 0 to {high:g}" if low == 0.0 else f"{low:g} to {high:g}"
        problems.append(Problem(where, f"{value:g} lies outside", accepted))
    return right


def together(*steps: Callable[[], Any]) -> tuple[Any, ...]:
    """What several readers give, in their order; raises InputError with the problems of all of them at once."""
    results: list[Any] = []
    problems: list[Problem] = []
    for step in steps:
        try:
            results.append(step())
        except InputError as error:
            problems += error.problems
    if problems:
        raise InputError(problems)
    return tuple(results)


def read_duration_s(where: str, text: str, example: str, longest_s: float) -> float:
    """A time with its unit, such as "6 h"; raises InputError."""
    try:
        value = parse(text, "time").value
    except QuantityError as error:
        raise InputError([Problem(where, str(error), "a time with its unit", f'{where} "{example}"')]) from error
    if not 0.0 <= value <= longest_s:
        accepted = f"0 to {longest_s / 3600.0:g} h"
        raise InputError([Problem(where, f"{quoted(text)} lies outside", accepted, f'{where} "{example}"')])
    return value
