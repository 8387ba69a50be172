"""How long a loop lasts between the cleanings of its filter."""
