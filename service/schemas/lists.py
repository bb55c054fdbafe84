"""The wire of the lists: materials, patterns and sources."""

from service.schemas.answers import Answer
from service.schemas.figures import Figure, Figures, Rows, Word


class MaterialRow(Figures):
    """A material that layers, beds and joints are made of."""

    key = Word("What it is asked for by.")
    name = Word("What it is called on a bill.")
    kind = Word("sub_base, bedding, aggregate, jointing or mixed.")
    compacted_kg_per_m3 = Figure("Likely density in place.", of="compacted_density.value")
    compacted_low_kg_per_m3 = Figure("Least density in place.", of="compacted_density.low")
    compacted_high_kg_per_m3 = Figure("Greatest density in place.", of="compacted_density.high")
    loose_kg_per_m3 = Figure("Likely density as delivered.", of="loose_density.value")
    basis = Word("published or common practice.", of="compacted_density.basis")
    source = Word("The published source of the densities, or empty.", of="compacted_density.source")
    note = Word("What to know when choosing it.")


class MaterialList(Answer):
    """Every material."""

    table = "materials"
    materials = Rows(MaterialRow(), description="In the order of the work.")


class PatternRow(Figures):
    """A laying pattern."""

    key = Word("What it is asked for by.")
    name = Word("What the trade calls it.")
    note = Word("What it needs and what to know when choosing it.")


class PatternList(Answer):
    """Every laying pattern."""

    table = "patterns"
    patterns = Rows(PatternRow(), description="Simplest first.")


class SourceRow(Figures):
    """A work that a value comes from."""

    key = Word("Short name.")
    title = Word("Title.")
    author = Word("Author or publisher.")
    edition = Word("Edition or year.")
    clause = Word("Clause, table or page.")
    note = Word("How it is known.")


class SourceList(Answer):
    """The bibliography."""

    table = "sources"
    sources = Rows(SourceRow(), description="In the order of their short names.")
