"""Own cloth on a drawing: its true scale, and how the print of a panel runs over front, sides and base."""

import re
from fractions import Fraction
from itertools import pairwise
from xml.etree import ElementTree

import pytest

from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.drawings.covered_bodies import BoxBody, PouchBody, RoundBody
from patterns.drawings.finished import finished_svg
from patterns.drawings.geometry import Point, Spot
from patterns.drawings.page import Placing
from patterns.drawings.prints import Print, draped, in_print
from patterns.drawings.unrolled import unrolled_svg
from patterns.drawings.zip_pouch import Pouch
from patterns.starters import read_starter, slugs

F = Fraction
CLOTH = Print("/own-cloth/x.jpg", F(100), F(50))
BOTH = {"exterior": CLOTH, "lining": Print("/own-cloth/y.jpg", F(60), F(60))}
BOX = BoxBody(F(200), F(150), F(120))
POUCH = PouchBody(Pouch(F(200), F(130), F(100), F(12)))


def sized(slug, **options):
    chosen = {name.replace("_", " "): choice for name, choice in options.items()}
    return size(read_starter(slug), slug, Units.INCHES, {}, chosen)


def one_way(slug):
    return sized(slug, exterior_print="one way", lining_print="one way")


def on_cloth(drape, point):
    """Where a place of the drawing lies on the cloth."""
    x, y = point.x - drape.middle.x, point.y - drape.middle.y
    area = drape.right.x * drape.up.y - drape.up.x * drape.right.y
    return (
        (x * drape.up.y - y * drape.up.x) / area,
        (y * drape.right.x - x * drape.right.y) / area,
    )


def matrix_of(part):
    return [float(each) for each in re.search(r"matrix\(([^)]*)\)", part)[1].split()]


def test_picture_lies_as_its_corners_say():
    drape = draped(
        (Point(F(0), F(0)), F(-50), F(-25)),
        (Point(F(100), F(0)), F(50), F(-25)),
        (Point(F(100), F(50)), F(50), F(25)),
    )
    assert (drape.middle, drape.right, drape.up) == (
        Point(F(50), F(25)),
        Point(F(1), F(0)),
        Point(F(0), F(1)),
    )


def test_true_scale():
    """At 400 micrometres a mm a strip of 100 mm is 40 mm wide, its top left corner in the corner."""
    drape = draped(
        (Point(F(0), F(0)), F(-50), F(-25)),
        (Point(F(100), F(0)), F(50), F(-25)),
        (Point(F(100), F(50)), F(50), F(25)),
    )
    (part,) = in_print(CLOTH, [drape], Placing(F(400), Spot(10_000, 30_000)))
    assert matrix_of(part) == [0.4, 0, 0, 0.4, 0, 0]
    group = ElementTree.fromstring(part)  # noqa: S314 - our own drawing
    assert group.attrib["transform"] == "translate(10 10)"
    assert group.find("pattern").attrib["width"] == "100"
    assert group.find("pattern").attrib["height"] == "50"
    assert group.find("path").attrib["d"] == "M0 20L40 20L40 0Z"


def test_print_goes_on_round_the_corner():
    (front,), (near, far) = BOX.drapes("front", False), BOX.drapes("side", False)
    for corner in (front.outline[1], front.outline[2]):
        assert on_cloth(front, corner) == on_cloth(near, corner)
    assert on_cloth(front, front.outline[0]) == (F(-100), F(-75))
    # At the side seam two panels meet as they will: 160 mm to the right, and 160 mm to the left.
    seam = far.outline[0]
    assert on_cloth(near, seam) == (F(160), F(-75))
    assert on_cloth(far, seam) == (F(-160), F(-75))


def test_panel_round_the_base_comes_up_upside_down():
    _, turned = BOX.drapes("side", True)
    _, upright = BOX.drapes("side", False)
    assert turned.up.y == -upright.up.y
    assert turned.right.x == -upright.right.x
    # From the middle of the front down half its height, under the base, and up behind.
    foot = turned.outline[1]
    assert on_cloth(turned, foot) == (F(100), F(-75 - 120))
    top = turned.outline[2]
    assert on_cloth(turned, top) == (F(100), F(-75 - 120 - 150))


def test_inside_goes_on_from_back_to_left_and_base():
    (back,), (left, _), (base, front_half) = (
        BOX.drapes(part, False) for part in ("inside back", "inside left", "inside base")
    )
    foot, top = back.outline[0], back.outline[3]
    for corner in (foot, top):
        assert on_cloth(back, corner) == on_cloth(left, corner)
    assert on_cloth(back, foot) == on_cloth(base, foot)
    assert front_half.up.y == -base.up.y
    (whole,) = BOX.drapes("inside base", True)
    assert on_cloth(whole, foot) == on_cloth(back, foot)


@pytest.mark.parametrize("is_round_the_base", [True, False])
def test_pouch_goes_on_round_its_edges(is_round_the_base):
    (front,) = POUCH.drapes("front", is_round_the_base)
    near, far = POUCH.drapes("side", is_round_the_base)
    ear, other_ear = POUCH.drapes("triangle", is_round_the_base)
    for corner in (front.outline[1], front.outline[2]):
        assert on_cloth(front, corner) == on_cloth(near, corner)
    for one, other in ((ear, other_ear), (near, far)):
        meet = set(one.outline) & set(other.outline)
        assert len(meet) == 2
        is_same = all(on_cloth(one, point) == on_cloth(other, point) for point in meet)
        assert is_same == (is_round_the_base and one is ear)
    # Nothing is stretched: the short side's foot is as long on the cloth as the base is deep.
    assert on_cloth(near, near.outline[1])[0] - on_cloth(near, near.outline[0])[0] == 50


def test_round_wall_is_as_long_as_its_half_circle():
    body = RoundBody(F(200), F(150))
    strips = body.drapes("front", False)
    start = on_cloth(strips[0], strips[0].outline[0])[0]
    end = on_cloth(strips[-1], strips[-1].outline[1])[0]
    assert start == -end
    assert abs(float(end - start) - 314.159) < 0.3
    for one, other in pairwise(strips):
        assert on_cloth(one, one.outline[1]) == on_cloth(other, other.outline[0])


@pytest.mark.parametrize("slug", slugs())
def test_every_starter_wears_both(slug, no_floats):
    for each in (sized(slug), one_way(slug)):
        svg = finished_svg(each, BOTH)
        root = ElementTree.fromstring(svg)  # noqa: S314 - our own drawing
        names = [node.attrib["id"] for node in root.iter("{http://www.w3.org/2000/svg}pattern")]
        assert names
        assert len(names) == len(set(names))
        assert all(f"url(#{name})" in svg for name in names)
        assert "Your own cloth is shown on the exterior" in svg
        for tint in BOTH:
            assert "pattern" in unrolled_svg(each, tint, CLOTH)


@pytest.mark.parametrize("slug", slugs())
def test_without_cloth_nothing_changes(slug):
    assert finished_svg(sized(slug), {}) == finished_svg(sized(slug))
    assert "<pattern" not in finished_svg(sized(slug))


def test_only_what_was_sent_is_covered():
    svg = finished_svg(sized("fold-flat-basket"), {"lining": CLOTH})
    assert "Your own cloth is shown on the lining." in svg
    assert svg.count("<pattern") == 4  # back, both halves of the left wall, the base in one piece


def test_unrolled_shows_the_seam_of_two_panels():
    whole, halves = (unrolled_svg(each("fold-flat-basket"), "exterior", CLOTH) for each in (sized, one_way))
    assert whole.count("<pattern") == 1
    assert "stands upside down on the back" in whole
    assert halves.count("<pattern") == 2
    first, second = (matrix_of(part) for part in halves.split("<pattern")[1:])
    assert [-each for each in first[:4]] == second[:4]
    assert "upright on front and back" in halves


def test_address_is_written_safely():
    svg = finished_svg(sized("zip-pouch"), {"exterior": Print('x"/><script>', F(9), F(9))})
    assert "<script" not in svg
