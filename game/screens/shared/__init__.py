"""What several screens share: the frame, keys, lists, pictures and rows of text."""
