"""The air of the ozone answer as text: what people breathe, against the published limits."""

from sanitize.basis.figure import Figure
from sanitize.basis.units import Family, show, significant
from sanitize.report.columns import labelled, paragraph, table
from sanitize.report.ozone_words import plain, ppm, ppm_of, space, worst_time
from sanitize.report.phrases import figure, sentence, share, short_share
from sanitize.studies.ozone.result import Ozone, Remedy, Room


def air_block(result: Ozone, width: int) -> str:
    """The room, its air, the air over the water and under a cover, what would help, waits and published limits."""
    family = result.units
    rows: list[tuple[str, str]] = []
    if result.room is not None:
        rows.append(("Room", _room(result.room, family)))
    if result.over_water_ppmv is None or result.under_cover_ppmv is None:
        text = "not worked out, as no gas is drawn: what the unit makes seeps into the air, and may end there whole."
        return labelled([*rows, ("The air", sentence(text))], width)
    if result.drawn_share_ratio < 1.0:
        rows.append(("Counted", _drawn_only(result)))
    if result.room_ppmv is not None:
        worst = _worst(result.room_worst_ppmv)
        rows.append(("Its air", f"{ppm_of(result.room_ppmv)} with the ozone running on and on{worst}."))
    rows.append(
        (
            "Over the water",
            f"{ppm_of(result.over_water_ppmv)} where a bather breathes{_worst(result.over_water_worst_ppmv)}.",
        )
    )
    rows.append(("Under a cover", f"{ppm_of(result.under_cover_ppmv)} where it is shut while the ozone runs."))
    if result.remedy is not None:
        rows.append((f"Below {ppm(result.room_limit_ppmv)}", _remedy(result.remedy, result, family)))
    if result.air_wait_s is not None:
        rows.append(("Wait", _air_wait(result.air_wait_s, result)))
    return labelled(rows, width) + "\n\n" + _limits(result, width)


def _drawn_only(result: Ozone) -> str:
    return (
        f"Over {share(result.drawn_share_ratio)} of the cases, in which gas is drawn; in the others what the unit "
        "makes seeps out of its line, and may end in this air whole."
    )


def _worst(value_ppmv: float | None) -> str:
    return "" if value_ppmv is None else f"; at the worst end {ppm(value_ppmv)}"


def _air_wait(wait: Figure, result: Ozone) -> str:
    family, limit = result.units, ppm(result.room_limit_ppmv)
    ends = f"{worst_time(result.air_wait_worst_s, result)}: an estimate, never a clearance; a meter decides."
    if wait.ends[2] <= 0.0:
        return f"Within the range the room and the air over the water are below {limit} once it is off{ends}"
    if wait.ends[1] <= 0.0:
        return (
            f"In the likeliest case the room and the air over the water are below {limit} once it is off; at the high "
            f"end, the injector drawing on, that takes {show(wait.ends[2], 'time', family)}{ends}"
        )
    return (
        f"About {figure(wait, 'time', family)} from switching off, the injector drawing on, until the room and the air "
        f"over the water are below {limit}{ends}"
    )


def _room(room: Room, family: Family) -> str:
    assumed = "assumed, as the file describes none: " if room.is_assumed else ""
    return sentence(
        f"{assumed}{space(room.volume_m3, family)}, {plain(room.changes_per_h)} air changes an hour, and "
        f"{plain(room.removal_per_h)} an hour that its surfaces take."
    )


def _remedy(found: Remedy, result: Ozone, family: Family) -> str:
    high = found.output_mg_per_h.ends[0]
    if found.destruct_ratio.ends[2] <= 0.0:
        worst = ppm(result.room_worst_ppmv) if result.room_worst_ppmv is not None else "not known"
        return (
            f"Within the range it stays there, with a unit of up to {show(high, 'ozone rate', family)}; at the worst "
            f"end it comes to {worst}: an estimate, never a clearance."
        )
    destruct = found.destruct_ratio
    if destruct.nominal == 0.0:
        high_end = destruct.ends[2]
        return (
            f"In the likeliest case it stays there. At the high end any one of: "
            f"{significant(found.changes_per_h.ends[2])} air changes an hour; a destruct unit that takes "
            f"{taken_share(Figure(high_end, high_end, high_end))} of the gas that is parted from the water; or a "
            f"unit of {show(high, 'ozone rate', family)}."
        )
    taken = "no destruct unit is enough" if destruct.nominal is None else (
        f"a destruct unit that takes {taken_share(destruct)} of the "
        "gas that is parted from the water"
    )  # fmt: skip
    return (
        f"Any one of: {plain(found.changes_per_h)} air changes an hour; {taken}; or a unit of "
        f"{figure(found.output_mg_per_h, 'ozone rate', family)} instead of "
        f"{show(result.rated_mg_per_h, 'ozone rate', family)}."
    )


def taken_share(value: Figure) -> str:
    """The share that a destruct unit must take: more than 99 % where that is not enough either.

    >>> taken_share(Figure(0.85, 0.96, 1.2)), taken_share(Figure(0.999, 0.999, 0.999))
    ('96 % (85 to more than 99)', 'more than 99 %')
    """
    low, nominal, high = ("more than 99" if end > 0.99 else significant(100.0 * end) for end in value.ends)
    return f"{nominal} %" if low == high == nominal else f"{nominal} % ({low} to {high})"


def _limits(result: Ozone, width: int) -> str:
    where = "over the water" if result.place == "outdoors" else "in the room"
    rows = [
        (row.body, row.averaged, significant(row.limit_ppmv), short_share(row.over_share_ratio))
        for row in result.limits
        if row.over_share_ratio is not None
    ]
    told = paragraph(
        f"Above it: share of the cases in which the air {where} passes the limit for somebody who stays all that time.",
        width,
    )
    return table(("who sets it", "averaged", "limit ppm", "above it"), rows, width, left=2) + "\n" + told
