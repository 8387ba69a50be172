"""How clear the water stays: the laws of filters and what they hold back."""
