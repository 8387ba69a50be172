"""The tees of a split or a merge: what each way loses there, and how that moves with every way's flow."""

import numpy as np

from sanitize.laws.hydraulics import tees
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


def _coefficients(meeting: Meeting, share: Array, shift_rank: Array) -> tuple[Coefficient, Coefficient]:
    """K and its slope with the branch's share, for the branch and for what runs on."""
    raise NotImplementedError
