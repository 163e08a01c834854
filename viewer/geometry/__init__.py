"""Arrays in, arrays out: the shape of a part, its pose, and what a pose costs."""
