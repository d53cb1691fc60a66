"""The figures of zip and window: what they say at the size, in labels and in words."""

from fractions import Fraction
from xml.etree import ElementTree

from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.drawings.figures import StepFigure, figure_of
from patterns.drawings.figures.above import seen
from patterns.drawings.folding import follow
from patterns.starters import read_starter

SVG = "{http://www.w3.org/2000/svg}"


def figure(
    title: str, slug: str = "zip-pouch", options: dict[str, str] | None = None, **measures: str
) -> StepFigure:
    lengths = {name.replace("_", " "): Fraction(value) * Units.INCHES.mm for name, value in measures.items()}
    sized = size(read_starter(slug), slug, Units.INCHES, lengths, options or {})
    for step, told in zip(sized.steps, follow(sized), strict=True):
        if step.title == title:
            found = figure_of(sized, step, told)
            assert found is not None
            return found
    raise AssertionError(title)


def words(found: StepFigure) -> set[str]:
    root = ElementTree.fromstring(found.svg)  # noqa: S314 - our own drawing
    return {"".join(text.itertext()) for text in root.iter(f"{SVG}text")}


def description(found: StepFigure) -> str:
    root = ElementTree.fromstring(found.svg)  # noqa: S314 - our own drawing
    return root.findtext(f"{SVG}desc") or ""


def test_the_zip_is_shown_at_its_length():
    assert {"1 in", "13 in or longer", "stop", "slider", "tacked"} <= words(figure("Make the zip ready"))
    assert "17 in or longer" in words(figure("Make the zip ready", width="12"))


def test_the_layers_at_the_zip_are_told_in_their_order():
    found = figure("Lay the zip between the front edges")
    assert {"lining, right side down", "zip, right side down", "exterior, right side up", "¼ in"} <= words(
        found
    )
    assert "the zip sticks out beyond both sides" in description(found)


def test_the_row_beside_the_zip_stops_short_only_where_it_must():
    pouch, window = figure("Topstitch the front of the zip"), figure("Topstitch the bands", "window-pouch")
    assert "½ in" in words(pouch)
    assert "It begins and ends 1⁄2 in short of the side seam lines." in description(pouch)
    assert "½ in" not in words(window)
    assert "It runs from side edge to side edge." in description(window)


def test_the_reveal_is_measured_between_the_seams():
    assert "½ in of the zip between the seams" in words(figure("Sew the back of the zip"))
    wide = {"zip size": "No. 5 coil"}
    assert "¾ in of the zip between the seams" in words(figure("Sew the back of the zip", options=wide))


def test_what_is_sewn_and_turned_is_told():
    assert (
        "the two seams are 11 in apart, and 1 1⁄2 in next to the bottom folds is sewn twice"
        in description(figure("Sew the sides"))
    )
    turned = description(figure("Turn the pouch"))
    assert "the lining hangs out of the open zip" in turned
    assert "its point 1 1⁄2 in up the side seam" in turned
    assert "hangs out" not in description(figure("Turn the pouch", "window-pouch"))


def test_the_finished_height_runs_along_the_slope():
    finished = description(figure("Push in the lining, press and measure"))
    assert finished.startswith("Left it stands open, 8 in wide, 3 in deep and 5 in along the slope;")


def test_every_piece_that_a_step_cuts_is_shown():
    assert {"exterior band", "exterior main", "1⅞ in", "11⅛ in", "12 in"} <= words(
        figure("Cut the exterior", "window-pouch")
    )
    one_way = {"exterior print": "one way"}
    assert {"exterior main front", "exterior main back"} <= words(
        figure("Cut the exterior", "window-pouch", one_way)
    )


def test_the_window_lies_as_deep_as_it_is_sewn():
    found = figure("Sew the window to the band", "window-pouch")
    assert {"⅜ in", "⅛ in", "¼ in", "window"} <= words(found)
    assert "the window lies 3⁄8 in deep" in description(found)
    assert "4¾ in" in words(figure("Sew the window to the main", "window-pouch"))
    assert "7¾ in" in words(figure("Sew the window to the main", "window-pouch", height="10"))


def test_the_front_is_seen_from_above_when_it_is_finished():
    sized = size(read_starter("window-pouch"), "window-pouch", Units.INCHES)
    parts = seen(follow(sized)[-1].after)
    assert [each.layer.strip for each in parts] == ["exterior main", "window", "exterior band", "zip"]
    assert [(each.right - each.left) / Units.INCHES.mm for each in parts] == [
        Fraction(3, 4),
        Fraction(19, 4),
        Fraction(5, 4),
        Fraction(1, 4),
    ]


def test_the_binding_is_as_long_as_the_side():
    """And as deep as what is left of the allowance: the turn takes the rest of its width."""
    assert {"7 in", "⅜ in"} <= words(figure("Bind the side seams", "window-pouch"))
    assert {"1 in", "2 in"} <= words(figure("Cut and press the bindings", "window-pouch"))
