"""The same rig with one thing changed, put through the same checks."""
