"""What to do when the water has been through something."""
