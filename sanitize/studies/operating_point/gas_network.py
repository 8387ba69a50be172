"""The network with gas in the water behind the injector: lighter legs, larger losses, another port pressure.

Slopes are taken with the water flow of every link and with the gas flow, in this order: shape (links + 1, cases).
Gas flow is given per case; `studies.suction.gas_flow` seeks the one at which port and gas line agree.
"""

from dataclasses import dataclass
from typing import NamedTuple

import numpy as np

from sanitize.basis.constants import GRAVITY_MS2
from sanitize.laws.injector.choke import choke_pressure_pa_abs
from sanitize.laws.injector.diffuser import diffuser_balance
from sanitize.laws.injector.draw import gas_pressure_per_flow
from sanitize.laws.injector.gas_line import GasLine as LineLaw
from sanitize.laws.injector.gas_line import port_supply
from sanitize.laws.injector.mixing import Mixer, mixing_balance
from sanitize.laws.injector.port import Port as PortLaw
from sanitize.laws.injector.port import port_pressure_with_gas
from sanitize.laws.injector.two_phase import two_phase_multiplier, void_ratio
from sanitize.studies.draws import Array
from sanitize.studies.operating_point.assemble import Assembly, static_pressure
from sanitize.studies.operating_point.builder import PartRows
from sanitize.studies.operating_point.cavitation import Legs
from sanitize.studies.operating_point.injector_model import InjectorModel
from sanitize.studies.operating_point.rows import Drive, Lift, Row, merged, total
from sanitize.studies.operating_point.solve import SMALLEST_SLOPE, Network

LEAST_FLOW_M3S = 1e-7
"""Water flow below which gas is no longer spread over it [m3/s], so that no ratio grows without bound."""
SMALLEST_PRESSURE_PA_ABS = 1.0
"""Pressure that an iterate is held above; no answer comes near it, as the water boils long before."""
TINY_PA = 1e-12
"""Pressure below which a slope per pressure is no longer taken."""
OUTLET_PASSES = 4
"""Passes that settle the outlet's static pressure against the mixture's own velocity head."""


@dataclass
class Outlet:
    """What the injector stands in at one set of flows: G, total and static pressure behind it, its port."""

    gas_pa: Array
    total_pa_abs: Array
    outlet_pa_abs: Array
    port: PortLaw


class Sloped(NamedTuple):
    """A number over the cases and its slopes with every link's water flow and the gas flow."""

    value: Array
    slopes: Array


@dataclass(frozen=True, eq=False)
class Stand:
    """What stands behind the injector: G, static pressure at its outlet, and above the surface the total pressure
    behind it and at the end of its link."""

    gas_pa: Sloped
    outlet_pa_abs: Sloped
    behind_pa: Sloped
    end_pa: Sloped


@dataclass(frozen=True, eq=False)
class OpenBalance:
    """What is out of balance with the gas line open, and its slopes.

    loss_pa: of every link, its slopes (links, links + 1, cases); mixing_pa: what the mixing bore lacks; diffuser_pa:
    what the pressure at the bore's end has above the choke or the diffuser's balance, the lesser of the two;
    mixing_per_end, diffuser_per_end: their slopes with that pressure, bore_end_pa_abs, which is kept from the choke up.
    """

    loss_pa: Sloped
    mixing_pa: Sloped
    mixing_per_end: Array
    diffuser_pa: Sloped
    diffuser_per_end: Array
    bore_end_pa_abs: Array


class GasNetwork(Network):
    """A network whose injector draws a given gas flow [m3/s at local atmosphere and 20 degC]."""

    def __init__(self, assembly: Assembly, item: PartRows, mixer: Mixer, gas_flow_m3s: Array) -> None:
        super().__init__(assembly)
        if item.made.model is None:
            raise ValueError(f"{item.part.name} has no model")
        self.item = item
        self.model: InjectorModel = item.made.model
        self.mixer = mixer
        self.gas_flow_m3s = gas_flow_m3s
        self.link = item.link
        parts = assembly.of_link(self.link)
        position = parts.index(item)
        ahead = [row for part in parts[:position] for row in part.rows]
        apart = {id(row) for row in (*item.made.behind, item.made.core)}
        own_ahead = [row for row in item.rows if id(row) not in apart]
        self.ahead: list[Row] = merged([*ahead, *own_ahead])
        self.behind = parts[position + 1 :]
        affected = assembly.topology.reached(self.link)
        self.order = [index for index in reversed(assembly.topology.upstream_order()) if index in affected]
        self.apart = frozenset({self.link, *self.order})
        self.outlet: Outlet | None = None

    def losses(self, flow: Array) -> tuple[Array, Array, Legs, Array]:
        """As the dry network, with gas in every link that the injector's water passes."""
        loss, slopes, legs, stand = self._behind(flow)
        model, water, q = self.model, self.assembly.water, flow[self.link]
        z = model.dynamic_pa_s2m6 * q * q
        gas, outlet = stand.gas_pa, stand.outlet_pa_abs
        port = port_pressure_with_gas(z, gas.value, outlet.value, self.mixer, water.vapour_pa_abs)
        self.outlet = Outlet(gas.value, stand.behind_pa.value + self._surface_pa_abs(), outlet.value, port)
        follows = port.per_outlet * outlet.slopes + port.per_gas * gas.slopes
        follows[self.link] += np.asarray(port.per_z) * 2.0 * model.dynamic_pa_s2m6 * q
        self._put_injector(flow, loss, slopes, stand, Sloped(np.asarray(port.pa_abs), follows))
        takes = np.asarray(port.pa_abs) + model.nozzle_drop * z + model.inlet_pa_s2m6 * q * q
        takes = takes - self.outlet.total_pa_abs
        return loss, slopes[:, :-1], legs, np.asarray(takes - model.total_pa_s2m6 * q * np.abs(q))

    def open_balance(self, flow: Array, gas_flow_m3s: Array, bore_end_pa_abs: Array, line: LineLaw) -> OpenBalance:
        """The balances with the port at what the gas line leaves, as they stand with the bore's end at a pressure.

        Bubbly flow at the end of the mixing bore keeps above the choke's pressure there; either the diffuser balances,
        or the bore is choked and the diffuser could not hold more back. Where both nearly hold the two branches meet
        in a corner, and the slopes of either lead to the same root.
        """
        self.gas_flow_m3s = gas_flow_m3s
        loss, slopes, _, stand = self._behind(flow)
        q, gas, outlet = flow[self.link], stand.gas_pa, stand.outlet_pa_abs
        z = self.model.dynamic_pa_s2m6 * q * q
        z_slope = 2.0 * self.model.dynamic_pa_s2m6 * q
        supply = port_supply(gas_flow_m3s, line)
        offered = Sloped(np.asarray(supply.pa_abs), np.zeros_like(gas.slopes))
        offered.slopes[-1] = supply.slope_pa_sm3
        self._put_injector(flow, loss, slopes, stand, offered)

        choke = np.asarray(choke_pressure_pa_abs(z, gas.value, self.mixer))
        end = np.maximum(bore_end_pa_abs, np.maximum(choke, SMALLEST_PRESSURE_PA_ABS))
        mixing = mixing_balance(offered.value, end, z, gas.value, self.mixer)
        mixing_slopes = mixing.per_gas * gas.slopes
        mixing_slopes[self.link] += np.asarray(mixing.per_z) * z_slope
        mixing_slopes[-1] += offered.slopes[-1]

        diffuser = diffuser_balance(end, outlet.value, z, gas.value, self.mixer)
        above = end - choke
        is_choked = above < -np.asarray(diffuser.residual_pa)
        per_gas = np.where(is_choked, -0.5 * choke / np.maximum(gas.value, TINY_PA), -np.asarray(diffuser.per_gas))
        per_outlet = np.where(is_choked, 0.0, -np.asarray(diffuser.per_outlet))
        per_z = np.where(is_choked, -0.5 * choke / np.maximum(z, TINY_PA), -np.asarray(diffuser.per_z))
        diffuser_slopes = per_gas * gas.slopes + per_outlet * outlet.slopes
        diffuser_slopes[self.link] += per_z * z_slope
        return OpenBalance(
            Sloped(loss, slopes),
            Sloped(np.asarray(mixing.residual_pa), mixing_slopes),
            np.asarray(mixing.per_bore_end),
            Sloped(np.where(is_choked, above, -np.asarray(diffuser.residual_pa)), diffuser_slopes),
            np.where(is_choked, 1.0, -np.asarray(diffuser.per_bore_end)),
            end,
        )

    def _surface_pa_abs(self) -> Array:
        """Absolute pressure of still water at the injector's height [Pa]."""
        water = self.assembly.water
        static = static_pressure(self.item.height_m, self.assembly.condition.level_m, water.density_kgm3)
        return np.asarray(water.atmosphere_pa_abs - static)

    def _put_injector(self, flow: Array, loss: Array, slopes: Array, stand: Stand, port: Sloped) -> None:
        """Add what the injector's link loses from its start to its end, with a port at this pressure."""
        model, q = self.model, flow[self.link]
        ahead, ahead_slope = total(self.ahead, q, self.assembly.water)
        square = model.nozzle_drop * model.dynamic_pa_s2m6 + model.inlet_pa_s2m6
        loss[self.link] += ahead + square * q * q + port.value - self._surface_pa_abs() - stand.end_pa.value
        slopes[self.link] += port.slopes - stand.end_pa.slopes
        slopes[self.link, self.link] += ahead_slope + 2.0 * square * q + SMALLEST_SLOPE

    def _gas_of_links(self, flow: Array) -> dict[int, Sloped]:
        """G = p Qgas/Qwater of the injector's link and of all that its water reaches [Pa]."""
        water, topology = self.assembly.water, self.assembly.topology
        per_flow = float(gas_pressure_per_flow(1.0, water.temperature_c, water.atmosphere_pa_abs))
        carried = {self.link: Sloped(per_flow * self.gas_flow_m3s, np.zeros((len(flow) + 1, self.size)))}
        carried[self.link].slopes[-1] = per_flow
        for index in reversed(self.order):
            start = topology.links[index].start
            if start is None:
                raise ValueError("a link behind the injector cannot start in the tub")
            meeting = topology.meetings[start]
            if meeting.diverging:
                whole = np.maximum(flow[meeting.combined], LEAST_FLOW_M3S)
                share = np.clip(flow[index] / whole, 0.0, 1.0)
                rate = carried[meeting.combined]
                slopes = rate.slopes * share
                moves = np.where((share > 0.0) & (share < 1.0), rate.value / whole, 0.0)
                slopes[index] += moves
                slopes[meeting.combined] -= moves * share
                carried[index] = Sloped(rate.value * share, slopes)
            else:
                fed = [carried[way] for way in meeting.ways if way in carried]
                carried[index] = Sloped(
                    np.asarray(sum(rate.value for rate in fed)), np.asarray(sum(rate.slopes for rate in fed))
                )
        found: dict[int, Sloped] = {}
        for index, rate in carried.items():
            q = np.maximum(flow[index], LEAST_FLOW_M3S)
            gas, slopes = rate.value / q, rate.slopes / q
            slopes[index] -= np.where(flow[index] > LEAST_FLOW_M3S, gas / q, 0.0)
            found[index] = Sloped(gas, slopes)
        return found

    def _end_total(self, index: int, starts: dict[int, Sloped], legs: Legs, leg_slopes: Legs) -> Sloped:
        """Total pressure above the surface at the end of a link, before the tee that ends it takes its part [Pa]."""
        topology = self.assembly.topology
        end = topology.links[index].end
        if end is None:
            return Sloped(np.zeros(self.size), np.zeros((len(topology.links) + 1, self.size)))
        meeting = topology.meetings[end]

        def with_leg(start: Sloped, position: int) -> Sloped:
            slopes = start.slopes.copy()
            slopes[:-1] += leg_slopes[end, position]
            return Sloped(start.value + legs[end, position], slopes)

        if not meeting.diverging:
            return with_leg(starts[meeting.combined], meeting.ways.index(index))
        found = with_leg(starts[meeting.ways[0]], 0)
        if self.shut.any():
            blocked = topology.blocked(self.shut)
            for position, way in reversed(list(enumerate(meeting.ways))):
                other = with_leg(starts[way], position)
                found = Sloped(
                    *(np.where(blocked[way], ours, theirs) for ours, theirs in zip(found, other, strict=True))
                )
        return found

    def _march(self, items: list[PartRows], end: Sloped, index: int, flow: Array, gas: Sloped) -> Sloped:
        """Total pressure in front of parts of a link [Pa above the surface], from behind them upstream."""
        here = end
        for position in range(len(items) - 1, -1, -1):
            item = items[position]
            before = items[position - 1].height_m if position else self._height_before(item)
            rise = None if self.assembly.in_open_leg(item) else item.height_m - before
            here = self._before(item.rows, item.height_m, rise, here, index, flow, gas)
        return here

    def _before(
        self, rows: list[Row], height_m: Array, rise_m: Array | None, here: Sloped, index: int, flow: Array,
        gas: Sloped,
    ) -> Sloped:  # fmt: skip
        """Total pressure in front of some rows from that behind them, which stands at a height, after a rise."""
        water = self.assembly.water
        static = static_pressure(height_m, self.assembly.condition.level_m, water.density_kgm3)
        absolute = np.maximum(water.atmosphere_pa_abs + here.value - static, water.vapour_pa_abs)
        heavier = np.asarray(two_phase_multiplier(gas.value, absolute))
        wet, wet_slope = total([row for row in rows if not isinstance(row, Lift | Drive)], flow, water)
        value, per_here, per_gas = here.value + heavier * wet, 1.0 - (heavier - 1.0) * wet / absolute, wet / absolute
        own = heavier * wet_slope
        dry_rows = [row for row in rows if isinstance(row, Lift | Drive)]
        if dry_rows:
            dry, dry_slope = total(dry_rows, flow, water)
            value, own = value + dry, own + dry_slope
        if rise_m is not None:
            weight = water.density_kgm3 * GRAVITY_MS2 * rise_m
            void = np.asarray(void_ratio(gas.value, absolute))
            per_void = weight / (absolute + gas.value)
            value, per_here = value - weight * void, per_here + per_void * void
            per_gas = per_gas - per_void * (1.0 - void)
        slopes = here.slopes * per_here + gas.slopes * per_gas
        slopes[index] += own
        return Sloped(value, slopes)

    def _height_before(self, item: PartRows) -> Array:
        """Height at which a link's first part begins: the injector's, or that of the junction before it."""
        if item.link == self.link:
            return self.item.height_m
        start = self.assembly.topology.links[item.link].start
        if start is None:
            return item.height_m
        return self.assembly.junction_height_m(start)

    def _behind(self, flow: Array) -> tuple[Array, Array, Legs, Stand]:
        """Losses of all links with gas behind the injector, of its own the tees' alone, and what stands behind it."""
        loss, jacobian, legs, leg_slopes = self.links_and_tees(flow)
        slopes = np.concatenate([jacobian, np.zeros_like(jacobian[:, :1])], axis=1)
        gas = self._gas_of_links(flow)
        starts: dict[int, Sloped] = {}
        for index in self.order:
            end = self._end_total(index, starts, legs, leg_slopes)
            start = self._march(self.assembly.of_link(index), end, index, flow[index], gas[index])
            loss[index] += start.value - end.value
            slopes[index] += start.slopes - end.slopes
            slopes[index, index] += SMALLEST_SLOPE
            starts[index] = start
        q, own_gas = flow[self.link], gas[self.link]
        end = self._end_total(self.link, starts, legs, leg_slopes)
        here = self._march(self.behind, end, self.link, q, own_gas)
        here = self._before(self.item.made.behind, self.item.height_m, None, here, self.link, q, own_gas)
        outlet = self._outlet(here, q, own_gas)
        return loss, slopes, legs, Stand(own_gas, outlet, here, end)

    def _outlet(self, behind: Sloped, q: Array, gas: Sloped) -> Sloped:
        """Static pressure at the injector's outlet from the total pressure there [Pa absolute]."""
        least = self.assembly.water.vapour_pa_abs
        total_abs = self._surface_pa_abs() + behind.value
        head = self.model.outlet_pa_s2m6 * q * q
        outlet = np.maximum(total_abs - head, least)
        for _ in range(OUTLET_PASSES):
            full = 1.0 + gas.value / outlet
            outlet = np.maximum(total_abs - head * full * full, least)
        full = np.asarray(two_phase_multiplier(gas.value, outlet))
        per_gas = 2.0 * head * full / outlet
        slopes = behind.slopes - per_gas * gas.slopes
        slopes[self.link] -= 2.0 * self.model.outlet_pa_s2m6 * q * full * full
        slopes /= 1.0 - per_gas * (full - 1.0)
        return Sloped(outlet, slopes)
