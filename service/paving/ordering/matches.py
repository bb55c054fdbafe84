"""Matches: which line of an order meets which need, and how much of it."""

from collections.abc import Sequence
from dataclasses import dataclass, field

from service.paving.errors import OutOfRange
from service.paving.ordering.descriptions import SIZED
from service.paving.ordering.goods import Pack, Unit
from service.paving.ordering.needs import Need, same_size
from service.paving.ordering.order_lines import OrderedLine, UnreadLine


@dataclass(slots=True)
class Match:
    """A need, and what of the order is for it; amounts in the need's unit."""

    need: Need
    lines: list[OrderedLine] = field(default_factory=list)
    amount: float = 0.0
    unclear: list[str] = field(default_factory=list)
    notes: list[str] = field(default_factory=list)


@dataclass(slots=True)
class Stray:
    """Lines of one good or item that no need is met by; why, where there is more to say."""

    lines: list[OrderedLine]
    because: str
    comparable: bool


@dataclass(slots=True)
class Matches:
    """Needs with what is for them, and what is for none."""

    matches: list[Match]
    strays: list[Stray]


def matches(needs: Sequence[Need], read: Sequence[OrderedLine], unread: Sequence[UnreadLine]) -> Matches:
    """Share an order out among the needs: what is needed itself first, then what may stand in.

    Parameters
    ----------
    needs : sequence of Need
        What the job needs.
    read, unread : sequence
        Lines of the order.
    """
    found = Matches([Match(need) for need in needs], [])
    waiting = [line for line in read if not _taken(found, line)]
    strays: dict[tuple[str, str], Stray] = {}
    for line in waiting:
        if not _stood_in(found, line):
            key = (line.item, line.good.sku if line.good else "")
            because, comparable = _why_stray(found, line)
            strays.setdefault(key, Stray([], because, comparable)).lines.append(line)
    found.strays = list(strays.values())
    _note_unread(found, unread)
    return found


def _taken(found: Matches, line: OrderedLine) -> bool:
    """Count a line to the one need that it is what is wanted for."""
    meant = [match for match in found.matches if _meets(match.need, line)]
    if len(meant) == 1:
        _count(meant[0], line)
    return len(meant) == 1


def _meets(need: Need, line: OrderedLine) -> bool:
    return need.met_by(line.good) if line.good else need.item == line.item


def _stood_in(found: Matches, line: OrderedLine) -> bool:
    """Count a line to the first need it may stand in for that is still short; else to the first."""
    if line.good is None:
        return False
    good = line.good
    allowed = [match for match in found.matches if match.need.stood_in_by(good)]
    short = [match for match in allowed if match.amount < match.need.quantity]
    for match in (short or allowed)[:1]:
        _count(match, line)
        note = f"{good.sku} stands in for {match.need.good.sku if match.need.good else match.need.name}."
        if note not in match.notes:
            match.notes.append(note)
    return bool(allowed)


def _count(match: Match, line: OrderedLine) -> None:
    try:
        match.amount += match.need.amount(line)
    except OutOfRange as error:
        match.unclear.append(f"Line {line.number}: {error.detail}")
    match.lines.append(line)
    if line.pack is not None:
        match.notes += [note for note in _pack_notes(line.pack, line.quantity) if note not in match.notes]


def _pack_notes(pack: Pack, count: float) -> list[str]:
    """What the merchant's limits say to a number of packs."""
    least = pack.least or pack.step
    if count < least:
        return [f"'{pack.name}' is sold from {least} on."]
    if (count - least) % pack.step:
        return [f"'{pack.name}' is sold by {pack.step} at a time, from {least} on."]
    if pack.most is not None and count > pack.most:
        return [f"'{pack.name}' is sold up to {pack.most}."]
    return []


def _why_stray(found: Matches, line: OrderedLine) -> tuple[str, bool]:
    """Why a line is for no need, and whether that is certain."""
    good = line.good
    needs = [match.need for match in found.matches if match.need.item == line.item]
    if good is None:
        several = ", ".join(need.good.sku if need.good else need.name for need in needs)
        return (f"Several are needed, {several}: give the stock number.", False) if needs else ("", True)
    alike = [need for need in needs if same_size(need, good)]
    if alike:
        sku = alike[0].good.sku if alike[0].good else alike[0].name
        return f"It is of the size of {sku}, but the catalogue doesn't let it stand in.", True
    if good.item in SIZED and len(good.slabs) > 1 and needs:
        return "A pack of several sizes can't be compared with slabs of one.", False
    return "", True


def _note_unread(found: Matches, unread: Sequence[UnreadLine]) -> None:
    """Leave no verdict on a need that a line which can't be read may be for."""
    for line in unread:
        if line.orders_none or not line.item:
            continue
        for match in found.matches:
            need = match.need
            if (need.met_by(line.good) or need.stood_in_by(line.good)) if line.good else need.item == line.item:
                match.unclear.append(f"Line {line.number} can't be read.")


def counted_in(lines: Sequence[OrderedLine]) -> tuple[str, Unit, float] | None:
    """The unit some lines are all counted in: its name, and how much of which unit one is; None where they differ."""
    ways = {(line.counted_in, line.unit, line.pack.content if line.pack else 1.0) for line in lines}
    return next(iter(ways)) if len(ways) == 1 else None
