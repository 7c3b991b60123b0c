"""What a rig is: the model, rig files, arrangements that make a rig from a few numbers, and the example rigs."""
