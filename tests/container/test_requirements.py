"""The locked requirements are what pyproject.toml asks for, each held by a hash, and name no place they came from."""

import tomllib
from pathlib import Path

import pytest
from packaging.requirements import Requirement
from packaging.utils import canonicalize_name

ROOT = Path(__file__).parents[2]
PROJECT = tomllib.loads((ROOT / "pyproject.toml").read_text("utf-8"))
RUN_TIME = PROJECT["project"]["dependencies"] + PROJECT["build-system"]["requires"]
TESTS = RUN_TIME + PROJECT["project"]["optional-dependencies"]["test"]
LOCKS = {"docker/requirements.txt": RUN_TIME, ".ci/requirements.txt": TESTS}


def _text(lock: str) -> str:
    return (ROOT / lock).read_text("utf-8").replace("\\\n", " ")


def _pins(lock: str) -> dict[str, str]:
    """Each package's version, by its name."""
    lines = (line for line in _text(lock).splitlines() if line.strip() and not line.lstrip().startswith("#"))
    requirements = [Requirement(line.split("--hash")[0].strip()) for line in lines]
    return {canonicalize_name(each.name): str(each.specifier).removeprefix("==") for each in requirements}


@pytest.mark.parametrize("lock", LOCKS)
def test_every_requirement_of_the_project_is_locked_within_its_bounds(lock: str) -> None:
    pins = _pins(lock)
    for wanted in map(Requirement, LOCKS[lock]):
        assert wanted.specifier.contains(pins[canonicalize_name(wanted.name)]), wanted


@pytest.mark.parametrize("lock", LOCKS)
def test_every_locked_requirement_has_a_hash(lock: str) -> None:
    for line in _text(lock).splitlines():
        if "==" in line and not line.lstrip().startswith("#"):
            assert "--hash=sha256:" in line, line


@pytest.mark.parametrize("lock", LOCKS)
def test_a_lock_names_no_place_it_came_from(lock: str) -> None:
    assert "://" not in _text(lock)
    assert "--index" not in _text(lock)
    assert "--find-links" not in _text(lock)


def test_the_tests_run_on_the_versions_that_are_served() -> None:
    served, tested = map(_pins, LOCKS)
    assert served.items() <= tested.items()
