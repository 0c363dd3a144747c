"""The 3x3x3 cube: geometry -> moves -> lines -> cube -> pair -> words. Pure values, no files."""
