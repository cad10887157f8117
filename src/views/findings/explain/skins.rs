//! Codes of bottom and deck skin.

use super::Explanation;
use crate::design::finding::Code;

const STRAIN: &str = "
      laid flat            on the board
      ┌───┬───┬───┐       ╭───┬───┬───╮
      ├───┼───┼───┤  ──>  ├───┼───┼───┤   where the surface bends
      ├───┼───┼───┤       ├───┼───┼───┤   both ways at once, the sheet
      └───┴───┴───┘       ╰───┴───┴───╯   must stretch or shrink";

const BEND: &str = "
            ___──────___
        _──‾            ‾──_     skin of thickness t
      ─‾         R          ‾─
                 │
        radius over thickness = R / t";

const FLAT: &str = "
      a surface             its flat image
        ___──___
      ─‾ ╲    ╱ ‾─   ──>    ────╲  ╱────
          ╲__╱                   ╲╱
                            folded over itself";

const PLANKS: &str = "
      longest plank of the skin
      ├──────────────────────────────────────┤
      ├──────────────╱───────────────────────┤  scarfed
      ├──────────────────┤  stock";

const STRAIN_LIMIT: &str = "`strain_along` and `strain_across` of [skins], the second of each: what a soaked panel takes (common practice, no published \
                            source). Strain is a mean over 15 mm.";
const BEND_LIMIT: &str = "`bend_along` and `bend_across` of [skins], the second of each: 75 times the thickness, about where clear dry wood breaks \
                          (strength and stiffness of the Wood Handbook's light species); across the grain common practice, no published source.";
const SPLIT: &[&str] = &[
    "where little of the panel is over: try it dry first, clamps and plane may do",
    "split the panel there into strakes with tapered edges",
    "draw less curvature both ways at once: a flatter contour, or a gentler rocker",
];
const RELIEVE: &[&str] = &[
    "saw or plane relief into its inner face there",
    "glue it up of thinner laminations there",
    "make the skin thinner",
    "draw the surface gentler there",
];

pub(super) fn explain(code: Code) -> Explanation {
    match code {
        Code::SkinStrainAlong => Explanation {
            meaning: "A flat panel must stretch (+) or shrink (−) along the grain by this strain to lie on the board.",
            cause: "Flat wood bends one way. Where the surface curves both ways at once, lengths along the grain do not fit.",
            sketch: STRAIN,
            remedies: SPLIT,
            limit: STRAIN_LIMIT,
        },
        Code::SkinStrainAcross => Explanation {
            meaning: "A flat panel must stretch (+) or shrink (−) across the grain by this strain to lie on the board.",
            cause: "Flat wood bends one way. Where the surface curves both ways at once, widths across the grain do not fit.",
            sketch: STRAIN,
            remedies: SPLIT,
            limit: STRAIN_LIMIT,
        },
        Code::SkinBendAlong => Explanation {
            meaning: "A skin is bent along the board to a smaller radius, as a multiple of its thickness, than it takes soaked.",
            cause: "The rocker or the deck turns more tightly than so thick a skin bends.",
            sketch: BEND,
            remedies: RELIEVE,
            limit: BEND_LIMIT,
        },
        Code::SkinBendAcross => Explanation {
            meaning: "A skin is bent across the board to a smaller radius, as a multiple of its thickness, than it takes soaked.",
            cause: "The section is rounder than so thick a skin bends, most often over the end blocks.",
            sketch: BEND,
            remedies: RELIEVE,
            limit: BEND_LIMIT,
        },
        Code::SkinNotFlat => Explanation {
            meaning: "A skin has no flat image: its panel is left out, the rest of the board is made.",
            cause: "Its surface curves so much both ways that it folds when it is laid flat, or it follows the board nowhere.",
            sketch: FLAT,
            remedies: &[
                "build it of narrow planks laid one by one",
                "draw the surface gentler there",
                "make the skins thinner",
            ],
            limit: "A flat image in which no part lies upside down.",
        },
        _ => Explanation {
            meaning: "A skin's planks are longer than the stock, and scarfing them needs a piece that is too long or too short.",
            cause: "Stagger and the shortest piece leave no division of the plank that the stock gives.",
            sketch: PLANKS,
            remedies: &[
                "make `stagger` or `shortest_piece` of [shop] smaller",
                "find longer planks for `plank_length`",
            ],
            limit: "`plank_length` of [skins], `shortest_piece` of [shop].",
        },
    }
}
