"""How fast the program is: `python -m tests.bench` prints a table.

To add rows, add a module to this package with a function `rows() -> Iterator[Row]`; every such
module is run, in the order of their names.
"""
