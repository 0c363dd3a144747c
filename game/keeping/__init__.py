"""What the records mean: attempts, contests, runs and matches that were kept; statistics."""
