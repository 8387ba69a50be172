"""Notices of the study of faults."""

from sanitize.basis.notices import Notice
from sanitize.studies.faults.circuits import Sound
from sanitize.studies.suction.states import filter_names


def notices_of_faults(loop: Sound) -> tuple[Notice, ...]:
    """How the faults are to be read, and which this loop cannot have."""
    found = [
        Notice(
            "fault-sizes-estimated",
            "How large a fault is nobody told: the table fault_sizes stands in, with its range. Several faults at once "
            "are not computed.",
        )
    ]
    missing = []
    if not filter_names(loop.plant):
        missing.append("the filter, as the loop has none")
    if not loop.gas.has_check_valve:
        missing.append("the gas line's check valve, as the line has none: water always stands as if it leaked")
    if missing:
        found.append(Notice("faults-left-out", f"Left out are the faults of {' and of '.join(missing)}."))
    line = loop.plant.gas_line
    ozone = loop.plant.ozone
    if (line is None or line.highest_point_m is None) and (ozone is None or ozone.height_m is None):
        found.append(
            Notice(
                "gas-line-height-unknown",
                "Neither the gas line's highest point nor the ozone unit's height is given: the line counts as no "
                "higher than the port, and water standing in it adds nothing to the valve's opening.",
            )
        )
    return tuple(found)
