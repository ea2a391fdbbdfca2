"""Generic classes of glue, and how much of one a joint takes."""

from dataclasses import dataclass

from shopapi.craft.limits import Answer, OutOfRangeError, require, require_more_than_zero

LABEL_RULES = "The label of the glue in hand rules."


@dataclass(frozen=True)
class GlueClass:
    """One generic class of glue; times at 20 °C and 50 % RH, `how` says what they rest on.

    `open_min`: from spreading to joining. `total_min`: from the first bead to full pressure. `spread_g_m2`: one spread
    face. `clamp_min`: in clamps for an unstressed joint. `rest_h`: before the joint is planed or loaded.
    """

    name: str
    label: str
    open_min: tuple[float, float]
    total_min: tuple[float, float]
    spread_g_m2: tuple[float, float]
    clamp_min: tuple[float, float]
    rest_h: float
    coldest_c: float
    waterborne: bool
    wants_pressure: bool
    cautions: tuple[str, ...]
    how: str


_CLASSES = (
    GlueClass(
        name="yellow", label="Yellow wood glue (aliphatic)", open_min=(4, 6), total_min=(10, 15),
        spread_g_m2=(171, 244), clamp_min=(30, 60), rest_h=24, coldest_c=10, waterborne=True, wants_pressure=True,
        cautions=("Below its chalk temperature the joint looks dry and is weak.",),
        how="clamp time read in a secondary copy; open time and spread from memory; coldest: warm end of label range",
    ),
    GlueClass(
        name="white", label="White wood glue (PVA)", open_min=(5, 10), total_min=(15, 20),
        spread_g_m2=(171, 244), clamp_min=(45, 90), rest_h=24, coldest_c=13, waterborne=True, wants_pressure=True,
        cautions=("Below its chalk temperature the joint looks dry and is weak.",),
        how="lowest temperature read in a secondary copy; times and spread from memory",
    ),
    GlueClass(
        name="slow", label="Slow-setting wood glue (PVA)", open_min=(10, 15), total_min=(20, 25),
        spread_g_m2=(171, 244), clamp_min=(45, 90), rest_h=24, coldest_c=13, waterborne=True, wants_pressure=True,
        cautions=("Below its chalk temperature the joint looks dry and is weak.",),
        how="from memory, not verified",
    ),
    GlueClass(
        name="hide", label="Liquid hide glue", open_min=(10, 15), total_min=(20, 30), spread_g_m2=(171, 244),
        clamp_min=(120, 240), rest_h=24, coldest_c=10, waterborne=True, wants_pressure=True,
        cautions=("Old glue does not set: try a drop first.", "It lets go when damp or hot."),
        how="from memory, not verified",
    ),
    GlueClass(
        name="epoxy", label="Slow epoxy", open_min=(20, 40), total_min=(30, 60), spread_g_m2=(200, 350),
        clamp_min=(360, 720), rest_h=24, coldest_c=15, waterborne=False, wants_pressure=False,
        cautions=("Clamp only until the joint closes: pressure starves it.", "Gloves, good air: it sensitises skin."),
        how="from memory, not verified",
    ),
)  # fmt: skip

GLUE_CLASSES: dict[str, GlueClass] = {one.name: one for one in _CLASSES}


def glue_class(name: str) -> GlueClass:
    """The class of glue of that name or label. Raises OutOfRangeError listing the names.

    Source: GLUE-GUIDES, by generic class; `how` says which numbers are from memory.

    >>> glue_class("yellow").open_min
    (4, 6)
    """
    for one in _CLASSES:
        if name.casefold().strip() in (one.name, one.label.casefold()):
            return one
    raise OutOfRangeError(f'"{name}" is not a class of glue. Known: {", ".join(GLUE_CLASSES)}.')


def all_glue_classes() -> tuple[GlueClass, ...]:
    """Every class of glue. Source: GLUE-GUIDES, by generic class.

    >>> len(all_glue_classes())
    5
    """
    return _CLASSES


def glue_needed_g(
    glue: GlueClass | str, joint_length_mm: float, joint_width_mm: float, joints: int = 1, waste_pct: float = 20.0
) -> Answer:
    """Glue for a number of like joints [g], one face of each spread at the fuller rate, with waste.

    glue: class or its name. joint_length_mm, joint_width_mm: of one glue line [mm], more than 0. joints: 1 to 1000.
    waste_pct: squeeze-out, bottle and roller [%], 0 to 200 (20 is common practice). Raises OutOfRangeError.
    Source: GLUE-GUIDES, spread rates (35 to 50 lb per 1000 sq ft of single glue line, from memory).

    >>> round(glue_needed_g("yellow", 1500, 25, joints=4))
    44
    """
    one = glue_class(glue) if isinstance(glue, str) else glue
    require_more_than_zero("Joint length", joint_length_mm, 20_000, "mm")
    require_more_than_zero("Joint width", joint_width_mm, 20_000, "mm")
    require("Joints", joints, 1, 1000)
    require("Waste", waste_pct, 0, 200, "%")
    area_m2 = joint_length_mm * joint_width_mm * 1e-6 * joints
    grams = area_m2 * one.spread_g_m2[1] * (1 + waste_pct / 100)
    return Answer(grams, "g", "area x spread + waste", (f"Spread: {one.how}.", LABEL_RULES))
