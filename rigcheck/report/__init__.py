"""Telling: the drawing, its words and what is printed."""
