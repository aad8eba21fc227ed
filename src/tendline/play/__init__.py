"""play."""
