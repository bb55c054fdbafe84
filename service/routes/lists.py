"""/v1/materials, /v1/patterns, /v1/sources: lists, for choosing and for citing."""

from dataclasses import dataclass

from service.paving.materials import Material, materials
from service.paving.patterns import PatternNote, patterns
from service.paving.reference import Source, sources
from service.routes.listings import listing
from service.schemas.lists import MaterialList, PatternList, SourceList


@dataclass(frozen=True, slots=True)
class _Materials:
    materials: tuple[Material, ...]


@dataclass(frozen=True, slots=True)
class _Patterns:
    patterns: tuple[PatternNote, ...]


@dataclass(frozen=True, slots=True)
class _Sources:
    sources: tuple[Source, ...]


@listing("materials", MaterialList())
def material_list() -> _Materials:
    """The materials that layers, beds and joints are made of, with their densities."""
    return _Materials(materials())


@listing("patterns", PatternList())
def pattern_list() -> _Patterns:
    """The laying patterns, with what each needs."""
    return _Patterns(patterns())


@listing("sources", SourceList())
def source_list() -> _Sources:
    """The works that published values come from."""
    return _Sources(tuple(sorted(sources().values(), key=lambda source: source.key)))
