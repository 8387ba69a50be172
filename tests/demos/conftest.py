"""What the demos' tests share: their answers, and hydraulics by hand that owes nothing to the program.

By hand means: water from the IAPWS-95 formulation (library iapws), friction factors and tees from the library fluids,
everything else written out here from its published form. Each test sums its own demo's parts and solves for the flow.
"""

from collections.abc import Callable
from functools import cache
from math import log, pi, sqrt
from pathlib import Path
from typing import ClassVar

import fluids
import pytest
from iapws import IAPWS95

from sanitize.loopfile.read import LoadedPlant, read_plant
from sanitize.studies.suction.result import Suction
from sanitize.studies.suction.study import study_suction

DEMOS = Path(__file__).resolve().parents[2] / "demos"
LPM = 1.0 / 60_000.0
G = 9.80665
ROUGHNESS_M = 1.5e-6
CASES = 1024
"""Enough for a share to be known within a few percent; the nominal case does not depend on it."""


def _area(bore_m: float) -> float:
    return pi * bore_m**2 / 4.0


class ByHand:
    """Losses of total pressure [Pa] at a flow [m3/s], in the water of one tub.

    pipe: average bores of Schedule 40 pipe (ASTM D1785), on which the loss coefficients of fittings stand [m];
    hose: bores of flexible hose, those of minimum-wall Schedule 40 pipe (common practice) [m].
    """

    pipe: ClassVar = {"1/2": 0.01544, "3/4": 0.02057, "1": 0.02624, "1-1/2": 0.04044}
    hose: ClassVar = {"3/4": 0.02093, "1": 0.02664}

    def __init__(self, temperature_c: float) -> None:
        self.rho, self.mu = _water(temperature_c)
        self.rho_20, self.mu_20 = _water(20.0)
        self.weight = self.rho * G

    def head(self, flow: float, bore: float) -> float:
        """Velocity head as pressure."""
        return 0.5 * self.rho * (flow / _area(bore)) ** 2

    def reynolds(self, flow: float, bore: float) -> float:
        return 4.0 * self.rho * flow / (pi * bore * self.mu)

    def friction(self, flow: float, bore: float, length: float) -> float:
        """Darcy-Weisbach with Colebrook's factor; the demos run outside 2000 < Re < 4000, where no formula holds."""
        reynolds = self.reynolds(flow, bore)
        if reynolds <= 2000.0:
            factor = 64.0 / reynolds
        else:
            assert reynolds >= 4000.0, "transitional flow is not derived by hand"
            factor = fluids.Colebrook(reynolds, ROUGHNESS_M / bore)
        return factor * length / bore * self.head(flow, bore)

    def pump(self, *points: tuple[float, float]) -> Callable[[float], float]:
        """Pressure [Pa] over flow through three points in L/min and m, the first at shut-off: A - B Q^C."""
        (_, h0), (q1, h1), (q2, h2) = points
        exponent = log((h0 - h2) / (h0 - h1)) / log(q2 / q1)
        factor = (h0 - h1) / q1**exponent
        return lambda flow: self.weight * (h0 - factor * (flow / LPM) ** exponent)

    def k(self, flow: float, bore: float, loss_coefficient: float) -> float:
        return loss_coefficient * self.head(flow, bore)

    def fitting(self, flow: float, bore: float, loss_coefficient: float, count: float = 1.0) -> float:
        """Elbows, tees and valves: below Re 1e4 each adds 800/Re - 0.08 (Hooper's viscous term, met at Re 1e4)."""
        low = max(800.0 / self.reynolds(flow, bore) - 0.08, 0.0)
        return count * (loss_coefficient + low) * self.head(flow, bore)

    def contraction(self, flow: float, wide: float, narrow: float) -> float:
        """Sudden, on the small bore: 0.5 (1 - beta^2) (Crane TP-410)."""
        return 0.5 * (1.0 - (narrow / wide) ** 2) * self.head(flow, narrow)

    def expansion(self, flow: float, narrow: float, wide: float) -> float:
        """Borda and Carnot: (1 - beta^2)^2 on the small bore."""
        return (1.0 - (narrow / wide) ** 2) ** 2 * self.head(flow, narrow)

    def barb(self, flow: float, before: float, barb: float, behind: float, length: float) -> float:
        """A narrow bore with its own friction between two wider ones."""
        steps = self.contraction(flow, before, barb) + self.expansion(flow, barb, behind)
        return steps + self.friction(flow, barb, length)

    def rated(self, flow: float, drop: float, at: float, exponent: float) -> float:
        """A drop at a flow with its exponent, rated in water of 20 degC: n = 1 goes with mu, n = 2 with rho."""
        water = (self.rho / self.rho_20) ** (exponent - 1.0) * (self.mu / self.mu_20) ** (2.0 - exponent)
        return drop * (flow / at) ** exponent * water

    def filter(self, flow: float, drop: float, at: float, medium: float = 0.3) -> float:
        """The medium's share goes with flow times viscosity, the housing's with the square of the flow."""
        x = flow / at
        return drop * (medium * self.mu / self.mu_20 * x + (1.0 - medium) * self.rho / self.rho_20 * x * x)

    def covered_suction(self, flow: float, bore: float, free_share: float, face: float, entrance: float = 0.5) -> float:
        """A perforated cover on the velocity through its face (Idelchik, from memory), and the entrance behind it."""
        closed = 1.0 - free_share
        plate = (0.707 * sqrt(closed) + closed) ** 2 / free_share**2
        return (plate * (bore / face) ** 4 + entrance) * self.head(flow, bore)

    def nozzle(self, flow: float, pipe: float, bore: float, discharge: float) -> float:
        """Return nozzle with its jet and exit: (1 - beta^4)/(Cd^2 beta^4) + 1 on the pipe."""
        b4 = (bore / pipe) ** 4
        return ((1.0 - b4) / (discharge**2 * b4) + 1.0) * self.head(flow, pipe)

    def venturi(self, throat: float, end: float, loss_ratio: float, discharge: float = 0.96) -> tuple[float, float]:
        """k1, k2 [Pa s2/m6] of p1 - po = k1 Q^2 and p2 - po = k2 Q^2: Bernoulli with a discharge coefficient.

        Q = Cd An sqrt(2 (p1 - po) / (rho (1 - (An/A1)^2))), and k2 = (1 - xi) k1 with xi the loss ratio.
        """
        an, a1 = _area(throat), _area(end)
        k1 = 0.5 * self.rho * (1.0 - (an / a1) ** 2) / (discharge * an) ** 2
        return k1, (1.0 - loss_ratio) * k1

    def splits(self, combined: float, branch: float, bore: float) -> tuple[float, float]:
        """Loss from the combined leg to branch and run of an equal tee that divides (Crane TP-410, via fluids)."""
        head = self.head(combined, bore)
        run = combined - branch
        return (
            head * fluids.K_branch_diverging_Crane(bore, bore, run, branch),
            head * fluids.K_run_diverging_Crane(bore, bore, run, branch),
        )

    def meets(self, combined: float, branch: float, bore: float) -> tuple[float, float]:
        """Loss from branch and from run to the combined leg of an equal tee (Crane TP-410, via fluids).

        The published branch tends to -0.9 as its share q of the flow goes to 0, where the dividing tee has -1:
        below q = 0.1 the program adds 0.1 - q to the factor C = 0.9 (1 - q), and so does this.
        """
        head = self.head(combined, bore)
        run = combined - branch
        lacking = max(0.1 - branch / combined, 0.0)
        continued = 1.0 + lacking / (0.9 * run / combined)
        return (
            head * continued * fluids.K_branch_converging_Crane(bore, bore, run, branch),
            head * fluids.K_run_converging_Crane(bore, bore, run, branch),
        )


@cache
def _water(temperature_c: float) -> tuple[float, float]:
    state = IAPWS95(T=temperature_c + 273.15, P=0.101325)
    return float(state.rho), float(state.mu)


@pytest.fixture(scope="session")
def by_hand() -> Callable[[float], ByHand]:
    return ByHand


@pytest.fixture(scope="session")
def load() -> Callable[..., LoadedPlant]:
    """A demo as read, with settings laid over it."""

    def read(name: str, *settings: str) -> LoadedPlant:
        path = DEMOS / f"{name}.toml"
        return read_plant(
            path.read_text(encoding="utf-8"),
            path=f"{name}.toml",
            overrides=settings,
            reader=lambda other: (DEMOS / other).read_text(encoding="utf-8"),
        )

    return read


@pytest.fixture(scope="session")
def answer(load: Callable[..., LoadedPlant]) -> Callable[[str], Suction]:
    """A demo's answer with ranges, worked out once."""

    @cache
    def study(name: str) -> Suction:
        return study_suction(load(name).plant, cases=CASES)

    return study


@pytest.fixture(scope="session")
def nominal(load: Callable[..., LoadedPlant]) -> Callable[..., Suction]:
    """The answer of the nominal case alone, with settings laid over the demo."""

    @cache
    def study(name: str, *settings: str) -> Suction:
        return study_suction(load(name, *settings).plant, cases=0)

    return study
