"""Nonsense into every parameter of every public function of the computation: refused by name, never answered with a number."""

import inspect
from importlib import import_module
from pkgutil import walk_packages

import pytest

from measurements import metrology
from measurements.metrology.errors import MeasureError
from tests.measurements.metrology.sound_calls import CALLS
from tests.measurements.metrology.spoiling import sound, spoilt_calls

ROOM = f"{metrology.__name__}."


def public():
    """Every public function, and every public method that is given something, by its place in the library."""
    for module in walk_packages(metrology.__path__, ROOM):
        for name, thing in vars(import_module(module.name)).items():
            if name.startswith("_") or getattr(thing, "__module__", "") != module.name:
                continue
            place = f"{module.name.removeprefix(ROOM)}.{name}"
            if inspect.isclass(thing):
                yield from ((f"{place}.{method}", function) for method, function in _methods(thing))
            elif callable(thing):
                yield place, thing


def _methods(of):
    for name, function in vars(of).items():
        if inspect.isfunction(function) and not name.startswith("_") and len(inspect.signature(function).parameters) > 1:
            yield name, function


FUNCTIONS = dict(public())


def test_every_function_has_its_sound_call():
    assert sorted(CALLS) == sorted(FUNCTIONS)


@pytest.mark.parametrize("name", sorted(CALLS))
def test_the_call_names_every_parameter_and_is_sound(name):
    assert list(CALLS[name]) == list(inspect.signature(FUNCTIONS[name]).parameters)
    FUNCTIONS[name](**sound(CALLS[name]))


@pytest.mark.timeout(20)
@pytest.mark.parametrize("name", sorted(CALLS))
def test_nonsense_is_refused_by_name(name):
    let_through = [f"{words}: {came}" for words, make in spoilt_calls(CALLS[name]) if (came := _came_of(FUNCTIONS[name], make))]
    assert let_through == []


def _came_of(function, make):
    """What came instead of a refusal, in words; blank where the call was refused."""
    try:
        answer = function(**make())
        if inspect.isgenerator(answer):
            list(answer)
    except MeasureError as refusal:
        return "" if str(refusal).strip() else "a refusal without a word"
    except Exception as other:
        return type(other).__name__
    return f"answered {type(answer).__name__}"
