"""A board's cut tree as the list a person works down: which cut next, where it starts, what comes free."""

from collections.abc import Callable, Iterator, Mapping
from dataclasses import dataclass, replace
from string import ascii_lowercase, ascii_uppercase
from typing import Any, Literal

OFFCUT, WASTE, TRIM = "offcut", "waste", "trim"
BOARD = "board"
TOUCHING_MM = 0.5


@dataclass(frozen=True)
class Cut:
    """One cut. `at_mm` is where its kerf begins: from the board's butt end (crosscut) or lower edge (rip).

    All distances are from the board's own end or edge, never from the cut before, so that roundings do not add up.
    from_mm, to_mm: how far the line runs on the board, measured the other way. within: the piece being cut ("board",
    "A", "A2"). frees: what comes off on the near side; leaves: what remains beyond the last cut of that piece.
    """

    number: int
    kind: Literal["crosscut", "rip"]
    at_mm: float
    from_mm: float
    to_mm: float
    within: str
    frees: str
    leaves: str = ""


@dataclass(frozen=True)
class Section:
    """A piece that is cut again, under the letter and number it is called by; corner and size [mm]."""

    label: str
    x_mm: float
    y_mm: float
    length_mm: float
    width_mm: float


Kind = Literal["crosscut", "rip"]
# How a piece lies along the saw's feed and across it.
_ALONG = {"crosscut": ("x", "length"), "rip": ("y", "width")}
_ACROSS = {"crosscut": _ALONG["rip"], "rip": _ALONG["crosscut"]}


def ordered_cuts(
    tree: Mapping[str, Any], names: Mapping[str, str], kerf_mm: float, end_trim_mm: float = 0.0
) -> tuple[Cut, ...]:
    """The cuts of one board in working order: all cuts of a piece, then those of the pieces it fell into.

    A sliver no wider than the kerf is left on the piece beside it, which is rough anyway.
    tree: a cut tree of `craft.layout` over the whole board (x, y, length, width [mm] in every node, `cut` and
    `pieces`, or `part`). names: part id to the name printed. kerf_mm: width of the cut [mm]. end_trim_mm: an offcut at
    either end of the board no longer than this is called a trim. Raises ValueError for a tree that names no cut.
    Source: OWN, reading the tree from the outside in.
    """
    cuts = _cuts_of(tree, BOARD, names, kerf_mm, depth=0)
    return tuple(_trimming(cut, tree, end_trim_mm, number) for number, cut in enumerate(cuts, start=1))


def _trimming(cut: Cut, tree: Mapping[str, Any], end_trim_mm: float, number: int) -> Cut:
    """The cut with its number, its offcut called a trim where it is no more than that."""
    if cut.within == BOARD and cut.kind == "crosscut":
        length = tree["length"]
        if cut.frees in (OFFCUT, WASTE) and cut.at_mm <= end_trim_mm + TOUCHING_MM and cut.at_mm < length / 2:
            return replace(cut, number=number, frees=TRIM)
        if cut.leaves in (OFFCUT, WASTE) and length - cut.at_mm <= end_trim_mm + TOUCHING_MM:
            return replace(cut, number=number, leaves=TRIM)
    return replace(cut, number=number)


def named_sections(tree: Mapping[str, Any]) -> tuple[Section, ...]:
    """The pieces of a cut tree that are cut again, with the labels that `ordered_cuts` uses for them.

    tree: a cut tree of `craft.layout`. Source: OWN, reading the tree from the outside in.
    """
    return tuple(_sections_of(tree, BOARD, depth=0))


def _sections_of(node: Mapping[str, Any], label: str, depth: int) -> Iterator[Section]:
    for child, child_label in labelled_pieces(node.get("pieces", []), label, {}, depth):
        if "pieces" in child:
            sizes = (float(child[key]) for key in ("x", "y", "length", "width"))
            yield Section(child_label, *sizes)
            yield from _sections_of(child, child_label, depth + 1)


def _cuts_of(
    node: Mapping[str, Any], label: str, names: Mapping[str, str], kerf_mm: float, depth: int
) -> Iterator[Cut]:
    if "pieces" not in node:
        return
    kind = node.get("cut")
    if kind not in ("crosscut", "rip"):
        raise ValueError(f"A cut is a crosscut or a rip, not {kind!r}.")
    labelled = list(labelled_pieces(node["pieces"], label, names, depth))
    yield from _lines(node, kind, labelled, label, kerf_mm)
    for child, child_label in labelled:
        yield from _cuts_of(child, child_label, names, kerf_mm, depth + 1)


def labelled_pieces(
    pieces: list[Mapping[str, Any]], label: str, names: Mapping[str, str], depth: int
) -> Iterator[tuple[Mapping[str, Any], str]]:
    """Each piece with what it is called: its part's name, "offcut", or a letter and number like chalked on it.

    pieces: the children of a node of a cut tree; label: what that node is called; names: part id to the name printed;
    depth: of the node, 0 for the board. Source: OWN, letters and numbers in turn.
    """
    divided = 0
    for piece in pieces:
        if "pieces" in piece:
            yield piece, ("" if label == BOARD else label) + _NUMBERING[min(depth, 2)](divided)
            divided += 1
        else:
            part = piece.get("part")
            yield piece, OFFCUT if part is None else names.get(str(part), str(part))


def _letter(at: int, alphabet: str = ascii_uppercase) -> str:
    high, low = divmod(at, len(alphabet))
    return (_letter(high - 1, alphabet) if high else "") + alphabet[low]


_NUMBERING: tuple[Callable[[int], str], ...] = (
    _letter,
    lambda at: str(at + 1),
    lambda at: _letter(at, ascii_lowercase),
)


def _lines(
    node: Mapping[str, Any], kind: Kind, pieces: list[tuple[Mapping[str, Any], str]], label: str, kerf_mm: float
) -> Iterator[Cut]:
    """The cuts of one piece. A sliver no wider than the kerf stays on its neighbour: no saw takes it off cleanly."""
    (start, size), (across, breadth) = _ALONG[kind], _ACROSS[kind]
    end, reached = node[start] + node[size], node[start]
    sliver = max(kerf_mm, TOUCHING_MM)
    cuts: list[tuple[float, str]] = []
    name = rest = WASTE
    for piece, name in sorted(pieces, key=lambda each: each[0][start]):
        if piece[start] - reached > sliver:  # waste before the piece that no node stands for
            cuts.append((piece[start] - kerf_mm, WASTE))
        far = piece[start] + piece[size]
        if end - far > sliver:
            cuts.append((far, name))
            rest = WASTE if end - far - kerf_mm > TOUCHING_MM else ""
        else:
            rest = name
        reached = far + kerf_mm
    span = (float(node[across]), float(node[across] + node[breadth]))
    for index, (at, name) in enumerate(cuts):
        yield Cut(0, kind, float(at), *span, label, name, rest if index == len(cuts) - 1 else "")
