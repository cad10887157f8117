//! Codes of the rail's courses.

use super::Explanation;
use crate::design::finding::Code;

const WOOD: &str = "
      hollow      finished rail
                      │
        ┌─────────────┼──────┐
        │    strip    │▒▒▒▒▒▒│   ▒ planed away
        │             │▒▒▒▒▒▒│
        └─────────────┼──────┘
        │◄───────────►│◄────►│   both square to the finished surface
         wood behind   planing
         the rail      allowance";

const JOINT: &str = "
    outside    ╲              ╲   inside
                ╲ upper strip  ╲
     joint gap   ╲   ______     ╲      the upper strip turns on the
             ─►   ╲╭╯      ╰╮____╲     bead by the joint angle
              ┌────╯  bead  ╰────┐◄─ lip overlap
              │                  │
              │   lower strip    │
              │                  │";

const BEVEL: &str = "
            │  strip  │
            │         │
            │      _──┘
            │  _──‾       base, planed to the skin
            ┴‾ ) ) ) base bevel
      ──────────────────── inner face of the bottom skin";

const STARTERS: &str = "
       inside                  outside
         ┌────┐┌────┐┌────┐
         │ 3  ││ 2  ││ 1  │   starters side by side
         └────┘└────┘└────┘
          gap      _______──   inner face of the bottom skin,
      _______──‾‾‾‾            which bends";

const OPEN: &str = "
      ─────────────────────── inner face of the deck skin
                  ▲
                  │ gap
          ┌───────┴─┐
          │top strip│
          └─────────┘
          │         │";

const PATHS: &str = "
      path of a strip, seen from above
      round n      ───────____
      round n + 1  ───────────‾‾──__
                         ▲
              how far it still moves";

pub(super) fn explain(code: Code) -> Explanation {
    match code {
        Code::WoodBehindRail => Explanation {
            meaning: "Wood behind the rail is the least distance, square to the finished surface, from the finished rail to the strips' inner \
                      faces: what is left when the rail is shaped. The design's key is `cover`.",
            cause: "The strips are thin against the roundness of the rail, or the board is planed deeper into them between two ribs.",
            sketch: WOOD,
            remedies: &[
                "use thicker strips (`thickness` in [construction.strip])",
                "ask for less wood behind the rail (`cover`)",
            ],
            limit: "The design's `cover`. At 0 the hollow opens through the finished rail.",
        },
        Code::PlaningAllowance => Explanation {
            meaning: "The planing allowance is the least distance, square to the finished surface, by which the strips stand outside the finished \
                      rail: the wood that is planed away. The design's key is `proud`. Below 0 the finished shape is not reached there.",
            cause: "The strips' flat faces are chords of a round rail: the rounder the rail and the wider the strips, the less stands outside.",
            sketch: WOOD,
            remedies: &[
                "use thicker strips (`thickness` in [construction.strip])",
                "use narrower strips (`width` in [construction.strip])",
                "ask for less planing allowance (`proud`)",
            ],
            limit: "The design's `proud`.",
        },
        Code::LipOverlap => Explanation {
            meaning: "The lip of a strip's cove reaches into the strip below; the value is how deep. So much is crushed or eased off.",
            cause: "One strip turns on the bead of the other by the joint angle. Past some degrees the lip on the closing side meets the shoulder.",
            sketch: JOINT,
            remedies: &[
                "use narrower strips: the joint angles get smaller",
                "bevel these joints with a plane",
                "draw the rail's section rounder there",
            ],
            limit: "0.5 mm, what counts as fair to the eye (common practice, no published source).",
        },
        Code::JointGap => Explanation {
            meaning: "The joint gap is the opening between two strips where the finished surface crosses the joint: what shows when the rail is shaped.",
            cause: "One strip turns on the bead of the other by the joint angle, and opens on the far side.",
            sketch: JOINT,
            remedies: &[
                "use narrower strips: the joint angles get smaller",
                "bevel these joints with a plane",
                "draw the rail's section rounder there",
            ],
            limit: "0.2 mm, what still passes for a glue line (common practice, no published source).",
        },
        Code::BaseBevel => Explanation {
            meaning: "The base bevel is the angle to which the flat base of a strip or starter is planed so that it bears on what lies under it.",
            cause: "The rail leans far out where it leaves the bottom. The more is planed off, the less is left of the strip.",
            sketch: BEVEL,
            remedies: &[
                "lay the starters side by side",
                "give the section more `tuck_angle`, so that the rail stands steeper there",
                "give the section less `tuck`",
            ],
            limit: "40°: past it too little of the strip is left (common practice, no published source).",
        },
        Code::OffSkin => Explanation {
            meaning: "A starter stands off the bottom skin; the value is the gap under its nearer corner.",
            cause: "Starters side by side lie in one plane. A skin that bends under them leaves the inner ones.",
            sketch: STARTERS,
            remedies: &[
                "plane the starters' base to the skin there",
                "take one starter less (`count`)",
                "let the skin go on straight sooner (less `skin_turn`)",
            ],
            limit: "0.3 mm, what glue fills (common practice, no published source).",
        },
        Code::RailOpen => Explanation {
            meaning: "The rail's top strip ends below the inner face of the deck skin; the value is the gap. The hollow is open there.",
            cause: "One more course would be a shaving, and the last one is too thin or stands too far in to reach the deck.",
            sketch: OPEN,
            remedies: &[
                "fill the corner with a tapered strip",
                "use thicker strips (`thickness` in [construction.strip])",
            ],
            limit: "0: the stack must close.",
        },
        _ => Explanation {
            meaning: "The strips' paths are worked out in rounds. In the last round a strip still moved by this much, so figures near there are uncertain.",
            cause: "Where a course begins or ends, or the outline bends sharply, the paths of neighbouring strips hang on one another.",
            sketch: PATHS,
            remedies: &[
                "use narrower strips",
                "give the outline a gentler bend there",
            ],
            limit: "0.01 mm, a tenth of what can be seen at the bench.",
        },
    }
}
