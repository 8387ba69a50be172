"""Chemistry of the water: carbonate and halogen equilibria, saturation, degassing, what a dose brings."""
