//! Codes of strips and planks.

use super::Explanation;
use crate::design::finding::Code;

const EASY: &str = "
      across its thickness: the easy way
            ___────────___
        _──‾   stretched   ‾──_      ▲
      ─‾  _──────────────_    ‾─     │ thickness t
       _─‾    pressed     ‾─_        ▼
        strain = t / 2R, R being the radius of the bend";

const HARD: &str = "
      across its width: the hard way (edge-set)
      ┌──────────────────────────────┐ ▲
      │          ___────___          │ │ width w
      └─────__──‾          ‾──__─────┘ ▼
        strain = w / 2R, R being the radius of the bend";

const TWIST: &str = "
      ┌─────┐                    ╱╲
      │     │  ───────────────  ╱  ╲
      │     │  ───────────────  ╲  ╱
      └─────┘                    ╲╱
      tail end                nose end
        shear strain grows with the twist in each length";

const PLANK: &str = "
      ┌───────────────────────────────────┐
      │ blank │ blank │ blank │ blank │    │  plank's end
      └───────────────────────────────────┘
        a blank is the strip with what saw,
        planer and router take away";

const SCARF: &str = "
      strip 3  ──────────────╱─────────────────
                         ◄─────►  stagger
      strip 2  ─────────────────────╱──────────
      strip 1  ──────╱─────────────────────╱───
               │ tight bend │   no scarf here";

const MANY: &str = "
      wanted:   ────────────── ──────────── ──────
      on hand:  ╔═══════════════════╗
                ╚═══════════════════╝
        every strip of both rails, and the spares,
        comes out of the planks";

const LIMIT: &str = "The share `working` of the strain that breaks clear wood: modulus of rupture over true modulus, from the species' published \
                     means (Wood Handbook, Tables 5-3b and 4-3; `boardwright keys` names the species). `working` leaves a quarter for short grain and \
                     scatter (common practice). Softened wood: 1.5 % on its stretched side (bending handbooks; an estimate without a source).";

pub(super) fn explain(code: Code) -> Explanation {
    match code {
        Code::BendEasyWay => Explanation {
            meaning: "Strips are bent across their thickness, the easy way, to a greater strain than their wood is held to.",
            cause: "The strip is too thick for the tightest bend on its path, most often where the outline turns at nose or tail.",
            sketch: EASY,
            remedies: &[
                "soak or steam them (`softening` in [timber]), and try one first",
                "use thinner strips; starters may be laminated",
                "use a wood that takes more strain",
                "draw the rail with a larger radius there",
            ],
            limit: LIMIT,
        },
        Code::BendHardWay => Explanation {
            meaning: "Strips are bent across their width, the hard way, to a greater strain than their wood is held to.",
            cause: "The strip is too wide for a bend in its own plane, such as the rocker makes at nose or tail.",
            sketch: HARD,
            remedies: &[
                "soak or steam them (`softening` in [timber]), and try one first",
                "use narrower strips; starters may be laminated one on the other",
                "use a wood that takes more strain",
                "draw the rail with a larger radius there",
            ],
            limit: LIMIT,
        },
        Code::Twist => Explanation {
            meaning: "Strips are twisted about their length to a greater shear strain than their wood is held to.",
            cause: "The rail's section turns along the board, and each strip turns with it.",
            sketch: TWIST,
            remedies: &[
                "use thinner strips; starters may be laminated",
                "use a wood that takes more shear",
                "draw the rail so that its section turns more slowly",
            ],
            limit: "The share `working` of the wood's shear strength over its shear modulus (Wood Handbook, Tables 5-3b and 5-1, the latter an \
                    estimate without a source). Soaking is not known to help against twist.",
        },
        Code::PlankTooSmall => Explanation {
            meaning: "No plank of the shop is large enough, in thickness and width, for the blank of a strip.",
            cause: "Resawing, ripping and sanding take their share; what is left of the plank is smaller than the strip.",
            sketch: PLANK,
            remedies: &["add a thicker or wider plank", "take smaller allowances"],
            limit: "The blank's section: finished section and the allowances of [shop].",
        },
        Code::ScarfNoRoom => Explanation {
            meaning: "A strip is longer than the pieces that the planks give, and its scarfs have no room: value and limit are the blank and the \
                      longest piece.",
            cause: "Scarfs stay off the tight bends and away from the scarfs of neighbouring courses; between those no place is left.",
            sketch: SCARF,
            remedies: &[
                "let scarfs nearer to each other (`stagger`)",
                "let scarfs nearer to the bends (`scarf_strain`)",
                "get longer planks",
            ],
            limit: "`stagger` of [shop], and `scarf_strain` of [timber]: the share of the limits at which scarfs may lie.",
        },
        Code::PlanksTooFew => Explanation {
            meaning: "The planks on hand do not yield all strips; the value is the length of strip that is needed.",
            cause: "Every size of plank has a `count`, and together they are too few.",
            sketch: MANY,
            remedies: &["add planks, or let one size be bought without a `count`"],
            limit: "What the planks yield; the cutting plan tries every way to cut them.",
        },
        Code::PlanksMissing => Explanation {
            meaning: "The shop names no plank at all, so that there is nothing to cut the strips from.",
            cause: "A program made the design without planks; a design file always has some.",
            sketch: MANY,
            remedies: &["name at least one plank in [[shop.plank]]"],
            limit: "One size of plank at least.",
        },
        Code::PlanUnfinished => Explanation {
            meaning: "The search for a cutting plan ended before it found any.",
            cause: "So many sizes of planks and places for scarfs allow more ways to cut than can be tried.",
            sketch: MANY,
            remedies: &[
                "leave out sizes of planks that are not needed",
                "get longer planks",
            ],
            limit: "A fixed number of trials, about a few seconds' work (house rule).",
        },
        Code::ShopFigures => Explanation {
            meaning: "A figure of the shop, the strips or the wood is outside what can be planned with.",
            cause: "A program made the design with such a figure; a design file is refused with the line and the range.",
            sketch: PLANK,
            remedies: &["give a value inside the range"],
            limit: "The figure's range, as the finding names it.",
        },
        Code::BendUnjudged => Explanation {
            meaning: "Nothing is said about how far these strips may be bent or twisted.",
            cause: "The wood's figures lack what its limits follow from.",
            sketch: EASY,
            remedies: &[
                "bend and twist an offcut as far before you mill",
                "give the wood's figures in [[timber.species]]",
            ],
            limit: "None: that is what the note is about.",
        },
        _ => Explanation {
            meaning: "The strips' bends are judged, but not their twist; the value is the greatest shear strain, for your own judgement.",
            cause: "No source with a shear strength of this wood is known.",
            sketch: TWIST,
            remedies: &[
                "twist an offcut as far before you mill",
                "give a shear strength (`shear`) in a [[timber.species]] of your own",
            ],
            limit: "None: that is what the note is about.",
        },
    }
}
