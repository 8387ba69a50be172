"""Cautions, notices, states and the hazards of faults, of several loops beside each other."""

import re
from collections.abc import Callable, Sequence
from itertools import product
from typing import TypeVar, get_args

from sanitize.studies.cautions.caution import Severity
from sanitize.studies.comparison.result import CautionOf, HazardOf, NoticeOf, StateOf
from sanitize.studies.faults.result import FAULTS, Faults, HazardCode
from sanitize.studies.suction.result import CheckValve, Level, State, StateName, Suction

_OTHER_FILE = re.compile(r"^[^\[]*: (?=\[)")
"""How a notice begins that is about a table of a file that another one is based on."""
Item = TypeVar("Item")
_NUMBER = re.compile(r"\d[\d.,]*")


def cautions_of(labels: Sequence[str], answers: Sequence[Suction]) -> tuple[CautionOf, ...]:
    """Every caution once, dangers first, with the files that it holds for.

    One caution is the same in two files where only its figures differ.
    """
    groups = _grouped(
        [answer.cautions for answer in answers], lambda item: (item.code, item.severity, _without_figures(item.text))
    )
    found = [CautionOf(tuple(labels[file] for file in group), next(iter(group.values()))) for group in groups]
    return tuple(sorted(found, key=lambda item: item.caution.severity != "danger"))


def notices_of(labels: Sequence[str], answers: Sequence[Suction]) -> tuple[NoticeOf, ...]:
    """Every notice once, with the files that it holds for; where it stands in a file that another starts from, too."""
    groups = _grouped([answer.notices for answer in answers], lambda item: (item.code, _without_figures(item.text)))
    return tuple(NoticeOf(tuple(labels[file] for file in group), next(iter(group.values()))) for group in groups)


def _without_figures(text: str) -> str:
    return _NUMBER.sub("#", _OTHER_FILE.sub("", text))


def _grouped(items: Sequence[Sequence[Item]], words: Callable[[Item], tuple[str, ...]]) -> list[dict[int, Item]]:
    """What is the same but for its figures, by file: each group holds one item of a file at most."""
    groups: dict[tuple[str, ...], list[dict[int, Item]]] = {}
    for file, those in enumerate(items):
        for item in those:
            alike = groups.setdefault(words(item), [])
            free = next((group for group in alike if file not in group), None)
            if free is None:
                alike.append({file: item})
            else:
                free[file] = item
    return [group for alike in groups.values() for group in alike]


def states_of(answers: Sequence[Suction]) -> tuple[StateOf, ...]:
    """The states that every loop has and in which water or air do not go the same way in all."""
    by_name = [{(state.state, state.level, state.check_valve): state for state in one.states} for one in answers]
    valves: tuple[CheckValve, ...] = ("sound", "leaking")
    if all(state.check_valve == "none" for one in answers for state in one.states):
        valves = ("none",)
    found = []
    for name, level, valve in product(get_args(StateName), get_args(Level), valves):
        states = [one.get((name, level, valve), one.get((name, level, "none"))) for one in by_name]
        shared = [state for state in states if state is not None]
        if len(shared) == len(answers) and len({_ways(state) for state in shared}) > 1:
            found.append(StateOf(name, level, valve, tuple(_text(state, valve) for state in shared)))
    return tuple(found)


def _text(state: State, valve: CheckValve) -> str:
    """What a state tells beside those of other loops, whose check valve is sound or leaking."""
    return state.text if state.check_valve == valve else f"There is no check valve. {state.text}"


def _ways(state: State) -> tuple[bool, bool, bool]:
    return (state.passes_highest_point, state.reaches_ozone_unit, state.air_enters)


def hazards_of(answers: Sequence[Faults]) -> tuple[HazardOf, ...]:
    """The hazards that not the same faults bring in all loops, dangers first."""
    brought = [
        {(row.fault, hazard.code, hazard.severity) for row in one.faults for hazard in row.hazards} for one in answers
    ]
    found = []
    for severity, code in product(get_args(Severity), get_args(HazardCode)):
        faults = tuple(tuple(fault for fault in FAULTS if (fault, code, severity) in one) for one in brought)
        if len(set(faults)) > 1:
            found.append(HazardOf(code, severity, faults))
    return tuple(found)
