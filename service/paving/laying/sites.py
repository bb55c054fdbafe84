"""Sites: an area in the pattern's frame, for layings that must know where it ends."""

from dataclasses import dataclass
from functools import cached_property
from typing import NamedTuple

import numpy as np
import shapely

from service.paving.areas import Area
from service.paving.laying.grounds import Frame, Ground, ground
from service.paving.laying.lattices import MICROMETRES


class Band(NamedTuple):
    """What lies between two heights: least and greatest x [µm], and whether it is one upright rectangle."""

    left: int
    right: int
    upright: bool


@dataclass(frozen=True)
class Site:
    """An area in the pattern's frame.

    Parameters
    ----------
    ground : Ground
        Its edges [µm].
    frame : Frame
        Where the frame stands on plan.
    """

    ground: Ground
    frame: Frame

    @cached_property
    def bounds(self) -> tuple[int, int, int, int]:
        """Least x, least y, greatest x, greatest y [µm]."""
        (left, low), (right, high) = self.ground.starts.min(axis=1), self.ground.starts.max(axis=1)
        return int(left), int(low), int(right), int(high)

    @cached_property
    def right_angled(self) -> bool:
        """Whether every edge runs along or across the pattern."""
        return bool(np.all(np.any(self.ground.starts == self.ground.ends, axis=0)))

    def band(self, low: int, high: int) -> Band | None:
        """What lies between two heights [µm]; none if nothing does."""
        left, _, right, _ = self.bounds
        part = shapely.clip_by_rect(self.ground.polygon, left - 1, low, right + 1, high)
        if part.is_empty or part.area == 0:
            return None
        least, _, most, _ = part.bounds
        full = (most - least) * (high - low)
        return Band(round(least), round(most), self.right_angled and abs(full - part.area) < 1e-6 * full)


def site(area: Area, frame: Frame) -> Site:
    """An area seen from a frame."""
    return Site(ground(area.rings, frame, 1), frame)


def cornered(seen: Site) -> Frame:
    """The same frame moved to the lower left corner of what an area takes up in it."""
    left, low, _, _ = seen.bounds
    x, y = seen.frame.to_plan(np.array([left / MICROMETRES]), np.array([low / MICROMETRES]))
    return Frame((float(x[0]), float(y[0])), seen.frame.angle)
