"""What drinking-water guidance asks of ozone, against what this loop offers; nothing of it is a credit for a tub."""

import numpy as np

from sanitize.basis.tables import model_table
from sanitize.laws.ozone.disinfection import (
    CRYPTOSPORIDIUM,
    GIARDIA,
    VIRUS,
    Organism,
    ct_by_formula_mg_min_l,
    ct_by_infectivity_mg_min_l,
    ct_by_table_mg_min_l,
)
from sanitize.studies.draws import Array, Mask
from sanitize.studies.figures import figure
from sanitize.studies.ozone.result import CreditRow

_ASKED: tuple[tuple[str, float, Organism], ...] = (
    ("Giardia", 3.0, GIARDIA), ("virus", 4.0, VIRUS), ("Cryptosporidium", 2.0, CRYPTOSPORIDIUM),
)  # fmt: skip
FORMULA_SOURCE = "epa_815_r_20_003"


def credit_rows(
    pass_ct_mg_min_l: Array, tub_ct_mg_min_l: Array, temperature_c: float, solved: Mask
) -> tuple[CreditRow, ...]:
    """Each organism with the larger of the published figures, and the share of it that pipe and tub come to."""
    rows = []
    for name, log, organism in _ASKED:
        asked = float(ct_by_formula_mg_min_l(log, temperature_c, organism))
        other = _by_table(name, log, temperature_c)
        asked = max(asked, other)

        def share(ct: Array, asked: float = asked) -> Array:
            return np.where(solved, ct / asked, np.nan)

        rows.append(
            CreditRow(name, log, asked, figure(share(pass_ct_mg_min_l)), figure(share(tub_ct_mg_min_l)), FORMULA_SOURCE)
        )
    return tuple(rows)


def _by_table(name: str, log: float, temperature_c: float) -> float:
    """The printed table, and for Cryptosporidium what infectivity in mice asks for."""
    rows = {key: entry.value for key, entry in model_table("ozone_ct").entries.items() if key[0] == name}
    if not rows:
        return float(ct_by_infectivity_mg_min_l(log, temperature_c))
    table_log = float(next(iter(rows))[1])
    temperatures, values = [float(key[2]) for key in rows], list(rows.values())
    return float(ct_by_table_mg_min_l(log, temperature_c, temperatures, values, table_log))
