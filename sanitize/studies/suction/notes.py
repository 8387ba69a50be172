"""Notices of the suction study: assumptions made and limits met, each with a stable code."""

import numpy as np

from sanitize.basis.figure_words import share as share_words
from sanitize.basis.notices import Notice
from sanitize.basis.tables import default
from sanitize.basis.units import Family, show, to_base, to_shown
from sanitize.laws.hydraulics.friction import LAMINAR_END_RE, TURBULENT_START_RE
from sanitize.plant.loop import Plant
from sanitize.plant.machines import Chiller, Filter, Pump
from sanitize.studies.cautions.facts import Facts
from sanitize.studies.draws import Mask
from sanitize.studies.figures import figure
from sanitize.studies.operating_point.part_rows import pump_curve
from sanitize.studies.operating_point.run import Run
from sanitize.studies.suction.result import Level, StateName
from sanitize.studies.suction.states import GasSide


def notices_of(
    plant: Plant, running: Run, answers: dict[tuple[StateName, Level], Run], gas: GasSide
) -> tuple[Notice, ...]:
    """Everything that a reader of the answer must know beside it."""
    found = list(running.assembly.notices)
    found += _about_injector(plant, running)
    found += _about_flow(plant, running)
    found += _about_pumps(plant, running)
    found += _about_filters(plant, running)
    if plant.gas_line is None:
        found.append(
            Notice(
                "gas-line-assumed",
                "No [gas_line] is given: a check valve with the table's opening, and no height, is assumed.",
            )
        )
    for (state, level), answer in answers.items():
        if state == "filter loaded" and level == "normal":
            found += _about_loading(running, answer, gas)
    return tuple(found)


def _about_injector(plant: Plant, running: Run) -> list[Notice]:
    port = running.port
    found: list[Notice] = []
    if port is None:
        return found
    behind = parts_behind_injector(running)
    named = [name for name, part in behind if isinstance(part, Filter | Chiller)]
    if named:
        found.append(
            Notice(
                "injector-before-machine",
                f"The injector stands before {', '.join(named)}: gas collects in there, ozone wears what it touches, "
                "and its drop presses on the injector's outlet. Behind them it draws more easily.",
            )
        )
    lowest = figure(port.port_pa_gauge + running.assembly.water.atmosphere_pa_abs).ends[0]
    if bool(port.cavitates.any()):
        share = float(np.mean(port.cavitates))
        found.append(
            Notice(
                "vapour-floor",
                f"In {share_words(share)} of the cases the port reaches the water's vapour pressure: the water boils "
                "in the throat, its flow is choked, and the vacuum goes no deeper.",
            )
        )
    elif lowest < default("dissolved_air_notice_pa_abs").value:
        found.append(
            Notice(
                "air-comes-out",
                "The port may go so low that dissolved air comes out of the water in the throat; the vacuum then "
                "reads less than computed.",
            )
        )
    return found


def parts_behind_injector(running: Run) -> list[tuple[str, object]]:
    """Names and parts that the injector's water passes later."""
    port = running.port
    if port is None:
        return []
    items = running.assembly.of_link(port.link)
    position = next(n for n, item in enumerate(items) if item.part.name == port.name)
    found: list[tuple[str, object]] = [(item.part.name, item.part) for item in items[position + 1 :]]
    for link in sorted(running.assembly.topology.reached(port.link)):
        found += [(item.part.name, item.part) for item in running.assembly.of_link(link)]
    return found


def _about_flow(plant: Plant, running: Run) -> list[Notice]:
    found: list[Notice] = []
    water = running.assembly.water
    transitional = []
    for station in running.stations:
        if station.word not in ("pipe", "flexible hose", "vinyl tube"):
            continue
        reynolds = np.abs(station.velocity_ms) * station.bore_m * water.density_kgm3 / water.viscosity_pas
        low, _, high = figure(np.where(running.solved, reynolds, np.nan)).ends
        if low < TURBULENT_START_RE and high > LAMINAR_END_RE:
            transitional.append(station.name)
    if transitional:
        found.append(
            Notice(
                "transitional-flow",
                f"Transitional flow in {', '.join(transitional)}: friction uncertain by 30 % or more.",
            )
        )
    if not bool(running.solved.all()):
        share = float(np.mean(~running.solved))
        found.append(
            Notice(
                "cases-without-answer",
                f"In {share_words(share)} of the cases the flows do not settle, or a way would run backwards or let "
                "air in; they count as not drawing.",
            )
        )
    found += _about_high_returns(running)
    for link, mask in running.solution.still.items():
        if bool(mask[0]) and running.assembly.of_link(link) and not running.solution.stranded[link, 0]:
            found.append(
                Notice(
                    "way-stands-still",
                    f"No water moves in {running.assembly.topology.links[link].way or 'the loop'}: "
                    "a valve is shut or a check valve holds it.",
                )
            )
    for name, mask in running.open_legs.items():
        if bool(mask.any()):
            found.append(
                Notice(
                    "down-leg-slow",
                    f"The water in the leg down to {name} may run too slowly to keep it full "
                    f"(below about {show(default('down_leg_velocity_ms').value, 'velocity', plant.units)}): "
                    "at the low end no pull of that leg is counted.",
                )
            )
    return found


def _about_high_returns(running: Run) -> list[Notice]:
    """Ways whose water does not reach their return, or not the top before a leg that has emptied."""
    found: list[Notice] = []
    for link, mask in zip(running.assembly.topology.links, running.solution.stranded & running.solved, strict=True):
        if not mask.any():
            continue
        last = running.assembly.of_link(link.index)[-1]
        high = mask & (last.height_m > running.assembly.condition.level_m)
        if high.any():
            text = (
                f"No water reaches {last.part.name}{_when(high)}: it hangs above the water, higher than the pressure "
                f"where {link.way} begins lifts it. That way carries none, as if it were shut."
            )
            found.append(Notice("return-too-high", text))
        if (mask & ~high).any():
            text = (
                f"No water passes the top of {link.way}{_when(mask & ~high)}: the leg down to {last.part.name} has "
                "emptied, and the pressure where that way begins does not lift the water over its top again."
            )
            found.append(Notice("way-over-its-top-stands", text))
    return found


def _when(mask: Mask) -> str:
    return "" if mask[0] else f" in {share_words(float(np.mean(mask)))} of the cases"


def _about_pumps(plant: Plant, running: Run) -> list[Notice]:
    found: list[Notice] = []
    for item in running.assembly.parts:
        if isinstance(item.part, Pump) and item.part.running:
            last = pump_curve(item.part).last_point_flow_m3s * item.part.speed_ratio
            flow = running.solution.flow_m3s[item.link]
            if figure(np.where(running.solved, flow, np.nan)).ends[2] > last:
                found.append(
                    Notice(
                        "past-pump-curve",
                        f"{item.part.name} may run past the last point of its curve "
                        f"({show(last, 'flow', plant.units)}); its end slope is carried on.",
                    )
                )
    return found


def _about_filters(plant: Plant, running: Run) -> list[Notice]:
    found: list[Notice] = []
    for item in running.assembly.parts:
        if not isinstance(item.part, Filter) or item.part.media_area_m2 is None:
            continue
        high = figure(running.solution.flow_m3s[item.link]).ends[2] / item.part.media_area_m2
        for name, words in (
            ("filter_face_velocity_residential_ms", "more than even home cartridges are listed for"),
            ("filter_face_velocity_listed_ms", "more than public cartridges are listed for"),
            ("filter_face_velocity_public_ms", "more than one public code allows for surface cartridges"),
        ):
            if high > default(name).value:
                found.append(
                    Notice(
                        "filter-face-velocity",
                        f"The water may pass the cloth of {item.part.name} at {_face(high, plant.units)}, {words} "
                        f"({_face(default(name).value, plant.units)}): it catches less and clogs sooner.",
                    )
                )
                break
    return found


def _face(velocity_ms: float, family: Family) -> str:
    """Flow through a square of cloth, as people state it."""
    if family == "us":
        flow = to_shown(velocity_ms * to_base(1.0, "area", "ft2"), "flow", "gal/min")
        return f"{flow:.3g} gal/min per ft2"
    return f"{3600.0 * velocity_ms:.3g} m3/h per m2"


def about_speed(facts: Facts) -> tuple[Notice, ...]:
    """Water faster behind the pump than home practice has it, though not beyond the limit of a caution."""
    speed, practice = facts.return_velocity_high_ms, default("return_velocity_practice_ms").value
    if not practice < speed <= default("return_velocity_limit_ms").value:
        return ()
    return (
        Notice(
            "fast-return",
            f"The water may run at {show(speed, 'velocity', facts.family)} through {facts.return_velocity_part}; "
            f"home practice stays below {show(practice, 'velocity', facts.family)} behind the pump.",
        ),
    )


def _about_loading(running: Run, loaded: Run, gas: GasSide) -> list[Notice]:
    if running.port is None or loaded.port is None:
        return []
    clean = bool(running.port.port_pa_gauge[0] + gas.opens_at_pa[0] < 0.0)
    later = bool(loaded.port.port_pa_gauge[0] + gas.opens_at_pa[0] < 0.0)
    if clean and not later:
        return [
            Notice(
                "stops-with-loaded-filter",
                "With the filter loaded the injector stops drawing: clean it before that, or leave more margin.",
            )
        ]
    return []
