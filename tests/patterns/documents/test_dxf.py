"""DXF read back by its library: lengths, arcs and layers are the recipe's."""

from io import StringIO
from math import hypot, pi

import ezdxf
import pytest

from patterns.documents.dxf import dxf
from patterns.documents.templates import one_template, svg
from patterns.drawings.tokens import INK
from tests.drawn import SVG, root_of


def read(content):
    drawing = ezdxf.read(StringIO(content.decode("cp1252")))
    assert not drawing.audit().errors
    return drawing


def on(drawing, layer):
    return list(drawing.modelspace().query(f'*[layer=="{layer}"]'))


def length_of(polyline):
    """Straight edges by Pythagoras; an edge with a bulge b is an arc of 4 atan b over its chord."""
    total = 0
    points = list(polyline.get_points("xyb"))
    for (x, y, bulge), (to_x, to_y, _) in zip(points, points[1:] + points[:1], strict=True):
        chord = hypot(to_x - x, to_y - y)
        # A quarter circle: chord = r √2, arc = r π ÷ 2.
        total += chord if not bulge else chord / 2**0.5 * pi / 2
    return total


@pytest.mark.parametrize("units", ["in", "cm"])
def test_a_circle_has_the_circumference_of_the_recipe(make_sized, units):
    sized = make_sized("round-bucket", units)
    base = next(piece for piece in sized.pieces if piece.name == "exterior base")
    drawing = read(dxf(one_template(sized, ["exterior base"])))
    (edge,) = on(drawing, "cut")
    assert edge.closed
    assert length_of(edge) == pytest.approx(float(base.width.value) * pi, abs=1e-6)
    assert [abs(bulge) for _, _, bulge in edge.get_points("xyb")] == pytest.approx([2**0.5 - 1] * 4)
    seam = next(each for each in on(drawing, "stitch") if each.dxftype() == "LWPOLYLINE")
    allowance = float(next(each.value for each in sized.measures if each.name == "seam allowance"))
    assert length_of(seam) == pytest.approx((float(base.width.value) - 2 * allowance) * pi, abs=0.005)


def test_a_circle_bulges_outwards(make_sized):
    """Its box, arcs and all, is as wide as the circle, not less."""
    from ezdxf import bbox

    sized = make_sized("round-bucket")
    (edge,) = on(read(dxf(one_template(sized, ["exterior base"]))), "cut")
    found = bbox.extents([edge])
    assert (found.size.x, found.size.y) == pytest.approx((228.6, 228.6), abs=0.01)
    assert (found.extmin.x, found.extmin.y) == pytest.approx((0, 0), abs=0.01)


@pytest.mark.parametrize("units", ["in", "cm"])
def test_a_panel_with_cut_outs_has_the_edge_of_the_recipe(make_sized, units):
    sized = make_sized("boxed-tote", units)
    panel = sized.pieces[0]
    (edge,) = on(read(dxf(one_template(sized, [panel.name]))), "cut")
    # A corner that is cut out square leaves the way round as long as it was.
    around = 2 * (float(panel.width.value) + float(panel.height.value))
    assert length_of(edge) == pytest.approx(around, abs=1e-6)
    assert len(edge) == 8
    # Its cut-outs are at the bottom: the lowest edge is the shorter one.
    lowest = [x for x, y, _ in edge.get_points("xyb") if y == 0]
    assert max(lowest) - min(lowest) < float(panel.width.value)


def test_units_layers_and_words(make_sized):
    drawing = read(dxf(one_template(make_sized("packable-tote"), ["pocket"])))
    assert drawing.header["$INSUNITS"] == 4
    assert {"cut", "fold", "stitch", "mark", "text"} <= {layer.dxf.name for layer in drawing.layers}
    assert len(on(drawing, "stitch")) == 4
    words = {each.dxf.text for each in on(drawing, "text")}
    assert {"pocket", "cut 2 from exterior fabric", "mouth seam line"} <= words


def test_folds_lie_where_the_recipe_has_them(make_sized):
    drawing = read(dxf(one_template(make_sized("packable-tote"), ["handle"])))
    levels = sorted(each.dxf.start.y for each in on(drawing, "fold"))
    assert levels == pytest.approx([25.4, 50.8, 76.2])


def test_the_same_template_has_the_same_bytes(make_sized):
    sized = make_sized("round-bucket")
    made = {dxf(one_template(sized, ["lining base"])) for _ in range(2)}
    assert len(made) == 1
    assert not ezdxf.options.write_fixed_meta_data_for_testing


def cut_lines(content):
    return [
        node.attrib["d"]
        for node in root_of(content).iter(f"{SVG}path")
        if node.attrib.get("stroke") == INK and node.attrib.get("stroke-width") == "0.45"
    ]


def test_svg_is_as_large_as_life(make_sized):
    content = svg(one_template(make_sized("round-bucket"), ["exterior base"])).decode()
    root = root_of(content)
    left, top, width, height = map(float, root.attrib["viewBox"].split())
    assert (root.attrib["width"], root.attrib["height"]) == (f"{width:g}mm", f"{height:g}mm")
    (edge,) = cut_lines(content)
    # 9 in across: four arcs of a radius of 4 1/2 in, 114.3 mm.
    assert edge.count("A114.3 114.3 0 0 1 ") == 4
    assert left <= 0 <= 228.6 <= left + width
    assert top <= 0 <= 228.6 <= top + height


def test_svg_of_a_panel_has_the_corners_of_the_recipe(make_sized):
    content = svg(one_template(make_sized("boxed-tote"), ["exterior panel"])).decode()
    (edge,) = cut_lines(content)
    assert edge == "M0 0L508 0L508 355.6L444.5 355.6L444.5 419.1L63.5 419.1L63.5 355.6L0 355.6Z"
