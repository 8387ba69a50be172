"""Which single fault is diagnosed when the tub is not the model: a table of confusions.

Run by hand: python tests/benchmarks/confusion.py
Simulated tubs draw everything that the file leaves open, and the size of their fault, from the ranges, with another
seed and another law of friction (the larger of 64/Re and that of Blasius). Four readings are taken, each with a bias
of its gauge (even, up to 3 % either way) and a random error whose 5th and 95th percentile lie 5 % off. The nominal
model with its own cases then ranks the faults. A second table does the same for a tub whose chiller stands in
a way of its own, without and with the difference of the temperatures over it, read with one thermometer to 0.3 K.
"""

import sys
from pathlib import Path

import numpy as np

LOOP = Path(__file__).with_name("confusion.toml")
READINGS = ("pump_inlet_pa_gauge", "pump_pa_gauge", "filter_drop_pa", "gas_flow_m3s")
FAULTS = (
    "return partly blocked", "suction partly blocked", "filter loaded", "filter torn", "air leak before the pump",
    "pump worn", "gas check valve stuck shut",
)  # fmt: skip
CHILLED = Path(__file__).with_name("confusion_chiller.toml")
CHILLER_DROP = "chiller_drop_k"
CHILLED_FAULTS = ("return partly blocked", "filter loaded", "pump worn", "chiller blocked", "chiller gives no cold")
BIAS_RATIO, ERROR_RATIO, ERROR_K = 0.03, 0.05, 0.3
TUBS, CASES = 256, 2048
TRUTH_SEED, MODEL_SEED, NOISE_SEED = 777, 20, 5
ONE_SIDED_90_PERCENT = 1.645


def blasius(flow_m3s, bore_m, length_m, _roughness, density_kgm3, viscosity_pas, multiplier=1.0, _bridge=None):
    """Loss of a smooth pipe and its slope, in place of the model's law: the larger of 64/Re and 0.3164 Re^-1/4."""
    speed = np.maximum(np.abs(flow_m3s), 1e-9)
    reynolds = 4.0 * density_kgm3 * speed / (np.pi * bore_m * viscosity_pas)
    laminar, turbulent = 64.0 / reynolds, 0.3164 * reynolds**-0.25
    factor, power = np.maximum(laminar, turbulent), np.where(laminar > turbulent, 1.0, 1.75)
    loss = multiplier * factor * length_m / bore_m * 8.0 * density_kgm3 * speed**2 / (np.pi**2 * bore_m**4)
    return np.sign(flow_m3s) * loss, power * loss / speed


def simulated(plant, tubs, readings):
    """Readings of every fault over the tubs, with the other law of friction."""
    from sanitize.studies.cloudy import readings as module
    from sanitize.studies.operating_point import rows

    kept = rows.pipe_loss
    rows.pipe_loss = blasius
    try:
        return module.told_by_faults(plant, tubs, TRUTH_SEED, readings, may_stand=False)
    finally:
        rows.pipe_loss = kept


def read_off(shown, noise, readings):
    """The readings of one tub with the bias of each gauge and a random error; one thermometer's own error cancels."""
    bias = noise.uniform(-BIAS_RATIO, BIAS_RATIO, shown.shape)
    error = noise.standard_normal(shown.shape) / ONE_SIDED_90_PERCENT
    is_drop = np.array(readings) == CHILLER_DROP
    return np.where(is_drop, shown + ERROR_K * error, shown * (1.0 + bias + ERROR_RATIO * error))


def ranked(told, measured, readings):
    """Faults by the likelihood of the readings, the likeliest first; faults that the readings cannot part as one."""
    from sanitize.studies.cloudy.knowledge import rule
    from sanitize.studies.cloudy.readings import fault_odds, likelihoods
    from sanitize.studies.suction.predicted import floor_of

    floors = np.array([floor_of(name) for name in readings])
    is_drop = np.array(readings) == CHILLER_DROP
    own = np.maximum(np.where(is_drop, ERROR_K, ERROR_RATIO * np.abs(measured)) / ONE_SIDED_90_PERCENT, floors)
    errors = np.hypot(own, rule("reading_bias_ratio") * np.abs(measured))
    return fault_odds(likelihoods(told, measured, errors), told, errors)


def confusion(plant, tubs=TUBS, cases=CASES, readings=READINGS, faults=FAULTS):
    """For every fault how often each group of faults came first, and how often its own was among the first two."""
    from sanitize.studies.cloudy import readings as module

    told = module.told_by_faults(plant, cases, MODEL_SEED, readings, may_stand=False)
    truth = simulated(plant, tubs, readings)
    noise = np.random.default_rng(NOISE_SEED)
    table, first_two, count = {}, {}, {}
    for fault in faults:
        table[fault], first_two[fault], count[fault] = {}, 0, 0
        for case in range(1, tubs + 1):
            shown = truth[fault][:, case]
            if np.isnan(shown).any():
                continue
            found = ranked(told, read_off(shown, noise, readings), readings)
            name = found[0].faults[0]
            table[fault][name] = table[fault].get(name, 0) + 1
            first_two[fault] += any(fault in item.faults for item in found[:2])
            count[fault] += 1
    return table, first_two, count


def printed(loop, tubs, readings, faults):
    """Print the table of one tub."""
    from sanitize.loopfile.read import read_plant

    plant = read_plant(loop.read_text(encoding="utf-8")).plant
    table, first_two, count = confusion(plant, tubs, CASES, readings, faults)
    print(f"readings: {', '.join(readings)}")
    for fault in faults:
        shares = sorted(table[fault].items(), key=lambda item: -item[1])
        told = ", ".join(f"{name} {100.0 * number / count[fault]:.0f} %" for name, number in shares)
        print(f"{fault}: in the first two {100.0 * first_two[fault] / count[fault]:.0f} %; came first: {told}")
    print(f"all: in the first two {100.0 * sum(first_two.values()) / sum(count.values()):.1f} %")


def main():
    """Print the tables."""
    tubs = int(sys.argv[1]) if len(sys.argv) > 1 else TUBS
    printed(LOOP, tubs, READINGS, FAULTS)
    printed(CHILLED, tubs, READINGS, CHILLED_FAULTS[:-1])
    printed(CHILLED, tubs, (*READINGS, CHILLER_DROP), CHILLED_FAULTS)


if __name__ == "__main__":
    main()
