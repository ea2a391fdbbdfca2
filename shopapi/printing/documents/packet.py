"""The client's packet: what the piece is made of, how it was finished, how to live with it, whom to call."""

from reportlab.platypus import CondPageBreak, Flowable, PageBreak, Spacer

from shopapi.craft.packet import PacketData
from shopapi.printing.documents.cover import draw_cover
from shopapi.printing.documents.living import (
    care_section,
    cautions_section,
    contact_section,
    seasons_section,
    use_section,
)
from shopapi.printing.documents.making import about_section, boards_section, finish_section, parts_section
from shopapi.printing.pages import Format, Imprint, Out, Story, build
from shopapi.printing.pictures import Album, ReadPicture, read_file

# A section may start low on a page only where this much of it fits there.
LEAST_START = 210.0


def build_packet(data: PacketData, out: Out, read: ReadPicture = read_file) -> int:
    """Draws the packet and gives the number of pages; `read` fetches a picture's bytes by its name."""
    form, album = Format(data.paper), Album(read)
    made_for = f" for {data.client}" if data.client else ""
    imprint = Imprint(
        f"{data.piece}{made_for}",
        data.maker.workshop,
        "What it is made of, how it was finished, how to look after it",
        f"{data.maker.workshop} · {data.piece}{made_for}",
        data.language,
    )
    return build(
        out,
        form,
        imprint,
        lambda: _story(data, form, album),
        first_page=lambda canvas, sheet: draw_cover(canvas, sheet, data, album),
    )


def _story(data: PacketData, form: Format, album: Album) -> Story:
    sections = (
        about_section(data, form),
        boards_section(data, form, album),
        parts_section(data, form),
        finish_section(data, form),
        use_section(data),
        care_section(data, form),
        cautions_section(data),
        seasons_section(data),
        contact_section(data),
    )
    story: Story = [Spacer(1, 1), PageBreak()]
    for number, section in enumerate(section for section in sections if section):
        story += [*_between(number), *section]
    return story


def _between(number: int) -> list[Flowable]:
    return [CondPageBreak(LEAST_START)] if number else []
