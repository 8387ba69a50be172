"""What was taken because the file does not say it."""

from collections.abc import Sequence

from sanitize.basis.notices import Notice
from sanitize.basis.tables import model_table
from sanitize.studies.mating.layout import Ends, Station
from sanitize.studies.mating.made import Made
from sanitize.studies.mating.rules import UNKNOWN, forms_of, sealants_of


def assumptions_of(made: Sequence[Made]) -> tuple[Notice, ...]:
    """The ends that were taken, one sentence for all parts of a kind that were taken alike."""
    alike: dict[tuple[str, str, str, str], list[str]] = {}
    for one in made:
        for station, ends in zip(one.row, one.ends, strict=True):
            if station.assumed and UNKNOWN not in (ends.inlet, ends.outlet):
                key = (station.word, ends.inlet, ends.outlet, ends.material)
                names = alike.setdefault(key, [])
                if station.name not in names:
                    names.append(station.name)
    return tuple(_assumption(*key, names) for key, names in alike.items())


def _assumption(word: str, inlet: str, outlet: str, material: str, names: Sequence[str]) -> Notice:
    ends = f"{inlet} at either end" if inlet == outlet else f"{inlet} at its inlet, {outlet} at its outlet"
    of = "" if material == UNKNOWN else f", of {material}"
    standing, note = _of_form(word, {inlet, outlet})
    return Notice("ends-taken", f"{', '.join(names)}: {ends}{of} ({standing}; {note}).")


def _of_form(word: str, ends: set[str]) -> tuple[str, str]:
    for form in forms_of(word):
        if {form.inlet, form.outlet} == ends:
            return form.entry.standing, form.entry.note
    return "estimate", "one end as the file says"


def sealants_taken(made: Sequence[Made]) -> tuple[Notice, ...]:
    """What seals the joints for which the file says nothing."""
    seals = [seal for one in made for joint in one.joints for seal in joint.seals]
    usual = {seal.kind: seal.sealant for seal in seals if seal.sealant == sealants_of(seal.kind)[0]}
    if not usual:
        return ()
    told = ", ".join(f"{sealant} for {kind}" if sealant != kind else sealant for kind, sealant in usual.items())
    return (Notice("sealants-taken", f"Sealed with, where the file says nothing: {told} (common practice)."),)


def unknown_ends(made: Sequence[Made]) -> tuple[Notice, ...]:
    """Parts whose joints are not judged."""
    names = [
        station.name for one in made for station, ends in zip(one.row, one.ends, strict=True) if _unknown(station, ends)
    ]
    return tuple(
        Notice("ends-not-known", f"{name}: its ends are not known; state inlet_end and outlet_end.")
        for name in dict.fromkeys(names)
    )


def _unknown(station: Station, ends: Ends) -> bool:
    return station.assumed and UNKNOWN in (ends.inlet, ends.outlet)


def unusual_sizes(made: Sequence[Made]) -> tuple[Notice, ...]:
    """Parts in a size in which they are seldom sold."""
    table = model_table("usual_sizes")
    found: dict[str, list[str]] = {}
    for one in made:
        for station in one.row:
            if station.word in table.words("part") and (station.word, station.part.size) not in table.entries:
                found.setdefault(station.word, []).append(f"{station.name} ({station.part.size} in)")
    notices = []
    for word, names in found.items():
        note = next(entry.note for key, entry in table.entries.items() if key[0] == word)
        notices.append(Notice("unusual-size", f"{', '.join(names)}: {note}; see that yours is sold in that size."))
    return tuple(notices)
