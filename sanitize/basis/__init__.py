"""Units, constants, errors, notices, bands and the reader of the reference tables; no physics."""
