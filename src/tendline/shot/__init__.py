"""shot."""
