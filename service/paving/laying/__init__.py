"""The layout engine: a pattern laid on an area and counted exactly.

The area is turned into the pattern's frame once; there every slab is an upright box:

    plan                        pattern's frame
       .^.                      +---+---+---
      /   \\ area                | slab  | slab    boxes on a lattice
     <     >        ->        --+---+---+---
      \\   /                        area's edges

    pavings         what is laid, and how
    patterns/       the repeat of each pattern, exactly
    limits          what area, angle and origin it can be laid with
    repeats         from a paving to its repeat, or why it can't be laid
    lattices        a repeat, or slabs that don't repeat, on the whole-number grid
    grounds         an area's edges in the pattern's frame, on the same grid
    rows            which boxes lie inside, by where edges cross the rows of the lattice
    encounters      which boxes an edge may touch
    clips, touched  what lies inside each box that edges touch
    tolerances      when a slab counts as whole, cut, or not there at all
    counts          whole and cut slabs, areas, joints, sawing
    kept, loops     the outlines of cut slabs
    cuts            their pieces, and how thin these are
    pieces          slabs as laid, on plan, and cut pieces, on their own slab
    trials, origins many origins counted at once, and the search for the best
    offcuts, buying how many slabs to buy when offcuts are used again
    laid            all of it for one origin

Nothing but the boundary is touched until whole slabs are listed, so a count's cost
grows with the perimeter and not with the number of slabs.
"""
