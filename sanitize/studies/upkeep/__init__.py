"""How much of the sanitizer a tub uses up in a day, and how often to add it."""
