"""Do the parts mate, and what to buy and cut."""

from collections.abc import Iterator, Sequence

from sanitize.basis.notices import Notice
from sanitize.basis.tables import Entry
from sanitize.plant.loop import Plant, walk
from sanitize.plant.pipework import Hose, Pipe
from sanitize.studies.cautions.joining import SOLVENT_CEMENT
from sanitize.studies.mating.made import Made
from sanitize.studies.mating.result import Mating
from sanitize.studies.mating.rules import CEMENT
from sanitize.studies.mating.schedules import fitting_schedule
from sanitize.studies.mating.study import rows_made, study_mating
from sanitize.studies.shopping.buy import PIPE_NIPPLE, buy_lines
from sanitize.studies.shopping.cut import cut_lines
from sanitize.studies.shopping.lengths import allowance
from sanitize.studies.shopping.result import CutLine, Depth, PartsList
from sanitize.studies.shopping.seal import depths_of, seal_lines


def study_parts(plant: Plant, notices: Sequence[Notice] = ()) -> PartsList:
    """Whether the parts of a loop mate, and what to buy and cut for it; notices: of the reading of its file."""
    mating = study_mating(plant)
    made = rows_made(plant)
    cut = cut_lines(plant, made)
    depths = depths_of(mating.joints, fitting_schedule(plant))
    cemented = any(seal.kind == CEMENT for joint in mating.joints for seal in joint.seals)
    return PartsList(
        title=plant.title,
        units=plant.units,
        joints=mating.joints,
        problems=mating.problems,
        assumptions=(*mating.assumptions, *_assumptions(plant, cut)),
        buy=buy_lines(plant, made, cut),
        cut=cut,
        seal=seal_lines(mating.joints),
        depths=depths,
        notices=(*notices, *mating.notices, *_in_a_row(made), *_not_in_the_file(mating)),
        sources=_sources(mating, depths),
        cautions=(SOLVENT_CEMENT,) if cemented else (),
    )


def _sources(mating: Mating, depths: Sequence[Depth]) -> tuple[str, ...]:
    cited = {joint.source for joint in mating.joints} | {problem.source for problem in mating.problems}
    cited |= {depth.source for depth in depths} | set(mating.sources)
    return tuple(sorted(cited - {""}))


def _assumptions(plant: Plant, cut: Sequence[CutLine]) -> Iterator[Notice]:
    if any(line.schedule for line in cut):
        text = f"Fittings are taken to be Schedule {fitting_schedule(plant)}, as the rigid pipe is"
        if not any(isinstance(part, Pipe) for part in walk(plant.loop)):
            text = "Fittings are taken to be Schedule 40, as there is no rigid pipe to go by"
        yield Notice("fitting-schedule-taken", f"{text} (common practice).")
        saw = allowance("saw_cut_m")
        yield Notice("saw-cut-added", f"Pipe to buy: {_mm(saw)} added for each saw cut ({saw.standing}).")
    if any(line.item == PIPE_NIPPLE for line in cut):
        short = allowance("nipple_short_m")
        yield Notice(
            "nipple-cut-short",
            f"A nipple is as long as its two sockets are deep, cut {_mm(short)} short ({short.standing}): the fittings "
            "then stand face to face; where they stand apart, add the gap.",
        )
    if any(isinstance(part, Hose) for part in walk(plant.loop)):
        more = allowance("hose_allowance_ratio")
        share = f"{100.0 * more.value:.0f} % ({100.0 * more.low:.0f} to {100.0 * more.high:.0f})"
        yield Notice("hose-allowance", f"Hose and tube to buy: {share} {more.note} ({more.standing}).")


def _mm(entry: Entry) -> str:
    low, value, high = (1000.0 * number for number in (entry.low, entry.value, entry.high))
    return f"{value:g} mm ({low:g} to {high:g})"


def _in_a_row(made: Sequence[Made]) -> Iterator[Notice]:
    """Fittings that one line of the file counts: along a pipe they need cuts of it, not nipples."""
    names = dict.fromkeys(
        station.name
        for one in made
        for station in one.row
        if getattr(station.part, "count", 1) > 1 and station.number == 1
    )
    if names:
        text = (
            f"{', '.join(names)}: several in one line are taken to stand face to face; where they stand along a pipe, "
            "cut that pipe between them and leave their nipples out."
        )
        yield Notice("fittings-in-a-row", text)


def _not_in_the_file(mating: Mating) -> Iterator[Notice]:
    """What is added at the joints slows the water too, and the file does not have it."""
    if any(joint.missing for joint in mating.joints):
        yield Notice(
            "missing-pieces-not-in-the-file",
            "The pieces that are missing are not in the loop file, so no answer about its flow counts them; write into "
            "it those that you put in, as pipe, adapter, barb or reducer.",
        )
