"""What to buy and cut for a loop."""
