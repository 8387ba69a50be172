"""Heat into the water of a tub, and what a chiller takes out of it."""
