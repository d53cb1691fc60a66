"""Colours, widths of lines and sizes of letters: the same names and values as the shop's style sheet.

Widths and sizes are micrometres on the page.
"""

PAPER = "#fbfaf6"
SHEET = "#ffffff"
INK = "#1f2a2e"
QUIET_INK = "#54636a"
RULE = "#d9d6cc"
PETROL = "#0f5c63"
BRICK = "#a8452c"
OCHRE = "#8a5a00"
MOSS = "#2e6b3e"

# Grounds of the fabrics, petrol and ochre mixed with the sheet: ink stands on each of them at 7 : 1 or more.
EXTERIOR = "#cfe0de"
EXTERIOR_SIDE = "#b9d1cf"
EXTERIOR_PALE = "#e9f1f0"
LINING = "#f8f0e0"
LINING_DEEP = "#f1e5cc"
LINING_PALE = "#fcf8f0"
INTERFACING = "#f4f4f1"
INTERFACING_PALE = "#fafaf8"

# Grounds of what is refused, advised against and in order: brick, ochre and moss mixed with the sheet.
REFUSED = "#f7e7e2"
ADVISED = "#faf1dc"
WELL = "#eef4ef"

# Their hatch and dots.
LINING_HATCH = "#c7a668"
LINING_HATCH_PALE = "#e2d2b0"
INTERFACING_DOTS = "#8b979b"
INTERFACING_DOTS_PALE = "#c3cacd"

# 7 pt, the least that is read from a printed page at arm's length.
LEAST_LETTERS = 2470
