"""What clouds the water: causes weighed by what is seen, by the model and by readings."""
