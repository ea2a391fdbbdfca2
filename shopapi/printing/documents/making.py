"""The part of the packet that tells how the piece came about: its boards, its parts, its finish."""

from collections import Counter
from dataclasses import replace

from reportlab.platypus import Flowable, KeepTogether, Spacer

from shopapi.craft.packet import BoardUsed, FinishEntry, Measures, PacketData, PartLine
from shopapi.printing.documents.cover import fits_cover
from shopapi.printing.flowables.board import CLIENT, DrawnBoard, stretches
from shopapi.printing.flowables.headings import Heading, paragraph
from shopapi.printing.flowables.tables import ruled
from shopapi.printing.pages import Format, Story
from shopapi.printing.pictures import Album
from shopapi.printing.wording import air, counted, day, listed, moment, tallied

FEW_BOARDS, SOME_BOARDS = 4, 10
ROOM_FEW, ROOM_SOME, ROOM_MANY = 330.0, 190.0, 120.0
ONE_ROW = replace(CLIENT, longest_mm=4000.0, name=7.5, least_name=6.0)


def about_section(data: PacketData, form: Format) -> Story:
    """The description, where it is too long for the cover."""
    if not data.description or fits_cover(data.description, form):
        return []
    return [Heading("About it"), paragraph(data.description, "lead")]


def boards_section(data: PacketData, form: Format, album: Album) -> Story:
    if not data.boards:
        return [
            Heading("What it is made of"),
            paragraph("The boards it was made from were not written down.", "body"),
        ]
    story: Story = [Heading("What it is made of"), paragraph(_woods(data), "lead")]
    for board in data.boards:
        story += _board(board, data, form, album)
    return story


def _woods(data: PacketData) -> str:
    by_wood = Counter(board.species for board in data.boards).most_common()
    woods = [f"{counted(count, 'board', 'boards')} of {species}" for species, count in by_wood]
    pictures = any(board.picture for board in data.boards)
    shown = "The pictures show them" if pictures else "The drawings show them"
    pieces = ", with the pieces pencilled where they were cut" if any(board.pieces for board in data.boards) else ""
    return (
        f"It was made from {listed(woods)}. {shown} as they lay before the first cut, butt end left and true to "
        f"scale{pieces}."
    )


def _board(board: BoardUsed, data: PacketData, form: Format, album: Album) -> Story:
    room, look = ROOM_FEW, CLIENT
    if len(data.boards) > FEW_BOARDS:
        room, look = (ROOM_SOME, CLIENT) if len(data.boards) <= SOME_BOARDS else (ROOM_MANY, ONE_ROW)
    drawn = DrawnBoard(board.length_mm, board.width_mm, board.picture, pieces=board.pieces)
    drawings: list[Flowable] = list(stretches(drawn, data.measures, album, form.text_width, look, room))
    about = " · ".join(
        word for word in (data.measures.size(board.length_mm, board.width_mm, board.thickness_mm), board.origin) if word
    )
    words = [paragraph(f"{board.tag}, {board.species}", "subheading"), paragraph(about, "small")]
    after = (
        [paragraph(f"From it came {listed(tallied(piece.part for piece in board.pieces))}.")] if board.pieces else []
    )
    return [KeepTogether([*words, *drawings, *after]), Spacer(1, 8)]


def parts_section(data: PacketData, form: Format) -> Story:
    if not data.parts:
        return []
    width = form.text_width
    columns = (width * 0.34, width * 0.1, width * 0.34, width * 0.22)
    rows = [_part(part, data.measures) for part in data.parts]
    pieces = sum(part.quantity for part in data.parts)
    panels = sum(part.quantity for part in data.parts if part.strips > 1)
    glued = (
        f" {_capital(counted(panels, 'of them is', 'of them are'))} glued up from narrower strips." if panels else ""
    )
    return [
        Heading("Its parts"),
        paragraph(f"{_capital(counted(pieces, 'piece', 'pieces'))} of wood, at their finished sizes.{glued}"),
        ruled(("Part", "Count", "Length × width × thickness", "Wood"), rows, columns),
    ]


def _part(part: PartLine, measures: Measures) -> tuple[str, str, str, str]:
    wood = f"{part.species}, {part.strips} strips" if part.strips > 1 else part.species
    return part.name, str(part.quantity), measures.size(part.length_mm, part.width_mm, part.thickness_mm), wood


def _capital(words: str) -> str:
    return words[:1].upper() + words[1:]


def finish_section(data: PacketData, form: Format) -> Story:
    finish = data.finish
    if not finish.entries and not finish.kind:
        return []
    story: Story = [Heading("How it was finished")]
    if finish.kind:
        story.append(paragraph(f"Finish: {finish.kind}.", "lead"))
    if not finish.entries:
        return [*story, paragraph("The bench log holds no step of it.")]
    first, last = finish.entries[0].done_at.date(), finish.entries[-1].done_at.date()
    over = f"from {day(first)} to {day(last)}" if first != last else f"on {day(first)}"
    story.append(paragraph(f"This is the bench log as it was written at the time, {over}."))
    width = form.text_width
    columns = (width * 0.23, width * 0.39, width * 0.18, width * 0.2)
    rows = [_entry(entry, data.measures) for entry in finish.entries]
    return [*story, ruled(("When", "What", "Air", "By"), rows, columns)]


def _entry(entry: FinishEntry, measures: Measures) -> tuple[str | list[Flowable], ...]:
    what: list[Flowable] = [paragraph(entry.what, "cell")]
    what += [paragraph(note, "cell_note") for note in (entry.detail, entry.note) if note]
    if entry.early_reason:
        what.append(paragraph(f"Sooner than planned: {entry.early_reason}", "cell_note"))
    when: list[Flowable] = [paragraph(moment(entry.done_at), "cell")]
    return when, what, air(entry.temp_c, entry.rh_pct, measures), entry.by or "–"
