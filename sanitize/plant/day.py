"""The day of a tub: who bathes when, and what the timer may do."""

from collections.abc import Sequence
from typing import Annotated, Literal

from sanitize.plant.spec import Record, Spec

DAY_S = 86400.0
PARTICLES = ("above 25 um", "10 to 25 um", "4 to 10 um", "1 to 4 um")
PROFILES = (
    "Wisconsin cold soak", "Wisconsin plunge", "Wisconsin whirlpool", "Wisconsin wading", "Wisconsin swimming",
    "Montana spa", "Montana pool", "Austria 1998", "Loudoun County",
)  # fmt: skip


class Window(Record):
    """A part of the day, in seconds from midnight; it ends behind midnight where the end is not after the start."""

    start_s: float
    end_s: float

    @property
    def length_s(self) -> float:
        """How long it is."""
        return (self.end_s - self.start_s) % DAY_S or DAY_S

    def holds(self, time_s: float) -> bool:
        """Whether a time of the day lies in it, its end left out."""
        return (time_s - self.start_s) % DAY_S < self.length_s


class PriceWindow(Window):
    """A part of the day with the price of electricity in it, per kWh."""

    price_per_kwh: float


def together_s(some: Sequence[Window], others: Sequence[Window]) -> float:
    """Time a day in which one of some windows and one of the others hold, by the minute in which files state them.

    >>> evening = Window(start_s=64800.0, end_s=3600.0)
    >>> together_s([evening], [Window(start_s=0.0, end_s=7200.0)]) / 3600.0
    1.0
    """
    starts = [60.0 * minute for minute in range(1440)]
    return 60.0 * sum(
        1 for start_s in starts
        if any(window.holds(start_s) for window in some) and any(window.holds(start_s) for window in others)
    )  # fmt: skip


def clock(time_s: float) -> str:
    """A time of the day as people write it.

    >>> clock(68400.0), clock(86400.0)
    ('19:00', '00:00')
    """
    minutes = round(time_s / 60.0) % 1440
    return f"{minutes // 60:02d}:{minutes % 60:02d}"


class Bathers(Record):
    """The bathers of an ordinary day."""

    per_day: Annotated[
        float,
        Spec(
            key="per_day",
            kind="number",
            help="Dips on an ordinary day.",
            example="2",
            low=0.0,
            high=2000.0,
            required=True,
        ),
    ]
    times: Annotated[
        tuple[Window, ...],
        Spec(
            key="times",
            kind="day windows",
            help="When people are in the tub: from and to, each as hours and minutes.",
            example='[["18:00", "19:00"]]',
        ),
    ] = ()
    treated_each_m3: Annotated[
        float | None,
        Spec(
            key="treated_water_each",
            kind="volume",
            help="Water that the filter treats for every bather; left out, a published rule for public pools.",
            example='"2000 L"',
            above=0.0,
            high=50.0,
        ),
    ] = None
    haze_each_m3: Annotated[
        float | None,
        Spec(
            key="haze_each",
            kind="number",
            help="Turbidity that a bather brings, in NTU times cubic metres; left out, a rough assumption.",
            example="0.1",
            low=0.0,
            high=10.0,
        ),
    ] = None
    haze_limit_ntu: Annotated[
        float | None,
        Spec(
            key="haze_limit",
            kind="number",
            help="Turbidity in NTU that the water must keep below, right after bathing too.",
            example="0.5",
            above=0.0,
            high=100.0,
        ),
    ] = None
    particles: Annotated[
        Literal["above 25 um", "10 to 25 um", "4 to 10 um", "1 to 4 um"],
        Spec(
            key="particles",
            kind="word",
            help="Size of the particles that the water is to be clear of; the filter keeps large ones better.",
            example='"4 to 10 um"',
            words=PARTICLES,
        ),
    ] = "4 to 10 um"


class Timer(Record):
    """The timer of the pump, and what is wished of it."""

    segment: Annotated[
        Literal["15 min", "30 min"],
        Spec(
            key="segment",
            kind="word",
            help="The shortest step of the timer.",
            example='"15 min"',
            words=("15 min", "30 min"),
        ),
    ] = "15 min"
    turnovers_count: Annotated[
        float | None,
        Spec(
            key="turnovers",
            kind="number",
            help="Turnovers a day that you want; left out, 6, or 12 with bathers every day.",
            example="8",
            above=0.0,
            high=1000.0,
        ),
    ] = None
    longest_idle_s: Annotated[
        float | None,
        Spec(
            key="longest_idle",
            kind="time",
            help="Longest time that the water may stand; left out, 6 h in cold and 3 h in warm water.",
            example='"6 h"',
            low=1800.0,
            high=86400.0,
        ),
    ] = None
    least_run_s: Annotated[
        float | None,
        Spec(
            key="least_run",
            kind="time",
            help="Shortest run of the pump; left out, one step, or half an hour where ozone runs with it.",
            example='"30 min"',
            low=0.0,
            high=86400.0,
        ),
    ] = None
    runs_count: Annotated[
        int | None,
        Spec(
            key="most_runs",
            kind="count",
            help="How often a day the pump may be switched on.",
            example="4",
            low=1,
            high=48,
        ),
    ] = None
    quiet: Annotated[
        tuple[Window, ...],
        Spec(
            key="quiet",
            kind="day windows",
            help="Quiet hours in which the pump stands.",
            example='[["22:00", "06:00"]]',
        ),
    ] = ()
    run_before_s: Annotated[
        float | None,
        Spec(
            key="run_before",
            kind="time",
            help="How long the pump runs right before people get in.",
            example='"30 min"',
            low=0.0,
            high=43200.0,
        ),
    ] = None
    run_after_s: Annotated[
        float | None,
        Spec(
            key="run_after",
            kind="time",
            help="How long the pump runs right after they have left.",
            example='"1 h"',
            low=0.0,
            high=43200.0,
        ),
    ] = None
    ozone_run_s: Annotated[
        float | None,
        Spec(
            key="ozone_hours",
            kind="time",
            help="Hours a day that the ozone unit is to run.",
            example='"3 h"',
            low=0.0,
            high=86400.0,
        ),
    ] = None
    ozone_rest_s: Annotated[
        float | None,
        Spec(
            key="ozone_rest",
            kind="time",
            help="How long before people get in the ozone unit is off.",
            example='"2 h"',
            low=0.0,
            high=86400.0,
        ),
    ] = None
    two_timers: Annotated[
        bool,
        Spec(
            key="two_timers",
            kind="flag",
            help="true where the ozone unit has a timer of its own; otherwise it runs whenever the pump does.",
            example="true",
        ),
    ] = False
    clocks_apart_s: Annotated[
        float | None,
        Spec(
            key="clocks_apart",
            kind="time",
            help="How far the clocks of two timers may be apart, either way.",
            example='"15 min"',
            low=0.0,
            high=7200.0,
        ),
    ] = None
    pump_times: Annotated[
        tuple[Window, ...],
        Spec(
            key="pump_times",
            kind="day windows",
            help="When the pump runs, as the timer is set; `sanitize day` follows it.",
            example='[["05:00", "07:30"], ["16:30", "20:00"]]',
        ),
    ] = ()
    ozone_times: Annotated[
        tuple[Window, ...],
        Spec(
            key="ozone_times",
            kind="day windows",
            help="When the ozone unit runs, as its timer is set; needs `pump_times`; left out, with the pump.",
            example='[["05:00", "07:00"]]',
        ),
    ] = ()
    price_per_kwh: Annotated[
        float | None,
        Spec(
            key="price",
            kind="number",
            help="Price of a kWh, the same all day.",
            example="0.30",
            low=0.0,
            high=1000.0,
        ),
    ] = None
    prices: Annotated[
        tuple[PriceWindow, ...],
        Spec(
            key="prices",
            kind="day prices",
            help="Instead of `price`: the day's prices of a kWh, from and to, without a gap.",
            example='[["06:00", "22:00", 0.34], ["22:00", "06:00", 0.21]]',
        ),
    ] = ()
    public_profile: Annotated[
        Literal[
            "Wisconsin cold soak", "Wisconsin plunge", "Wisconsin whirlpool", "Wisconsin wading", "Wisconsin swimming",
            "Montana spa", "Montana pool", "Austria 1998", "Loudoun County",
        ]
        | None,
        Spec(
            key="public_profile",
            kind="word",
            help="For a public tub: the published rule to compare with; the local authority decides.",
            example='"Wisconsin cold soak"',
            words=PROFILES,
        ),
    ] = None  # fmt: skip
