"""What a person can see, smell or test on a clouded tub: the question, and how to answer it with what is at hand."""

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Sign:
    """One observation: as a question that yes or no answers, in a few words, and how to find out."""

    asks: str
    words: str
    how: str


SIGNS: dict[str, Sign] = {
    "low_flow": Sign(
        "Does clearly less water come back than the file predicts or than when the loop was new (a fifth less)?",
        "less water comes back",
        "Bucket and watch at the return, gas line closed; compare with the flow that `sanitize suction` gives.",
    ),
    "filter_drop_high": Sign(
        "Is the pressure before the filter, or its drop, clearly higher than when it was clean?",
        "the filter's drop is high",
        "Read the gauge before the filter against the note of the clean filter; without a gauge, take the cartridge "
        "out for two minutes: does the flow jump up?",
    ),
    "filter_drop_low": Sign(
        "Is the pressure before the filter, or its drop, lower than when it was clean and new?",
        "the filter's drop is low",
        "Read the gauge before the filter against the note of the clean filter.",
    ),
    "no_vacuum": Sign(
        "Is there no vacuum at the injector's port with the pump running?",
        "no vacuum at the injector's port",
        "Pull the tube off at the port and hold a wet finger or a vacuum gauge on it; ozone unit off.",
    ),
    "no_gas_flow": Sign(
        "Does no gas run through the gas line?",
        "no gas flows",
        "Ozone unit off: watch the gas flow meter, or hang the line's open end under water and look whether it drinks.",
    ),
    "bubbles_at_return": Sign(
        "Do fine bubbles come out of the return, like milk?", "bubbles at the return", "Look at the return."
    ),
    "bubbles_stop_with_gas": Sign(
        "Do the bubbles stop within two minutes after the gas line is pinched shut?",
        "the bubbles stop when the gas line is shut",
        "Ozone unit off, pinch the gas line, wait two minutes, look at the return.",
    ),
    "air_in_pump_lid": Sign(
        "Is there air under the pump's or strainer's clear lid while it runs?",
        "air under the pump's lid",
        "Look through the lid with the pump running.",
    ),
    "jar_clears_upward": Sign(
        "Does a jar of the water clear within 15 minutes, from the bottom upward?",
        "a jar clears upward within 15 minutes",
        "Fill a clear jar 10 cm deep from the middle of the tub, set it down, look after 1, 5 and 15 minutes.",
    ),
    "jar_settles": Sign(
        "Does the same jar show a deposit on its floor after a day?",
        "a jar leaves a deposit",
        "Leave the covered jar standing as cold as the tub; look at its floor after hours and after a day.",
    ),
    "jar_stays_hazy": Sign(
        "Is the jar still hazy after a day?",
        "a jar stays hazy for a day",
        "Leave the covered jar standing as cold as the tub for a day, and hold it against a dark cloth.",
    ),
    "haze_follows_pump": Sign(
        "Does the haze go when the pump rests half an hour, and come back when it runs?",
        "the haze comes and goes with the pump",
        "Pump and ozone unit off for half an hour; look; on again.",
    ),
    "ph_high": Sign("Is the pH above 7.8?", "pH above 7.8", "Test strip or drops, on a sample at room temperature."),
    "chalk_index_high": Sign(
        "Is the saturation index above +0.3?",
        "the saturation index is high",
        "Measure pH, alkalinity and calcium hardness, and work out the index of calcite at the water's temperature.",
    ),
    "acid_clears_jar": Sign(
        "Does a spoon of vinegar clear a JAR of the water within minutes?",
        "acid clears a jar of it",
        "A spoon of clear vinegar into a jar of the water, never into the tub; stir, wait three minutes.",
    ),
    "residual_low": Sign(
        "Is the residual of your sanitizer below its target?",
        "the residual is low",
        "Strip or drops for free chlorine, bromine or peroxide, whichever you use.",
    ),
    "orp_low": Sign(
        "Does an ORP meter read below 650 mV?",
        "ORP below 650 mV",
        "ORP meter, ten minutes in the water. Leave it unsure where peroxide is used: it reads low in any state.",
    ),
    "combined_chlorine_high": Sign(
        "Is combined chlorine above 0.4 mg/L?",
        "combined chlorine above 0.4 mg/L",
        "Total less free chlorine, by drops.",
    ),
    "cyanuric_acid_high": Sign(
        "Is cyanuric acid (stabiliser) above 50 mg/L?",
        "cyanuric acid above 50 mg/L",
        "Turbidity test of the kit, or the strip's field for it.",
    ),
    "no_ozone_at_unit": Sign(
        "Does an indicator strip show no ozone at the unit's outlet?",
        "no ozone at the unit's outlet",
        "Indicator strip or potassium iodide paper at the outlet, outdoors or with a fan; never sniff at it.",
    ),
    "chlorine_smell": Sign("Is there a sharp smell of chlorine?", "a sharp smell of chlorine", "Lift the cover."),
    "musty_smell": Sign("Does it smell musty or of earth?", "a musty smell", "Lift the cover."),
    "slime": Sign(
        "Is there slime on walls, in the hoses or on the filter?",
        "slime",
        "Wipe the wall at the water line and inside a hose end with a gloved finger.",
    ),
    "green": Sign("Is the water or the wall green?", "green", "A white cup of the water in daylight."),
    "brown": Sign(
        "Is the water, or a stain, yellow, brown or black?", "brown", "A white cup of the water in daylight."
    ),
    "blue_green": Sign(
        "Is the water, or a stain, blue-green?", "blue-green", "A white cup of the water in daylight; look at stains."
    ),
    "foam": Sign(
        "Does foam stay for more than two minutes?",
        "lasting foam",
        "Shake a half-full bottle of the water hard and put it down.",
    ),
    "new_fill": Sign("Was the tub filled within the last three days?", "filled within three days", "Your own log."),
    "recent_dose": Sign("Was a chemical added within the last day?", "a chemical added within a day", "Your own log."),
    "filter_old": Sign(
        "Is it more than 30 days since the filter was cleaned?", "filter not cleaned for 30 days", "Your own log."
    ),
    "many_bathers": Sign(
        "Were there more bathers than usual, or lotion, or bathing without a shower?", "more bathers", "Your own log."
    ),
    "solids_high": Sign(
        "Are the dissolved solids more than 1500 mg/L over the fill water's?",
        "dissolved solids high",
        "Conductivity pen in tub and tap.",
    ),
    "short_runs": Sign(
        "Does the pump run fewer hours a day than the tub needs?",
        "too few pump hours",
        "Compare the timer with what `sanitize hours` asks for.",
    ),
    "dead_corner": Sign(
        "Does a drop of food dye hang in a corner for minutes while the pump runs?",
        "dye hangs in a corner",
        "A few drops of food dye in each corner and at the floor; pump on; watch.",
    ),
    "chiller_flow_alarm": Sign(
        "Does the chiller report too little flow, or freeze up?", "the chiller reports low flow", "Its display or log."
    ),
    "water_warm": Sign(
        "Is the water clearly warmer than it is set or meant to be (2 degC, 4 degF)?",
        "the water is too warm",
        "Thermometer in the tub, with the pump running for some minutes; compare with the chiller's set temperature.",
    ),
    "chiller_no_cold": Sign(
        "Does the chiller give no cold: it stands still or blows for hours, and the water does not get colder?",
        "the chiller gives no cold",
        "Look at its display and fan with the water warmer than its set temperature; lid on, pump and chiller running, "
        "read the thermometer of the tub, and again an hour later.",
    ),
    "filter_damaged": Sign(
        "Is the cartridge torn, loose in its seat, or of the wrong size?",
        "the cartridge is torn or loose",
        "Pump off; take it out; look at cloth, end caps, seals and seat.",
    ),
}
"""Every observation by its code."""

EXCLUDE = (
    ("filter_drop_high", "filter_drop_low", "the filter's drop cannot be both above and below that of the clean one"),
    ("jar_clears_upward", "jar_stays_hazy", "a jar that is clear within 15 minutes is not hazy after a day"),
)
"""Observations that cannot both be so, and why."""
NEEDS = (("bubbles_stop_with_gas", "bubbles_at_return", "bubbles that were never there cannot stop"),)
"""Observations that can be so only where another is."""
