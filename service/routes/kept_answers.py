"""Answers lately given, kept as their JSON.

A spreadsheet asks for one job cell by cell: the same query, each time for another figure. A page asks for its bill and
then for the table of it. An answer hangs on its request and the catalogue alone, so what is kept here is to the byte
what would be worked out again.
"""

from collections import OrderedDict
from collections.abc import Callable
from threading import Lock

#: What was asked, the way it was asked, and of which resource.
Key = tuple[str, str, bytes]

#: An answer that takes more than this share of the room would push too many others out.
_LARGEST_SHARE = 1 / 8


class KeptAnswers:
    """The answers last asked for, as many as there is room for; the one longest unasked goes first.

    Parameters
    ----------
    room : int
        Bytes that answers and what was asked for them may take together; 0 keeps none.
    """

    def __init__(self, room: int) -> None:
        self.room = room
        self.taken = 0
        self._answers: OrderedDict[Key, bytes] = OrderedDict()
        self._lock = Lock()  # a worker answers on several threads

    def answer(self, key: Key, worked: Callable[[], bytes]) -> bytes:
        """The answer kept for a key; worked out, and kept, if there is none."""
        with self._lock:
            found = self._answers.get(key)
            if found is not None:
                self._answers.move_to_end(key)
                return found
        made = worked()  # unlocked: others needn't wait, and at worst one answer is worked out twice
        if _size(key, made) <= self.room * _LARGEST_SHARE:
            with self._lock:
                self._keep(key, made)
        return made

    def _keep(self, key: Key, made: bytes) -> None:
        if key not in self._answers:
            self.taken += _size(key, made)
        self._answers[key] = made
        while self.taken > self.room:
            self.taken -= _size(*self._answers.popitem(last=False))


def _size(key: Key, made: bytes) -> int:
    return len(key[2]) + len(made)
