"""Cleaner and bigger filters and covers."""

from sanitize.basis.tables import default
from sanitize.plant.ends import Strainer, Suction
from sanitize.plant.loop import Plant, walk
from sanitize.plant.machines import Filter
from sanitize.studies.advice.change import Change
from sanitize.studies.advice.edit import changed, part_of

EARLIER_RATIOS = (1.5, 1.25)
"""Growth of the filter's clean drop at which it is cleaned instead (a choice of this project)."""
BIGGER_RATIO = 0.5
"""Drop of a filter with twice the cloth over the present one at the same flow (an estimate: half the face velocity)."""


def cleaned_filters(plant: Plant) -> list[Change]:
    """Each filter that is dirty as it stands now, cleaned."""
    return [
        Change(
            "clean-filter",
            f"Clean {part.name}: it takes {part.fouling_ratio.nominal:.2g} times what it takes clean.",
            lambda loop, name=part.name: changed(loop, name, fouling_ratio=None),  # type: ignore[misc]
        )
        for part in walk(plant.loop)
        if isinstance(part, Filter) and part.fouling_ratio is not None and part.fouling_ratio.nominal > 1.0
    ]


def earlier_cleaning(plant: Plant) -> list[Change]:
    """Each filter cleaned before its drop has grown as far as the file lets it."""
    return [
        Change(
            "clean-earlier",
            f"Clean {part.name} when its drop has grown to {ratio:g} times that of the clean one, not {_loaded(part):g}"
            " times.",
            lambda loop, name=part.name, ratio=ratio: changed(loop, name, loaded_ratio=ratio),  # type: ignore[misc]
            "loaded filter",
        )
        for part in walk(plant.loop)
        if isinstance(part, Filter)
        for ratio in EARLIER_RATIOS
        if ratio < _loaded(part)
    ]


def _loaded(part: Filter) -> float:
    return default("filter_loaded_ratio").value if part.loaded_ratio is None else part.loaded_ratio


def bigger_filters(plant: Plant) -> list[Change]:
    """Each filter with twice the cloth."""
    return [
        Change(
            "bigger-filter",
            f"Take for {part.name} one with twice the cloth, which takes half the pressure at the same flow.",
            lambda loop, name=part.name: _bigger(loop, name),  # type: ignore[misc]
        )
        for part in walk(plant.loop)
        if isinstance(part, Filter)
    ]


def _bigger(plant: Plant, name: str) -> Plant:
    part: Filter = part_of(plant, name)
    return changed(
        plant,
        name,
        drop_pa=None if part.drop_pa is None else part.drop_pa.scaled(BIGGER_RATIO),
        drops=tuple((flow, BIGGER_RATIO * drop) for flow, drop in part.drops),
        media_area_m2=None if part.media_area_m2 is None else part.media_area_m2 / BIGGER_RATIO,
    )


def clear_covers(plant: Plant) -> list[Change]:
    """Each suction cover and strainer that is partly clogged, cleared."""
    return [
        Change(
            "clear-cover",
            f"Clear {part.name}: {100.0 * part.clogged_ratio:.0f} % of its openings are covered.",
            lambda loop, name=part.name: changed(loop, name, clogged_ratio=0.0),  # type: ignore[misc]
        )
        for part in walk(plant.loop)
        if isinstance(part, Suction | Strainer) and part.clogged_ratio > 0.0
    ]
