"""When the pump, the ozone unit and the chiller run: the plan of a day that a timer keeps."""
