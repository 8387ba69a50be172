"""Hand valves: open, at an angle or a lift, or by a measured drop."""

import numpy as np

from sanitize.basis.tables import model_table
from sanitize.laws.hydraulics.valves import valve_loss_coefficient
from sanitize.plant.valves import Valve
from sanitize.studies.draws import Array
from sanitize.studies.operating_point.builder import Builder
from sanitize.studies.operating_point.rows import Row
from sanitize.studies.operating_point.stated_drops import stated_square_row


def valve_rows(part: Valve, builder: Builder, bore_m: float) -> list[Row]:
    """The loss of a hand valve as it stands."""
    if part.drop_pa is not None and part.at_flow_m3s is not None:
        return [stated_square_row(part, part.drop_pa, part.at_flow_m3s, builder)]
    word = "ball valve" if part.word == "throttle valve" else part.word
    open_k = builder.table_k(word, part.size)
    if part.handle_deg is not None:
        position = builder.stated(part, "handle", part.handle_deg, "with a protractor or a folded sheet of paper")
        return builder.fittings(_partly_open(word, position, open_k, builder), bore_m, 1.0)
    if part.open_ratio is not None:
        position = builder.stated(part, "open_share", part.open_ratio, "by counting the turns of the wheel")
        return builder.fittings(_partly_open(word, position, open_k, builder), bore_m, 1.0)
    return builder.fittings(open_k, bore_m, 1.0)


def _partly_open(word: str, position: Array, open_k: Array, builder: Builder) -> Array:
    """Loss coefficient at a position, one draw for the scatter between makes; infinite where the valve is shut."""
    entries = {float(key[1]): entry for key, entry in model_table("valve_positions").entries.items() if key[0] == word}
    shut = model_table("valve_shut")[(word,)].value
    fully_open = 0.0 if shut > 1.0 else 1.0
    positions = sorted(entries, key=lambda at: abs(at - fully_open))
    rank = builder.draws.rank(
        f"partly open {word}",
        f"scatter of a partly open {word} around the table",
        "with a gauge before and behind it, at a measured flow",
    )
    tabulated = np.stack([entries[at].band.at(rank) for at in positions], axis=-1)
    added = open_k[:, None] * (tabulated - 1.0) if word == "globe valve" else tabulated
    added = np.concatenate([np.zeros((builder.draws.size, 1)), added], axis=-1)
    return np.asarray(valve_loss_coefficient(position, [fully_open, *positions], added, shut, open_k))
