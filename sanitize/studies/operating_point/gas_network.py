"""The network with gas in the water behind the injector: lighter legs, larger losses, another port pressure.

Gas flow is given per case; `studies.suction.gas_flow` seeks the one at which port and gas line agree.
"""

from dataclasses import dataclass

import numpy as np

from sanitize.basis.constants import GRAVITY_MS2
from sanitize.laws.injector.choke import choke_pressure_pa_abs
from sanitize.laws.injector.diffuser import diffuser_balance
from sanitize.laws.injector.draw import gas_pressure_per_flow
from sanitize.laws.injector.gas_line import GasLine as LineLaw
from sanitize.laws.injector.gas_line import port_supply
from sanitize.laws.injector.mixing import Mixer, bore_end_pressure, bore_rise_coefficient
from sanitize.laws.injector.port import Port as PortLaw
from sanitize.laws.injector.port import port_pressure_with_gas
from sanitize.laws.injector.two_phase import two_phase_multiplier, void_ratio
from sanitize.studies.draws import Array, Mask
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
OUTLET_PASSES = 4
"""Passes that settle the outlet's static pressure against the mixture's own velocity head."""


@dataclass
class Outlet:
    """What the injector stands in at one set of flows: G, total and static pressure behind it, its port."""

    gas_pa: Array
    total_pa_abs: Array
    outlet_pa_abs: Array
    port: PortLaw


@dataclass(frozen=True, eq=False)
class Stand:
    """What stands behind the injector: G, total and static pressure at its outlet, what its link loses behind it."""

    gas_pa: Array
    total_pa_abs: Array
    outlet_pa_abs: Array
    behind_pa: Array
    behind_slope: Array


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
        loss, jacobian, legs, stand = self._behind(flow)
        z = self.model.dynamic_pa_s2m6 * flow[self.link] ** 2
        water = self.assembly.water
        port = port_pressure_with_gas(z, stand.gas_pa, stand.outlet_pa_abs, self.mixer, water.vapour_pa_abs)
        self.outlet = Outlet(stand.gas_pa, stand.total_pa_abs, stand.outlet_pa_abs, port)
        extra = self._with_port(flow, loss, jacobian, legs, stand, port)
        return loss, jacobian, legs, extra

    def open_balance(
        self, flow: Array, gas_flow_m3s: Array, line: LineLaw, *, choked: bool
    ) -> tuple[Array, Array, Mask]:
        """Loss of every link with the port at what the gas line leaves, and what the injector then lacks [Pa].

        The injector lacks what its diffuser lacks, or, `choked`, what the port stands above the mixing bore's choke.
        The third says where that branch holds: the bore passes the gas, or the diffuser cannot hold more back.
        """
        self.gas_flow_m3s = gas_flow_m3s
        loss, _, legs, stand = self._behind(flow)
        q = flow[self.link]
        z = self.model.dynamic_pa_s2m6 * q * q
        supply = np.asarray(port_supply(gas_flow_m3s, line).pa_abs)
        takes = supply + self.model.nozzle_drop * z + self.model.inlet_pa_s2m6 * q * q - stand.total_pa_abs
        ahead, _ = total(self.ahead, q, self.assembly.water)
        loss[self.link] = ahead + takes + stand.behind_pa + self._own_legs(self.link, legs)
        if choked:
            end = np.maximum(np.asarray(choke_pressure_pa_abs(z, stand.gas_pa, self.mixer)), SMALLEST_PRESSURE_PA_ABS)
            above = supply + np.asarray(bore_rise_coefficient(self.mixer)) * z - 2.0 * end
            spare = diffuser_balance(end, stand.outlet_pa_abs, z, stand.gas_pa, self.mixer).residual_pa
            return loss, np.asarray(above), np.less_equal(spare, 0.0)
        bore_end = bore_end_pressure(supply, z, stand.gas_pa, self.mixer)
        end = np.maximum(np.asarray(bore_end.pa_abs), SMALLEST_PRESSURE_PA_ABS)
        lacking = diffuser_balance(end, stand.outlet_pa_abs, z, stand.gas_pa, self.mixer).residual_pa
        return loss, np.asarray(lacking), np.asarray(bore_end.is_possible)

    def _gas_of_links(self, flow: Array) -> dict[int, Array]:
        """G = p Qgas/Qwater of the injector's link and of all that its water reaches [Pa]."""
        water = self.assembly.water
        per_flow = gas_pressure_per_flow(1.0, water.temperature_c, water.atmosphere_pa_abs)
        carried: dict[int, Array] = {self.link: np.asarray(per_flow * self.gas_flow_m3s)}
        topology = self.assembly.topology
        for index in reversed(self.order):
            start = topology.links[index].start
            if start is None:
                raise ValueError("a link behind the injector cannot start in the tub")
            meeting = topology.meetings[start]
            if meeting.diverging:
                whole = np.maximum(flow[meeting.combined], LEAST_FLOW_M3S)
                carried[index] = carried[meeting.combined] * np.clip(flow[index] / whole, 0.0, 1.0)
            else:
                carried[index] = np.asarray(sum(carried[way] for way in meeting.ways if way in carried))
        return {index: rate / np.maximum(flow[index], LEAST_FLOW_M3S) for index, rate in carried.items()}

    def _end_total(self, index: int, ends: dict[int, Array], legs: Legs) -> Array:
        """Total pressure above the surface at the end of a link, before the tee that ends it takes its part [Pa]."""
        topology = self.assembly.topology
        end = topology.links[index].end
        if end is None:
            return np.zeros(self.size)
        meeting = topology.meetings[end]
        if meeting.diverging:
            found = ends[meeting.ways[0]] + legs[end, 0]
            if self.shut.any():
                blocked = topology.blocked(self.shut)
                for position, way in reversed(list(enumerate(meeting.ways))):
                    found = np.where(blocked[way], found, ends[way] + legs[end, position])
            return np.asarray(found)
        return np.asarray(ends[meeting.combined] + legs[end, meeting.ways.index(index)])

    def _own_legs(self, index: int, legs: Legs) -> Array:
        """What the tees at both ends of a link take from it [Pa]."""
        topology = self.assembly.topology
        link = topology.links[index]
        own = np.zeros(self.size)
        for place, diverging in ((link.start, True), (link.end, False)):
            if place is not None and topology.meetings[place].diverging == diverging:
                own = own + legs[place, topology.meetings[place].ways.index(index)]
        return own

    def _march(self, items: list[PartRows], end: Array, flow: Array, gas: Array) -> tuple[Array, Array]:
        """Total pressure in front of parts [Pa above the surface], from behind them upstream, and its slope."""
        water = self.assembly.water
        level = self.assembly.condition.level_m
        here, slope = end, np.zeros(self.size)
        for position in range(len(items) - 1, -1, -1):
            item = items[position]
            absolute = water.atmosphere_pa_abs + here - static_pressure(item.height_m, level, water.density_kgm3)
            absolute = np.maximum(absolute, water.vapour_pa_abs)
            heavier = np.asarray(two_phase_multiplier(gas, absolute))
            before = items[position - 1].height_m if position else self._height_before(item)
            rise = 0.0 if self.assembly.in_open_leg(item) else item.height_m - before
            lighter = water.density_kgm3 * GRAVITY_MS2 * void_ratio(gas, absolute) * rise
            wet = [row for row in item.rows if not isinstance(row, Lift | Drive)]
            dry = [row for row in item.rows if isinstance(row, Lift | Drive)]
            wet_loss, wet_slope = total(wet, flow, water)
            dry_loss, dry_slope = total(dry, flow, water)
            here = here + heavier * wet_loss + dry_loss - lighter
            slope = slope + heavier * wet_slope + dry_slope
        return here, slope

    def _height_before(self, item: PartRows) -> Array:
        """Height at which a link's first part begins: the injector's, or that of the junction before it."""
        if item.link == self.link:
            return self.item.height_m
        start = self.assembly.topology.links[item.link].start
        if start is None:
            return item.height_m
        return self.assembly.junction_height_m(start)

    def _behind(self, flow: Array) -> tuple[Array, Array, Legs, Stand]:
        """Losses of all links but the injector's own with gas behind it, and what stands behind the injector."""
        loss, jacobian, legs, _ = super().losses(flow)
        gas = self._gas_of_links(flow)
        ends: dict[int, Array] = {}
        for index in self.order:
            end = self._end_total(index, ends, legs)
            start, slope = self._march(self.assembly.of_link(index), end, flow[index], gas[index])
            jacobian[index, index] += np.maximum(slope, SMALLEST_SLOPE)
            loss[index] = start - end + self._own_legs(index, legs)
            ends[index] = start
        water, model = self.assembly.water, self.model
        q, own_gas = flow[self.link], gas[self.link]
        end = self._end_total(self.link, ends, legs)
        here, slope = self._march(self.behind, end, q, own_gas)
        static = static_pressure(self.item.height_m, self.assembly.condition.level_m, water.density_kgm3)
        absolute = np.maximum(water.atmosphere_pa_abs + here - static, water.vapour_pa_abs)
        own, own_slope = total([row for row in self.item.made.behind if not isinstance(row, Lift)], q, water)
        lift, _ = total([row for row in self.item.made.behind if isinstance(row, Lift)], q, water)
        heavier = np.asarray(two_phase_multiplier(own_gas, absolute))
        here, slope = here + heavier * own + lift, slope + heavier * own_slope
        total_abs = water.atmosphere_pa_abs + here - static
        head = model.outlet_pa_s2m6 * q * q
        outlet = np.maximum(total_abs - head, water.vapour_pa_abs)
        for _ in range(OUTLET_PASSES):
            outlet = np.maximum(total_abs - head * (1.0 + own_gas / outlet) ** 2, water.vapour_pa_abs)
        return loss, jacobian, legs, Stand(own_gas, total_abs, outlet, here - end, slope)

    def _with_port(self, flow: Array, loss: Array, jacobian: Array, legs: Legs, stand: Stand, port: PortLaw) -> Array:
        """Put the injector's loss with gas in place of its dry one; returns the difference [Pa]."""
        model = self.model
        q = flow[self.link]
        z = model.dynamic_pa_s2m6 * q * q
        takes = np.asarray(port.pa_abs) + model.nozzle_drop * z + model.inlet_pa_s2m6 * q * q - stand.total_pa_abs
        ahead, ahead_slope = total(self.ahead, q, self.assembly.water)
        follows = np.asarray(port.per_outlet) - 1.0
        slope = (
            (np.asarray(port.per_z) + model.nozzle_drop) * 2.0 * model.dynamic_pa_s2m6 * q
            + 2.0 * model.inlet_pa_s2m6 * q
            - np.asarray(port.per_gas) * stand.gas_pa / np.maximum(q, LEAST_FLOW_M3S)
            + follows * stand.behind_slope
        )
        loss[self.link] = ahead + takes + stand.behind_pa + self._own_legs(self.link, legs)
        jacobian[self.link, self.link] += ahead_slope + slope + stand.behind_slope
        for other in self.assembly.topology.downstream(self.link):
            jacobian[self.link] += follows * jacobian[other]
        return np.asarray(takes - model.total_pa_s2m6 * q * np.abs(q))
