"""What cannot be reached by adding: how much of the water to replace by fill water."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

import numpy as np

from sanitize.laws.chemistry.cyanurate import CYANURIC_GMOL
from sanitize.laws.chemistry.halogens import CHLORINE_GMOL
from sanitize.laws.chemistry.saturation import CALCIUM_CARBONATE_GMOL
from sanitize.studies.cautions.rule import joined
from sanitize.studies.dosing.least import aim
from sanitize.studies.dosing.numbers import number
from sanitize.studies.dosing.result import SPOKEN, Item, Unreached, WaterChange
from sanitize.studies.dosing.targets import Wanted
from sanitize.studies.dosing.water import Holds, alkalinity_mgl
from sanitize.studies.draws import Array
from sanitize.studies.figures import figure

_WHOLE_RATIO = 0.9
"""From this share on all the water is changed."""
IN_ROUNDS = (
    "acid lowers it in rounds over days, as the pH rises again by itself between them while carbon dioxide leaves; a "
    "change of water does it at once where the fill water has less."
)


@dataclass(frozen=True)
class Changed:
    """The change where one is needed, the water behind it, and what even that does not reach."""

    change: WaterChange | None
    holds: Holds
    unreached: tuple[Unreached, ...]


def change_water(
    holds: Holds, fill: Holds | None, wanted: Mapping[Item, Wanted], items: Sequence[Item], volume_l: Array
) -> Changed:
    """Replace as much as brings every one of the items, which stand too high, back into its range."""
    if not items:
        return Changed(None, holds, ())
    if fill is None:
        told = "stands too high, and nothing at hand lowers it; a part of the water must be changed. How much "
        told += "hangs on the fill water: test it and write [fill_water] with its ph and total_alkalinity."
        unknown = {
            "total_alkalinity": f"The total alkalinity stands too high: {IN_ROUNDS} Write [fill_water] with both."
        }
        texts = [Unreached(item, unknown.get(item, f"The {SPOKEN[item]} {told}")) for item in items]
        return Changed(None, holds, tuple(texts))
    shares, unreached, reached = [], list[Unreached](), list[Item]()
    for item in items:
        ours, theirs, end = amount_of(holds, item), amount_of(fill, item), _upper(item, wanted, fill)
        if theirs[0] > end[0]:
            text = f"The {SPOKEN[item]} of the fill water itself is above what is wanted: changing water does not help."
            if item == "total_alkalinity":
                text += f" But {IN_ROUNDS}"
            unreached.append(Unreached(item, text))
            continue
        room = np.where(ours > theirs, ours - theirs, np.inf)
        shares.append(np.clip((ours - end) / room, 0.0, 1.0))
        reached.append(item)
    if not shares:
        return Changed(None, holds, tuple(unreached))
    share = np.max(shares, axis=0)
    taken = 1.0 if share[0] >= _WHOLE_RATIO else float(share[0])
    after = holds.mixed(fill, np.full(share.size, taken))
    ends = figure(share)
    ranged = type(ends)(min(ends.ends[0], taken), taken, max(ends.ends[2], taken))
    change = WaterChange(
        share_ratio=ranged,
        volume_l=type(ends)(*(float(end * volume_l[0]) for end in ranged.ends)),
        items=tuple(reached),
        why=f"{joined([SPOKEN[item] for item in reached])} above what is wanted; nothing at hand lowers it",
        after=after.expected(),
    )
    return Changed(change, after, tuple(unreached))


def amount_of(holds: Holds, item: Item) -> Array:
    """An item over the cases [mg/L]; alkalinity without that of cyanurate."""
    if item == "dissolved_solids":
        return holds.solids_mgl
    if item == "total_alkalinity":
        return alkalinity_mgl(holds.alkalinity - holds.cyanurate_alkalinity)
    factor, moles = {
        "calcium_hardness": (CALCIUM_CARBONATE_GMOL, holds.calcium),
        "combined_chlorine": (CHLORINE_GMOL, holds.combined),
        "cyanuric_acid": (CYANURIC_GMOL, holds.cyanuric),
    }[item]
    return np.asarray(1e3 * factor * moles)


def too_high(holds: Holds, fill: Holds | None, wanted: Mapping[Item, Wanted], oxidizer_at_hand: bool) -> list[Item]:
    """Items above their range, whatever the reading error, that nothing at hand lowers."""
    items: list[Item] = ["cyanuric_acid", "calcium_hardness"]
    if not oxidizer_at_hand:
        items.append("combined_chlorine")
    found = [item for item in items if item in wanted and surely(amount_of(holds, item) - wanted[item].band.high)]
    if fill is not None and surely(holds.solids_mgl - fill.solids_mgl - number("solids_over_fill_mgl").value):
        found.append("dissolved_solids")
    return found


def surely(excess: Array) -> bool:
    """Whether an excess is one at the low end of its range too: no water is let out for a reading error."""
    return figure(excess).ends[0] > 0.0


def _upper(item: Item, wanted: Mapping[Item, Wanted], fill: Holds) -> Array:
    if item == "dissolved_solids":
        return np.asarray(fill.solids_mgl + 0.5 * number("solids_over_fill_mgl").value)
    return np.full(fill.solids_mgl.size, aim(wanted[item], np.inf)[1])
