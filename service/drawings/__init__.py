"""Drawings: SVG of what the trade has laid out. Knows the trade only."""
