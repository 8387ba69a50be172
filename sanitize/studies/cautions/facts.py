"""What the rules of the cautions look at: numbers at their worst end, and the plant."""

from collections.abc import Mapping
from dataclasses import dataclass
from math import pi
from typing import Literal

from sanitize.basis.units import Family
from sanitize.plant.ends import Suction
from sanitize.plant.gas import GasLine, OzoneUnit
from sanitize.plant.injector import Injector
from sanitize.plant.loop import Plant, walk
from sanitize.plant.machines import Chiller
from sanitize.plant.part import Part
from sanitize.plant.tub import Room

Place = Literal["indoors", "outdoors"]
StateName = Literal["off", "running", "returns shut", "filter loaded"]
Flood = tuple[StateName, Literal["normal", "rim"], Literal["sound", "leaking", "none"]]


@dataclass(frozen=True)
class OzoneFound:
    """What the ozone study found at the end that is worst for people.

    is_drawn: whether the injector draws gas in nearly all cases, else what the unit makes may seep out elsewhere;
    residual_high_mgl: in the water when people get in right after the unit ran; room_high_ppmv: None outdoors;
    room_is_assumed: whether a small shut room stands in for one that the file does not describe; attacked: parts of
    the loop whose material ozone attacks, a sentence for each material and side.
    """

    is_drawn: bool
    residual_high_mgl: float
    room_high_ppmv: float | None
    room_is_assumed: bool
    over_water_high_ppmv: float
    under_cover_high_ppmv: float
    has_bromide: bool
    attacked: tuple[str, ...] = ()


@dataclass(frozen=True)
class Facts:
    """What one loop and its answer say about danger; every mapping goes by the part's name.

    flow_high_m3s: out of the tub; suction_flows_high_m3s: of each suction fitting; blocked: vacuum [Pa] and force [N]
    on a covered suction; the two velocities with the part in which they stand; pump_past_curve_ratio: share of the
    cases in which a pump runs beyond the last point of its curve; injector_before: filters and chillers that stand
    behind the injector; floods: states in which water reaches the ozone unit; chiller_flows_m3s: low and high;
    ozone_found: where the ozone was worked out.
    """

    plant: Plant
    family: Family
    flow_high_m3s: float
    suction_flows_high_m3s: Mapping[str, float]
    blocked: Mapping[str, tuple[float, float]]
    suction_velocity_high_ms: float
    suction_velocity_part: str
    return_velocity_high_ms: float
    return_velocity_part: str
    pump_inlet_pressure_low_pa_gauge: Mapping[str, float]
    pump_above_water: Mapping[str, bool]
    pump_past_curve_ratio: Mapping[str, float]
    chiller_flows_m3s: Mapping[str, tuple[float, float]]
    injector_on_suction_side: bool
    injector_before: tuple[str, ...]
    floods: tuple[Flood, ...]
    valve_missing: bool
    air_enters_when_off: bool
    ozone_found: OzoneFound | None = None

    @property
    def parts(self) -> list[Part]:
        """Every part of the loop."""
        return walk(self.plant.loop)

    @property
    def suctions(self) -> list[Suction]:
        """Every suction fitting."""
        return [part for part in self.parts if isinstance(part, Suction)]

    @property
    def chillers(self) -> list[Chiller]:
        """Every chiller."""
        return [part for part in self.parts if isinstance(part, Chiller)]

    @property
    def ozone_is_found(self) -> bool:
        """Whether the ozone in the air was worked out, with the injector drawing it."""
        return self.ozone_found is not None and self.ozone_found.is_drawn

    @property
    def has_injector(self) -> bool:
        """Whether the loop has an injector."""
        return any(isinstance(part, Injector) for part in self.parts)

    @property
    def ozone(self) -> OzoneUnit | None:
        """The ozone unit, where the file names one."""
        return self.plant.ozone

    @property
    def ozone_possible(self) -> bool:
        """Whether ozone may come in: the file names a unit, or an injector that one could be hung on."""
        return self.plant.ozone is not None or self.has_injector

    @property
    def gas_line(self) -> GasLine | None:
        """The gas line, where the file describes it."""
        return self.plant.gas_line

    @property
    def place(self) -> Place | None:
        """Where the tub stands, where the file says it."""
        return self.plant.tub.place

    @property
    def room(self) -> Room | None:
        """The room, where the file describes it."""
        return self.plant.room

    @property
    def water_temperature_c(self) -> float:
        """Temperature of the water."""
        return self.plant.tub.temperature_c

    def suction_flow_high_m3s(self, name: str) -> float:
        """High end of the flow through one suction; all the flow where that one was not worked out."""
        return self.suction_flows_high_m3s.get(name, self.flow_high_m3s)

    @property
    def grate_velocities_high_ms(self) -> dict[str, float]:
        """Velocity through the holes of each cover whose open area is known: flow over the free area."""
        found: dict[str, float] = {}
        for suction in self.suctions:
            if suction.cover_face_m is None or suction.cover_free_ratio is None:
                continue
            open_m2 = suction.cover_free_ratio * (1.0 - suction.clogged_ratio) * pi * suction.cover_face_m**2 / 4.0
            found[suction.name] = self.suction_flow_high_m3s(suction.name) / open_m2
        return found
