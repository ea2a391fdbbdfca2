"""The part of the packet that is read later: use, care, seasons, cautions, whom to call."""

from reportlab.platypus import CondPageBreak, Flowable, KeepTogether, Paragraph, Spacer

from shopapi.craft.packet import CareDue, PacketData, describe_year
from shopapi.printing import fonts
from shopapi.printing.flowables.headings import Heading, paragraph
from shopapi.printing.flowables.seasons_chart import SeasonsChart, TrueSwing
from shopapi.printing.flowables.tables import ruled
from shopapi.printing.flowables.use_line import UseLine
from shopapi.printing.pages import Format, Story
from shopapi.printing.styles import sheet
from shopapi.printing.text import markup
from shopapi.printing.wording import day

# Sentences and chart belong on one page.
SEASONS_HIGH = 470.0


def use_section(data: PacketData) -> Story:
    if data.use is None:
        words = "The last coat is not in the bench log yet, so the day of full use is not known. "
        words += "Please ask before you use it."
        return [Heading("When you may use it"), paragraph(words)]
    use = data.use
    sentence = (
        f"The last coat went on on {day(use.last_coat_on)}. From {day(use.light_use_on)} you may use it lightly: "
        f"nothing hot, wet or heavy, and nothing left standing on it. From {day(use.full_use_on)} the finish has "
        "hardened and you may use it fully."
    )
    small = [paragraph(words, "small") for words in (use.basis, use.source) if words]
    return [KeepTogether([Heading("When you may use it"), UseLine(use), paragraph(sentence), *small])]


def care_section(data: PacketData, form: Format) -> Story:
    care = data.care
    if not (care.every_day or care.accidents or care.due or care.repair):
        return []
    story: Story = [Heading("How to look after it")]
    story += _points("Every day", care.every_day)
    story += _points("When something happens", care.accidents)
    if care.repair:
        story += [paragraph("Scratches and worn places", "subheading"), paragraph(care.repair)]
    if care.due:
        width = form.text_width
        table = ruled(
            ("What", "First on", "Then"), [_due(each) for each in care.due], (width * 0.56, width * 0.22, width * 0.22)
        )
        story.append(KeepTogether([paragraph("In the years to come", "subheading"), table]))
    if care.source:
        story += [Spacer(1, 8), paragraph(care.source, "small")]
    return story


def _points(title: str, points: tuple[str, ...]) -> list[Flowable]:
    if not points:
        return []
    listed = sheet()["listed"]
    return [
        paragraph(title, "subheading"),
        *(Paragraph(markup(point, listed.fontName), listed, bulletText="–") for point in points),
    ]


def _due(due: CareDue) -> tuple[list[Flowable], str, str]:
    return [paragraph(due.what, "cell")], day(due.first_on) if due.first_on else "–", due.every or "–"


def seasons_section(data: PacketData) -> Story:
    year = data.movement
    if year is None:
        return []
    what, happens, right, assumption = describe_year(year, data.measures)
    cautions = [paragraph(" ".join(words), "small") for words in (year.warnings, year.sources) if words]
    return [
        CondPageBreak(SEASONS_HIGH),
        KeepTogether([Heading("How it moves with the seasons"), paragraph(what), paragraph(happens)]),
        KeepTogether([Spacer(1, 4), SeasonsChart(year, data.measures), Spacer(1, 10)]),
        *([TrueSwing(year.swing_mm, data.measures), Spacer(1, 8)] if year.swing_mm > 0 else []),
        paragraph(right),
        paragraph(assumption),
        *cautions,
    ]


def cautions_section(data: PacketData) -> Story:
    if not data.cautions:
        return []
    story: Story = [Heading("Please mind")]
    for caution in data.cautions:
        story.append(KeepTogether([paragraph(caution.title, "subheading"), paragraph(caution.text)]))
    return story


def contact_section(data: PacketData) -> Story:
    maker = data.maker
    lines = [line for line in (maker.phone, maker.email, maker.website, maker.address) if line]
    name = f"{maker.maker}, {maker.workshop}" if maker.maker else maker.workshop
    ask = "Something looks wrong, something broke, something is to match it one day: call or write."
    quote = f" Please name the commission, {data.reference}." if data.reference else ""
    strong = sheet()["lead"].clone("contact", fontName=fonts.STRONG, spaceAfter=4)
    words = [paragraph(warning, "small") for warning in data.warnings]
    figures = [paragraph("About the figures in these papers", "subheading"), *words, Spacer(1, 20)] if words else []
    return [
        *([KeepTogether(figures)] if figures else []),
        KeepTogether(
            [
                Heading("Whom to call"),
                paragraph(ask + quote),
                Paragraph(markup(name, fonts.STRONG), strong),
                *(paragraph(line) for line in lines),
            ]
        ),
    ]
