"""The caution of those who glue."""

from sanitize.studies.cautions.caution import Caution

SOLVENT_CEMENT = Caution(
    code="solvent-cement",
    severity="caution",
    text="Solvent cement and primer give off vapours that burn and numb, and they harm skin and eyes.",
    action=(
        "Work outdoors or with a strong draught, away from flames and sparks, with gloves and eye protection of the "
        "kind that the label names; let the joints cure as long as the label says before water or people come near."
    ),
    source="",
    defers_to="the label of the cement and of the primer, by their makers",
)
"""Given where a joint is cemented."""
