from fractions import Fraction

from patterns.drawings.boxed_tote import boxed_tote
from patterns.drawings.lines import Line
from patterns.drawings.open_basket import open_basket
from patterns.drawings.packable_tote import Handles, packable_tote
from patterns.drawings.standing import Face, Standing, Stroke

SIZE = Fraction(360), Fraction(330), Fraction(120)
HANDLES = Handles(length=Fraction(600), width=Fraction(25), apart=Fraction(180))


def tote() -> Standing:
    return boxed_tote(*SIZE, HANDLES)


def test_no_triangle_stands_on_its_short_sides() -> None:
    """A boxed corner has no pleat: what an open basket's has more is the triangle, inside and outside."""
    basket = open_basket(*SIZE)
    triangles = set(basket.shapes) - set(tote().shapes)
    assert len(triangles) == 2
    assert all(isinstance(shape, Stroke) and len(shape.way) == 3 for shape in triangles)
    assert not [
        shape for shape in tote().shapes if isinstance(shape, Stroke) and shape.kind is Line.HIDDEN_FOLD
    ]


def test_its_handles_are_those_of_a_packable_tote() -> None:
    assert set(packable_tote(*SIZE, HANDLES, None).shapes) >= set(tote().shapes)
    bands = [shape for shape in tote().shapes if isinstance(shape, Face) and shape.edge is None]
    assert len(bands) == 2
    assert tote().shapes[0] is bands[0] or tote().shapes[0] == bands[0]


def test_it_is_measured_along_front_and_side() -> None:
    plain = open_basket(*SIZE)
    assert (tote().width, tote().height, tote().depth) == (plain.width, plain.height, plain.depth)
    assert tote().seen_as.endswith("with the lining inside and both handles up")
