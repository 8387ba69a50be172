"""What the study of clouded water answers."""

from dataclasses import dataclass
from typing import Literal

from sanitize.basis.figure import Figure
from sanitize.basis.notices import Notice
from sanitize.plant.answers import Answers
from sanitize.studies.cautions.caution import Caution
from sanitize.studies.cloudy.told import Teller

Word = Literal["likely", "possible", "unlikely"]


@dataclass(frozen=True)
class Witness:
    """What the model, or a water test of the file, says of a sign that nobody answered.

    share_ratio: share of the cases in which the sign is there; sure_ratio: the same, drawn towards one half as the
    model may err, and as a part may break that the file calls sound; odds_factor_ratio: by how much that moves the odds
    of the cause in `moves` against not having it.
    """

    sign: str
    share_ratio: float
    sure_ratio: float
    moves: str
    odds_factor_ratio: float
    text: str
    by: Teller


@dataclass(frozen=True)
class ReadingGap:
    """One reading against the loop with nothing wrong.

    standard_error: of reading, gauge and model; miss_errors: measured less predicted, in standard errors of both.
    """

    key: str
    kind: str
    measured: float
    standard_error: float
    predicted: Figure
    miss_errors: float


@dataclass(frozen=True)
class FaultOdds:
    """A fault of the loop by the readings alone.

    faults: those that the readings cannot tell apart; chance_ratio: judgement where all were equally likely before;
    signs: for each reading, whether the fault moves it up (+), down (-) or not (0), in the middle of its cases;
    points_to: the cause of clouded water that it brings, or nothing; actions: what to do, for each of `faults`.
    """

    faults: tuple[str, ...]
    chance_ratio: float
    signs: tuple[Literal["+", "-", "0"], ...]
    points_to: str
    actions: tuple[str, ...]


@dataclass(frozen=True)
class Because:
    """What speaks for a cause: bits against the mean of all; source: who says so."""

    sign: str
    seen: bool
    source: Literal["answer", "readings"] | Teller
    bits: float


@dataclass(frozen=True)
class CauseRow:
    """One cause: its chance with its range, judgement as all behind it; before: without any evidence."""

    cause: str
    name: str
    word: Word
    chance_ratio: Figure
    before_ratio: float
    because: tuple[Because, ...]


@dataclass(frozen=True)
class PairRow:
    """Two causes at once."""

    causes: tuple[str, str]
    chance_ratio: Figure


@dataclass(frozen=True)
class Outcome:
    """What an answer would mean: the first causes then, and how likely that answer is."""

    chance_ratio: float
    first: tuple[str, ...]
    words: tuple[Word, ...]


@dataclass(frozen=True)
class NextTest:
    """A test that is worth its work.

    gain_bits: entropy that it is expected to take away; gain_bits_per_minute: per minute of work, waiting left out.
    """

    sign: str
    asks: str
    how: str
    work_s: float
    wait_s: float
    gain_bits: float
    gain_bits_per_minute: float
    if_yes: Outcome
    if_no: Outcome


@dataclass(frozen=True)
class Steps:
    """What to do about the leading cause."""

    cause: str
    confirm: str
    do: str
    dont: str
    stop_using: str
    drain: str


@dataclass(frozen=True)
class JarTime:
    """How long particles of one kind need through the jar of the test; None where they never do."""

    particle: str
    diameter_m: float
    rises: bool
    time_s: float


@dataclass(frozen=True)
class HeatRates:
    """What a thermometer in the tub should show with nothing wrong, near the set temperature.

    settles_c: where the water settles in the pump's hours; cooling_k_per_h: with pump and chiller on, warming_k_per_h:
    with the pump on and the chiller off.
    """

    set_c: float
    settles_c: Figure
    cooling_k_per_h: Figure
    warming_k_per_h: Figure


@dataclass(frozen=True)
class Cloudy:
    """Causes by their chance, the likeliest first; every chance is judgement.

    gaps, faults: of the readings, empty without any; unexplained_readings: those that no case of any fault comes near.
    """

    title: str
    units: Literal["metric", "us"]
    standing: Literal["judgement"]
    cases_count: int
    seed: int
    answers: Answers
    own_numbers_count: int
    causes: tuple[CauseRow, ...]
    pairs: tuple[PairRow, ...]
    two_at_once_ratio: Figure
    witnesses: tuple[Witness, ...]
    gaps: tuple[ReadingGap, ...]
    faults: tuple[FaultOdds, ...]
    unexplained_readings: tuple[str, ...]
    next_tests: tuple[NextTest, ...]
    steps: Steps
    heat_rates: HeatRates | None
    jar_height_m: float
    jar_times: tuple[JarTime, ...]
    notices: tuple[Notice, ...]
    cautions: tuple[Caution, ...]

    @property
    def is_dangerous(self) -> bool:
        """Whether any caution is a danger."""
        return any(caution.severity == "danger" for caution in self.cautions)
