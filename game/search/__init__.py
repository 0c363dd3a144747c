"""Exact shortest solutions: coordinates -> tables -> cache; outcome, nodes -> reach -> shortest."""
