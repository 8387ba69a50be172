"""Answers before gluing for small recirculating cold-water tubs."""

__version__ = "0.1.0"
