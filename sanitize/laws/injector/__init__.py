"""The aspirating venturi."""
