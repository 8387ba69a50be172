"""A change that harms elsewhere is refused with its reason, though it makes the injector draw."""

from sanitize.plant.loop import Plant
from sanitize.studies.advice.study import study_advice

CASES = 256
BACK = '{part = "flexible hose", name = "return hose", length = "3 m"}, {part = "return", height = "0.50 m"}'


def reasons(plant: Plant, code: str) -> list[str]:
    """Reasons against changes of one kind; none of that kind is advised with them."""
    return [reason for row in study_advice(plant, CASES).refused if (code,) == row.codes for reason in row.reasons]


def test_lift_above_the_water_is_refused_because_the_loop_would_drain(loop_of) -> None:
    found = study_advice(loop_of(), CASES)
    assert any("the raised part of the loop drains" in reason for reason in reasons(loop_of(), "lift-injector"))
    lifted = [row.words[0] for row in found.changes if row.codes == ("lift-injector",)]
    assert not any(" 0.50 m higher" in words or " 0.80 m higher" in words for words in lifted)


def test_stronger_pump_is_refused_above_the_rating_of_the_cover(loop_of) -> None:
    """The loop runs at about 74 L/min; a cover for 80 L/min bears that, and no pump that is stronger by a quarter."""
    tight = SUCTION.replace('"400 L/min"', '"84 L/min"')
    plant = loop_of(suction=tight)
    assert any("its cover is rated for" in reason for reason in reasons(plant, "stronger-pump"))
    advice = study_advice(plant, CASES)
    assert all(row.flow_m3s.high <= 84.0 / 60000.0 for row in advice.changes)
    assert not any("its cover is rated for" in r for r in reasons(loop_of(), "stronger-pump"))


SUCTION = (
    '{part = "suction fitting", height = "0.20 m", cover_rated_flow = "400 L/min", cover_free_share = 0.4,'
    ' cover_diameter = "250 mm"}, {part = "flexible hose", name = "suction hose", length = "0.6 m"}, '
)


def test_nothing_is_advised_that_leaves_a_chiller_outside_its_window(loop_of) -> None:
    chiller = '{part = "chiller", drop = "3 kPa", at_flow = "60 L/min", min_flow = "20 L/min", max_flow = "72 L/min"}, '
    plant = loop_of(between=chiller + RISER)
    advice = study_advice(plant, CASES)
    assert all(row.flow_m3s.high <= 72.0 / 60000.0 and row.flow_m3s.low >= 20.0 / 60000.0 for row in advice.changes)
    assert any("its maker allows" in reason for row in advice.refused for reason in row.reasons)


RISER = '{part = "flexible hose", name = "riser", length = "0.8 m"}, '


def test_injector_before_the_pump_is_only_advised_behind_it(loop_of) -> None:
    """There it draws in every case, and must not stay: what draws less but behind the pump is what is advised."""
    injector = '{part = "injector", throat = "15 mm", height = "0.30 m", loss_ratio = 0.5}, '
    suction = '{part = "suction fitting", height = "0.20 m", cover_rated_flow = "400 L/min"}, ' + RISER
    plant = loop_of(suction=suction + injector, injector="", between="")
    advice = study_advice(plant, CASES)
    assert all("move-injector" in row.codes for row in (*advice.changes, *advice.pairs))
    assert advice.now_share_ratio > 0.95
    assert 0 < len(advice.changes) + len(advice.pairs)


def advised(plant: Plant, cases: int = 64) -> set[str]:
    found = study_advice(plant, cases)
    return {code for row in (*found.changes, *found.pairs) for code in row.codes}


WAYS = """way."side stream" = [{part = "injector", throat = "8 mm", height = "0.55 m", loss_ratio = 0.5}]
way.bypass = [{part = "throttle valve", name = "bypass valve", handle = "30 deg"}]
"""


def test_bypass_valve_that_drives_the_side_stream_is_closed_further_and_never_opened(loop_of) -> None:
    split = '{part = "split", ways = ["side stream", "bypass"], straight = "bypass"}, '
    codes = advised(loop_of(injector=split, ways=WAYS))
    assert "close-valve" in codes
    assert not {"open-valve", "side-stream"} & codes


def test_valve_that_stands_against_the_injector_is_opened_and_never_closed(loop_of) -> None:
    half = loop_of(back='{part = "ball valve", handle = "35 deg"}, ' + BACK)
    codes = advised(half)
    assert "open-valve" in codes
    assert "close-valve" not in codes


def gas(length: str, bore: str, wanted: str) -> str:
    line = (
        f'[gas_line]\nlength = "{length}"\nbore = "{bore}"\ncheck_valve_opens_at = "1.5 kPa"\nhighest_point = "1.90 m"'
    )
    return f'{line}\n[ozone]\noutput = "90 mg/h"\nat_gas_flow = "{wanted}"\nheight = "1.80 m"'


def test_gas_tube_is_shortened_or_widened_only_where_the_unit_wants_more_gas(loop_of) -> None:
    narrow = '{part = "injector", throat = "11 mm", height = "0.55 m", loss_ratio = 0.3}, '
    codes = ("shorter-gas-line", "wider-gas-line")
    assert set(codes) <= advised(loop_of(injector=narrow, tables=gas("12 m", "2 mm", "60 L/min")))
    assert not set(codes) & advised(loop_of(injector=narrow, tables=gas("12 m", "2 mm", "0.1 L/min")))


def test_cleaning_is_advised_though_the_pump_then_pulls_harder_and_that_is_told(loop_of) -> None:
    """A filter only comes back to what it was built as; a stronger pump, which pulls as hard, is refused."""
    filter_ = '{part = "filter", drop = "15 kPa", at_flow = "60 L/min", fouling = 6}, '
    long = SUCTION.replace('length = "0.6 m"', 'length = "4.5 m"')
    found = study_advice(loop_of(between=filter_ + RISER, suction=long), 64)
    (cleaned,) = [row for row in found.changes if row.codes == ("clean-filter",)]
    assert any("below the air" in text for text in cleaned.brings)
    assert any(
        "below the air" in text for row in found.refused if row.codes == ("stronger-pump",) for text in row.reasons
    )
