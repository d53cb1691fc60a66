"""Line drawings as SVG, from code that knows geometry: the finished item, the item folded flat, each piece.

Two kinds of number, told apart by their type: a `Fraction` is exact millimetres of cloth, an `int` is whole
micrometres on the printed page. `page.py` is the one place where the first becomes the second, at the end.
"""
