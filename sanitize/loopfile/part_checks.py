"""What must fit together within one part."""

from collections.abc import Callable, Mapping
from typing import Any

from sanitize.basis.band import Band
from sanitize.basis.tables import model_table
from sanitize.basis.units import show
from sanitize.loopfile.fields import Fields
from sanitize.loopfile.reading import Reading
from sanitize.plant.ends import Return, Strainer, Suction
from sanitize.plant.injector import Injector
from sanitize.plant.machines import Chiller, Filter, Pump
from sanitize.plant.part import HEIGHT, Part
from sanitize.plant.valves import CheckValve, Valve

HANDLE_WORDS = ("ball valve", "throttle valve", "butterfly valve")
WHEEL_WORDS = ("gate valve", "globe valve")


def check_part(record: type[Part], fields: Fields, size: str | None, reading: Reading) -> None:
    """Note everything that does not fit together within a part."""
    if record.needs_height and "height" not in fields.given:
        reading.problem(
            fields.place.at("height"),
            f"is missing, and {fields.owner} needs one",
            'a height in quotes with its unit or "unknown"',
            f"height = {HEIGHT.example}",
        )
    check = _CHECKS.get(record)
    if check is not None:
        check(_Check(fields, size, reading))


class _Check:
    """The fields of one part and what its checks say."""

    def __init__(self, fields: Fields, size: str | None, reading: Reading) -> None:
        self.fields, self.size, self.reading = fields, size, reading
        self.values: Mapping[str, Any] = fields.values

    def has(self, key: str) -> bool:
        return key in self.fields.given

    def wrong(self, key: str, found: str, accepted: str = "", write: str = "") -> None:
        self.reading.problem(self.fields.place.at(key), found, accepted, write)

    def needs(self, key: str, other: str, write: str) -> None:
        """A key that means nothing without another one."""
        if self.has(key) and not self.has(other):
            self.wrong(key, f"means nothing without `{other}`", write=write)

    def excludes(self, key: str, other: str) -> None:
        """Two keys that cannot stand together."""
        if self.has(key) and self.has(other):
            self.wrong(key, f"cannot stand together with `{other}`", f"`{key}` or `{other}`")

    def shown(self, value_m: float) -> str:
        return show(value_m, "bore", self.reading.family, 3)


def _drop(check: _Check) -> None:
    check.needs("drop", "at_flow", 'at_flow = "20 L/min"')
    check.needs("at_flow", "drop", 'drop = "4 kPa"')


def _valve(check: _Check) -> None:
    word = check.fields.owner
    if check.has("handle") and word not in HANDLE_WORDS:
        check.wrong("handle", f"a {word} has no quarter turn", "`open_share`", "open_share = 0.5")
    if check.has("open_share") and word not in WHEEL_WORDS:
        check.wrong("open_share", f"a {word} is set by its handle", "`handle`", 'handle = "35 deg"')
    _drop(check)
    check.excludes("drop", "handle")
    check.excludes("drop", "open_share")


def _check_valve(check: _Check) -> None:
    _drop(check)
    if check.has("opens_at") and check.values.get("style") == "swing":
        check.wrong("opens_at", "a swing check valve has no spring to open", '`opens_at` with style = "spring" only')


def _rated(check: _Check) -> None:
    check.excludes("drops", "drop" if check.has("drop") else "at_flow")
    if not check.has("drops"):
        if not check.has("drop") and not check.has("at_flow"):
            check.wrong(
                "drop", "is missing", "`drop` with `at_flow`, or `drops`", 'drop = "6 kPa", at_flow = "40 L/min"'
            )
        _drop(check)


def _filter(check: _Check) -> None:
    _rated(check)
    check.needs("solids_load", "media_area", 'media_area = "0.9 m2"')
    if check.has("days_to_loaded") and check.values.get("loaded_ratio") == 1.0:
        check.wrong(
            "loaded_drop_ratio",
            "a filter that loads ends above its clean drop",
            "more than 1",
            "loaded_drop_ratio = 2.5",
        )


def _chiller(check: _Check) -> None:
    _rated(check)
    least, most = check.values.get("min_flow_m3s"), check.values.get("max_flow_m3s")
    if least is not None and most is not None and least > most:
        check.wrong("min_flow", "is above `max_flow`", "a least flow below the largest")


def _pump(check: _Check) -> None:
    check.needs("speed", "curve_speed", 'curve_speed = "2900 rpm"')
    check.needs("curve_speed", "speed", 'speed = "2400 rpm", or leave it out')


def _suction(check: _Check) -> None:
    check.needs("cover_free_share", "cover_diameter", 'cover_diameter = "150 mm"')
    if check.has("inlet_end"):
        check.wrong("inlet_end", "it stands in the tub's wall and joins no part there", "`outlet_end`")


def _strainer(check: _Check) -> None:
    check.needs("free_share", "basket_area", 'basket_area = "120 cm2"')


def _return(check: _Check) -> None:
    check.needs("nozzle_shape", "nozzle_bore", 'nozzle_bore = "14 mm"')
    check.needs("jets", "nozzle_bore", 'nozzle_bore = "14 mm"')
    if check.has("outlet_end"):
        check.wrong("outlet_end", "it opens into the tub and joins no part there", "`inlet_end`")


def _injector(check: _Check) -> None:
    benched = check.has("inlet_to_port") and check.has("outlet_to_port")
    half_benched = check.has("inlet_to_port") != check.has("outlet_to_port")
    if not check.has("throat") and not check.has("bench") and not benched and not half_benched:
        check.wrong(
            "throat",
            "is missing",
            '`throat` (or "unknown"), or `bench`, or both `inlet_to_port` and `outlet_to_port`',
            'throat = "8 mm"',
        )
    if not check.has("throat") and not check.has("bench"):
        check.needs("inlet_to_port", "outlet_to_port", 'outlet_to_port = ["23 kPa", "25 L/min"]')
        check.needs("outlet_to_port", "inlet_to_port", 'inlet_to_port = ["30 kPa", "25 L/min"]')
    if check.has("barb_bore") and check.values.get("ends", "plain") != "barbed":
        check.wrong("barb_bore", "means nothing with ends that are not barbed", write='ends = "barbed"')
    for key in ("inlet_end", "outlet_end"):
        if check.values.get("ends", "plain") != "plain":
            check.excludes(key, "ends")
    fall, rise = check.values.get("inlet_to_port"), check.values.get("outlet_to_port")
    if fall is not None and rise is not None and rise.drop_pa / rise.flow_m3s**2 >= fall.drop_pa / fall.flow_m3s**2:
        check.wrong(
            "outlet_to_port",
            "at equal flow it is not below `inlet_to_port`, so the injector would give more pressure than it takes",
            "an outlet pressure below the inlet pressure",
        )
    _throat(check)


def _throat(check: _Check) -> None:
    throat = check.values.get("throat_m")
    if throat is None:
        return
    bores = {"inlet_bore": check.values.get("inlet_bore_m"), "outlet_bore": check.values.get("outlet_bore_m")}
    barb = check.values.get("barb_bore_m")
    if isinstance(barb, Band):
        bores["barb_bore"] = barb.nominal
    table = model_table("pipe_bores").entries
    if bores["inlet_bore"] is None and barb is None and ("40", check.size or "") in table:
        bores[f"{check.size} in pipe"] = table["40", check.size or ""].value
    for name, bore in bores.items():
        if bore is not None and throat.high >= bore:
            unsure = "" if throat.nominal >= bore else f", with its range up to {check.shown(throat.high)},"
            check.wrong(
                "throat",
                f"{check.shown(throat.nominal)}{unsure} is not narrower than {name} ({check.shown(bore)})",
                "a throat narrower than both ends",
            )
    mixing = check.values.get("mixing_bore_m")
    if mixing is not None and mixing < throat.nominal:
        check.wrong(
            "mixing_bore", f"is narrower than the throat ({check.shown(throat.nominal)})", "a bore at least as wide"
        )
    outlet = bores["outlet_bore"]
    if mixing is not None and outlet is not None and mixing > outlet:
        check.wrong("mixing_bore", f"is wider than outlet_bore ({check.shown(outlet)})", "a bore at most as wide")


_CHECKS: dict[type[Part], Callable[[_Check], None]] = {
    Valve: _valve,
    CheckValve: _check_valve,
    Filter: _filter,
    Chiller: _chiller,
    Pump: _pump,
    Suction: _suction,
    Strainer: _strainer,
    Return: _return,
    Injector: _injector,
}
