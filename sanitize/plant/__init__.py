"""What the user owns, as frozen typed records."""
