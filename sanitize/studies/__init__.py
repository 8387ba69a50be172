"""One question a module: plant and laws to a frozen result."""
