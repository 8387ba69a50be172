"""The numbers behind the steps, by name."""

from sanitize.basis.tables import Entry, model_table


def number(name: str) -> Entry:
    """A row of the table of dosing numbers.

    >>> number("chlorine_step_mgl").value
    5.0
    """
    return model_table("dosing_numbers")[(name,)]
