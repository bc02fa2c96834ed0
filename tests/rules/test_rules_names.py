"""What `rules` gives is there under its name, however and in whatever order it is asked for."""

from __future__ import annotations

import subprocess
import sys
from importlib import import_module
from types import ModuleType

import pytest
from boxaloud import rules


@pytest.mark.parametrize("name", rules.__all__)
def test_a_name_is_what_its_module_calls_so(name: str) -> None:
    found = getattr(rules, name)
    assert not isinstance(found, ModuleType)
    home = getattr(found, "__module__", None)
    if isinstance(home, str) and home.startswith("boxaloud.rules."):
        assert getattr(import_module(home), name) is found


def test_no_module_is_found_in_place_of_what_has_its_name() -> None:
    # every module first, then every name: a module becomes an attribute when it is imported
    code = (
        "import pkgutil, importlib; from boxaloud import rules\n"
        "for each in pkgutil.iter_modules(rules.__path__):\n"
        "    importlib.import_module('boxaloud.rules.' + each.name)\n"
        "print([n for n in rules.__all__ if type(getattr(rules, n)).__name__ == 'module'])"
    )
    run = subprocess.run([sys.executable, "-c", code], capture_output=True, text=True, check=True)
    assert run.stdout == "[]\n"


def test_a_name_that_is_none_is_refused() -> None:
    with pytest.raises(AttributeError):
        _ = rules.nothing_of_the_kind


def test_every_name_is_listed() -> None:
    assert set(rules.__all__) <= set(dir(rules))
