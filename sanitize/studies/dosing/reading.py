"""From the water tests of the file to one test with its reading errors, and what speaks against using it."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from datetime import date, timedelta

from sanitize.basis.band import Band
from sanitize.basis.errors import InputError, Problem
from sanitize.basis.notices import Notice
from sanitize.basis.tables import model_table
from sanitize.laws.chemistry.products import strongest_ratio
from sanitize.plant.loop import Plant
from sanitize.plant.water import LIQUIDS, FillWater, Sanitizer, WaterTest
from sanitize.studies.dosing.numbers import number
from sanitize.studies.dosing.result import Item

_FIELDS: Mapping[str, Item] = {
    "ph": "ph",
    "alkalinity_mgl": "total_alkalinity",
    "calcium_mgl": "calcium_hardness",
    "free_chlorine_mgl": "free_chlorine",
    "bromine_mgl": "bromine",
    "cyanuric_mgl": "cyanuric_acid",
    "peroxide_mgl": "peroxide",
}
_COUNTED: Mapping[str, str] = {
    "calcium hypochlorite": "available chlorine",
    "dichlor": "available chlorine",
    "trichlor": "available chlorine",
    "bromine tablets": "available chlorine, bromine counted as chlorine",
    "potassium monopersulfate": "KHSO5 in the triple salt",
}
_ROUNDED = 1.02
"""How far a rounded label may stand above the pure substance."""
_LASTING = ("alkalinity_mgl", "calcium_mgl", "cyanuric_mgl", "solids_mgl", "conductivity_us_cm")
_RESIDUALS: Mapping[str, tuple[Item, str]] = {
    "chlorine": ("free_chlorine", 'free_chlorine = "1.0 mg/L"'),
    "bromine": ("bromine", 'bromine = "3 mg/L"'),
    "peroxide": ("peroxide", 'peroxide = "30 mg/L"'),
}


@dataclass(frozen=True)
class Tested:
    """One test and what the keeper wants: a band for each item read, combined chlorine and solids beside them."""

    sanitizer: Sanitizer
    bands: Mapping[Item, Band]
    combined: Band
    solids: Band | None
    temperature_c: float
    day: date | None
    notices: tuple[Notice, ...]


def with_error(value: Band, method: str, item: str) -> Band:
    """A reading with its own range where it states one, else with the error of its method.

    >>> with_error(Band.exact(80.0), "drops", "total_alkalinity")
    Band(low=70.0, nominal=80.0, high=90.0, scale='linear')
    """
    if not value.is_exact:
        return value
    errors = model_table("test_errors").entries
    absolute, relative = errors.get((method, item, "absolute")), errors.get((method, item, "relative"))
    spread = max(absolute.value if absolute else 0.0, value.nominal * (relative.value if relative else 0.0))
    return Band(max(value.nominal - spread, 0.0), value.nominal, value.nominal + spread)


def read_tests(plant: Plant, today: date | None, max_age_days: float) -> Tested:
    """The latest test with what lasts from earlier ones; raises InputError with every reason against a dose."""
    problems: list[Problem] = []
    if not plant.water_test:
        problems.append(Problem("[[water_test]]", "there is none", "a test of the tub's water", "[[water_test]]"))
    if plant.sanitizer is None:
        problems.append(
            Problem("[sanitizer]", "is missing: what keeps a residual in the water", "uses", 'uses = "chlorine"')
        )
    if problems or plant.sanitizer is None:
        raise InputError(problems)
    tests = in_order(plant.water_test)
    latest, earlier = tests[-1], tests[:-1]
    problems += _age(latest, today, max_age_days)
    values = {name: getattr(latest, name) for name in WaterTest.model_fields}
    methods = dict.fromkeys(values, latest.method)
    notices: list[Notice] = []
    for name in _LASTING:
        older = next((test for test in reversed(earlier) if getattr(test, name) is not None), None)
        if values[name] is None and older is not None and _lasts(older, latest):
            values[name], methods[name] = getattr(older, name), older.method
            when = f"of {older.date.isoformat()}" if older.date else "before it"
            notices.append(
                Notice("carried-over", f"The latest test lacks {_spoken(name)}; it is taken from the one {when}.")
            )
    bands = {
        item: with_error(values[name], methods[name], item)
        for name, item in _FIELDS.items()
        if values[name] is not None
    }
    problems += _missing(bands, plant.sanitizer.uses)
    problems += _contradiction(bands)
    problems += _too_strong(plant)
    if problems:
        raise InputError(problems)
    if latest.date is None:
        notices.append(Notice("test-undated", "The test has no date, so its age was not looked at: test again today."))
    combined = Band.exact(0.0)
    if latest.total_chlorine_mgl is not None and "free_chlorine" in bands:
        total = with_error(latest.total_chlorine_mgl, latest.method, "free_chlorine")
        nominal = max(total.nominal - bands["free_chlorine"].nominal, 0.0)
        spread = total.high - total.nominal
        combined = Band(max(nominal - spread, 0.0), nominal, nominal + spread)
    temperature_c = plant.tub.temperature_c if latest.temperature_c is None else latest.temperature_c
    solids = solids_of(values["solids_mgl"], values["conductivity_us_cm"])
    return Tested(plant.sanitizer, bands, combined, solids, temperature_c, latest.date, tuple(notices))


def fill_bands(fill: FillWater) -> dict[Item, Band]:
    """What is known of the fill water, with the error of its method."""
    return {
        item: with_error(getattr(fill, name), fill.method, item)
        for name, item in _FIELDS.items()
        if getattr(fill, name, None) is not None
    }


def solids_of(solids_mgl: Band | None, conductivity_us_cm: Band | None) -> Band | None:
    """Dissolved solids as tested, or from conductivity by a factor with its range."""
    if solids_mgl is not None or conductivity_us_cm is None:
        return solids_mgl
    factor = number("solids_per_conductivity_ratio").band
    return Band(
        factor.low * conductivity_us_cm.low,
        factor.nominal * conductivity_us_cm.nominal,
        factor.high * conductivity_us_cm.high,
    )


def in_order(tests: Sequence[WaterTest]) -> list[WaterTest]:
    """By day where every test has one, else as they stand in the file."""
    if all(test.date is not None for test in tests):
        return sorted(tests, key=lambda test: test.date or date.min)
    return list(tests)


def _lasts(older: WaterTest, latest: WaterTest) -> bool:
    if older.date is None or latest.date is None:
        return True
    return latest.date - older.date <= timedelta(seconds=number("carried_over_age_s").value)


def _spoken(name: str) -> str:
    return {
        "alkalinity_mgl": "total alkalinity",
        "calcium_mgl": "calcium hardness",
        "cyanuric_mgl": "cyanuric acid",
        "solids_mgl": "dissolved solids",
        "conductivity_us_cm": "conductivity",
    }[name]


def _age(latest: WaterTest, today: date | None, max_age_days: float) -> list[Problem]:
    if latest.date is None or today is None:
        return []
    where, age = "[[water_test]] date", (today - latest.date).days
    if age < 0:
        return [Problem(where, f"the latest test is of {latest.date.isoformat()}, after {today.isoformat()}",
                        "a day that has been", f"date = {today.isoformat()}")]  # fmt: skip
    if age > max_age_days:
        return [
            Problem(
                where,
                f"the latest test is {age} days old, and water changes from day to day",
                f"a test of the last {max_age_days:g} days, or another --max-age",
                "test again and add a [[water_test]] below the others",
            )
        ]
    return []


def _missing(bands: Mapping[Item, Band], uses: str) -> list[Problem]:
    problems = []
    if "ph" not in bands:
        problems.append(Problem("[[water_test]] ph", "the latest test has none, and every dose hangs on it",
                                "pH as tested", "ph = 7.4"))  # fmt: skip
    if "total_alkalinity" not in bands:
        problems.append(
            Problem(
                "[[water_test]] total_alkalinity",
                "no test has it, and without it no change of pH can be told",
                "as calcium carbonate",
                'total_alkalinity = "80 mg/L"',
            )
        )
    if uses in _RESIDUALS and _RESIDUALS[uses][0] not in bands:
        item, write = _RESIDUALS[uses]
        problems.append(Problem(f"[[water_test]] {item}", f"the latest test has none, but [sanitizer] uses {uses}",
                                "what was read, 0 mg/L where nothing showed", write))  # fmt: skip
    return problems


def _too_strong(plant: Plant) -> list[Problem]:
    """Strengths above those of the pure substance: the label counts something else."""
    problems = []
    for place, item in enumerate(plant.product, start=1):
        if item.strength_ratio is None or item.product in LIQUIDS:
            continue
        most, counted = strongest_ratio(item.product), _COUNTED.get(item.product, "what it is named for")
        if item.strength_ratio > _ROUNDED * most:
            problems.append(
                Problem(
                    f"[[product]] {place}, strength_percent",
                    f"{100.0 * item.strength_ratio:g} % of {item.product} is more than the pure substance has: the "
                    "label counts something else",
                    f"{counted}, at most {100.0 * most:.3g}",
                    "leave it out, and the usual strength stands",
                )
            )
    return problems


def _contradiction(bands: Mapping[Item, Band]) -> list[Problem]:
    chlorine, peroxide = bands.get("free_chlorine"), bands.get("peroxide")
    if chlorine is None or peroxide is None:
        return []
    if chlorine.nominal < number("residual_from_mgl").value or peroxide.nominal < number("peroxide_from_mgl").value:
        return []
    return [
        Problem(
            "[[water_test]] peroxide",
            f"{peroxide.nominal:g} mg/L stands beside {chlorine.nominal:g} mg/L of free chlorine, but the two destroy "
            "each other within minutes: peroxide reads as chlorine in most tests",
            "one of the two",
            'free_chlorine = "0 mg/L" where peroxide is what you add, or peroxide = "0 mg/L"',
        )
    ]
