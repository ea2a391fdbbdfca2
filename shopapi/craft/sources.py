"""The bibliography: every `Source:` line in craft begins with one of these keys."""

from dataclasses import dataclass
from typing import Literal

Standing = Literal["read", "secondary", "memory", "practice", "own"]


@dataclass(frozen=True)
class Source:
    """Where a number comes from, as it may be shown to a reader, and how well it could be checked."""

    key: str
    title: str
    standing: Standing
    note: str = ""


_ALL = (
    Source(
        "WOOD-HANDBOOK",
        "Forest Products Laboratory. 2010. Wood handbook: wood as an engineering material. General Technical Report "
        "FPL-GTR-190. Madison, WI: US Department of Agriculture, Forest Service.",
        "read",
        "Rows not legible in the copy read are marked in the data, row by row; much of the strength data was "
        "checked in secondary copies only.",
    ),
    Source(
        "SIMPSON-1998",
        "Simpson, W.T. 1998. Equilibrium moisture content of wood in outdoor locations in the United States and "
        "worldwide. Research Note FPL-RN-0268. Madison, WI: USDA Forest Service.",
        "secondary",
        "Monthly rows are from memory; the equation was read in secondary copies.",
    ),
    Source(
        "FEIST-1985",
        "Feist, W.C.; Little, J.K.; Wennesheimer, J.M. 1985. The moisture-excluding effectiveness of finishes on wood "
        "surfaces. Research Paper FPL 462. Madison, WI: USDA Forest Service (as tabulated in WOOD-HANDBOOK, 16).",
        "read",
    ),
    Source(
        "WMO-MAGNUS",
        "Magnus formula with the coefficients recommended by the World Meteorological Organization, Guide to "
        "Instruments and Methods of Observation (WMO-No. 8), annex 4.B.",
        "secondary",
        "Water form read in a secondary copy; ice form from memory. Valid -40 to 50 C within 0.4 %.",
    ),
    Source(
        "SERVICE-CLIMATE",
        "Published indoor humidity bands and outdoor-to-indoor examples: AWI 200 Care and Storage; ASHRAE Handbook, "
        "museums chapter, as described by the Canadian Conservation Institute; engineering reference tables.",
        "secondary",
    ),
    Source(
        "METER-CORRECTION",
        "Pfaff, F.; Garrahan, P. 1986. New temperature correction factors for the portable resistance-type moisture "
        "meter. Forest Products Journal 36(3).",
        "memory",
        "The equation is from memory.",
    ),
    Source(
        "SIAU-1984",
        "Siau, J.F. 1984. Transport processes in wood. Berlin: Springer (bound-water diffusion across the grain).",
        "memory",
        "Constants from memory. They reproduce the published moisture-excluding tests, see the tests of exclusion.",
    ),
    Source(
        "CRANK-1975",
        "Crank, J. 1975. The mathematics of diffusion, 2nd ed. Oxford: Clarendon Press (plane sheet, sections 4.3).",
        "memory",
        "The series solutions are standard and are checked numerically in the tests.",
    ),
    Source(
        "LUMBER-RULES",
        "National Hardwood Lumber Association. Rules for the measurement and inspection of hardwood and cypress, as "
        "summarised in WOOD-HANDBOOK, chapter 6, in published grade charts and in an export council's guide.",
        "secondary",
    ),
    Source(
        "NIST-SP811",
        "Thompson, A.; Taylor, B.N. 2008. Guide for the use of the International System of Units. NIST Special "
        "Publication 811.",
        "memory",
        "The conversions used are exact by definition.",
    ),
    Source(
        "GRIT-STANDARDS",
        "Grain sizes of ISO 6344 / FEPA P grades and ANSI B74.18 (CAMI) grades, from three public comparison charts.",
        "secondary",
        "The charts agree for every P grade; CAMI differs 5 to 8 % between charts.",
    ),
    Source(
        "FINISH-SHEETS",
        "Makers' technical data sheets and distributors' charts, by generic class; OSHA, NIOSH and ACGIH limits "
        "for wood dust; fire rules for rags (30 CFR 57.4104, 29 CFR 1910.106 and 1910.125, a state health department).",
        "secondary",
        "Lacquer, linseed and oil-and-urethane rows are from memory. The label of the product in hand outranks all.",
    ),
    Source(
        "GLUE-GUIDES",
        "WOOD-HANDBOOK, chapter 10; Forest Products Laboratory Technical Note 475 (1961); Selbo, M.L. 1975, Adhesive "
        "bonding of wood, USDA Technical Bulletin 1512; a glue maker's technical guide; trade columns on pressure.",
        "secondary",
        "Spread and open time are from memory; published pressures disagree, so ranges are given.",
    ),
    Source(
        "SCREW-RULES",
        "WOOD-HANDBOOK, chapter 8 (fastenings), and the commentary on the National Design Specification, part XI.",
        "secondary",
        "The ultimate equation is from memory; the design equation was read in a secondary copy.",
    ),
    Source(
        "ISO-7172",
        "ISO 7172:1988. Furniture: tables: determination of stability (method), read in an extract.",
        "secondary",
    ),
    Source(
        "GEOMETRY",
        "Trigonometry and vectors; checked in the tests against independent three-dimensional constructions.",
        "own",
    ),
    Source(
        "MECHANICS",
        "Elementary beam theory (Euler-Bernoulli), as in any strength-of-materials text.",
        "memory",
        "Checked in the tests by numerical integration of the beam equation.",
    ),
    Source(
        "PROJECTIVE",
        "Hartley, R.; Zisserman, A. 2004. Multiple view geometry in computer vision, 2nd ed. Cambridge: CUP.",
        "memory",
        "Checked in the tests against cameras drawn independently.",
    ),
    Source(
        "BROWN-1971",
        "Brown, D.C. 1971. Close-range camera calibration. Photogrammetric Engineering 37(8).",
        "memory",
        "Checked in the tests against photographs drawn through such a lens.",
    ),
    Source("COMMON-PRACTICE", "Common practice of the trade, no source.", "practice"),
    Source("OWN", "This project's own definition or model; the docstring states it.", "own"),
)

SOURCES: dict[str, Source] = {source.key: source for source in _ALL}


def source(key: str) -> Source:
    """The bibliography entry of a key. Raises KeyError naming the known keys. Source: OWN, the bibliography itself.

    >>> source("WMO-MAGNUS").standing
    'secondary'
    """
    try:
        return SOURCES[key]
    except KeyError:
        raise KeyError(f"No source {key!r}. Known: {', '.join(SOURCES)}.") from None
