"""The coach: a line beside the shortest ones, hints, and words for where a pair lies."""
