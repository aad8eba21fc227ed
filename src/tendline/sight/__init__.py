"""sight."""
