"""Whether the parts of a loop mate, come out and withstand what runs through them."""
