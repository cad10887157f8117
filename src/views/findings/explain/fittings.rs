//! Codes of fittings, end blocks and the board in the water.

use super::Explanation;
use crate::design::finding::Code;

const BLOCK: &str = "
      deck skin ───────___
      ┌────────────       ‾──_
      │ end block             ╲   between the skins' inner
      └────────────       _──‾    faces some wood must be left
    bottom skin ───────‾‾‾";

const ABOVE: &str = "
      seen from above
      tail ___────────────────────────
         ╱   ┌──cut-out──┐   │rib
        │    └───────────┘   │
      ──┼────────────────────┼──────── spine
        │                    │";

const MEETS: &str = "
      seen from above   │ rib │
           ┌──cut-out───┼──┐  │
           └────────────┼──┘  │
                        │◄►│  │
                        past the rib's nearer face";

const DEPTH: &str = "
      ───────┐ cut-out ┌───────  surface it is let into
      pad    │         │    pad
             └─────────┘
                ▲ wood under it: the floor
                ▼
      ─────────────────────────  inner face of the other skin";

const SPINE: &str = "
      ───────┐ cut-out ┌───────  surface it is let into
      spine  │         │  spine
             └─────────┘
                ▲ what is left of the spine
                ▼
      ─────────────────────────";

const PADS: &str = "
      seen from above
         ┌───────────────┐
         │  pad A   ┌────┼──────────┐
         └──────────┼────┘  pad B   │
                    └───────────────┘";

const VENT: &str = "
      ┌──────────┬──────────────────
      │  block ▼ │ hollow      ▼ the vent must open
      │        │ │             │ into the hollow
      └──────────┴──────────────────";

const WATER: &str = "
            ↓ mass of board and load
           ____________
      ~~~~(____________)~~~~~~ water
            ↑ it carries at most its whole volume of water";

const COMMON_8: &str = "8 mm of the spine over a cut-out (common practice, no published source).";

pub(super) fn explain(code: Code) -> Explanation {
    match code {
        Code::BlockMissing => Explanation {
            meaning: "The skins' inner faces meet before there is room for the solid block at tail or nose.",
            cause: "The end is thin and the skins are thick, or the block is too short.",
            sketch: BLOCK,
            remedies: &[
                "lengthen the block (`tail_block`, `nose_block`)",
                "make the skins thinner",
                "make the board thicker there",
            ],
            limit: "Some height between the skins over the block's length.",
        },
        Code::FittingOffBoard => Explanation {
            meaning: "A fitting reaches past the end of the board or into the cleft of a swallow tail; it has no pad until it is moved.",
            cause: "It is placed too near to the end.",
            sketch: ABOVE,
            remedies: &["place it further from there (`from_tail`)"],
            limit: "0: the whole cut-out lies on the board.",
        },
        Code::PadNoRoom => Explanation {
            meaning: "The pad that should hold a fitting has no room between skins, ribs, spine and strips.",
            cause: "The hollow is too low or too narrow there.",
            sketch: DEPTH,
            remedies: &["move it to where the board is thicker or wider"],
            limit: "A pad of the least thickness that does not split (common practice, no published source).",
        },
        Code::FittingOnRib => Explanation {
            meaning: "A cut-out lies over a rib; the value is how far it goes past the rib's nearer face.",
            cause: "Fitting and rib are at the same place along the board. A pad is glued between ribs; a cut-out through a rib cuts it.",
            sketch: MEETS,
            remedies: &[
                "move the fitting along the board (`from_tail`)",
                "move the rib",
                "notch the rib so that the pad goes through",
            ],
            limit: "0: cut-outs keep clear of ribs.",
        },
        Code::FittingInSpine => Explanation {
            meaning: "A cut-out beside the centreline cuts into the spine; the value is how far.",
            cause: "It is placed too near to the centreline.",
            sketch: ABOVE,
            remedies: &["move it outboard (`from_centre`)"],
            limit: "0: cut-outs beside the centreline keep clear of the spine.",
        },
        Code::SpineLeftThin => Explanation {
            meaning: "A cut-out on the centreline leaves too little height of the spine under it; the value is what is left.",
            cause: "The cut-out is deep, or the board is thin there.",
            sketch: SPINE,
            remedies: &[
                "make the cut-out less deep",
                "move it to where the board is thicker",
            ],
            limit: COMMON_8,
        },
        Code::FittingInRail => Explanation {
            meaning: "A cut-out reaches past its pad into the strips of the rail; the value is how far.",
            cause: "It is placed too near to the outline.",
            sketch: ABOVE,
            remedies: &[
                "move it inboard (`from_centre`)",
                "make a fin's cut-out narrower",
            ],
            limit: "0: cut-outs keep clear of the strips.",
        },
        Code::FittingNearOutline => Explanation {
            meaning: "A cut-out in an end block comes nearer to the finished outline than it should; the value is by how much.",
            cause: "It is placed too near to the outline.",
            sketch: ABOVE,
            remedies: &[
                "move it inboard (`from_centre`)",
                "make a fin's cut-out narrower",
            ],
            limit: "4 mm of wood between cut-out and outline (common practice, no published source).",
        },
        Code::FittingTooDeep => Explanation {
            meaning: "A cut-out is deeper than the board allows: it leaves too thin a floor, cuts the skin on the far side, or comes out of it.",
            cause: "The cut-out is deep for the board's thickness there.",
            sketch: DEPTH,
            remedies: &[
                "make the cut-out less deep",
                "move it to where the board is thicker",
            ],
            limit: "The floor that the fitting wants under its cut-out (`floor`).",
        },
        Code::VentBlocked => Explanation {
            meaning: "The vent ends in a solid end block: no air passes, and the closed hollow swells in the sun.",
            cause: "It is placed over the block; the value is how far it lies from the hollow.",
            sketch: VENT,
            remedies: &["move it along the board into the hollow (`from_tail`)"],
            limit: "0: the vent opens into the hollow.",
        },
        Code::PadsOverlap => Explanation {
            meaning: "The pads of two fittings take the same room; the value is the smallest move that parts them.",
            cause: "The fittings stand close together, or their margins are wide.",
            sketch: PADS,
            remedies: &["move one of them", "make their `margin`s smaller"],
            limit: "0: pads may touch.",
        },
        Code::Sinks => Explanation {
            meaning: "Board and load weigh more than the water the whole board displaces; value and limit are that mass and what it carries.",
            cause: "Most shortboards do not float a rider who sits still; they carry one at speed. So it is a note with a rider, an error without.",
            sketch: WATER,
            remedies: &["take off mass", "add volume"],
            limit: "The whole volume times the water's density: 1025.976 kg/m³ in the sea (TEOS-10), 999.103 kg/m³ fresh.",
        },
        _ => Explanation {
            meaning: "No level of water balances the load: the board stands on end or turns over lengthwise before it finds its trim.",
            cause: "The load's centre of gravity lies too far from the middle or too high.",
            sketch: WATER,
            remedies: &["move the load towards the middle, or lower"],
            limit: "A trim below 45°.",
        },
    }
}
