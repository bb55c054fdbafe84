"""The built-in catalogue: invented goods in common sizes and packs (common practice), no prices."""
