"""Suctions that can hold a body or hair."""

from sanitize.basis.tables import default
from sanitize.basis.units import show
from sanitize.studies.cautions.facts import Facts
from sanitize.studies.cautions.rule import AUTHORITY, Rule, always, joined, limit


def _without_rating(facts: Facts) -> list[str]:
    return [suction.name for suction in facts.suctions if suction.cover_rated_flow_m3s is None]


def _no_cover_text(facts: Facts) -> str:
    bare = [s.name for s in facts.suctions if s.cover_rated_flow_m3s is None and s.cover_face_m is None]
    unrated = [name for name in _without_rating(facts) if name not in bare]
    told = []
    if bare:
        told.append(f"No cover is named for {joined(bare)}: an open suction holds hair, a hand or a body.")
    if unrated:
        told.append(f"The cover of {joined(unrated)} has no rated flow, so it counts as none.")
    return " ".join(told)


def _over_rating(facts: Facts) -> list[tuple[str, float, float]]:
    found = []
    for suction in facts.suctions:
        high = facts.suction_flow_high_m3s(suction.name)
        if suction.cover_rated_flow_m3s is not None and high > suction.cover_rated_flow_m3s:
            found.append((suction.name, high, suction.cover_rated_flow_m3s))
    return found


def _over_rating_text(facts: Facts) -> str:
    return " ".join(
        f"Up to {show(high, 'flow', facts.family)} may pass {name}; its cover is rated for "
        f"{show(rated, 'flow', facts.family)}."
        for name, high, rated in _over_rating(facts)
    )


def _single_blockable(facts: Facts) -> bool:
    if len(facts.suctions) != 1:
        return False
    face = facts.suctions[0].cover_face_m
    return face is None or face <= limit("cover_diagonal_unblockable_m")


def _pull_text(facts: Facts) -> str:
    told = [
        f"Covered by a body, {name} may pull with {show(vacuum, 'vacuum', facts.family)} of vacuum and hold with "
        f"{show(force, 'force', facts.family)}."
        for name, (vacuum, force) in facts.blocked.items()
    ]
    missing = [suction.name for suction in facts.suctions if suction.name not in facts.blocked]
    if missing:
        told.append(f"How hard {joined(missing)} pulls when covered is not known.")
    return " ".join(told)


def _too_fast(facts: Facts) -> dict[str, float]:
    most = default("grate_velocity_limit_ms").value
    return {name: velocity for name, velocity in facts.grate_velocities_high_ms.items() if velocity > most}


def _grate_text(facts: Facts) -> str:
    most = show(default("grate_velocity_limit_ms").value, "velocity", facts.family)
    return " ".join(
        f"The water passes the holes of {name} at up to {show(velocity, 'velocity', facts.family)}; "
        f"{most} is a common limit."
        for name, velocity in _too_fast(facts).items()
    )


RULES = (
    Rule(
        code="no-suction-cover",
        severity="danger",
        when=lambda facts: bool(_without_rating(facts)),
        text=_no_cover_text,
        general=always("A suction without a rated cover holds hair, a hand or a body."),
        action=always(
            "Fit a listed cover made for this place, give its flow as `cover_rated_flow`, and never run the pump "
            "without it."
        ),
        source="oregon_333_062_0103",
        defers_to=AUTHORITY,
    ),
    Rule(
        code="suction-above-cover-rating",
        severity="danger",
        when=lambda facts: bool(_over_rating(facts)),
        text=_over_rating_text,
        general=always("More water than a suction cover is rated for can hold hair or a body on it."),
        action=always("Fit a cover with a higher rating or a second suction, or take a smaller pump."),
        source="oregon_333_062_0103",
        defers_to=AUTHORITY,
    ),
    Rule(
        code="single-suction",
        severity="caution",
        when=_single_blockable,
        text=lambda facts: (
            f"{facts.suctions[0].name} is the only suction and small enough for a body to cover: "
            "then the whole pump pulls on it."
        ),
        general=always("A single suction that a body can cover takes the whole pull of the pump."),
        action=lambda family: (
            f"Add a second suction at least {show(limit('suction_spacing_m'), 'length', family)} away or on another "
            "wall, joined without a valve, and keep a switch for the pump within reach of the tub."
        ),
        source="cpsc_vgb_2011",
        defers_to=AUTHORITY,
    ),
    Rule(
        code="suctions-apart",
        severity="caution",
        when=lambda facts: len(facts.suctions) > 1,
        text=lambda facts: (
            f"{joined([suction.name for suction in facts.suctions])} help each other only if one body cannot cover "
            "them together and no valve shuts one off."
        ),
        general=always("Several suctions help only if one body cannot cover them and no valve shuts one off."),
        action=lambda family: (
            f"Keep their centres at least {show(limit('suction_spacing_m'), 'length', family)} apart or on two walls, "
            "and check that each cover can take the whole flow."
        ),
        source="utah_r392_302_21",
        defers_to=AUTHORITY,
    ),
    Rule(
        code="blocked-suction-pull",
        severity="caution",
        when=lambda facts: bool(facts.suctions),
        text=_pull_text,
        general=always("A covered suction pulls with the pump's whole vacuum and holds with that times its opening."),
        action=always(
            "Show everybody the pump's switch; tie up long hair; check the cover before every use, and stop the pump "
            "when it is cracked or loose."
        ),
        source="cpsc_vgb_2011",
        defers_to=AUTHORITY,
    ),
    Rule(
        code="grate-too-fast",
        severity="caution",
        when=lambda facts: bool(_too_fast(facts)),
        text=_grate_text,
        general=lambda family: (
            f"More than {show(default('grate_velocity_limit_ms').value, 'velocity', family)} through the holes of a "
            "suction cover draws hair in."
        ),
        action=always("Take a cover with more open area, or keep the holes clear."),
        source="",
        defers_to=AUTHORITY,
    ),
)
