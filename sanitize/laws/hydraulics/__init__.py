"""Pipe, fitting, valve and pump hydraulics."""
