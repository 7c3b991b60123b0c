"""What is checked: one module for each thing, each adding its lines to the working and its verdicts to the list."""
