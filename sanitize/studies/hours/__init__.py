"""How many hours a day the pump must run, and which need decides."""
