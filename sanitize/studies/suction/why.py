"""One sentence that names what decides whether the injector draws."""

from sanitize.basis.constants import GRAVITY_MS2
from sanitize.basis.units import Family, show
from sanitize.studies.draws import Array
from sanitize.studies.operating_point.run import Run
from sanitize.studies.operating_point.solve import REST_FLOW_M3S


def why(answer: Run, opens_at_pa: Array, family: Family) -> str:
    """The nominal balance at the port in words: what pulls, what pushes, and the largest of what pushes."""
    port = answer.port
    if port is None:
        raise ValueError("the loop has no injector")
    if not float(port.flow_m3s[0]) > REST_FLOW_M3S:
        return "No water moves through the injector: a valve is shut in its way, or a check valve holds it."
    water = answer.assembly.water
    square = float(port.flow_m3s[0]) ** 2
    pull = float(port.model.recovery_pa_s2m6[0]) * square
    level = float(answer.assembly.condition.level_m[0])
    height = water.density_kgm3 * GRAVITY_MS2 * (level - float(port.height_m[0]))
    back = float(port.outlet_pa_gauge[0]) - height
    opening = float(opens_at_pa[0])
    pushes = {
        "the resistance of what stands behind the injector": back,
        "the depth of the injector below the water line": height,
        "the check valve's opening": opening,
    }
    against = ", ".join(f"{name} {show(value, 'pressure', family)}" for name, value in pushes.items() if value > 0.0)
    helped = [
        f"its height above the water line adds {show(-height, 'pressure', family)} of pull"
    ] if height < 0.0 else []  # fmt: skip
    short = pull - sum(pushes.values())
    name, _ = max(pushes.items(), key=lambda item: item[1])
    sentence = (
        f"At {show(float(port.flow_m3s[0]), 'flow', family)} through the injector its throat pulls "
        f"{show(pull, 'pressure', family)} below the pressure at its outlet; "
    )
    if helped:
        sentence += helped[0] + "; "
    sentence += f"against it stand {against or 'nothing'}. "
    if bool(port.cavitates[0]):
        return sentence + "The water boils in the throat: its flow is choked, and the vacuum goes no deeper."
    if short > 0.0:
        left = show(short, "pressure", family)
        return (
            sentence
            + f"That leaves {left} of vacuum beyond what the valve needs; the largest push against it is {name}."
        )
    return sentence + f"That is {show(-short, 'pressure', family)} short; what decides is {name}."
