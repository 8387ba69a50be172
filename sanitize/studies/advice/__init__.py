"""What to change so that the injector draws, and which throat to take: every change solved on this loop."""
