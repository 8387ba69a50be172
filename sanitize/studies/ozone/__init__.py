"""How much ozone is made, dissolves, stays in the water and ends in the air that people breathe."""
