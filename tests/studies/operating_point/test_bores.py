"""Where a change of bore is a step of its own: between trade sizes, at tubes named by their bore, at measured bores."""

import pytest

from sanitize.basis.band import Band
from sanitize.plant.injector import Injector
from sanitize.plant.part import Part
from sanitize.plant.pipework import Barb, Fitting, Hose, Pipe, Reducer
from sanitize.studies.operating_point.bores import makes_step, nominal_bore

ONE_M = Band.exact(1.0)


def _pipe(size: str, schedule: str = "40", bore: float | None = None) -> Pipe:
    own = None if bore is None else Band.exact(bore)
    return Pipe.model_validate(
        {"word": "pipe", "name": "pipe", "size": size, "schedule": schedule, "length_m": ONE_M, "bore_m": own}
    )


def _hose(word: str, size: str) -> Hose:
    return Hose(word=word, name=word, size=size, length_m=ONE_M)


def _elbow(size: str) -> Fitting:
    return Fitting(word="elbow 90", name="elbow 90", size=size)


def _reducer(size: str, to: str) -> Reducer:
    return Reducer(word="reducer", name="reducer", size=size, to_size=to)


def _injector(**values: object) -> Injector:
    return Injector.model_validate({"word": "injector", "name": "injector", "size": "3/4", "throat_m": ONE_M} | values)


@pytest.mark.parametrize(
    ("before", "after", "counts"),
    [
        (_pipe("1"), _elbow("1"), False),
        (_hose("flexible hose", "1/2"), _elbow("1/2"), False),
        (_pipe("1/2", "80"), _elbow("1/2"), False),
        (_pipe("3/4", "80"), _hose("flexible hose", "3/4"), False),
        (_pipe("1"), _elbow("3/4"), True),
        (_elbow("3/4"), _pipe("1"), True),
        (_hose("vinyl tube", "3/4"), _elbow("3/4"), True),
        (_elbow("1"), _hose("vinyl tube", "1"), True),
        (_pipe("1", bore=0.0250), _elbow("1"), False),
        (_pipe("1", bore=0.0235), _elbow("1"), True),
        (_elbow("3/4"), _pipe("1", bore=0.0205), False),
        (_elbow("1"), _reducer("1", "3/4"), False),
        (_pipe("1", "80"), _reducer("1", "3/4"), False),
        (_reducer("1", "3/4"), _elbow("3/4"), False),
        (_reducer("1", "3/4"), _elbow("1"), True),
        (_elbow("3/4"), _injector(), False),
        (_elbow("3/4"), _injector(inlet_bore_m=0.0200), False),
        (_elbow("3/4"), _injector(inlet_bore_m=0.0160), True),
        (_injector(outlet_bore_m=0.0160), _elbow("3/4"), True),
        (_injector(ends="barbed"), _hose("flexible hose", "3/4"), False),
        (Barb(word="barb", name="barb", size="3/4"), _hose("vinyl tube", "3/4"), False),
    ],
)
def test_step_between_neighbours_is_counted_between_sizes_and_at_measured_bores(
    before: Part, after: Part, counts: bool
) -> None:
    """Schedule 40, schedule 80 and glued hose of one trade size make no step: their bands hold it.

    Bores of 1 in: 26.24 mm; 25.0 mm lies within a tenth of it, 23.5 mm does not. A tube of 3/4 in has 19.05 mm inside,
    a pipe of 3/4 in 20.57 mm.
    """
    assert counts == makes_step(nominal_bore(before), nominal_bore(after))


def test_bores_of_a_reducer_are_those_of_its_two_sizes() -> None:
    bore = nominal_bore(_reducer("1-1/2", "3/4"))
    assert (0.04044, 0.02057) == (bore.inlet_m, bore.outlet_m)
    assert ("1-1/2", "3/4") == (bore.inlet_size, bore.outlet_size)
