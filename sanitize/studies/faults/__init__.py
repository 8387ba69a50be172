"""What a person sees, and where water, air and ozone go, when one thing in the loop goes wrong."""
