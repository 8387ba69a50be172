"""What to add to the water, how much and in which order, from the latest test."""
