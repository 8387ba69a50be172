"""The tees of a split or a merge: what each way loses there, and how that moves with every way's flow."""

import numpy as np

from sanitize.basis.band import Band
from sanitize.laws.hydraulics import tees
from sanitize.laws.hydraulics.tee_shift import LARGEST_SHIFT_RATIO
from sanitize.studies.draws import Array
from sanitize.studies.operating_point.topology import Meeting


def leg_losses(
    meeting: Meeting, flows_m3s: Array, bore_m: float, density_kgm3: float, shift_rank: Array
) -> tuple[Array, Array]:
    """Loss of total pressure of each way at the tees [Pa], and its slopes with every way's flow [Pa s/m3].

    flows_m3s: (ways, cases); returns (ways, cases) and (ways, ways, cases). More than two ways are tees in a row,
    in the order listed, with the straight way last; without a straight way every tee is entered or left by its branch.
    """
    count, size = flows_m3s.shape
    sequence = [position for position in range(count) if position != meeting.straight]
    if meeting.straight is not None:
        sequence.append(meeting.straight)
    per_square = density_kgm3 / (2.0 * (np.pi * bore_m * bore_m / 4.0) ** 2)
    loss = np.zeros((count, size))
    slope = np.zeros((count, count, size))
    for index in range(count - 1):
        here, later = sequence[index], sequence[index + 1 :]
        combined = flows_m3s[sequence[index:]].sum(axis=0)
        share = np.clip(np.divide(flows_m3s[here], combined, out=np.zeros(size), where=combined != 0.0), 0.0, 1.0)
        branch, run = _coefficients(meeting, share, shift_rank)
        magnitude = np.abs(combined) * per_square
        for legs, (k, dk) in (((here,), branch), (tuple(later), run)):
            with_combined = magnitude * (2.0 * k - share * dk)
            with_branch = magnitude * dk
            for leg in legs:
                loss[leg] += k * combined * magnitude
                for other in sequence[index:]:
                    slope[leg, other] += with_combined
                slope[leg, here] += with_branch
    return loss, slope


Coefficient = tuple[Array, Array]

WIDEST_MERGE_SHIFT = 0.5
"""How far the loss of two runs that meet in the branch may lie from nominal."""
TURNING = Band(0.0, 0.3, 1.5)
"""How the loss of water that enters by the branch grows with a leg's share: the range over welded and screwed tees."""


def _coefficients(meeting: Meeting, share: Array, shift_rank: Array) -> tuple[Coefficient, Coefficient]:
    """K and its slope with the branch's share, for the branch and for what runs on."""
    side = 2.0 * shift_rank - 1.0
    if meeting.straight is not None:
        law = tees.diverging if meeting.diverging else tees.converging
        legs = law(share, 1.0, LARGEST_SHIFT_RATIO * side)
        return (legs.branch.k, legs.branch.dk_dq), (legs.run.k, legs.run.dk_dq)
    if meeting.diverging:
        turning = TURNING.at(shift_rank)
        one, other = tees.enters_by_branch(share, 1.0, turning), tees.enters_by_branch(1.0 - share, 1.0, turning)
    else:
        added = WIDEST_MERGE_SHIFT * side
        one, other = tees.both_runs_into_branch(share, 1.0, added), tees.both_runs_into_branch(1.0 - share, 1.0, added)
    return (one.k, one.dk_dq), (other.k, -other.dk_dq)
