"""Where pumps and pipework settle: flows of every way, and the pressure along them, for all cases at once."""
