"""Notices of the ozone study: assumptions made and limits met, each with a stable code."""

from collections.abc import Iterator

import numpy as np

from sanitize.basis.figure import Figure
from sanitize.basis.figure_words import share
from sanitize.basis.notices import Notice
from sanitize.basis.units import show, significant
from sanitize.laws.ozone.conversions import weight_ratio_of_volume
from sanitize.laws.ozone.solubility import HIGHEST_C, LOWEST_C
from sanitize.plant.gas import OzoneUnit
from sanitize.plant.loop import Plant
from sanitize.studies.ozone.model import Flows, Steady
from sanitize.studies.ozone.numbers import entry, number
from sanitize.studies.ozone.result import RunFrom
from sanitize.studies.ozone.rooms import assumed_notice
from sanitize.studies.ozone.water import KnownWater

DECAY_MEASURED_FROM_C = 15.0
"""Coldest water in which the rate of decay behind the table was measured."""
NO_OZONE_PEROXIDE_MGL = 1.0
"""Peroxide from which on hardly any ozone lasts (a choice of this project: half is gone in two minutes)."""


def notices_of(
    plant: Plant, unit: OzoneUnit, flows: Flows, found: Steady, tested: KnownWater, feed_ppmv: Figure, run_from: RunFrom
) -> Iterator[Notice]:
    """Everything that a reader of the answer must know beside it."""
    yield from _about_unit(plant, unit, flows, feed_ppmv)
    yield from _about_transfer(plant, flows, found)
    yield from _about_water(plant, tested)
    yield from _about_air(plant, found)
    yield from _about_people(plant, run_from)
    yield Notice(
        "ozone-numbers-judged",
        "How fast the water destroys ozone, what bathers bring, how bubbles stay apart and how the air moves over the "
        "water are judgements; their ranges are carried into every figure.",
    )


def _about_unit(plant: Plant, unit: OzoneUnit, flows: Flows, feed_ppmv: Figure) -> Iterator[Notice]:
    gas = float(flows.gas_m3s[0])
    if gas <= 0.0:
        yield Notice(
            "ozone-not-drawn",
            "In the likeliest case the injector draws no gas: no ozone reaches the water then, and what the unit makes "
            "stays in its line or seeps into the air. `sanitize suction --advise` says what to change.",
        )
    if unit.at_gas_flow_m3s is None:
        yield Notice(
            "ozone-output-without-flow",
            "[ozone] at_gas_flow is not given: the rated output is taken at any gas flow.",
        )
    if unit.least_gas_flow_m3s is not None and 0.0 < gas < unit.least_gas_flow_m3s:
        yield Notice(
            "ozone-gas-below-least",
            f"Less gas is drawn than the unit needs ({show(unit.least_gas_flow_m3s, 'gas flow', plant.units)}): its "
            "cell runs hot and makes less than computed.",
        )
    most = number("damp_feed_most_ppmv")
    dry = number("dry_feed_most_ratio")
    if feed_ppmv.nominal is None:
        return
    weight = float(weight_ratio_of_volume(min(1e-6 * feed_ppmv.nominal, 1.0)))
    if unit.feed == "room air" and feed_ppmv.nominal > most:
        yield Notice(
            "ozone-feed-implausible",
            f"The gas would hold {feed_ppmv.nominal:.2g} ppm of ozone; the most that was read for a small unit with "
            f"undried air is {most:.0f} ppm. Check output and gas flow on its label.",
        )
    if unit.feed == "dried air" and weight > dry:
        yield Notice(
            "ozone-feed-implausible",
            f"The gas would hold {100.0 * weight:.2g} % of ozone by weight; units with dried air reach about "
            f"{100.0 * dry:.0f} %. Check output and gas flow on its label.",
        )


def _about_transfer(plant: Plant, flows: Flows, found: Steady) -> Iterator[Notice]:
    drawing = flows.solved & (flows.gas_m3s > 0.0)
    if not drawing.any():
        return
    slow = float(np.mean(found.is_slow[drawing]))
    if slow > 0.0:
        yield Notice(
            "ozone-slow-pipe",
            f"In {share(slow)} of the cases a pipe behind the injector is too wide or slow to keep bubbles apart: the "
            "law of transfer ends there, and anything from nothing to its figure is counted.",
        )
    if not flows.way.pieces:
        yield Notice(
            "ozone-no-contact",
            "No pipe or hose stands behind the injector: only the injector itself and the bubbles in the tub transfer.",
        )
    if flows.way.has_branches:
        yield Notice(
            "ozone-branches",
            "The gas parts on its way to the tub; the way that takes most water stands for all.",
        )
    if flows.way.depth_m[0] <= 0.0:
        yield Notice("ozone-falls-free", "The return falls free: no bubbles rise through the tub's water.")
    if plant.ozone is not None and plant.ozone.destruct_ratio > 0.0:
        yield Notice(
            "ozone-destruct-needs-separation",
            "A destruct unit only sees gas that is parted from the water before the return; without that it does not "
            "take out what the file says.",
        )


def _about_water(plant: Plant, tested: KnownWater) -> Iterator[Notice]:
    temperature = plant.tub.temperature_c
    here = show(temperature, "temperature", plant.units)
    if not LOWEST_C <= temperature <= HIGHEST_C:
        ends = [show(end, "temperature", plant.units) for end in (LOWEST_C, HIGHEST_C)]
        yield Notice(
            "ozone-solubility-extrapolated",
            f"Water of {here}: ozone's solubility was measured from {ends[0]} to {ends[1]} and is carried on.",
        )
    if temperature < DECAY_MEASURED_FROM_C:
        measured = show(DECAY_MEASURED_FROM_C, "temperature", plant.units)
        yield Notice(
            "ozone-decay-carried-on",
            f"Water of {here}: the rate at which ozone decays was measured from {measured} on and is carried on.",
        )
    if tested.ph is None:
        ph = entry("water_ph")
        yield Notice(
            "ozone-ph-assumed", f"No water test gives the pH: {ph.value:g} ({ph.low:g} to {ph.high:g}) stands in."
        )
    if tested.free_chlorine_mgl is None and tested.bromine_mgl is None and tested.peroxide_mgl is None:
        yield Notice(
            "ozone-oxidants-unknown",
            "No water test names chlorine, bromine or peroxide: none is counted. Each of them destroys ozone, and "
            "ozone destroys each of them.",
        )
    peroxide = tested.peroxide_mgl
    if peroxide is not None and peroxide.nominal >= NO_OZONE_PEROXIDE_MGL:
        yield Notice(
            "ozone-meets-peroxide",
            f"With {significant(peroxide.nominal)} mg/L of peroxide ozone is gone within seconds to minutes: expect no "
            "residual of it. What does not dissolve goes to the air all the same.",
        )
    if tested.free_chlorine_mgl is not None and tested.free_chlorine_mgl.nominal > 0.0:
        yield Notice(
            "ozone-meets-chlorine",
            "Ozone and chlorine destroy each other; part of the chlorine becomes chlorate. Test chlorine after the "
            "ozone has run, not before.",
        )


def _about_air(plant: Plant, found: Steady) -> Iterator[Notice]:
    if found.air.is_assumed:
        yield assumed_notice(plant)
    if plant.room is not None and plant.tub.place == "outdoors":
        yield Notice("ozone-room-not-counted", "The tub stands outdoors: [room] is not counted.")
    if plant.room is not None and plant.room.changes_per_h is None and plant.tub.place != "outdoors":
        changes = entry("shut_room_changes_per_h")
        yield Notice(
            "ozone-air-changes-assumed",
            f"[room] air_changes_per_hour is not given: {changes.low:g} to {changes.high:g} an hour, as with door and "
            "window shut, stand in.",
        )
    outdoor = entry("outdoor_ozone_mgm3")
    ends = [significant(float(found.ppmv(np.full(1, end))[0])) for end in (outdoor.low, outdoor.high)]
    yield Notice(
        "ozone-outdoor-air",
        f"What the outdoor air holds itself, often {ends[0]} to {ends[1]} ppm, comes on top of every figure for the "
        "air.",
    )


def _about_people(plant: Plant, run_from: RunFrom) -> Iterator[Notice]:
    if plant.bathers is None:
        yield Notice(
            "ozone-bathers-assumed",
            f"The file names no [bathers]: {number('bathers_a_day_count'):g} dip a day is counted.",
        )
    if run_from == "assumed":
        yield Notice(
            "ozone-hours-assumed",
            "The file does not say how long the ozone runs: 24 h a day are counted, the most that it can supply. "
            "`ozone_hours` in [timer] says it.",
        )
    if run_from == "pump_times":
        yield Notice(
            "ozone-with-pump", "The ozone unit has no times of its own: it is counted as running with the pump."
        )
