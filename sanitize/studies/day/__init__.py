"""A simulated day or more: ozone, demand, the other oxidant, the room's air, haze and warmth."""
