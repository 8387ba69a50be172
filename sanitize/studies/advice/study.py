"""The study of advice: every change solved with few cases, the best again with all, pairs where one is not enough."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass
from itertools import combinations

from sanitize.basis.figure import Figure
from sanitize.basis.notices import Notice
from sanitize.plant.loop import Plant, walk
from sanitize.plant.machines import Pump
from sanitize.studies.advice.candidates import candidates, with_it
from sanitize.studies.advice.change import Change
from sanitize.studies.advice.checks import brought, keeps_up, lacking_with_gas, objections
from sanitize.studies.advice.edit import the_injector
from sanitize.studies.advice.never import never_text
from sanitize.studies.advice.result import Advice, Advised, Refused
from sanitize.studies.advice.throats import throat_m
from sanitize.studies.advice.tried import Examined, Glance, cautioned, examine, glance
from sanitize.studies.draws import CASES, SEED, Draws
from sanitize.studies.operating_point.run import refuse_without_answer, refuse_without_injector
from sanitize.studies.suction.readings import narrowed
from sanitize.studies.suction.study import DOES_NOT_DRAW_TO_RATIO, DRAWS_FROM_RATIO, verdict_of
from sanitize.studies.suction.why import why

FEW_CASES = 256
"""Cases with which every change is solved first."""
LEAST_GAIN_RATIO = 0.01
"""Gain in the share of cases that draw from which a change is worth telling (a choice: the last figure shown)."""
LEAST_PAIR_GAIN_RATIO = 0.05
"""Gain of a pair over the better of its two changes from which it is worth the work (a choice of this project)."""
LEAST_GAS_GAIN_RATIO = 1.1
"""Gas flow over today's from which a change of the gas side is worth telling (a choice of this project)."""
MOST_CHANGES = 12
"""Single changes that are solved again with all cases."""
MOST_PAIRS = 6
"""Pairs that are solved again with all cases."""
MOST_PAIRS_CHECKED = 60
"""Pairs whose cautions and faults are looked at, the best first, until enough pass."""
MOST_PAIRS_TRIED = 300
"""Pairs that are solved at all; of more, the best changes of every kind are paired."""
MOST_REFUSED = 12
"""Refused changes that are told."""


@dataclass(frozen=True, eq=False)
class _Tried:
    changes: tuple[Change, ...]
    seen: Glance
    order: int

    @property
    def rank(self) -> tuple[float, float, int]:
        """Share in whole percent, as people see it, then the flow, then the order of the list."""
        return (-round(self.seen.share, 2), -float(self.seen.running.flow_m3s[0]), self.order)


@dataclass(frozen=True, eq=False)
class _Loop:
    """The loop as it is, with few cases and with all."""

    few: Glance
    all: Glance
    gas_flow_m3s: Figure
    few_examined: Examined
    all_examined: Examined

    @property
    def plant(self) -> Plant:
        return self.all.plant

    @property
    def share(self) -> float:
        """Share to be bettered, with few cases: none of an injector before a pump, which must not stay there."""
        return 0.0 if self.must_move else self.few.share

    @property
    def must_move(self) -> bool:
        """Whether the injector stands before a pump."""
        return self.few_examined.facts.injector_on_suction_side


def study_advice(plant: Plant, cases: int = CASES, seed: int = SEED, notices: tuple[Notice, ...] = ()) -> Advice:
    """Which changes make the injector draw, the best first, and what they cost in water flow.

    plant: the checked loop; cases: a power of two; seed: of the draw; notices: what reading the file left.
    Readings of the loop as it is narrow the cases of every changed loop too. Raises InputError when the loop has no
    injector, NoSolutionError when its nominal case has no operating point.
    """
    refuse_without_injector(plant)
    draws, _, reading_notices = narrowed(plant, cases, seed)
    few_draws = draws if cases <= FEW_CASES else narrowed(plant, FEW_CASES, seed)[0]
    now = glance(plant, draws)
    refuse_without_answer(now.running, plant)
    few = now if few_draws is draws else glance(plant, few_draws)
    # the inputs of every state are drawn here, so that all changed loops share them
    gas = few.gas_flow()[0]
    loop = _Loop(few, now, gas, examine(few), cautioned(now))
    tried = _tried(loop)
    worth = [item for item in tried if _helps(loop, item)]
    advised, refused = _advised(loop, worth, MOST_CHANGES, len(worth))
    pairs: tuple[Advised, ...] = ()
    pairs_count = 0
    share = 0.0 if loop.must_move else now.share
    if share < DRAWS_FROM_RATIO and not any(item.draws_share_ratio >= DRAWS_FROM_RATIO for item in advised):
        pairs, pairs_refused, pairs_count = _pairs(loop, tried)
        refused += pairs_refused
    best = max((item.draws_share_ratio for item in (*advised, *pairs)), default=0.0)
    hopeless = max(best, share) <= DOES_NOT_DRAW_TO_RATIO
    return Advice(
        title=plant.title,
        units=plant.units,
        cases_count=cases,
        seed=seed,
        verdict=verdict_of(now.share),
        now_share_ratio=now.share,
        now_loaded_share_ratio=now.loaded_share,
        now_flow_m3s=now.flow,
        now_gas_flow_m3s=gas,
        why=why(now.running, now.gas.opens_at_pa, plant.units),
        tried_count=len(tried),
        changes=advised,
        pairs=pairs,
        refused=tuple(refused[:MOST_REFUSED]),
        never=never_text(now, len(tried), pairs_count, tuple(refused), must_move=loop.must_move) if hopeless else None,
        cautions=loop.all_examined.cautions,
        notices=(*notices, *reading_notices),
    )


def _tried(loop: _Loop) -> list[_Tried]:
    """Every single change with few cases."""
    port = loop.few.running.port
    if port is None:
        raise ValueError("the loop has no injector")
    found = candidates(loop.plant, throat_m(the_injector(loop.plant), port.model))
    return list(_glances(loop, [(change,) for change in found], loop.few.draws))


def _glances(loop: _Loop, chosen: Sequence[tuple[Change, ...]], draws: Draws) -> Iterator[_Tried]:
    for order, changes in enumerate(chosen):
        changed = with_it(loop.plant, *changes)
        if changed is None:
            continue
        seen = glance(changed, draws)
        if seen.moves:
            yield _Tried(changes, seen, order)


def _helps(loop: _Loop, item: _Tried) -> bool:
    """Whether a change is worth telling, by what it is for."""
    gain = item.seen.share - loop.share
    purpose = item.changes[0].purpose
    if purpose == "draw":
        return gain >= LEAST_GAIN_RATIO
    if gain < -LEAST_GAIN_RATIO:
        return False
    if purpose == "gas":
        wanted = None if loop.plant.ozone is None else loop.plant.ozone.at_gas_flow_m3s
        before = loop.gas_flow_m3s.nominal or 0.0
        if before <= 0.0 or (wanted is not None and before >= wanted):
            return False
        return (item.seen.gas_flow()[0].nominal or 0.0) >= LEAST_GAS_GAIN_RATIO * before
    return (item.seen.loaded_share or 0.0) - (loop.few.loaded_share or 0.0) >= LEAST_GAIN_RATIO


def _advised(loop: _Loop, worth: list[_Tried], most: int, enough: int) -> tuple[tuple[Advised, ...], list[Refused]]:
    """Those that pass every check with few cases and every caution with all: of each kind the best, then the next."""
    refused: list[Refused] = []
    passed: list[_Tried] = []
    for item in sorted(worth, key=lambda item: item.rank):
        if len(passed) >= enough:
            break
        then = examine(item.seen)
        keeping_up = keeps_up(item.changes)
        reasons = objections(loop.few_examined, then, keeping_up=keeping_up)
        if not reasons and any(chiller.min_flow_m3s is not None for chiller in then.facts.chillers):
            reasons = lacking_with_gas(then, item.seen.flow.ends[1], item.seen.gas_flow()[1].ends[1])
        if reasons:
            refused.append(_refusal(item, reasons))
        else:
            passed.append(item)
    finals: list[tuple[_Tried, Glance]] = []
    for item in _best(passed, most):
        seen = item.seen if loop.all is loop.few else glance(item.seen.plant, loop.all.draws)
        keeping_up = keeps_up(item.changes)
        reasons = () if loop.all is loop.few else objections(loop.all_examined, cautioned(seen), keeping_up=keeping_up)
        if reasons:
            refused.append(_refusal(item, reasons))
        else:
            finals.append((_Tried(item.changes, seen, item.order), item.seen))
    finals.sort(key=lambda pair: pair[0].rank)
    return tuple(_row(loop, item, few) for item, few in finals), refused


def _best(passed: list[_Tried], most: int) -> list[_Tried]:
    """As many as are wanted: the best of each kind, then the next best of all."""
    kinds: dict[tuple[str, ...], _Tried] = {}
    for item in passed:
        kinds.setdefault(tuple(change.code for change in item.changes), item)
    first = list(kinds.values())
    return (first + [item for item in passed if item not in first])[:most]


def _refusal(item: _Tried, reasons: tuple[str, ...]) -> Refused:
    return Refused(
        tuple(change.code for change in item.changes),
        tuple(change.words for change in item.changes),
        item.seen.share,
        reasons,
    )


def _pairs(loop: _Loop, tried: list[_Tried]) -> tuple[tuple[Advised, ...], list[Refused], int]:
    """Pairs of changes of different kinds that do clearly more than either."""
    singles = [item for item in tried if item.changes[0].purpose == "draw"]
    shares = {item.changes[0]: item.seen.share for item in singles}
    chosen = _pairable(sorted(singles, key=lambda item: item.rank))
    found = list(_glances(loop, chosen, loop.few.draws))
    worth = [
        item
        for item in found
        if item.seen.share >= max(loop.share, *(shares[change] for change in item.changes)) + LEAST_PAIR_GAIN_RATIO
    ]
    worth = sorted(worth, key=lambda item: item.rank)[:MOST_PAIRS_CHECKED]
    advised, refused = _advised(loop, worth, MOST_PAIRS, MOST_PAIRS)
    return advised, refused, len(found)


def _pairable(singles: list[_Tried]) -> list[tuple[Change, ...]]:
    """All pairs of different kinds, or of the best of every kind where these were too many."""
    most = max(1, len(singles))
    while True:
        count: dict[str, int] = {}
        kept: list[Change] = []
        for item in singles:
            change = item.changes[0]
            count[change.code] = count.get(change.code, 0) + 1
            if count[change.code] <= most:
                kept.append(change)
        pairs = [(a, b) for a, b in combinations(kept, 2) if a.code != b.code]
        if len(pairs) <= MOST_PAIRS_TRIED or most == 1:
            return list(pairs)
        most -= 1


def _row(loop: _Loop, item: _Tried, few: Glance) -> Advised:
    seen, keeping_up = item.seen, keeps_up(item.changes)
    head = flow = None
    for change in item.changes:
        if change.code in ("stronger-pump", "other-speed"):
            pump = _changed_pump(loop.plant, seen.plant)
            head, flow = seen.pump_head_m(pump)
    share = seen.share
    return Advised(
        codes=tuple(change.code for change in item.changes),
        words=tuple(change.words for change in item.changes),
        verdict=verdict_of(share),
        draws_share_ratio=share,
        loaded_share_ratio=seen.loaded_share,
        flow_m3s=seen.flow,
        flow_ratio=float(seen.running.flow_m3s[0] / loop.all.running.flow_m3s[0]),
        gas_flow_m3s=few.gas_flow()[0],
        pump_head_m=head,
        pump_flow_m3s=flow,
        brings=brought(loop.few_examined, examine(few), keeping_up=keeping_up) if loop.must_move or keeping_up else (),
    )


def _changed_pump(before: Plant, after: Plant) -> str:
    pumps = {part.name: part for part in walk(before.loop) if isinstance(part, Pump)}
    return next(part.name for part in walk(after.loop) if isinstance(part, Pump) and part != pumps[part.name])
