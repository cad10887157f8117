//! Codes of the finished shape.

use super::Explanation;
use crate::design::finding::Code;

const PLAN: &str = "
                 entered │ │ measured
          ___────────────┼─┼──────____
     __───               │ │          ───__
 tail┼───────────────────┼─┼───────────────>nose
     ‾‾───               │ │          ───‾‾
          ‾‾‾────────────┼─┼──────‾‾‾‾";

const FOIL: &str = "
            ___────────────────────────___     deck
       _──‾‾      │ measured              ‾‾──_
     _/           │ square to the bottom       ╲_
    ╱─────________│__________________________────╲
                                     bottom with its rocker";

const ROCKER: &str = "
   ╲                                           ╱
    ╲__                                     __╱
       ‾‾──__     bottom line        ___──‾‾
             ‾‾‾───────┬───────────‾‾
   ────────────────────┴─────────────────────── base plane
       height, measured from the base plane";

const BOUND: &str = "Reported past 1 mm or 0.5 % of the value, whichever is more: less than a maker sees (an estimate without a source).";

pub(super) fn explain(code: Code) -> Explanation {
    match code {
        Code::ShapeWidth => Explanation {
            meaning: "The greatest width of the finished outline differs from the `width` that was entered.",
            cause: "The outline is one fair curve through tail, wide point and nose. Where nose or tail is nearly as wide as the board, the \
                    curve swells past the width between them.",
            sketch: PLAN,
            remedies: &[
                "make `nose_width` or `tail_width` smaller",
                "draw the outline with `points`",
            ],
            limit: BOUND,
        },
        Code::ShapeWidePoint => Explanation {
            meaning: "The outline is widest at another place than the `wide_point` that was entered.",
            cause: "A nose or tail that is nearly as wide as the board pulls the widest place towards itself.",
            sketch: PLAN,
            remedies: &[
                "make `nose_width` or `tail_width` smaller",
                "move `wide_point`",
            ],
            limit: "Reported past 1 % of the board's length, about what a hand feels (an estimate without a source).",
        },
        Code::ShapeThickness => Explanation {
            meaning: "Somewhere the finished board is thicker, square to the bottom, than every thickness entered.",
            cause: "The foil is one fair curve and swells a little between its points; over steep rocker calipers set square to the bottom \
                    reach far along the deck.",
            sketch: FOIL,
            remedies: &[
                "give foil `points` with more thicknesses along the board",
                "give less rocker",
            ],
            limit: "Reported past 3 % of the greatest thickness entered (an estimate without a source).",
        },
        Code::ShapeFoilPoint => Explanation {
            meaning: "At a point of the foil the finished thickness, square to the bottom, differs from the one entered there.",
            cause: "Thicknesses are entered square to the bottom. Where the rocker is steep or points lie close together, no fair deck has all of them.",
            sketch: FOIL,
            remedies: &["set the foil's `points` farther apart", "give less rocker"],
            limit: BOUND,
        },
        _ => Explanation {
            meaning: "The height of the bottom's centreline over the base plane differs from the one entered there.",
            cause: "The base plane touches the bottom's lowest point. If a fair curve through the rocker points dips lower between two of \
                    them, the whole bottom line is lifted by that dip.",
            sketch: ROCKER,
            remedies: &[
                "give rocker `points` between which the bottom does not dip below the base plane",
            ],
            limit: BOUND,
        },
    }
}
