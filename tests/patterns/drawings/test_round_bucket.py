from fractions import Fraction

from patterns.drafting.units import Units
from patterns.drawings.finished import finished_svg
from patterns.drawings.geometry import Point
from patterns.drawings.lines import Line
from patterns.drawings.round_bucket import TILT, round_bucket
from patterns.drawings.standing import Face, Standing, Stroke
from patterns.starters import read_starter
from tests.drawn import root_of
from tests.starters import sized_at

DIAMETER, HEIGHT = Fraction(200), Fraction(230)


def bucket(height: Fraction = HEIGHT) -> Standing:
    return round_bucket(DIAMETER, height)


def faces(item: Standing, tint: str) -> list[Face]:
    return [shape for shape in item.shapes if isinstance(shape, Face) and shape.fabric.tint == tint]


def test_diameter_and_height_are_true_to_scale() -> None:
    item = bucket()
    (left, right), (foot, top) = item.width, item.height
    assert right.x - left.x == DIAMETER
    assert (top.x, top.y - foot.y) == (foot.x, HEIGHT)
    assert item.depth is None
    assert item.width_name == "diameter"


def test_its_edge_is_a_circle_seen_from_a_little_above() -> None:
    (rim,) = [shape.way for shape in bucket().shapes if isinstance(shape, Stroke) and shape.is_closed][:1]
    middle = Point(DIAMETER / 2, HEIGHT + DIAMETER * TILT / 2)
    for point in rim:
        x, y = (point.x - middle.x) * 2 / DIAMETER, (point.y - middle.y) * 2 / (DIAMETER * TILT)
        assert x**2 + y**2 == 1


def test_it_touches_the_table_at_its_foremost_place_alone() -> None:
    points = [*bucket().points()]
    assert min(point.y for point in points) == 0
    assert {point.x for point in points if point.y == 0} == {DIAMETER / 2}


def test_its_base_is_seen_only_over_a_low_edge() -> None:
    """Seen over the near edge as long as the far end of the base, 200 ÷ 3 mm up the page, is higher."""
    assert len(faces(bucket(), "lining")) == len(faces(bucket(Fraction(67)), "lining")) == 2
    assert len(faces(bucket(Fraction(66)), "lining")) == 3


def test_the_inside_is_painted_before_the_outside_and_shaded_on_the_other_hand() -> None:
    item = bucket()
    last_inside = max(item.shapes.index(face) for face in faces(item, "lining"))
    assert last_inside < min(item.shapes.index(face) for face in faces(item, "exterior"))
    (inside,), (outside,) = (
        [face for face in faces(item, tint) if face.fabric.is_shaded] for tint in ("lining", "exterior")
    )
    assert max(point.x for point in inside.outline) < DIAMETER / 2 < min(point.x for point in outside.outline)


def test_topstitching_never_leaves_a_low_wall() -> None:
    rows = [shape.way for shape in bucket(Fraction(4)).shapes if isinstance(shape, Stroke)]
    assert all(point.y >= 0 for way in rows for point in way)
    stitched = [
        shape.way
        for shape in bucket(Fraction(4)).shapes
        if isinstance(shape, Stroke) and shape.kind is Line.TOPSTITCH
    ]
    assert stitched[1][len(stitched[1]) // 2] == Point(DIAMETER / 2, Fraction(3))


def test_title_says_how_far_across() -> None:
    svg = finished_svg(sized_at(read_starter("round-bucket"), Units.INCHES, {}, {}))
    assert root_of(svg)[0].text == "Round bucket, 8 in across, 9 in high"
