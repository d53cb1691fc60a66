"""A worksheet is the recipe's own formulas: filled in by hand they give the sized pattern's numbers."""

import re
from dataclasses import replace
from itertools import product

import pytest

from patterns.documents.errors import NoDocumentError
from patterns.documents.words import Words
from patterns.documents.worksheet_content import MOST_LINES, Line, Part, Worksheet, worksheet_content
from patterns.drafting.formulas.formula import Formula
from patterns.drafting.recipe import Amount, Material, Recipe
from patterns.drafting.sized import SizedPattern
from patterns.drafting.sizing import size
from patterns.drafting.units import Units
from patterns.starters import read_starter, slugs
from tests.recipes import CM, IN, make_recipe
from tests.starters import Options, combinations_of

# The defaults, and the stiffest of what a recipe offers with both prints one way.
CASES = [
    (slug, units, options)
    for slug, units in product(slugs(), Units)
    for options in ({}, combinations_of(read_starter(slug))[-1])
]


@pytest.fixture(params=CASES, ids=[f"{slug}-{units}-{len(options)}" for slug, units, options in CASES])
def case(request) -> tuple[Recipe, Units, Options]:
    slug, units, options = request.param
    return read_starter(slug), units, options


@pytest.fixture
def sheet(case) -> Worksheet:
    return worksheet_content(*case)


@pytest.fixture
def sized(case) -> SizedPattern:
    recipe, units, options = case
    return size(recipe, "", units, {}, options)


def shown(parts: tuple[Part, ...]) -> str:
    return "".join(f"[{part.gap}]" if part.gap else part.text for part in parts)


def gaps(parts: tuple[Part, ...]) -> list[str]:
    return [part.gap for part in parts if part.gap]


def names_given_by(line: Line, recipe: Recipe) -> set[str]:
    """The names of the recipe whose number a line works out."""
    for at, side in enumerate(("width", "height")):
        if line.name.startswith(f"{side} of "):
            pieces = re.split(", | and ", line.name.removeprefix(f"{side} of "))
            return {recipe.edges[piece][at] for piece in pieces}
    return {line.name}


def all_words(sheet: Worksheet) -> str:
    return " ; ".join(
        [
            *(f"{each.range} {each.example}" for each in sheet.asked),
            *(f"{line.name} {shown(line.parts)} {line.example}" for line in sheet.lines),
            *(f"{rule.says} {shown(rule.parts)} {rule.example}" for rule in sheet.rules),
            *sheet.cuts,
            *sheet.buys,
            sheet.precision,
        ]
    )


def test_every_measure_is_asked_with_its_range_and_example(sheet, case, sized):
    recipe, units, _ = case
    assert [each.name for each in sheet.asked] == [measure.name for measure in recipe.measures]
    for asked, measure, chosen in zip(sheet.asked, recipe.measures, sized.measures, strict=True):
        least, most = (
            Words(sized).chosen(replace(chosen, value=end))
            for end in (measure.scales[units].least, measure.scales[units].most)
        )
        assert asked.range == f"{least.removesuffix(asked.unit)} to {most}"
        assert asked.example == Words(sized).chosen(chosen)


def test_every_amount_and_every_cut_edge_has_a_line(sheet, case, sized):
    recipe, _, _ = case
    given = set().union(*(names_given_by(line, recipe) for line in sheet.lines))
    wanted = {amount.name for amount in recipe.amounts} - {*re.split(", | and ", sheet.left_out)}
    wanted |= {edge for piece in sized.pieces for edge in recipe.edges[piece.name]}
    assert wanted <= given


def test_a_line_is_the_recipes_formula_and_its_working(sheet, case, sized):
    recipe, _, _ = case
    bought = {f"length of {each.name} to buy": each.amount for each in sized.materials}
    for line in sheet.lines:
        if line.name in bought:
            assert line.formula == str(bought[line.name].formula)
            assert line.example == Words(sized).working(line.name, bought[line.name]).numbers
            continue
        for name in names_given_by(line, recipe):
            formula = recipe.definitions[name]
            assert line.formula == str(formula)
            quantity = replace(sized.finished[0], value=sized.values[name], formula=formula)
            quantity = replace(quantity, power=sized.powers[name])
            assert line.example == Words(sized).working(name, quantity).numbers


def test_every_gap_is_a_measure_or_stands_above(sheet, case):
    recipe, _, _ = case
    there = {measure.name for measure in recipe.measures}
    for line in sheet.lines:
        assert set(gaps(line.parts)) <= there
        there |= names_given_by(line, recipe)
    for rule in sheet.rules:
        assert set(gaps(rule.parts)) <= there


def test_filled_in_a_line_reads_as_the_working(sheet, sized):
    """The example's numbers in the gaps give the example, sign for sign."""
    for line in sheet.lines:
        numbers = {
            name: sized.working(
                replace(sized.finished[0], value=value, power=sized.powers[name], formula=Formula.read(name))
            ).split(" ≈ ")[0]
            for name, value in sized.values.items()
            if name in gaps(line.parts)
        }
        filled = "".join(numbers[part.gap] if part.gap else part.text for part in line.parts)
        told = line.example.split(" ≈ ")[0].split(" = ")[0].removesuffix(line.unit)
        exact = {name for name, value in sized.values.items() if not hasattr(value, "quantize")}
        if set(gaps(line.parts)) <= exact:
            assert _plain(filled) == _plain(told)


def _plain(text: str) -> str:
    """Without fraction signs, and without the brackets round a whole number that is squared."""
    return re.sub(r"\((\d+)\)(?=[²³])", r"\1", text.replace("⁄", "/").removeprefix("≈ "))


def test_rules_are_the_checks(sheet, case, sized):
    recipe, _, _ = case
    checks = [check for check in recipe.checks if check.when.holds(sized.options)]
    assert [(rule.says, rule.must, rule.formula) for rule in sheet.rules] == [
        (check.says, check.level == "refuse", str(check.holds)) for check in checks
    ]


def test_cuts_name_every_piece_with_how_often(sheet, sized):
    told = " ".join(sheet.cuts).replace("\u00a0", " ")
    for piece in sized.pieces:
        assert f"{piece.name} (cut {piece.cut})" in told
        assert f"From {piece.material}: " in told


def test_words_are_of_their_own_system_only(sheet, case):
    _, units, _ = case
    words = all_words(sheet)
    assert not re.search(rf"\d (?:{'cm' if units is IN else 'in'})\b", words)
    assert " mm" not in words
    if units is IN:
        assert not re.search(r"\d\.\d+ in\b(?!³)", words)
    else:
        halves = [int(below) for below in re.findall(r"⁄(\d+)", words) if 10**6 % int(below) == 0]
        assert halves == [], "what has a last decimal stands as a decimal"


def test_the_shopping_line_is_the_materials_own_amount():
    assert worksheet_content(read_starter("zip-pouch"), IN).buys == ("Zip to buy: the zip length.",)
    ribbon = Material("ribbon", "notion", amount=Formula.read("2 × (width + seam allowance)"))
    recipe = make_recipe()
    sheet = worksheet_content(replace(recipe, materials=(*recipe.materials, ribbon)), CM)
    assert sheet.buys == ("Ribbon to buy: as above.",)
    (line,) = [line for line in sheet.lines if line.name == "length of ribbon to buy"]
    assert shown(line.parts) == "2 × ([width] + [seam allowance])"
    assert line.example == "2 × (23 + 1) = 48 cm"


def test_lines_stand_in_the_order_of_computing():
    sheet = worksheet_content(make_recipe(), IN)
    names = [line.name for line in sheet.lines]
    assert names.index("fold height") < names.index("packed height")
    assert shown(sheet.lines[names.index("packed height")].parts) == "[fold height] × 2"


def test_a_piece_cut_by_a_measure_has_a_line_for_it():
    recipe = make_recipe()
    pieces = tuple(replace(piece, cut=Formula.read("folds + 1")) for piece in recipe.pieces)
    sheet = worksheet_content(replace(recipe, pieces=pieces), IN)
    (line,) = [line for line in sheet.lines if line.name == "how often to cut the mat"]
    assert (shown(line.parts), line.unit, line.example) == ("[folds] + 1", "", "3 + 1 = 4")
    assert sheet.cuts == ("From cloth: mat (as often as above).",)


def test_a_long_sheet_leaves_out_what_nothing_hangs_on():
    recipe = make_recipe()
    more = tuple(Amount(f"place {letter}", 1, Formula.read("width ÷ 2")) for letter in "abcdefghijklmnop")
    sheet = worksheet_content(replace(recipe, amounts=(*recipe.amounts, *more)), IN)
    assert len(sheet.lines) <= MOST_LINES
    assert sheet.left_out.startswith("packed height, diagonal, place a, place b")
    assert {line.name for line in sheet.lines} == {"fold height", "width of mat", "height of mat"}
    assert worksheet_content(recipe, IN).left_out == ""


def test_a_default_that_is_refused_is_no_example():
    recipe = make_recipe()
    constant = replace(recipe.constants[0], values={IN: 9 * IN.mm, CM: 20 * CM.mm})
    with pytest.raises(NoDocumentError, match="the default size of “Folding mat” is refused: A fold is"):
        worksheet_content(replace(recipe, constants=(constant,)), IN)


def test_the_example_is_the_default_size():
    assert (
        worksheet_content(read_starter("fold-flat-basket"), IN).example == "9 in wide, 6 in high, 5 in deep"
    )


@pytest.mark.parametrize(("units", "told"), [(IN, False), (CM, True)])
def test_litres_are_told_of_where_a_volume_may_come_to_one(units, told):
    assert worksheet_content(read_starter("fold-flat-basket"), units).has_litres is told
