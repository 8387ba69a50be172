"""Matching the model to what was measured."""
