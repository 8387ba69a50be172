"""Published correlations and rate laws: pure functions, numbers in, numbers out."""
