"""The injector whose port has reached the vapour pressure: it then takes whatever pressure is left over."""

from collections.abc import Sequence
from dataclasses import dataclass

import numpy as np

from sanitize.studies.draws import Array, Mask
from sanitize.studies.operating_point.rows import Row, Water, total

Legs = dict[tuple[int, int], Array]


@dataclass(frozen=True, eq=False)
class Cavitation:
    """Where the injector stands and what its port sees.

    link: its link; behind: rows of the link behind it; end_leg: the tee at the link's end, as (meeting, way);
    downstream: the links from there to the tub, each with the cases in which the way leads through it (None: all);
    static_pa: weight of the water from the surface up to the injector; outlet_pa_s2m6 and recovery_pa_s2m6: velocity
    head at its outlet and static recovery kappa Z, both over the square of its flow.
    """

    link: int
    behind: list[Row]
    end_leg: tuple[int, int] | None
    downstream: list[tuple[int, Mask | None]]
    static_pa: Array
    outlet_pa_s2m6: Array
    recovery_pa_s2m6: Array

    def outlet_total_pa(
        self, flow: Array, loss: Array, legs: Legs, water: Water, shares: Sequence[tuple[int, Array]] | None = None
    ) -> tuple[Array, Array]:
        """Total pressure at the injector's outlet above the tub's surface [Pa], and its slope with the link's flow.

        shares: the links to the tub with the share of the water that passes each, where the flows are none that balance
        and the ways behind a split therefore disagree; their mean by flow is then taken.
        """
        ahead, slope = total(self.behind, flow[self.link], water)
        if self.end_leg is not None:
            ahead = ahead + legs[self.end_leg]
        for link, share in shares or ():
            ahead = ahead + np.where(share > 0.0, share * loss[link], 0.0)
        for link, leads in self.downstream if shares is None else ():
            ahead = ahead + (loss[link] if leads is None else np.where(leads, loss[link], 0.0))
        return ahead, slope

    def port_without_floor_pa_abs(
        self, flow: Array, loss: Array, legs: Legs, water: Water, shares: Sequence[tuple[int, Array]] | None = None
    ) -> Array:
        """Absolute pressure at the closed port if water could not boil [Pa], arrays over cases; shares as above."""
        ahead, _ = self.outlet_total_pa(flow, loss, legs, water, shares)
        square = flow[self.link] ** 2
        outlet = water.atmosphere_pa_abs + ahead - self.static_pa - self.outlet_pa_s2m6 * square
        return np.asarray(outlet - self.recovery_pa_s2m6 * square)

    def extra_loss(
        self, flow: Array, loss: Array, jacobian: Array, legs: Legs, leg_slopes: Legs, water: Water
    ) -> tuple[Array, Array]:
        """Loss on top of the injector's own [Pa] that holds the port at the vapour pressure, and its slopes.

        Shapes (cases) and (links, cases). With it the inlet no longer feels the outlet: the flow is choked.
        """
        lacking = water.vapour_pa_abs - self.port_without_floor_pa_abs(flow, loss, legs, water)
        chokes = (lacking > 0.0) & (flow[self.link] > 0.0)
        _, behind_slope = self.outlet_total_pa(flow, loss, legs, water)
        slopes = np.zeros_like(flow)
        slopes[self.link] = 2.0 * (self.outlet_pa_s2m6 + self.recovery_pa_s2m6) * flow[self.link] - behind_slope
        if self.end_leg is not None:
            slopes -= leg_slopes[self.end_leg]
        for link, leads in self.downstream:
            slopes -= jacobian[link] if leads is None else np.where(leads, jacobian[link], 0.0)
        return np.where(chokes, lacking, 0.0), np.where(chokes, slopes, 0.0)
