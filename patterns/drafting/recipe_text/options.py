"""The options of a recipe text, and the values that their choices set."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from patterns.drafting.recipe import Constant, Measure, Option, OptionChoice
from patterns.drafting.units import Units

from .keys import Key, shown
from .measures import constant
from .names import tidied
from .reading import Reading
from .table import Names, Table


@dataclass(frozen=True, slots=True)
class _Setting:
    """A value that a choice sets, and where it stands in the text."""

    choice: str
    key: Key
    constant: Constant


def read_options(top: Table, measures: Sequence[Measure]) -> tuple[Option, ...]:
    """Read the options, and take the names that their choices set into use."""
    by_name = {measure.name: measure for measure in measures}
    return tuple(_option(name, table, by_name) for name, table in top.named_tables("options"))


def _option(name: str, table: Table, measures: Mapping[str, Measure]) -> Option:
    table.only(("says", "choices"), ("default",))
    reading = table.reading
    reading.declare_option(name, table.key)
    found = {
        choice: inner.only((), ("says", "sets"))
        for choice, inner in table.named_tables("choices", Names.AS_WRITTEN)
    }
    if table.data.get("choices") == {}:
        table.wrong("There is no choice here. An option needs one at least.", "choices")
    reading.options[name] = {tidied(choice): choice for choice in found}
    settings = [
        setting for choice, inner in found.items() for setting in _settings(choice, inner.table("sets"))
    ]
    default = _default(name, table)
    _take_into_use(reading, settings, tuple(found), measures)
    for setting in settings:
        if setting.choice == default:
            for units in Units:
                reading.values[units][setting.constant.name] = setting.constant.values[units]
    choices = (
        OptionChoice(
            choice, inner.string("says"), tuple(each.constant for each in settings if each.choice == choice)
        )
        for choice, inner in found.items()
    )
    return Option(name, table.string("says"), tuple(choices), default)


def _default(option: str, table: Table) -> str:
    """The default choice: the first one, unless another is named."""
    choices = table.reading.options[option]
    named = table.known_name("default", f"choice of “{option}”", choices)
    return named or next(iter(choices.values()), "")


def _settings(choice: str, table: Table) -> list[_Setting]:
    found = [(raw, constant(name, table, raw)) for name, raw in table.names(Names.OF_FORMULAS)]
    return [_Setting(choice, (*table.key, raw), value) for raw, value in found if value]


def _take_into_use(
    reading: Reading, settings: Sequence[_Setting], choices: Sequence[str], measures: Mapping[str, Measure]
) -> None:
    """A choice sets a measure, or a name of its own, which then every choice must set."""
    by_name: dict[str, list[_Setting]] = {}
    for setting in settings:
        by_name.setdefault(setting.constant.name, []).append(setting)
    for name, given in by_name.items():
        if name in measures:
            reading.declare_setting(name, given[0].key)
            _fit_measure(reading, measures[name], given)
        else:
            reading.declare(name, given[0].key, given[0].constant.power)
            _fit_each_other(reading, name, given, choices)


def _fit_measure(reading: Reading, measure: Measure, given: Sequence[_Setting]) -> None:
    for setting in given:
        if setting.constant.power != measure.power:
            wanted = "a length, with in and cm" if measure.power else "a bare number"
            reading.wrong(setting.key, f"The measure “{measure.name}” is {wanted}. Write one here.")
        elif not all(_is_within(setting.constant, measure, units) for units in Units):
            message = f"This lies outside the range of the measure “{measure.name}”. Move one of them."
            reading.wrong(setting.key, message)


def _is_within(value: Constant, measure: Measure, units: Units) -> bool:
    scale = measure.scales[units]
    is_unknown = scale.step == 0
    return is_unknown or scale.least <= value.values[units] <= scale.most


def _fit_each_other(reading: Reading, name: str, given: Sequence[_Setting], choices: Sequence[str]) -> None:
    for setting in given:
        if setting.constant.power != given[0].constant.power:
            message = f"“{shown(name)}” is a length in one choice and a bare number in another."
            reading.wrong(setting.key, f"{message} Write it in one way.")
    without = [choice for choice in choices if all(choice != setting.choice for setting in given)]
    if without:
        listed = shown("”, “".join(without))
        mend = "Set it in every choice, or make it a measure."
        reading.wrong(given[0].key, f"“{shown(name)}” has no value with “{listed}”. {mend}")
