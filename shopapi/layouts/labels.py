"""Part labels: one for each piece of a layout, board by board, on sheets that the maker describes by measures."""

from dataclasses import replace
from io import BytesIO
from typing import Any

from shopapi.craft.packet import USUAL_SHEETS, LabelsData, LabelSheet, PartLabel
from shopapi.layouts.breakdown import blank_words, measures_of, paper_of, several_out_of, used_boards
from shopapi.layouts.models import Layout
from shopapi.printing.documents.part_labels import build_part_labels
from shopapi.workshops.models import Workshop

Row = dict[str, Any]


def sheet_for(workshop: Workshop, **measures: float) -> LabelSheet:
    """The usual sheet of the workshop's paper, with the measures the maker gives. Raises SheetError."""
    return replace(USUAL_SHEETS[paper_of(workshop.paper)], **measures)


def labels_pdf(layout: Layout, sheet: LabelSheet, used: int = 0) -> bytes:
    """The label sheets of a layout that is done; `used` labels are gone from the first sheet."""
    out = BytesIO()
    build_part_labels(labels_data(layout, sheet, used), out)
    return out.getvalue()


def labels_data(layout: Layout, sheet: LabelSheet, used: int = 0) -> LabelsData:
    """All that the labels say, in the order in which the boards are cut."""
    tags = {key: kept["tag"] for key, kept, _ in used_boards(layout)}
    order = {key: number for number, key in enumerate(tags)}
    rows = sorted(layout.placements, key=lambda row: (order.get(row["board"], 0), row["x_mm"], row["y_mm"]))
    parts = layout.asked.get("parts", {})
    return LabelsData(
        workshop=layout.workshop.name,
        commission=layout.commission.title,
        labels=tuple(_label(parts.get(row["part"], {}), row, tags.get(row["board"], "")) for row in rows),
        sheet=sheet,
        measures=measures_of(layout.workshop),
        used=used % sheet.count,
    )


def _label(part: Row, row: Row, tag: str) -> PartLabel:
    if several_out_of(part):
        which = [blank_words(part, row)]
    else:
        which = [f"{row['piece']} of {part['quantity']}"] if part.get("quantity", 1) > 1 else []
    if row["strip"]:
        which.append(
            f"strip {row['strip']} of {part['strip_count']}"
            if part.get("strip_count", 0) > 1
            else f"strip {row['strip']}"
        )
    return PartLabel(
        part=part.get("name", "A part removed since"),
        which=", ".join(which),
        board=tag,
        rough_mm=(row["length_mm"], row["width_mm"]),
        finished_mm=(part.get("length_mm", 0), part.get("width_mm", 0), part.get("thickness_mm", 0)),
        note="face B shows" if row.get("face") == "B" else "",
    )
