"""What can cloud the water: its name, how to make sure, what to do and not to do, when to stop and when to drain."""

from dataclasses import dataclass

ELSE = "something_else"
UNTIL_CLEAR = "Nobody goes in while the bottom is not seen clearly from above."
UNTIL_RESIDUAL = "Nobody goes in before the residual stands at its target on two tests an hour apart."
NO_DRAIN = "No need to, as long as this alone is the cause."


@dataclass(frozen=True, slots=True)
class Cause:
    """One cause. needs: parts of a loop, or the sanitizer, without which it cannot be; none: any tub can have it."""

    name: str
    confirm: str
    do: str
    dont: str
    stop: str
    drain: str
    needs: tuple[str, ...] = ()


CAUSES: dict[str, Cause] = {
    "too_few_hours": Cause(
        "the pump runs too few hours",
        "Let it run for 24 h without bathers: haze that a filter can catch then falls by half and more.",
        "Set the timer to what `sanitize hours` asks for, in several runs.",
        "No clarifier in place of hours: it loads the filter and the haze comes back.",
        UNTIL_CLEAR,
        NO_DRAIN,
    ),
    "restricted_flow": Cause(
        "something holds the flow back (strainer, valve, hose, air, worn pump)",
        "Time a bucket at the return, then open every valve and clean the strainer and time it again.",
        "Pump off; clean strainer and suction, open the valves, straighten the hoses, let the air out, then look at "
        "the pump's impeller.",
        "Do not run the pump against a shut valve, and never reach for a suction while it runs.",
        "Nobody goes in while a suction cover is blocked, loose or missing.",
        NO_DRAIN,
    ),
    "clogged_filter": Cause(
        "the filter is clogged",
        "Take the cartridge out, or put the spare one in, for two minutes: the flow jumps up.",
        "Rinse the cartridge, soak it in degreaser, put the spare one in meanwhile; note the drop of the clean one.",
        "No pressure washer on the cloth, and do not leave the tub without a filter.",
        UNTIL_CLEAR,
        NO_DRAIN,
        ("filter",),
    ),
    "filter_bypassed": Cause(
        "water passes beside the filter: torn, loose or wrong cartridge",
        "Pump off; look at cloth, end caps, seals and seat.",
        "Put in a whole cartridge of the right size, with clean seals.",
        "No patching of the cloth with glue.",
        UNTIL_CLEAR,
        NO_DRAIN,
        ("filter",),
    ),
    "injector_bubbles": Cause(
        "fine gas bubbles from the injector",
        "Ozone unit off, pinch the gas line: the bubbles stop within two minutes and a jar clears upward.",
        "Less gas with a needle valve, a place where the gas can leave before the return, a calmer return.",
        "Do not breathe over the return while ozone bubbles out of it.",
        "Nobody goes in while ozone bubbles out where people breathe; measure the air.",
        NO_DRAIN,
        ("injector",),
    ),
    "suction_air_leak": Cause(
        "air leaks in before the pump, or a whirl draws it in",
        "With the pump running put soap suds or a wet cloth on every joint before it: where the gurgling stops is the "
        "leak; then raise the water level.",
        "Pump off; tighten or reseal the joint, grease the lid's ring, raise the water, break the whirl.",
        "Do not run a pump that gurgles on for hours: its seal runs dry.",
        "Nobody goes in while the suction's cover is off for this.",
        NO_DRAIN,
    ),
    "low_sanitizer": Cause(
        "bacteria, as the sanitizer is too low",
        "Drops kit rather than strip; then dose a jar and read it again after 30 minutes: what is lost is the demand.",
        "Bring the residual to its target with nobody in the tub, run the pump all day, clean the filter, and find out "
        "why it vanished.",
        "No clarifier first; never mix two sanitizers.",
        UNTIL_RESIDUAL,
        "Where the residual is gone again within a day twice in a row.",
    ),
    "biofilm": Cause(
        "slime in hoses and filter",
        "Slime in a hose end; more than 1 mg/L of chlorine lost overnight in the dark; a laboratory's count.",
        "Drain, clean pipes, hoses and tub, replace the cartridge and every corrugated hose, refill, dose at once.",
        "No shock alone: it does not reach through slime.",
        "Nobody goes in before the tub is drained, cleaned and filled again.",
        "Now; this does not clear without it.",
    ),
    "combined_chlorine": Cause(
        "combined chlorine from sweat and urine",
        "Total less free chlorine by drops, above 0.4 mg/L.",
        "Replace a part of the water; then oxidise it with nobody in, cover off, fresh air; showers before bathing.",
        "Do not add acid to get rid of the smell.",
        "Nobody goes in above 0.5 mg/L of combined chlorine, or while the air bites.",
        "A part of it: half the water halves it at once.",
        ("chlorine",),
    ),
    "overstabilised": Cause(
        "too much cyanuric acid: the chlorine is bound",
        "The kit's turbidity test for cyanuric acid.",
        "Replace a part of the water; from then on chlorine without stabiliser.",
        "No more dichlor or trichlor.",
        UNTIL_RESIDUAL,
        "A part of it: half the water halves the acid; nothing else takes it out.",
        ("chlorine",),
    ),
    "chalk": Cause(
        "chalk falls out",
        "A spoon of vinegar clears a JAR of the water; pH and saturation index are high.",
        "Lower pH and alkalinity step by step (a jar first), with nobody in and the pump running; softer fill water.",
        "No acid beside chlorine, none into standing water, none at once for the whole amount.",
        UNTIL_CLEAR,
        "Only where hardness of the tub is far above that of the tap.",
    ),
    "old_water": Cause(
        "old water: dissolved solids and organics",
        "Conductivity pen: tub against tap; days since the last fill.",
        "Drain, wipe, clean the filter, refill.",
        "No further chemicals: each adds to the load.",
        UNTIL_CLEAR,
        "Now; dissolved matter leaves no other way.",
    ),
    "detergent": Cause(
        "lotion or detergent",
        "Shake a half-full bottle: foam that stays for minutes.",
        "Replace a part of the water, degrease the cartridge, rinse swimwear without detergent, shower before.",
        "No defoamer as a cure: it adds to the load.",
        UNTIL_CLEAR,
        "Where the foam is back after a day.",
    ),
    "algae": Cause(
        "algae",
        "Green, and most on the side that gets light.",
        "Brush the walls, raise the sanitizer with nobody in, run the pump all day, clean the filter, shade the tub.",
        "No copper algicide: it stains.",
        UNTIL_RESIDUAL,
        "Where walls and hoses stay slimy after it.",
    ),
    "iron_manganese": Cause(
        "iron or manganese that ozone or chlorine turned brown",
        "A metal strip on the FILL water; brown on the filter's cloth; it came right after filling or dosing.",
        "Let the filter run and rinse it often; fill through a pre-filter from now on.",
        "No more oxidiser at once: it browns the rest and stains.",
        UNTIL_CLEAR,
        "Where the fill water is the source: after a pre-filter is found, not before.",
    ),
    "copper": Cause(
        "copper from a coil, a pipe or an algicide",
        "Copper strip; pH below 7; blue-green stains, green hair.",
        "Bring pH and alkalinity up, find the copper and replace it by titanium, stainless steel or plastic.",
        "No acid.",
        "Nobody swallows it; nobody goes in before copper is tested.",
        "Once the source is out.",
    ),
    "fresh_fill": Cause(
        "fresh fill: air and fines leave it",
        "A jar clears in minutes (air) or leaves a little dust (fines); wait a day with the filter on.",
        "Run the pump with the filter for a day, rinse the filter, then dose.",
        "No chemicals against the haze of the first day but the sanitizer.",
        UNTIL_RESIDUAL,
        NO_DRAIN,
    ),
    "dosing_reaction": Cause(
        "a chemical clouded the water",
        "What was added, when and where: soda ash, calcium hypochlorite or calcium chloride cloud hard water.",
        "Run the pump and wait a day; next time dilute, in small doses, one chemical a time.",
        "Nothing more on top before it has cleared.",
        UNTIL_CLEAR,
        NO_DRAIN,
    ),
    "dead_zone": Cause(
        "a corner that the return does not reach",
        "Food dye hangs in the corner while the pump runs.",
        "Aim the return anew, or add one on the other side of the suction.",
        "Do not point the return straight at the suction.",
        UNTIL_CLEAR,
        NO_DRAIN,
    ),
    "injector_not_drawing": Cause(
        "the injector draws no gas, so no ozone comes",
        "Ozone unit off; no pull at the bare port: hydraulics; pull there but not at the tube: valve, kink or water in "
        "the line.",
        "Clean the filter, open the return, lower what stands behind the injector; replace a check valve that sticks, "
        "straighten the gas line; `sanitize suction --advise` names more.",
        "Do not leave the ozone unit on while nothing is drawn: it fills the room or takes water.",
        UNTIL_RESIDUAL,
        NO_DRAIN,
        ("injector",),
    ),
    "ozone_unit_fault": Cause(
        "the ozone unit makes no ozone, or got wet",
        "Indicator strip at its outlet with the fan on; a look for water in its tube and for a spent dryer.",
        "Plug out first; drain and dry the tube, replace the check valve, then have the cell looked at.",
        "Never sniff at the outlet, never open it with the plug in.",
        UNTIL_RESIDUAL,
        NO_DRAIN,
        ("injector",),
    ),
    "chiller_low_flow": Cause(
        "the chiller gets too little flow",
        "Its flow alarm; the difference of its water temperatures.",
        "Clean filter and strainer, shut its bypass a little, look for ice.",
        "Do not bridge the flow switch: ice bursts the exchanger.",
        UNTIL_CLEAR,
        NO_DRAIN,
        ("chiller",),
    ),
    "chiller_not_cooling": Cause(
        "the chiller gives too little cold, and warm water loses its residual sooner",
        "Thermometer in the tub above the set temperature, and no difference between the chiller's two hoses after ten "
        "minutes of cooling.",
        "In warm water chlorine and ozone go sooner and germs grow faster: test and dose the residual every day. Lid "
        "on; dust off the chiller's condenser, free the air round it, check plug, set temperature and pump hours.",
        "No ice from outside without a test afterwards: it dilutes the residual. Do not open the refrigerant's side.",
        UNTIL_RESIDUAL,
        NO_DRAIN,
        ("chiller",),
    ),
    "bather_overload": Cause(
        "more bathers than the tub can take",
        "Your log; the residual is gone after each session and back when nobody bathes.",
        "Fewer bathers, showers before, more hours, a test and a dose after every session.",
        "Do not bathe on without a test in between.",
        UNTIL_RESIDUAL,
        "As many days after the last fill as `sanitize hours` says for your bathers.",
    ),
    "outside_fines": Cause(
        "dust, sand or filter aid from outside",
        "A jar leaves a deposit within hours, and is clear above it.",
        "Suck the floor clean, rinse feet before bathing, cover the tub, rinse the filter.",
        "No sanitizer against it: it does nothing to sand.",
        UNTIL_CLEAR,
        NO_DRAIN,
    ),
    ELSE: Cause(
        "something else",
        "None of the named causes fits better than chance: answer more of the questions below.",
        "Keep the pump running, test pH and residual, clean the filter, and write down what changes.",
        "Add nothing by guesswork.",
        UNTIL_CLEAR,
        "Where it stays as it is after three days of running with a right residual.",
    ),
}
"""Every cause by its code; the last one stands for all that is not named."""
NAMED: tuple[str, ...] = tuple(code for code in CAUSES if code != ELSE)
"""The codes of the causes that have a name."""
