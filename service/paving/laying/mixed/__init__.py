"""Mixed-size random laying: slabs of several sizes on one module, no joints crossed, no joint straight for long.

+-----+---+-+
|     |   | |      every side a whole number of modules, its joint with it;
|     +---+-+      three slabs meet at a corner, never four;
+--+--+   | |      a straight joint ends after a few modules
|  |  +---+-+

fields     modules with slabs on them, and the two rules
chances    chance that follows from a number
windows    a part of a field laid anew
patches    repeats without crossed joints, prepared beforehand
crops      a repeat laid over a field, and made whole at its edges
amounts    how many slabs of each size there should be
views      where the next window is opened
works      a field on its way, by steps that are counted
mixes      all of it together
tasks      a mix on modules, and what stands in its way
mends      the reason it can't be laid, and the change that would do
"""
