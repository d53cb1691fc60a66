import pytest

from patterns.cutting.choices import Making
from patterns.cutting.shopping import shopping_list
from patterns.cutting.wish import Wish, choices_of
from patterns.drafting.lengths import written
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.drawings.bought import bought_cloth
from patterns.drawings.layout import layout_svg
from patterns.starters import read_starter
from tests.drawn import assert_reads_well


def test_fold_is_drawn_as_far_as_the_cloth_lies_double():
    bucket = size(read_starter("round-bucket"), "round-bucket", Units.INCHES)
    wish = Wish(folded=True, count=2)
    found = shopping_list([Making(bucket, 2)], choices_of(wish, bucket))
    for line in found.lines:
        for bought in bought_cloth(line.material, line.cloth, bucket) if line.cloth else ():
            drawing = layout_svg(bought.cloth, Units.INCHES)
            is_folded = line.kind == "fabric"
            assert (bought.cloth.folded is not None) == is_folded
            assert ("is the fold" in drawing) == ("folded along its middle" in drawing) == is_folded
            assert_reads_well(drawing)


@pytest.mark.parametrize("units", list(Units))
def test_labels_have_the_sizes_of_the_cutting_list(units):
    """A side of a bucket is π times its diameter: it is laid rounded up, and listed to the nearest."""
    bucket = size(read_starter("round-bucket"), "round-bucket", units)
    listed = {piece.name: (piece.width.value, piece.height.value) for piece in bucket.pieces}
    seen = set()
    for line in shopping_list(bucket).lines:
        for bought in bought_cloth(line.material, line.cloth, bucket) if line.cloth else ():
            for piece in bought.cloth.pieces:
                width, height = (written(side, 1, units).text for side in listed[piece.name])
                number, _, unit = width.rpartition(" ")
                size_words = f"{number} × {height.removeprefix('≈ ')}"
                assert piece.size_words(units) in (size_words, f"{width} across")
                assert f"{piece.name} of {size_words}" in line.reason
                assert unit == units.value
                seen.add(piece.name)
    assert seen == set(listed)
    assert any(piece.size_words(units).startswith("≈") for piece in bought.cloth.pieces)
