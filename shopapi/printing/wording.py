"""How dates, air and counts are written in sentences, the same in every document."""

from collections.abc import Iterable, Sequence
from datetime import date, datetime

from shopapi.craft.packet import Measures

SMALL_NUMBERS = (
    "no",
    "one",
    "two",
    "three",
    "four",
    "five",
    "six",
    "seven",
    "eight",
    "nine",
    "ten",
    "eleven",
    "twelve",
)


def day(on: date) -> str:
    return f"{on.day} {on:%B} {on.year}"


def moment(at: datetime) -> str:
    return f"{at.day} {at:%b} {at.year}, {at:%H:%M}"


def air(temp_c: float | None, rh_pct: float | None, measures: Measures) -> str:
    """The shop's air as people there say it; a dash where nobody looked."""
    parts = []
    if temp_c is not None:
        parts.append(f"{temp_c * 9 / 5 + 32:.0f} °F" if measures.unit == "inch" else f"{temp_c:.1f} °C")
    if rh_pct is not None:
        parts.append(f"{rh_pct:.0f} %")
    return ", ".join(parts) or "–"


def counted(number: int, one: str, many: str) -> str:
    word = SMALL_NUMBERS[number] if number < len(SMALL_NUMBERS) else str(number)
    return f"{word} {one if number == 1 else many}"


def listed(words: Sequence[str]) -> str:
    """ "a, b and c" """
    return words[0] if len(words) == 1 else f"{', '.join(words[:-1])} and {words[-1]}" if words else ""


def tallied(words: Iterable[str]) -> list[str]:
    """Each word once, with how many there were where there was more than one."""
    counts: dict[str, int] = {}
    for word in words:
        counts[word] = counts.get(word, 0) + 1
    return [f"{count} × {word}" if count > 1 else word for word, count in counts.items()]
