"""Cautions: people's safety; each comes from a rule that fires on a loop and a result."""
