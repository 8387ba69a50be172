"""Cases per second of the whole check with gas, beside a plain loop of scipy.optimize.brentq with fluids.

Run by hand: python tests/benchmarks/gas_cases.py
Both sides are given the same drawn cases of one loop and answer the same: water flow with the port closed, whether it
draws, and where it does, water and gas flow with the line open. One process each, in turn, medians of the ratios.
"""

import math
import statistics
import subprocess
import sys
import time
from pathlib import Path

import numpy as np

LOOP = Path(__file__).with_name("series.toml")
SCALAR_CASES = 24
ROUNDS = 5
REPEATS = 7


def prepared():
    """The loop's arrays, outside the timing: draws, dry rows, injector, gas line."""
    from sanitize.loopfile.read import read_plant
    from sanitize.studies.draws import Draws
    from sanitize.studies.suction.states import levels

    plant = read_plant(LOOP.read_text()).plant
    draws = Draws()
    surfaces = levels(plant, draws)
    return plant, draws, surfaces["normal"]


def full_check(plant, draws, level):
    """Everything over all cases: assembly, dry solution, gas."""
    from sanitize.studies.operating_point.builder import Condition
    from sanitize.studies.operating_point.run import run
    from sanitize.studies.suction.gas_flow import gas_answer
    from sanitize.studies.suction.states import gas_side

    running = run(plant, draws, Condition(level))
    gas = gas_side(plant, draws, running.port.height_m)
    answer, _ = gas_answer(plant, draws, running, gas)
    return running, gas, answer


class Scalar:
    """One case as plain numbers, solved by nested brentq with fluids' Colebrook."""

    def __init__(self, running, gas, plant, draws, index):
        from sanitize.studies.operating_point.rows import Drive, Friction, Lift, Quadratic, SmallReynolds
        from sanitize.studies.operating_point.stated_drops import FilterDrop
        from sanitize.studies.suction.gas_flow import line_of, mixer_of

        self.kinds = (Drive, Friction, Lift, Quadratic, SmallReynolds, FilterDrop)
        assembly = running.assembly
        self.water = assembly.water
        self.index = index
        port = running.port
        self.level = float(assembly.condition.level_m[index])
        self.parts = []
        for item in assembly.parts:
            rows = [self.plain(row) for row in item.rows]
            self.parts.append((item.part.name, float(item.height_m[index]), rows, item.part.name == port.name))
        model = port.model
        self.throat = float(np.broadcast_to(model.throat_m2, draws.size)[index])
        self.inlet, self.outlet = model.inlet_m2, model.outlet_m2
        self.drop = float(np.broadcast_to(model.nozzle_drop, draws.size)[index])
        self.recovery = float(np.broadcast_to(model.recovery, draws.size)[index])
        item = next(item for item in assembly.parts if item.part.name == port.name)
        self.mixer = [float(np.broadcast_to(x, draws.size)[index]) for x in mixer_of(item.part, model, draws)]
        line, _ = line_of(plant, draws, gas, self.water.atmosphere_pa_abs)
        self.line = [float(np.broadcast_to(x, draws.size)[index]) for x in line]

    def plain(self, row):
        drive, friction, lift, quadratic, small, filtered = self.kinds
        i = self.index

        def at(x):
            return float(np.broadcast_to(x, i + 1 if np.ndim(x) == 0 else np.shape(x))[i])

        if isinstance(row, friction):
            roughness = float(np.broadcast_to(row.bridge.roughness_term, np.shape(row.bore_m))[i]) * 3.7
            return ("pipe", at(row.bore_m), at(row.length_m), roughness)
        if isinstance(row, quadratic):
            return ("square", at(row.coefficient))
        if isinstance(row, small):
            return ("small", row.count, row.bore_m)
        if isinstance(row, filtered):
            return ("filter", at(row.drop_pa), row.at_flow_m3s, at(row.medium_ratio))
        if isinstance(row, lift):
            return ("lift", at(row.pressure_pa))
        if isinstance(row, drive):
            shut_off = row.curve.shut_off_head_m
            return ("pump", shut_off, shut_off / row.curve.run_out_flow_m3s**2, at(row.head_factor))
        raise TypeError(type(row))

    def row_loss(self, row, flow):
        import fluids

        rho, mu = self.water.density_kgm3, self.water.viscosity_pas
        if row[0] == "pipe":
            _, bore, length, roughness = row
            velocity = flow / (math.pi * bore**2 / 4.0)
            reynolds = fluids.Reynolds(V=velocity, D=bore, rho=rho, mu=mu)
            return fluids.friction_factor(Re=reynolds, eD=roughness) * length / bore * 0.5 * rho * velocity**2
        if row[0] == "square":
            return row[1] * flow**2
        if row[0] == "small":
            _, count, bore = row
            velocity = flow / (math.pi * bore**2 / 4.0)
            reynolds = fluids.Reynolds(V=velocity, D=bore, rho=rho, mu=mu)
            return count * max(0.0, 800.0 / reynolds - 0.08) * 0.5 * rho * velocity**2
        if row[0] == "filter":
            from sanitize.studies.operating_point.stated_drops import RATED_DENSITY_KGM3, RATED_VISCOSITY_PAS

            _, drop, at_flow, share = row
            x = flow / at_flow
            return drop * (share * mu / RATED_VISCOSITY_PAS * x + (1.0 - share) * rho / RATED_DENSITY_KGM3 * x * x)
        if row[0] == "lift":
            return row[1]
        return -rho * 9.80665 * row[3] * (row[1] - row[2] * flow**2)

    def march(self, flow, gas):
        """Total pressure at the injector's outlet above the surface, and the loss of all that stands before it."""
        rho = self.water.density_kgm3
        where = next(n for n, part in enumerate(self.parts) if part[3])
        here = 0.0
        for n in range(len(self.parts) - 1, where, -1):
            _, height, rows, _ = self.parts[n]
            absolute = self.water.atmosphere_pa_abs + here - rho * 9.80665 * (height - self.level)
            void = gas / (absolute + gas)
            wet = sum(self.row_loss(row, flow) for row in rows if row[0] not in ("lift", "pump"))
            dry = sum(self.row_loss(row, flow) for row in rows if row[0] in ("lift", "pump"))
            here += (1.0 + gas / absolute) * wet + dry - rho * 9.80665 * void * (height - self.parts[n - 1][1])
        ahead = sum(self.row_loss(row, flow) for part in self.parts[:where] for row in part[2])
        return here, ahead, self.parts[where][1]

    def state(self, flow, gas):
        """Imbalance of head with the port where the mixture puts it, and the port's pressure."""
        from scipy.optimize import brentq

        rho, air = self.water.density_kgm3, self.water.atmosphere_pa_abs
        here, ahead, height = self.march(flow, gas)
        z = 0.5 * rho * (flow / self.throat) ** 2
        total = air + here - rho * 9.80665 * (height - self.level)
        head = 0.5 * rho * (flow / self.outlet) ** 2
        outlet = total - head
        for _ in range(4):
            outlet = total - head * (1.0 + gas / outlet) ** 2
        b, km, kd, kg, r = self.mixer
        if gas == 0.0:
            port = outlet - self.recovery * z
        else:
            w = b * b * (2.0 + km + kg)
            choke = math.sqrt(w * z * gas)

            def diffuser(end):
                t, two = gas / end, gas / outlet
                heads = b * b * ((1 + t) ** 2 - kd * (1 + t)) - r * r * (1 + two) ** 2
                return outlet - end + gas * math.log(outlet / end) - z * heads

            if diffuser(choke) < 0.0:
                end = choke
            else:
                top = outlet + z * (r * r * (1 + gas / outlet) ** 2 + b * b * kd * (1 + gas / outlet))
                end = brentq(diffuser, choke, max(top, choke * (1 + 1e-12)), xtol=1e-6)
            port = end - (2.0 * b - b * b * (2.0 + km)) * z + w * z * gas / end
        port = max(port, self.water.vapour_pa_abs)
        takes = port + self.drop * z + 0.5 * rho * (flow / self.inlet) ** 2 - total
        return here + ahead + takes, port

    def flow_with(self, gas_flow):
        from scipy.optimize import brentq

        per = self.water.atmosphere_pa_abs * (self.water.temperature_c + 273.15) / 293.15
        return brentq(lambda q: self.state(q, per * gas_flow / q)[0], 2e-5, 2e-3, xtol=1e-13, rtol=1e-11)

    def supply(self, gas_flow):
        air, density, mu, length, bore, loss, valve, unit, at, power, opening, _ = self.line
        velocity = gas_flow / (math.pi * bore**2 / 4.0)
        reynolds = density * velocity * bore / mu
        friction = max(64.0 / reynolds, 0.3164 * reynolds**-0.25) if reynolds > 0.0 else 0.0
        drop = (friction * length / bore + loss) * 0.5 * density * velocity**2
        return air - drop - valve * gas_flow**2 - unit * (gas_flow / at) ** power - opening

    def check(self):
        from scipy.optimize import brentq

        dry = self.flow_with(0.0)
        per = self.water.atmosphere_pa_abs * (self.water.temperature_c + 273.15) / 293.15
        if self.state(dry, 0.0)[1] >= self.supply(0.0):
            return dry, dry, 0.0

        def mismatch(gas_flow):
            flow = self.flow_with(gas_flow)
            return self.state(flow, per * gas_flow / flow)[1] - self.supply(gas_flow)

        high = 0.02 * dry
        while mismatch(high) < 0.0:
            high *= 3.0
        gas_flow = brentq(mismatch, 0.0, high, xtol=1e-12, rtol=1e-9)
        return dry, self.flow_with(gas_flow), gas_flow


def time_arrays():
    """Seconds a case of the arrays, in this process."""
    plant, draws, level = prepared()
    full_check(plant, draws, level)
    spent = []
    for _ in range(REPEATS):
        began = time.perf_counter()
        full_check(plant, draws, level)
        spent.append((time.perf_counter() - began) / draws.size)
    return statistics.median(spent)


def time_scalar():
    """Seconds a case of the plain loop, in this process; also compares the answers."""
    plant, draws, level = prepared()
    running, gas, answer = full_check(plant, draws, level)
    cases = [Scalar(running, gas, plant, draws, index) for index in range(SCALAR_CASES)]
    cases[0].check()
    began = time.perf_counter()
    found = [case.check() for case in cases]
    spent = (time.perf_counter() - began) / SCALAR_CASES
    worst = 0.0
    for index, (_, flow, gas_flow) in enumerate(found):
        worst = max(worst, abs(flow / answer.injector_flow_m3s[index] - 1.0))
        if gas_flow:
            worst = max(worst, abs(gas_flow / answer.gas_flow_m3s[index] - 1.0))
    print(f"largest difference between the two: {worst:.1e} (relative)", file=sys.stderr)
    return spent


def main():
    """Rounds in turn, each side in a process of its own."""
    if len(sys.argv) == 2:
        print({"arrays": time_arrays, "scalar": time_scalar}[sys.argv[1]]())
        return
    ratios = []
    for number in range(ROUNDS):
        spent = {}
        for side in ("arrays", "scalar"):
            done = subprocess.run([sys.executable, __file__, side], check=True, capture_output=True, text=True)
            spent[side] = float(done.stdout)
            if done.stderr and number == 0:
                print(done.stderr.strip())
        ratios.append(spent["scalar"] / spent["arrays"])
        print(f"round {number + 1}: {ratios[-1]:.0f} times the cases per second of the plain loop")
    print(f"median {statistics.median(ratios):.0f} times, lowest {min(ratios):.0f}, highest {max(ratios):.0f}")


if __name__ == "__main__":
    main()
