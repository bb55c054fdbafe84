"""Coursed random laying: one gauge to a course, random lengths in it, no perpends in line.

+-----+---+-------+---+
|     |   |       |   |      perpends of one course keep clear of those
+---+-+---+--+----+---+      of the course before by the stagger
|   |        |        |
+---+--------+--------+

lines     where a row of slabs may be cut by joints, and random walks along it
pairs     whether any two courses can lie on one another at all
courses   course after course over the height, taken up again where it got stuck
"""
