"""What a loop should show when it is filled for the first time."""
