"""tendline: from a goaltender's games to tonight's practice sheet."""

__version__ = "0.1.0"
