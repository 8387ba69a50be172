"""Do the parts mate: every joint, and everything that does not fit."""

from collections.abc import Iterator, Sequence

from sanitize.basis.tables import model_table
from sanitize.plant.loop import Plant
from sanitize.plant.pipework import Pipe
from sanitize.studies.mating.assumed import assumptions_of, sealants_taken, unknown_ends, unusual_sizes
from sanitize.studies.mating.joints import joint_problems, sealant_problems
from sanitize.studies.mating.layout import rows_of
from sanitize.studies.mating.made import Made, make
from sanitize.studies.mating.materials import ozone_findings
from sanitize.studies.mating.result import Mating, Mismatch
from sanitize.studies.mating.schedules import fitting_schedule
from sanitize.studies.mating.service import service_problems


def study_mating(plant: Plant) -> Mating:
    """Every joint of a loop, what does not fit, and what was taken where the file says nothing."""
    made = rows_made(plant)
    ozone = ozone_findings(plant, made)
    found = [
        *_at_joints(made),
        *_of_parts(made),
        *short_pipes(plant, made),
        *service_problems(plant, made),
        *ozone.problems,
    ]
    return Mating(
        joints=tuple(joint for one in made for joint in one.joints),
        problems=tuple(dict.fromkeys(found)),
        assumptions=(*assumptions_of(made), *sealants_taken(made)),
        notices=(*unknown_ends(made), *unusual_sizes(made), *ozone.notices),
        sources=ozone.sources,
    )


def rows_made(plant: Plant) -> tuple[Made, ...]:
    """Every row of a loop, put together."""
    return tuple(make(row) for row in rows_of(plant))


def _at_joints(made: Sequence[Made]) -> Iterator[Mismatch]:
    for one in made:
        pairs = zip(one.joints, one.row, one.ends, one.row[1:], one.ends[1:], strict=False)
        for joint, first, ends, second, next_ends in pairs:
            yield from joint_problems(joint, first, ends, second, next_ends)


def _of_parts(made: Sequence[Made]) -> Iterator[Mismatch]:
    for one in made:
        for number, station in enumerate(one.row):
            yield from sealant_problems(station, one.joints[max(number - 1, 0) : number + 1])


def short_pipes(plant: Plant, made: Sequence[Made]) -> Iterator[Mismatch]:
    """Pipes that do not fill the sockets at their two ends."""
    schedule = fitting_schedule(plant)
    for one in made:
        for number, station in enumerate(one.row):
            part = station.part
            if not isinstance(part, Pipe):
                continue
            entry = model_table("socket_depths")[schedule, part.size]
            shortest_m = one.sockets_count(number) * entry.value
            if part.length_m.nominal < shortest_m:
                text = f"{part.name} is too short: {1000.0 * part.length_m.nominal:.0f} mm do not fill its sockets."
                action = f"Cut it at least {1000.0 * shortest_m:.0f} mm long; then the fittings stand face to face."
                yield Mismatch("pipe-too-short", (part.name,), text, action, entry.standing, entry.source)
