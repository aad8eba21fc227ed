"""The few tasks that the pages and the command line share."""
