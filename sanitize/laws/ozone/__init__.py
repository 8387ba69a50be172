"""Ozone: how much is made, dissolves, decays and is left in the water and in the air."""
