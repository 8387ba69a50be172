"""Constants that are exact by definition."""

GRAVITY_MS2 = 9.80665
"""Standard gravity [m/s2], exact by definition."""

STANDARD_ATMOSPHERE_PA_ABS = 101325.0
"""Standard atmosphere [Pa absolute], exact by definition."""

CELSIUS_ZERO_K = 273.15
"""0 degC [K], exact by definition."""
ONE_SIDED_90_PERCENT = 1.645
"""Standard errors from the middle to the 5th and the 95th percentile of a normal distribution."""
