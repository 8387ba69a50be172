"""What must not wait for a cause: observations about people's health, and the cautions that they and others bring."""

from dataclasses import dataclass

from sanitize.studies.cautions.caution import Caution
from sanitize.studies.cautions.rule import AUTHORITY, PHYSICIAN
from sanitize.studies.cloudy.signs import Sign

HEALTH: dict[str, Sign] = {
    "illness_after_bathing": Sign(
        "Has anybody who bathed got a rash, sore ears or eyes, a cough or a fever since?",
        "somebody fell ill after bathing",
        "Ask everybody who was in during the last two weeks.",
    ),
    "faeces_or_vomit": Sign("Was there faeces or vomit in the water?", "faeces or vomit in the water", "Ask."),
    "ozone_smell": Sign(
        "Does it smell of ozone, sharp as after lightning, or does it bite in the throat?",
        "a smell of ozone",
        "Only what you notice on coming near; do not bend over the tub or the unit to find out.",
    ),
    "bottom_not_seen": Sign(
        "Is the bottom, or a cover of a suction, hidden by the haze?",
        "the bottom is not seen",
        "Look straight down from the rim with the pump off.",
    ),
}
"""Observations that tell nothing of the cause and decide whether anybody may come near."""


@dataclass(frozen=True, slots=True)
class _Warning:
    signs: tuple[str, ...]
    caution: Caution


def _danger(code: str, text: str, action: str, source: str, defers_to: str) -> Caution:
    return Caution(code, "danger", text, action, source, defers_to)


_WARNINGS = (
    _Warning(
        ("illness_after_bathing",),
        _danger(
            "illness-after-bathing",
            "Somebody fell ill after bathing: the water, or the mist over its bubbles, may carry germs.",
            "Nobody goes in; pump and injector off; tell the physician about the tub, and keep a sample of the water "
            "cold for a laboratory before draining.",
            "cdc_han_00422",
            PHYSICIAN,
        ),
    ),
    _Warning(
        ("faeces_or_vomit",),
        _danger(
            "faeces-or-vomit",
            "Faeces or vomit in a small tub: no contact time is published for cold water that would make up for it.",
            "Everybody out; drain, scrub, replace the cartridge, refill, dose, and only then bathe again.",
            "",
            AUTHORITY,
        ),
    ),
    _Warning(
        ("ozone_smell",),
        _danger(
            "ozone-smelt",
            "Ozone that is smelt is in the air that people breathe; noses tire of it within minutes.",
            "Ozone unit off from where the air is fresh, everybody out of the room, ventilate; come back with an ozone "
            "meter.",
            "niosh_idlh_ozone",
            AUTHORITY,
        ),
    ),
    _Warning(
        ("bottom_not_seen",),
        _danger(
            "bottom-not-seen",
            "Who lies on the bottom, or is held by a suction, is not seen. Public pools close when the main drain is "
            "not visible.",
            "Nobody goes in until the bottom and every suction's cover are clearly seen from the rim.",
            "florida_64e_9_004",
            AUTHORITY,
        ),
    ),
    _Warning(
        ("slime", "musty_smell"),
        _danger(
            "slime-shelters-germs",
            "Slime shelters germs from any sanitizer, and bubbles carry them into the air.",
            "Nobody goes in, and injector off, until hoses, filter and walls are cleaned and the tub is filled again.",
            "cdc_han_00422",
            AUTHORITY,
        ),
    ),
    _Warning(
        ("residual_low", "green"),
        _danger(
            "no-residual",
            "Cloudy water without a residual may be full of germs; cold slows them and does not kill them.",
            "Nobody goes in before the residual is back at its target on two tests an hour apart.",
            "",
            AUTHORITY,
        ),
    ),
    _Warning(
        ("combined_chlorine_high", "chlorine_smell"),
        Caution(
            "combined-chlorine-in-air",
            "caution",
            "Combined chlorine irritates eyes and lungs, and bubbles drive it into the air.",
            "Cover off, fresh air, nobody in until it has gone; people with asthma keep away.",
            "",
            PHYSICIAN,
        ),
    ),
    _Warning(
        ("water_warm",),
        Caution(
            "water-too-warm",
            "caution",
            "In water that is warmer than it is kept germs grow faster and the residual goes sooner, and bubbles carry "
            "germs into the air; Legionella grows best where it is lukewarm.",
            "Test and dose before every use, and where it stays warm: injector off and nobody in until it is cold "
            "again and its residual stands at its target.",
            "cdc_han_00422",
            AUTHORITY,
        ),
    ),
    _Warning(
        ("blue_green",),
        Caution(
            "copper-in-water",
            "caution",
            "Blue-green water may hold copper, which harms who swallows it.",
            "Nobody goes in before copper is tested.",
            "",
            PHYSICIAN,
        ),
    ),
)
CLOUDED = Caution(
    "clouded-water",
    "caution",
    "Why the water is clouded is not known until a test shows it; what is named here is judgement.",
    "Nobody goes in while the bottom is not clearly seen or the residual is off its target.",
    "",
    AUTHORITY,
)
"""The caution that every answer carries."""


def health_cautions(saw: tuple[str, ...]) -> tuple[Caution, ...]:
    """What the observations demand before any cause is looked for, dangers first."""
    found = [item.caution for item in _WARNINGS if set(item.signs) & set(saw)]
    return (*sorted(found, key=lambda caution: caution.severity != "danger"), CLOUDED)


def all_cloudy_cautions() -> tuple[Caution, ...]:
    """Every caution that clouded water can bring."""
    return (*(item.caution for item in _WARNINGS), CLOUDED)
