"""Newton on the independent flows of every case at once, until the pressures around every path balance.

Link flows are P x for any independent flows x, so water is conserved by construction; what is solved is
P' (loss of every link) = 0, the balance of total pressure along every path from tub to tub.
"""

from dataclasses import dataclass, field, replace

import numpy as np

from sanitize.basis.constants import GRAVITY_MS2
from sanitize.studies.draws import Array, Mask
from sanitize.studies.operating_point.assemble import Assembly
from sanitize.studies.operating_point.cavitation import Cavitation, Legs
from sanitize.studies.operating_point.junctions import leg_losses
from sanitize.studies.operating_point.rows import Drive, Row, merged, total
from sanitize.studies.operating_point.shut_ways import hangs_free, has_check_valve, held_pa, open_paths, shut_links

STEPS = 60
HALVINGS = 12
RESIDUAL_RATIO = 1e-10
"""Largest imbalance that is accepted, over the pumps' shut-off pressure."""
SMALLEST_SLOPE = 1.0
"""Slope that a link has at least [Pa s/m3]: a link without resistance still has one flow."""
TURNS = 40
"""How often check valves are turned at most."""
TURNS_AT_ONCE = 4
"""Turns of all wrong check valves at once; from then on of the first wrong one, which cannot go round in circles."""
REST_FLOW_M3S = 1e-9
"""Flow below which a link stands still [m3/s]: a drop a minute."""


@dataclass
class Solution:
    """Flows and losses of every link in every case.

    flow_m3s: (links, cases); leg_pa: loss at the tees by (meeting, way), same cases; solved: cases with an answer;
    backwards: links whose water would run backwards, by link; still: links that stand still;
    imbalance_ratio: what is left of the balance, over the pumps' shut-off pressure;
    held_pa: (links, cases), what the shut valve, the closed check valve or the high return of a link holds;
    stranded: (links, cases), ways whose water does not reach their return, which hangs above it.
    """

    flow_m3s: Array
    leg_pa: Legs
    extra_pa: Array
    solved: Mask
    backwards: dict[int, Mask]
    imbalance_ratio: Array
    held_pa: Array
    still: dict[int, Mask] = field(default_factory=dict)
    stranded: Mask = field(default_factory=lambda: np.zeros((0, 0), dtype=bool))


class Network:
    """The rows of a loop, gathered link by link, with the forces at its meetings.

    extra: more rows in a link, as the back-pressure that a search puts behind the injector.
    """

    def __init__(
        self, assembly: Assembly, cavitation: Cavitation | None = None, extra: dict[int, list[Row]] | None = None
    ) -> None:
        self.assembly = assembly
        self.topology = assembly.topology
        self.cavitation = cavitation
        self.size = assembly.draws.size
        self.rows: list[list[Row]] = []
        for link in self.topology.links:
            rows = [row for item in assembly.of_link(link.index) for row in item.rows]
            self.rows.append(merged([*rows, *(extra or {}).get(link.index, [])]))
        self.apart: frozenset[int] = frozenset()
        """Links whose own losses somebody else works out; those at their tees are still given here."""
        self.scale_pa = self._scale_pa()
        self.shut = np.zeros((len(self.rows), self.size), dtype=bool)
        self.close(shut_links(self.rows, self.size))

    def close(self, shut: Mask) -> None:
        """Say which links a shut valve or a closed check valve takes out of the balance, shape (links, cases)."""
        self.shut = shut
        if self.cavitation is not None:
            self.cavitation = replace(self.cavitation, downstream=self.topology.route(self.cavitation.link, shut))

    def _scale_pa(self) -> Array:
        """Shut-off pressure of all pumps together, and at least one pascal."""
        weight = self.assembly.water.density_kgm3 * GRAVITY_MS2
        scale = np.full(self.size, 1.0)
        for rows in self.rows:
            for row in rows:
                if isinstance(row, Drive):
                    scale = scale + weight * row.curve.shut_off_head_m * row.speed_ratio**2 * row.head_factor
        return scale

    def losses(self, flow: Array) -> tuple[Array, Array, Legs, Array]:
        """Loss of every link (links, cases), Jacobian (links, links, cases), leg losses, cavitation's extra loss."""
        loss, jacobian, legs, leg_slopes = self.links_and_tees(flow)
        extra = np.zeros(flow.shape[1])
        if self.cavitation is not None:
            extra, slopes_of_link = self.cavitation.extra_loss(
                flow, loss, jacobian, legs, leg_slopes, self.assembly.water
            )
            loss[self.cavitation.link] += extra
            jacobian[self.cavitation.link] += slopes_of_link
        return loss, jacobian, legs, extra

    def links_and_tees(self, flow: Array) -> tuple[Array, Array, Legs, Legs]:
        """Loss of every link with its tees, Jacobian, and the legs' own losses and slopes (links, cases)."""
        count = len(self.rows)
        loss = np.empty_like(flow)
        jacobian = np.zeros((count, count, flow.shape[1]))
        for index, rows in enumerate(self.rows):
            if index in self.apart:
                loss[index] = 0.0
                continue
            loss[index], slope = total(rows, flow[index], self.assembly.water)
            jacobian[index, index] = np.maximum(slope, SMALLEST_SLOPE)
        legs: Legs = {}
        leg_slopes: Legs = {}
        for meeting in self.topology.meetings:
            leg, slopes = leg_losses(
                meeting,
                flow[meeting.ways],
                self.assembly.tee_bores_m[meeting.index],
                self.assembly.water.density_kgm3,
                self.assembly.tee_shift_rank,
            )
            for position, way in enumerate(meeting.ways):
                loss[way] += leg[position]
                legs[meeting.index, position] = leg[position]
                leg_slopes[meeting.index, position] = np.zeros_like(flow)
                leg_slopes[meeting.index, position][meeting.ways] = slopes[position]
                for other, link in enumerate(meeting.ways):
                    jacobian[way, link] += slopes[position, other]
        return loss, jacobian, legs, leg_slopes


def solve(network: Network, start: Array | None = None) -> Solution:
    """The operating point in every case, each check valve open or closed as the water and the others have it.

    A check valve closes a way that would run backwards, and opens again where the rest then drives it forward; so does
    a return above the water, through which none can come back.
    """
    topology = network.topology
    shut_by_hand = shut_links(network.rows, network.size)
    shut = shut_by_hand.copy()
    flow = np.zeros((len(topology.links), network.size))
    imbalance = np.full(network.size, np.inf)
    checked = [any(has_check_valve(item) for item in network.assembly.of_link(link.index)) for link in topology.links]
    level, humps = network.assembly.condition.level_m, network.assembly.opened
    free = np.array(
        [hangs_free(network.assembly.of_link(link.index), level, humps.get(link.index)) for link in topology.links]
    )
    may_turn = (np.array(checked)[:, None] | free) & ~shut_by_hand
    tolerance = 10.0 * RESIDUAL_RATIO * network.scale_pa
    todo = np.ones(network.size, dtype=bool)
    for turn in range(TURNS):
        network.close(shut)
        patterns, member = np.unique(shut[:, todo], axis=1, return_inverse=True)
        where = np.flatnonzero(todo)
        for number in range(patterns.shape[1]):
            closed = patterns[:, number]
            chosen = np.zeros(network.size, dtype=bool)
            chosen[where[np.ravel(member) == number]] = True
            new_flow, new_imbalance = _newton(network, closed, chosen, start)
            flow[:, chosen] = new_flow[:, chosen]
            imbalance[chosen] = new_imbalance[chosen]
        loss, _, leg, extra = network.losses(flow)
        held = held_pa(topology.paths, shut, loss)
        wrong = may_turn & np.where(shut, held > tolerance, flow < -REST_FLOW_M3S)
        todo = np.asarray(wrong.any(axis=0))
        if turn == TURNS - 1 or not todo.any():
            break
        if turn >= TURNS_AT_ONCE:
            wrong &= np.cumsum(wrong, axis=0) == 1
        shut = shut ^ wrong
    backwards = {
        index: flow[index] < -REST_FLOW_M3S for index in range(len(flow)) if (flow[index] < -REST_FLOW_M3S).any()
    }
    still = {index: np.abs(flow[index]) <= REST_FLOW_M3S for index in range(len(flow))}
    solved = (imbalance <= 10.0 * RESIDUAL_RATIO) & ~todo
    for mask in backwards.values():
        solved = solved & ~mask
    stranded = shut & free & ~shut_by_hand & ~np.array(checked)[:, None]
    return Solution(flow, leg, extra, solved, backwards, imbalance, held, still, stranded)


def _newton(network: Network, closed: Mask, chosen: Mask, start: Array | None) -> tuple[Array, Array]:
    """Link flows and imbalance of every case with some links shut; only the chosen cases are brought to balance."""
    paths = open_paths(network.topology.paths, closed)
    size = network.size
    links, unknowns = paths.shape
    if unknowns == 0:
        return np.zeros((links, size)), np.zeros(size)
    guess = _first_flows(network) if start is None else start
    x: Array = np.asarray(np.linalg.lstsq(paths, guess, rcond=None)[0], dtype=np.float64)

    def balance(x: Array) -> tuple[Array, Array, Array]:
        loss, jacobian, _, _ = network.losses(paths @ x)
        if unknowns == 1:
            column = paths[:, 0]
            residual = (column @ loss)[None]
            slope = np.einsum("i,ijn,j->n", column, jacobian, column)[None, None]
        else:
            residual = paths.T @ loss
            slope = np.einsum("iu,ijn,jv->uvn", paths, jacobian, paths)
        return residual, slope, np.max(np.abs(residual), axis=0) / network.scale_pa

    residual, slope, size_of = balance(x)
    for _ in range(STEPS):
        active = chosen & ~(size_of <= RESIDUAL_RATIO)
        if not active.any():
            break
        if unknowns == 1:
            step = residual / np.maximum(slope[0], SMALLEST_SLOPE)
        else:
            step = np.zeros_like(residual)
            left = residual[:, active].T[:, :, None]
            step[:, active] = np.linalg.solve(np.moveaxis(slope[:, :, active], 2, 0), left)[:, :, 0].T
        step = np.where(active, step, 0.0)
        share = np.ones(size)
        trial: Array = np.asarray(x - step, dtype=np.float64)
        new = balance(trial)
        for _ in range(HALVINGS):
            worse = active & ~(new[2] <= size_of * (1.0 - 1e-4 * share))
            if not worse.any():
                break
            share = np.where(worse, 0.5 * share, share)
            trial = np.asarray(x - share * step, dtype=np.float64)
            new = balance(trial)
        x = trial
        residual, slope, size_of = new
    return np.asarray(paths @ x), size_of


def _first_flows(network: Network) -> Array:
    """A start well above the answer: the largest run-out flow in the first link of every way from the tub."""
    run_out = 1e-4
    for rows in network.rows:
        for row in rows:
            if isinstance(row, Drive):
                run_out = max(run_out, row.curve.run_out_flow_m3s * row.speed_ratio)
    flow = np.zeros((len(network.rows), network.size))
    for index in network.topology.upstream_order():
        start = network.topology.links[index].start
        if start is None:
            flow[index] = run_out
            continue
        meeting = network.topology.meetings[start]
        if meeting.diverging:
            flow[index] = flow[meeting.combined] / len(meeting.ways)
        else:
            flow[index] = flow[meeting.ways].sum(axis=0)
    return flow
