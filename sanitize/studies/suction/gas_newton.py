"""Newton on water flows, gas flow and the pressure at the mixing bore's end together, over all cases at once.

With that pressure among the unknowns nothing is singular where gas chokes the bore: either the diffuser balances above
the choke, or the bore stands at it, and the lesser of the two residuals has its one root where the right one holds.
"""

from typing import NamedTuple

import numpy as np

from sanitize.laws.injector.draw import gas_pressure_per_flow
from sanitize.laws.injector.gas_line import GasLine as LineLaw
from sanitize.laws.injector.gas_line import port_supply
from sanitize.laws.injector.mixing import bore_end_pressure
from sanitize.studies.draws import Array, Mask
from sanitize.studies.operating_point.gas_network import LEAST_FLOW_M3S, GasNetwork
from sanitize.studies.operating_point.shut_ways import open_paths

PASSES = 40
LEAST_SHARE = 1e-4
"""Share of a Newton step below which a case is given up."""
SHRINK_RATIO = 0.3
"""What is left of a step's share where the whole of it made the balance worse."""
GROW_RATIO = 3.0
LEAST_GAS_RATIO = 0.1
"""Share of the gas flow that a step leaves at least."""
LEAST_END_RATIO = 0.3
"""Share of the pressure at the bore's end that a step leaves at least."""
BALANCE_RATIO = 1e-10
"""Largest mismatch that is accepted, over the pumps' shut-off pressure or the local atmosphere."""


class Found(NamedTuple):
    """Flows of links and of gas, and where they balance."""

    flow_m3s: Array
    gas_flow_m3s: Array
    solved: Mask


class _State(NamedTuple):
    """Unknowns, what is out of balance, and slopes with independent flows and gas flow, cases last.

    heads: along every path; mixing, diffuser: as `OpenBalance` has them; *_end: slopes with the bore's end pressure.
    """

    x: Array
    gas_flow: Array
    end: Array
    heads: Array
    heads_slopes: Array
    mixing: Array
    mixing_slopes: Array
    mixing_end: Array
    diffuser: Array
    diffuser_slopes: Array
    diffuser_end: Array
    size_of: Array


def newton(network: GasNetwork, line: LineLaw, start: Array, wanted: Mask, guess: Array) -> Found:
    """The flows at which everything balances, from the closed port's flows and a guessed gas flow.

    start: (links, cases); wanted: cases that are sought; guess: of the gas flow [m3/s]. Links that are shut stay so.
    """
    found = Found(np.array(start), np.where(wanted, guess, 0.0), np.zeros(network.size, dtype=bool))
    if not wanted.any():
        return found
    patterns, member = np.unique(network.shut[:, wanted], axis=1, return_inverse=True)
    for number in range(patterns.shape[1]):
        paths = open_paths(network.topology.paths, patterns[:, number])
        if paths.shape[1] == 0:
            continue
        chosen = np.zeros(network.size, dtype=bool)
        chosen[np.flatnonzero(wanted)[np.ravel(member) == number]] = True
        here = _newton(network, line, paths, start, chosen, guess)
        found = Found(*(np.where(chosen, new, old) for new, old in zip(here, found, strict=True)))
    return found


def _newton(network: GasNetwork, line: LineLaw, paths: Array, start: Array, wanted: Mask, guess: Array) -> Found:
    """As `newton`, over the paths that the wanted cases leave open."""
    water = network.assembly.water
    x: Array = np.asarray(np.linalg.lstsq(paths, start, rcond=None)[0], dtype=np.float64)
    gas_flow = np.where(wanted, guess, 0.0)

    def state(x: Array, gas_flow: Array, end: Array) -> _State:
        balance = network.open_balance(np.asarray(paths @ x), gas_flow, end, line)
        loss, mixing, diffuser = balance.loss_pa, balance.mixing_pa, balance.diffuser_pa
        heads = paths.T @ loss.value
        size_of = np.maximum(np.abs(mixing.value), np.abs(diffuser.value)) / water.atmosphere_pa_abs
        size_of = np.maximum(size_of, np.max(np.abs(heads), axis=0) / network.scale_pa)
        return _State(
            x, gas_flow, balance.bore_end_pa_abs,
            heads, _along_paths(np.tensordot(paths.T, loss.slopes, axes=1), paths),
            mixing.value, _along_paths(mixing.slopes, paths), balance.mixing_per_end,
            diffuser.value, _along_paths(diffuser.slopes, paths), balance.diffuser_per_end,
            size_of,
        )  # fmt: skip

    now = state(x, gas_flow, _first_end(network, line, start, gas_flow))
    share = np.ones(network.size)
    for _ in range(PASSES):
        active = wanted & ~(now.size_of <= BALANCE_RATIO) & (share >= LEAST_SHARE)
        if not active.any():
            break
        dx, dq, dp = _step(now, active)
        new = state(
            now.x + share * dx,
            np.maximum(now.gas_flow + share * dq, LEAST_GAS_RATIO * now.gas_flow),
            np.maximum(now.end + share * dp, LEAST_END_RATIO * now.end),
        )
        worse = active & ~(new.size_of <= now.size_of * (1.0 - 1e-4 * share))
        share = np.where(worse, SHRINK_RATIO * share, np.minimum(GROW_RATIO * share, 1.0))
        if worse.any():
            new = _State(*(np.where(worse, before, after) for before, after in zip(now, new, strict=True)))
        now = new
    return Found(np.asarray(paths @ now.x), now.gas_flow, np.asarray(wanted & (now.size_of <= BALANCE_RATIO)))


def _first_end(network: GasNetwork, line: LineLaw, flow: Array, gas_flow: Array) -> Array:
    """Pressure at the bore's end that goes with the first flows [Pa absolute]."""
    water, q = network.assembly.water, flow[network.link]
    z = network.model.dynamic_pa_s2m6 * q * q
    per_flow = gas_pressure_per_flow(np.maximum(q, LEAST_FLOW_M3S), water.temperature_c, water.atmosphere_pa_abs)
    supply = port_supply(gas_flow, line).pa_abs
    return np.asarray(bore_end_pressure(supply, z, per_flow * gas_flow, network.mixer).pa_abs)


def _along_paths(slopes: Array, paths: Array) -> Array:
    """Slopes with the independent flows and the gas flow, from those with the links' flows and the gas flow."""
    if paths.shape == (1, 1):
        return slopes
    of_paths = np.einsum("...ln,lv->...vn", slopes[..., :-1, :], paths)
    return np.concatenate([of_paths, slopes[..., -1:, :]], axis=-2)


def _step(now: _State, active: Mask) -> tuple[Array, Array, Array]:
    """Newton's step of the active cases; a case whose slopes make no step stands still.

    Gas flow and end pressure are eliminated by the two balances in the injector, which are regular by themselves.
    """
    mixing_x, mixing_q = now.mixing_slopes[:-1], now.mixing_slopes[-1]
    diffuser_x, diffuser_q = now.diffuser_slopes[:-1], now.diffuser_slopes[-1]
    determinant = mixing_q * now.diffuser_end - now.mixing_end * diffuser_q
    fit = active & (determinant != 0.0) & np.isfinite(determinant)
    over = -1.0 / np.where(fit, determinant, 1.0)
    q_0 = (now.diffuser_end * now.mixing - now.mixing_end * now.diffuser) * over
    q_x = (now.diffuser_end * mixing_x - now.mixing_end * diffuser_x) * over
    end_0 = (mixing_q * now.diffuser - diffuser_q * now.mixing) * over
    end_x = (mixing_q * diffuser_x - diffuser_q * mixing_x) * over
    heads_q = now.heads_slopes[:, -1]
    matrix = now.heads_slopes[:, :-1] + heads_q[:, None] * q_x[None]
    left = -(now.heads + heads_q * q_0)
    dx = np.zeros_like(now.x)
    if len(left) == 1:
        fit &= (matrix[0, 0] != 0.0) & np.isfinite(matrix[0, 0]) & np.isfinite(left[0])
        dx[0] = np.where(fit, left[0], 0.0) / np.where(fit, matrix[0, 0], 1.0)
    else:
        fit &= np.isfinite(matrix).all(axis=(0, 1)) & np.isfinite(left).all(axis=0)
        matrices = np.moveaxis(np.where(fit, matrix, np.eye(len(left))[:, :, None]), 2, 0)
        fit &= np.abs(np.linalg.det(matrices)) > 0.0
        where = np.flatnonzero(fit)
        dx[:, where] = np.linalg.solve(matrices[where], left.T[where][:, :, None])[:, :, 0].T
    dq = np.where(fit, q_0 + np.sum(q_x * dx, axis=0), 0.0)
    return dx, dq, np.where(fit, end_0 + np.sum(end_x * dx, axis=0), 0.0)
