"""The wishes as linear rows over the segments of the day: a row belongs to one wish, or to none and always holds."""

from dataclasses import dataclass, field
from math import ceil, floor

import numpy as np

from sanitize.plant.day import DAY_S
from sanitize.studies.hours.result import Wishes
from sanitize.studies.timer.result import Device, WishName
from sanitize.studies.timer.segments import Bools, after, around, before, spans_of, touched


@dataclass(frozen=True)
class Row:
    """sum(values x[columns]) >= least.

    wish: to which it belongs, None for one that always holds; within: a wish whose own rows say this and more.
    """

    columns: tuple[int, ...]
    values: tuple[float, ...]
    least: float
    wish: WishName | None
    within: WishName | None = None


@dataclass
class Rows:
    """Columns of the devices (on, and starts) and the rows over them; n segments a day."""

    n: int
    devices: dict[Device, int] = field(default_factory=dict)
    rows: list[Row] = field(default_factory=list)
    columns_count: int = 0

    def on(self, what: Device, segment: int) -> int:
        """Column: whether a device runs in a segment of the endless day."""
        return self.devices[what] + segment % self.n

    def start(self, what: Device, segment: int) -> int:
        """Column: whether it is switched on at the segment's beginning."""
        return self.devices[what] + self.n + segment % self.n

    def add(
        self,
        terms: list[tuple[int, float]],
        least: float,
        wish: WishName | None = None,
        within: WishName | None = None,
    ) -> None:
        """A row; terms: column and value."""
        columns, values = zip(*terms, strict=True)
        self.rows.append(Row(columns, values, least, wish, within))

    def device(self, what: Device, segments: int = 1, wish: WishName | None = None) -> None:
        """A device that is switched, with its starts: start >= on - on before, <= on, <= 1 - on before.

        segments: of its shortest run, where a wish asks for more than one: the starts of that time <= on (turn-on
        inequality), which says that a start <= on too.
        """
        self.devices[what] = self.columns_count
        self.columns_count += 2 * self.n
        length = min(segments, self.n)
        longer = wish if length > 1 else None
        for t in range(self.n):
            now, then, start = self.on(what, t), self.on(what, t - 1), self.start(what, t)
            self.add([(start, 1.0), (now, -1.0), (then, 1.0)], 0.0)
            self.add([(now, 1.0), (start, -1.0)], 0.0, within=longer)
            self.add([(then, -1.0), (start, -1.0)], -1.0)
            if longer is not None:
                starts = [(self.start(what, t - back), -1.0) for back in range(length)]
                self.add([(now, 1.0), *starts], 0.0, longer)

    def inside(self, what: Device, other: Device, segments: int = 0, wish: WishName | None = None) -> None:
        """A device runs only where another one does.

        segments: where a wish asks for some, only where the other one has run for so many and still will for as many.
        """
        well = wish if segments > 0 else None
        for t in range(self.n):
            self.add([(self.on(other, t), 1.0), (self.on(what, t), -1.0)], 0.0, within=well)
            for shift in range(1 - segments, segments + 1) if well is not None else ():
                terms = [(self.on(other, t + shift), 1.0), (self.start(other, t + shift), -1.0)]
                self.add([*terms, (self.on(what, t), -1.0)], 0.0, well)

    def least_off(self, what: Device, segments: int, wish: WishName) -> None:
        """No rest shorter than so many segments: the starts of that time <= 1 - on before it."""
        length = min(segments, self.n - 1)
        if length > 1:
            for t in range(self.n):
                terms = [(self.start(what, t - back), -1.0) for back in range(length)]
                self.add([(self.on(what, t - length), -1.0), *terms], -1.0, wish)

    def no_longer_off(self, what: Device, segments: int, wish: WishName) -> None:
        """On, or switched on within so many segments: tighter than one segment on in every such stretch."""
        for t in range(self.n):
            starts = [(self.start(what, t + ahead), 1.0) for ahead in range(1, min(segments, self.n - 1) + 1)]
            self.add([(self.on(what, t), 1.0), *starts], 1.0, wish)

    def total(self, what: Device, segments: int, wish: WishName) -> None:
        """At least so many segments a day."""
        self.add([(self.on(what, t), 1.0) for t in range(self.n)], float(segments), wish)

    def held(self, what: Device, where: Bools, on: bool, wish: WishName) -> None:
        """On, or off, in these segments."""
        for t in np.flatnonzero(where):
            self.add([(self.on(what, int(t)), 1.0 if on else -1.0)], 1.0 if on else 0.0, wish)


def segments_up(time_s: float, segment_s: float) -> int:
    """Whole segments that a time needs."""
    return max(ceil(time_s / segment_s - 1e-9), 0)


def rows_of(wishes: Wishes, run_s: float) -> Rows:
    """Every wish; run_s: time a day that the pump must run [s], finite.

    With one timer the ozone unit is the pump's companion and has no columns of its own. A chiller that cannot hold the
    temperature (its time infinite) is wanted as long as the pump.
    """
    step = wishes.segment_s
    rows = Rows(round(DAY_S / step))
    rows.device("pump", segments_up(wishes.least_run_s, step), "shortest run")
    rows.total("pump", segments_up(run_s, step), "run time")
    rows.no_longer_off("pump", floor(wishes.longest_idle_s / step + 1e-9), "longest idle time")
    rows.held("pump", touched(step, spans_of(wishes.quiet)), False, "quiet hours")
    rows.held("pump", touched(step, before(wishes.bathing, wishes.run_before_s)), True, "run before bathing")
    rows.held("pump", touched(step, after(wishes.bathing, wishes.run_after_s)), True, "run after bathing")
    if wishes.run_during:
        rows.held("pump", touched(step, spans_of(wishes.bathing)), True, "run while bathing")
    if wishes.most_runs_count is not None:
        starts = [(rows.start("pump", t), -1.0) for t in range(rows.n)]
        rows.add(starts, -float(wishes.most_runs_count), "most runs")
    if wishes.has_ozone:
        _ozone(rows, wishes)
    if wishes.chiller_run_s is not None:
        _chiller(rows, wishes, min(wishes.chiller_run_s.ends[1], run_s))
    return rows


def _ozone(rows: Rows, wishes: Wishes) -> None:
    step, apart = wishes.segment_s, wishes.clocks_apart_s if wishes.two_timers else 0.0
    what: Device = "pump"
    if wishes.two_timers:
        if wishes.ozone_run_s <= 0.0:
            return
        what = "ozone"
        rows.device(what, segments_up(wishes.ozone_least_run_s, step), "shortest ozone run")
        rows.inside(what, "pump", segments_up(apart, step), "clocks apart")
    rows.total(what, segments_up(wishes.ozone_run_s, step), "ozone hours")
    rest = around(wishes.bathing, wishes.ozone_rest_s + apart, apart)
    rows.held(what, touched(step, rest), False, "ozone rest")


def _chiller(rows: Rows, wishes: Wishes, wanted_s: float) -> None:
    step = wishes.segment_s
    if wanted_s <= 0.0:
        return
    rows.device("chiller", segments_up(wishes.chiller_least_on_s, step), "shortest chiller run")
    rows.inside("chiller", "pump")
    rows.total("chiller", segments_up(wanted_s, step), "chiller hours")
    rows.least_off("chiller", segments_up(wishes.chiller_least_off_s, step), "shortest chiller rest")
