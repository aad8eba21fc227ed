"""The command line: every page's work as a command."""

from __future__ import annotations

import click


@click.group()
def main() -> None:
    """Work out where to stand, what it cost and what to train."""
