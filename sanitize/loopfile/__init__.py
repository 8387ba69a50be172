"""Text to plant: reads, checks, and reports every problem at once."""
