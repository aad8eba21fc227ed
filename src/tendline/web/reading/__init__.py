"""Read the play: drag people on the ice, and the answer follows the finger."""
