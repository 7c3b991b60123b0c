"""Where everything is, how it moves, and every pull along the travel."""
