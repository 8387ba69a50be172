"""What is told of each fault whatever the loop: where its water goes, what is heard and felt, what to do."""

from dataclasses import dataclass

from sanitize.studies.faults.result import FaultName


@dataclass(frozen=True)
class Fixed:
    """What does not depend on the loop: where the water goes, what is heard and felt, what to do."""

    water: str
    sound: str
    action: str


FIXED: dict[FaultName, Fixed] = {
    "nothing wrong": Fixed(
        "The water runs from the suction through pump and parts and comes back at the return.",
        "The pump hums evenly; at the open end of the gas line a faint hiss.",
        "Write down flow, vacuum and the filter's drop as they are now: every fault shows against these.",
    ),
    "return shut": Fixed(
        "The water stands; the pump presses on everything behind it with all that it has.",
        "The pump hums lower and evenly and gets warm; hoses stand hard.",
        "Stop the pump, open the valve at the return, and take the handle off where it can be shut by mistake.",
    ),
    "return partly blocked": Fixed(
        "The water comes back through what is left of the opening, as a hard jet; the pressure behind the pump rises.",
        "The jet hisses; the pump hums a little lower.",
        "Stop the pump and clear the return; look where what blocks it came loose.",
    ),
    "gas check valve leaking": Fixed(
        "With the pump running nothing changes; whenever the vacuum fails, water runs back up the gas line.",
        "Gurgling in the gas line when the pump stops, drops or a wet film in its tube.",
        "Switch the ozone unit off, replace the valve, and from then on every year; dry the line "
        "before the next start.",
    ),
    "gas check valve stuck shut": Fixed(
        "The water runs as with the gas line closed.",
        "No hiss at the open end of the gas line.",
        "Switch the ozone unit off and pull the tube off before the valve: no pull there but pull at the bare port "
        "means that the valve sticks; replace it.",
    ),
    "filter loaded": Fixed(
        "Less water passes the filter; the pressure before it rises, behind it falls.",
        "The pump hums a little lower.",
        "Clean the filter, or put the spare one in, before the injector stops drawing.",
    ),
    "filter torn": Fixed(
        "The water passes the filter's housing unhindered, its dirt with it.",
        "The pump sounds a little busier; nothing else is heard.",
        "Stop the pump, look at the cloth, its end caps and its seat, and replace it.",
    ),
    "suction blocked": Fixed(
        "The water stands; the pump pulls on whatever covers the suction with all that it has.",
        "The pump whines or rattles; the return falls silent.",
        "Stop the pump first, then free the suction; never pull against the running pump.",
    ),
    "suction partly blocked": Fixed(
        "The water comes in through what is left of the opening; the pressure at the pump's inlet falls.",
        "The pump rattles as if it carried gravel.",
        "Stop the pump, then clear the suction and the strainer's basket.",
    ),
    "air leak before the pump": Fixed(
        "Water and air run through the pump together, which then gives less head.",
        "The pump gurgles and its hum goes up and down; bubbles in its lid.",
        "With the pump running, put soap suds or a wet cloth on every joint before it: where the gurgling stops is the "
        "leak. Tighten or reseal it, with the pump off.",
    ),
    "pump stopped": Fixed(
        "The water stands as high everywhere in the loop as in the tub.",
        "Silence; or a hum without turning, and a hot motor: then it is stuck.",
        "Switch pump and ozone unit off at the mains, before anybody touches either; then look for what stopped it.",
    ),
    "pump worn": Fixed(
        "Less water runs everywhere.",
        "The pump hums as always, or scrapes; nothing is heard that tells it from a dirty filter.",
        "Clean filter and strainer first; if the flow stays low, open the pump and look at its impeller.",
    ),
    "tub over-full": Fixed(
        "The water stands at the rim and runs over as soon as somebody gets in; the port lies deeper below it.",
        "The pump hums as always.",
        "Let water out to the normal level; look for the tap or the rain that filled it.",
    ),
    "tub low": Fixed(
        "The water stands low; a return that was under water may now fall free.",
        "Splashing where a return now falls free; a whirl over the suction, and a slurp now and then.",
        "Top the tub up, and look for the leak if it sinks again without bathers.",
    ),
    "suction uncovered": Fixed(
        "The water has sunk to the suction: the pump takes in air instead, and water stops moving.",
        "Loud gurgling and slurping, then the high bare hum of a pump that runs dry.",
        "Stop the pump, fill the tub well over the suction, fill the pump, and only then start it again.",
    ),
    "gas line kinked": Fixed(
        "The water runs as with the gas line closed.",
        "No hiss at the open end of the gas line; the tube is flat somewhere, or a needle valve is shut.",
        "Switch the ozone unit off, follow the tube from end to end, and cut the kinked piece out.",
    ),
    "gas line full of water": Fixed(
        "Water stands in the gas line from the port up to its highest point, and its weight holds the gas back.",
        "Gurgling in the line when the pump starts, or silence.",
        "Switch the ozone unit off, drain the line away from it, replace the check valve, and dry the unit's outlet.",
    ),
    "chiller blocked": Fixed(
        "Less water passes the chiller; what it passes comes out colder.",
        "The chiller clicks off and on again, or its display reports too little flow.",
        "Switch the chiller off and let the pump run on: ice melts within the hour. Then clean the filter, and flush "
        "the chiller's water side as its maker says.",
    ),
}
