"""The pipe behind the injector, piece by piece, and how much ozone crosses into the water along it."""

from dataclasses import dataclass

import numpy as np

from sanitize.laws.hydraulics.friction import friction_factor
from sanitize.laws.ozone.kla import (
    bubble_diameter_m,
    diffusivity_m2s,
    dissipation_wkg,
    film_ms,
    surface_tension_nm,
    transfer_per_s,
)
from sanitize.laws.ozone.transfer import along_pipe
from sanitize.plant.ends import Return
from sanitize.plant.part import LENGTH
from sanitize.plant.pipework import Hose, Pipe
from sanitize.studies.draws import Array, Mask
from sanitize.studies.operating_point.bores import area_m2
from sanitize.studies.operating_point.builder import PartRows
from sanitize.studies.operating_point.run import Run
from sanitize.studies.ozone.numbers import Numbers, number

UPRIGHT_RATIO = 0.7
"""Share of its length that a pipe climbs or falls from which it counts as upright (a choice of this project)."""
SECONDS_PER_MIN = 60.0


@dataclass(frozen=True, eq=False)
class Piece:
    """A length of pipe with gas in it; share_ratio: of all the gas, that goes through it."""

    name: str
    length_m: Array
    bore_m: float
    water_m3s: Array
    share_ratio: Array
    is_upright: bool


@dataclass(frozen=True, eq=False)
class Passage:
    """The way of the gas from the injector to the tub; flows over the cases with the gas line open.

    depth_m: of the return below the water, 0 where it falls free; has_branches: whether the gas parts on its way.
    """

    pieces: tuple[Piece, ...]
    injector_m3s: Array
    depth_m: Array
    has_branches: bool


@dataclass(frozen=True, eq=False)
class Crossed:
    """What leaves the pipe for 1 g/m3 in the gas alone at its start, and for 1 mg/L in the water alone.

    water: mg/L beside all the gas, gas: g/m3 at the state of the contact; end_m3s: the water beside all the gas.
    """

    water_of_gas: Array
    gas_of_gas: Array
    water_of_water: Array
    gas_of_water: Array
    end_m3s: Array
    stay_s: Array
    is_slow: Mask


def passage(running: Run, injector_m3s: Array, total_m3s: Array) -> Passage:
    """Every pipe and hose behind the injector on the way that takes most of its water.

    injector_m3s, total_m3s: water with the gas line open; flows elsewhere keep their share of the closed ones.
    """
    port = running.port
    if port is None:
        raise ValueError("the loop has no injector")
    topology = running.assembly.topology
    with np.errstate(divide="ignore", invalid="ignore"):
        own = np.where(port.flow_m3s > 0.0, injector_m3s / port.flow_m3s, 1.0)
        whole = np.where(running.flow_m3s > 0.0, total_m3s / running.flow_m3s, 1.0)
    pieces: list[Piece] = []
    link, share, branches = port.link, np.ones(port.flow_m3s.size), False
    height = port.height_m
    items = running.assembly.of_link(link)
    behind = items[next(n for n, item in enumerate(items) if item.part.name == port.name) + 1 :]
    while True:
        flow = np.maximum(running.solution.flow_m3s[link], 0.0) * (own if link == port.link else whole)
        for item in behind:
            if isinstance(item.part, Pipe | Hose):
                pieces.append(_piece(running, item, flow, share, height))
            height = item.height_m
        end = topology.links[link].end
        if end is None:
            break
        meeting = topology.meetings[end]
        if meeting.diverging:
            branches = True
            following = max(meeting.ways, key=lambda way: float(running.solution.flow_m3s[way][0]))
            after = np.maximum(running.solution.flow_m3s[following], 0.0) * whole
            share = share * np.where(flow > 0.0, np.minimum(after / np.where(flow > 0.0, flow, 1.0), 1.0), 1.0)
        else:
            following = meeting.combined
        link, behind = following, running.assembly.of_link(following)
    last = behind[-1] if behind else items[-1]
    is_return = isinstance(last.part, Return)
    depth = np.maximum(running.assembly.condition.level_m - last.height_m, 0.0) if is_return else np.zeros(share.size)
    return Passage(tuple(pieces), injector_m3s, depth, branches)


def _piece(running: Run, item: PartRows, flow: Array, share: Array, height_m: Array) -> Piece:
    part = item.part
    assert isinstance(part, Pipe | Hose)
    length = running.assembly.builder.stated(part, "length", part.length_m, LENGTH.measure)
    climbs = abs(float(item.height_m[0] - height_m[0])) >= UPRIGHT_RATIO * float(length[0])
    short = float(length[0]) <= number("short_pipe_m")
    return Piece(part.name, length, item.bore.outlet_m, flow, share, climbs or short)


def crossing(
    way: Passage, running: Run, gas_m3s: Array, solubility: Array, decay_per_min: Array, numbers: Numbers
) -> Crossed:
    """Ozone along the pipe, for gas alone and for water alone; the two add up, as all of it is linear.

    gas_m3s: gas at the state of the contact, above 0; decay_per_min: of ozone in this water.
    """
    water = running.assembly.water
    nu = water.viscosity_pas / water.density_kgm3
    tension = float(surface_tension_nm(water.temperature_c))
    diffusivity = float(diffusivity_m2s(water.temperature_c, nu))
    units, mean, eddies = numbers("injector_gas_units"), numbers("bubble_mean_ratio"), numbers("eddy_film_ratio")
    slow_share = numbers("slow_pipe_ratio")
    shares = {True: numbers("dispersed_upright_ratio"), False: numbers("dispersed_lying_ratio")}
    size = gas_m3s.size
    beside = np.maximum(way.injector_m3s, 1e-12)
    first_ratio = gas_m3s / beside
    in_injector = units * first_ratio / solubility
    of_gas = along_pipe(np.zeros(size), np.ones(size), first_ratio, solubility, in_injector)
    of_water = along_pipe(np.ones(size), np.zeros(size), first_ratio, solubility, in_injector)
    stay, is_slow = np.zeros(size), np.zeros(size, dtype=bool)
    for piece in way.pieces:
        flow = np.maximum(piece.water_m3s, 1e-12)
        joined = np.maximum(flow / np.maximum(piece.share_ratio, 1e-9) - beside, 0.0)
        mixed = beside + joined
        x_gas = of_gas.water_mgl * beside / mixed
        x_water = (of_water.water_mgl * beside + joined) / mixed
        beside = mixed
        ratio = gas_m3s / beside
        velocity = flow * (1.0 + ratio) / area_m2(piece.bore_m)
        reynolds = velocity * piece.bore_m / nu
        eps = dissipation_wkg(friction_factor(np.maximum(reynolds, 1.0), 0.0), velocity, piece.bore_m)
        bubble = bubble_diameter_m(np.maximum(eps, 1e-9), tension, water.density_kgm3, mean)
        slow = (
            (reynolds < number("slow_pipe_reynolds_count"))
            | (bubble > number("slow_pipe_bubble_m"))
            | (bubble > piece.bore_m / 4.0)
        )
        kla = transfer_per_s(film_ms(eps, nu, diffusivity, eddies), ratio, bubble, shares[piece.is_upright])
        kla = np.where(slow, slow_share, 1.0) * kla
        volume = area_m2(piece.bore_m) * piece.length_m
        n, k = kla * volume / flow, decay_per_min / SECONDS_PER_MIN * volume / flow
        of_gas = along_pipe(x_gas, of_gas.gas_gm3, ratio, solubility, n, k)
        of_water = along_pipe(x_water, of_water.gas_gm3, ratio, solubility, n, k)
        stay, is_slow = stay + volume / (flow * (1.0 + ratio)), is_slow | slow
    return Crossed(of_gas.water_mgl, of_gas.gas_gm3, of_water.water_mgl, of_water.gas_gm3, beside, stay, is_slow)
