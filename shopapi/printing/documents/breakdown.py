"""Breakdown sheets: a drawing of each board with its lines, the cuts to tick off, the pieces that come out."""

from dataclasses import replace

from reportlab.lib.units import mm
from reportlab.pdfgen.canvas import Canvas
from reportlab.platypus import BalancedColumns, CondPageBreak, Flowable, KeepTogether, PageBreak, Spacer

from shopapi.craft.packet import BOARD, TRIM, BoardBreakdown, BreakdownData, Cut, Setup
from shopapi.printing import fonts, text
from shopapi.printing.flowables.board import SHOP, BoardStretch, DrawnBoard, stretches
from shopapi.printing.flowables.headings import paragraph
from shopapi.printing.flowables.legend import Legend
from shopapi.printing.flowables.rows import TickRow
from shopapi.printing.flowables.tape import RULER_MM, draw_ruler
from shopapi.printing.pages import Format, Imprint, Out, Story, build
from shopapi.printing.pencil import crayon_line
from shopapi.printing.pictures import Album, ReadPicture, read_file
from shopapi.printing.styles import GRAPHITE, PENCIL, SHOP_MEASURE_PT

HEAD, LEGEND = 58.0, 20.0
GUTTER, LISTS_AROUND = 14.0, 12.0
ON_ONE_SHEET = replace(SHOP, longest_mm=2600.0)
RULER_TOP = 26.0
CAUTION = (
    "Wood under tension can close on a blade or spring apart as it is cut, and old boards hide metal: look for it "
    "first. Use the guards and the riving knife, and follow the saw's own manual."
)

SETUPS = (
    "Set the stop or the fence once and cut all that is listed with it, round by round. The lines on the boards rule: "
    "each is measured from the board's own end or edge, so that roundings do not add up."
)
TURNS = {
    1: "First the boards are crosscut: by stop",
    2: "Then the sections are ripped: by fence setting",
    3: "Then the strips are crosscut: by stop",
    4: "Last, to width: by fence setting",
}


def build_breakdown(data: BreakdownData, out: Out, read: ReadPicture = read_file) -> int:
    """Draws the sheets and gives the number of pages; `read` fetches a picture's bytes by its name."""
    form = Format(data.paper, sideways=True, side=13 * mm, top=12 * mm, bottom=17 * mm)
    title = f"Breakdown of {data.commission}"
    imprint = Imprint(
        title, data.workshop, "Breakdown sheets", f"{data.workshop} · {title} · {_day(data)}", data.language
    )
    album = Album(read)
    return build(out, form, imprint, lambda: _story(data, form, album))


def _day(data: BreakdownData) -> str:
    return f"{data.made_on.day} {data.made_on:%B %Y}"


def _story(data: BreakdownData, form: Format, album: Album) -> Story:
    story: Story = [*_opening(data), *_left_out(data)]
    for board in data.boards:
        story += _board(board, data, form, album)
    if not data.boards:
        story.append(paragraph("No board is cut in this layout.", "shop"))
    return [*story, *_by_setup(data)]


def _opening(data: BreakdownData) -> Story:
    length = data.measures.length
    trims = f" Board ends are trimmed by {length(data.end_trim_mm)}." if data.end_trim_mm else ""
    rule = (
        "Mark every line before the first cut. Crosscuts are measured from the butt end, rips from the lower edge, "
        f"always on the whole board. Saw on the far side of the line; the kerf is {length(data.kerf_mm)}.{trims}"
    )
    warnings = [paragraph(f"Mind: {warning}", "shop") for warning in data.warnings]
    return [
        SheetTitle(f"Breakdown of {data.commission}"),
        paragraph(rule, "shop"),
        paragraph(CAUTION, "shop"),
        *warnings,
    ]


def _left_out(data: BreakdownData) -> Story:
    if not data.left_out:
        return []
    rows = [paragraph("Did not fit", "shop_heading")]
    rows += [paragraph(f"{each.count} × {each.part}: {each.reason}", "shop") for each in data.left_out]
    return rows


def _board(board: BoardBreakdown, data: BreakdownData, form: Format, album: Album) -> Story:
    drawn = DrawnBoard(
        board.length_mm, board.width_mm, board.picture, board.marks, board.pieces, board.cuts, board.sections
    )
    legend = [Legend(board.marks)] if board.marks else []
    lists = [*_cuts(board, data), *_pieces(board, data)]
    lists_height = _lists_height(lists, form)
    drawings = _drawings(drawn, data, form, album, lists_height)
    drawn_height = sum(each.wrap(form.text_width, form.text_height)[1] for each in drawings)
    # A board begins a sheet unless all of it fits below the one before.
    room = CondPageBreak(min(form.text_height - 1, HEAD + drawn_height + LEGEND + lists_height))
    head = KeepTogether([BoardHead(board, data), drawings[0]])
    columns = [BalancedColumns(lists, nCols=2, innerPadding=GUTTER, spaceBefore=8, endSlack=0.2)] if lists else []
    return [room, head, *drawings[1:], *legend, *columns, Spacer(1, 16)]


def _drawings(
    drawn: DrawnBoard, data: BreakdownData, form: Format, album: Album, lists_height: float
) -> list[BoardStretch]:
    """All of a board on one sheet where that can be; else its drawings as large as a sheet of their own allows."""
    whole = form.text_height - HEAD - LEGEND
    beside = whole - lists_height
    for look, room, most in ((ON_ONE_SHEET, beside, beside), (SHOP, whole, whole), (ON_ONE_SHEET, whole / 2, whole)):
        if room > 0:
            drawings = stretches(drawn, data.measures, album, form.text_width, look, room)
            if sum(each.wrap(form.text_width, whole)[1] for each in drawings) <= most:
                return drawings
    return stretches(drawn, data.measures, album, form.text_width, SHOP, whole)


def _lists_height(lists: list[Flowable], form: Format) -> float:
    """Height of the lists in two columns, a little more than half of what they are in one."""
    column = (form.text_width - GUTTER) / 2
    heights = [each.wrap(column, form.text_height)[1] + each.getSpaceAfter() for each in lists]
    return sum(heights) / 2 + max(heights, default=0) + LISTS_AROUND


def _by_setup(data: BreakdownData) -> Story:
    """The same cuts once more, gathered by the setting of the machine."""
    if not data.setups:
        return []
    measures = [data.measures.length(each.size_mm) for each in data.setups]
    width = _measure_width(measures)
    story: Story = [PageBreak(), SheetTitle("By machine set-up", ruler=False), paragraph(SETUPS, "shop")]
    for turn, title in TURNS.items():
        rows = [
            TickRow(f"{each.count}×", measure, _from_pieces(each), width)
            for each, measure in zip(data.setups, measures, strict=True)
            if each.turn == turn
        ]
        if rows:
            story += [KeepTogether([paragraph(title, "shop_heading"), rows[0]]), *rows[1:]]
    return story


def _from_pieces(setup: Setup) -> str:
    said = []
    for piece in setup.pieces:
        within = piece.board if piece.within == BOARD else f"{piece.board} {piece.within}"
        what = ", ".join(name if number == 1 else f"{number} × {name}" for name, number in piece.what)
        said.append(f"{within}: {what}")
    return "; ".join(said)


def _measure_width(words: list[str]) -> float:
    return max((text.width(each, SHOP_MEASURE_PT, fonts.STRONG) for each in words), default=0) + 12


def _cuts(board: BoardBreakdown, data: BreakdownData) -> list[Flowable]:
    if not board.cuts:
        return []
    distances = [data.measures.length(cut.at_mm) for cut in board.cuts]
    width = _measure_width(distances)
    rows = [
        TickRow(str(cut.number), distance, _said(cut), width)
        for cut, distance in zip(board.cuts, distances, strict=True)
    ]
    return [paragraph(f"Cuts on {board.tag}, in this order", "shop_heading"), *rows]


def _said(cut: Cut) -> str:
    if cut.frees == TRIM:
        return "Trim the butt end"
    what = "Crosscut" if cut.kind == "crosscut" else "Rip"
    within = "the board" if cut.within == BOARD else cut.within
    leaves = f", leaves {cut.leaves}" if cut.leaves else ""
    return f"{what} {within}: frees {cut.frees}{leaves}"


def _pieces(board: BoardBreakdown, data: BreakdownData) -> list[Flowable]:
    if not board.pieces:
        return []
    sizes = [data.measures.size(piece.length_mm, piece.width_mm) for piece in board.pieces]
    width = _measure_width(sizes)
    rows = [
        TickRow(str(number), size, piece.part, width, tick=False)
        for number, (piece, size) in enumerate(zip(board.pieces, sizes, strict=True), start=1)
    ]
    return [paragraph(f"Pieces of {board.tag}, rough sizes", "shop_heading"), *rows]


class SheetTitle(Flowable):
    """The title of a shop paper, and a ruler that proves it was printed at full size."""

    def __init__(self, words: str, *, ruler: bool = True) -> None:
        super().__init__()
        self.outline = words
        self._words = words
        self._ruler = ruler

    def wrap(self, avail_width: float, _avail_height: float) -> tuple[float, float]:
        self.width, self.height = avail_width, 42
        return self.width, self.height

    def draw(self) -> None:
        self.canv.setFillColor(GRAPHITE)
        ruler = RULER_MM * mm if self._ruler else 0
        line, size = text.fitted(self._words, 28, self.width - ruler - 18, fonts.STRONG, least=15)
        text.draw(self.canv, 0, 18, line, size, fonts.STRONG)
        if self._ruler:
            draw_ruler(self.canv, self.width - ruler, RULER_TOP, 8)
        crayon_line(self.canv, (1, 9), (60, 10), weight=2.8)


class BoardHead(Flowable):
    """The tag as large as it is chalked on the board, and what the board is."""

    def __init__(self, board: BoardBreakdown, data: BreakdownData) -> None:
        super().__init__()
        self.outline = f"Board {board.tag}"
        self._tag = board.tag
        size = data.measures.size(board.length_mm, board.width_mm, board.thickness_mm)
        self._lines = (size, " · ".join(each for each in (board.species, board.place) if each))

    def wrap(self, avail_width: float, _avail_height: float) -> tuple[float, float]:
        self.width, self.height = avail_width, 58
        return self.width, self.height

    def draw(self) -> None:
        canvas: Canvas = self.canv
        canvas.setFillColor(GRAPHITE)
        tag, size = text.fitted(self._tag, 44, self.width * 0.4, fonts.STRONG, least=18)
        text.draw(canvas, 0, 18, tag, size, fonts.STRONG)
        left = text.width(tag, size, fonts.STRONG) + 18
        line, size = text.fitted(self._lines[0], SHOP_MEASURE_PT, self.width - left, fonts.STRONG)
        text.draw(canvas, left, 33, line, size, fonts.STRONG)
        canvas.setFillColor(PENCIL)
        line, size = text.fitted(self._lines[1], 14, self.width - left)
        text.draw(canvas, left, 16, line, size)
