"""Will the injector draw, how surely, why, and what is dangerous about it."""
