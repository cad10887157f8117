//! Codes of ribs and spine.

use super::Explanation;
use crate::design::finding::Code;

const RIB: &str = "
          ──────── deck skin ────────
       ┌──┐┌────────────────────┐┌──┐
       │  ││        rib         ││  │   strips of the rail
       │  │└────────────────────┘│  │   on both sides
       └──┘                      └──┘
          ─────── bottom skin ───────
        a rib needs room between all four";

const SLOT: &str = "
      ───────┐           ┌───────
             │◄─ slot  ─►│
       rib   │   width   │   rib
             │           │
             └───────────┘
           ◄─── cutter ────►   wider than the slot: it cannot cut it";

const RELIEF: &str = "
      ───────┐           ┌───────
             │           │
             │           │       relief: a bite into each corner,
            (             )      so that a square edge goes home
             └───────────┘";

const SPINE_END: &str = "
      ──────────────────────────────── deck
      ┌───────┐      ┌────────────────
      │ block │ gap  │ spine
      └───────┘      └────────────────
      ──────────────────────────────── bottom";

const JOINT: &str = "
      ◄──── length of the sheet ────►
               slot      slot          slot
      ┌──────────┴────────┴───┬─┬───────┴─────┐
      │ piece 1               │ │     piece 2 │
      └───────────────────────┴─┴─────────────┘
                            joint: key or scarf, between two slots";

const BAYS: &str = "
         rib 1      rib 2      rib 3
    ┌──────┬──────────┬──────────┬──────┐
    │bay 1 o  bay 2   o  bay 3   │ bay 4│  port
    ├──o───┼────o─────┼────o─────┼──────┤  spine
    │      o   vent   o          o      │  starboard
    └──────┴──────────┴──────────┴──────┘
      o: a hole that air passes; bay 4 to port is shut";

pub(super) fn explain(code: Code) -> Explanation {
    match code {
        Code::RibLeftOut => Explanation {
            meaning: "A rib has no place in the hollow and is left out; the rest of the board is made without it.",
            cause: "So near to an end the skins meet, or the rail's strips fill the room between them.",
            sketch: RIB,
            remedies: &[
                "move the rib",
                "lengthen the end block",
                "make the board thicker there",
            ],
            limit: "A rib needs a hollow with room for a contour; none has a limit of its own.",
        },
        Code::SlotNarrow => Explanation {
            meaning: "The slots in which ribs and spine cross are narrower than the cutter's diameter.",
            cause: "A slot is as wide as its partner is thick, with the clearance. A cutter goes into no slot that is narrower than itself.",
            sketch: SLOT,
            remedies: &[
                "use a cutter no wider than the slot (`diameter` in [construction.cutter])",
                "saw these slots and square them with chisel and file",
                "take thicker stock for ribs or spine",
            ],
            limit: "The cutter's diameter.",
        },
        Code::SlotUnrelieved => Explanation {
            meaning: "The cutter goes into these slots, but they are too shallow for the bites that let a square edge go home.",
            cause: "A round cutter leaves round corners. Relief takes them out and needs more depth than these slots have.",
            sketch: RELIEF,
            remedies: &[
                "square their corners by hand",
                "use a smaller cutter (`diameter` in [construction.cutter])",
            ],
            limit: "Room for both bites and half a millimetre of straight side (house rule).",
        },
        Code::SpineShort => Explanation {
            meaning: "The spine ends before it reaches an end block; the value is the gap between them.",
            cause: "There the hollow gets too low for a spine of any strength.",
            sketch: SPINE_END,
            remedies: &[
                "lengthen the block to meet the spine (`tail_block`, `nose_block`)",
                "make the board thicker there",
            ],
            limit: "A spine at least 4 mm high (house rule).",
        },
        Code::SpineScarfed => Explanation {
            meaning: "The spine is longer than the sheet. Its pieces are joined by scarfs, although keys were asked for.",
            cause: "No place between the slots has room for a key, its shoulders and the cutter.",
            sketch: JOINT,
            remedies: &[
                "scarf it (`joint = \"scarf\"` in [construction.sheet])",
                "use a smaller cutter (`diameter` in [construction.cutter])",
                "set the ribs farther apart",
            ],
            limit: "The sheet's `length` in [construction.sheet]; 5 mm of wood between joint and slot (house rule).",
        },
        Code::SpineUndivided => Explanation {
            meaning: "The spine is longer than the sheet, and no joint of any kind has room between its slots: it cannot be cut from that sheet.",
            cause: "Ribs stand too close together for a joint between their slots.",
            sketch: JOINT,
            remedies: &[
                "use a longer sheet (`length` in [construction.sheet])",
                "set the ribs farther apart",
            ],
            limit: "The sheet's `length` in [construction.sheet]; 5 mm of wood between joint and slot (house rule).",
        },
        _ => Explanation {
            meaning: "Air in one or more bays has no way to the vent: a closed bay swells in the sun and may burst its seams.",
            cause: "Ribs and spine there are too low for an air hole with wood around it.",
            sketch: BAYS,
            remedies: &[
                "file a groove across the rib's edge before gluing",
                "make the air holes smaller (`breather` in [construction.holes])",
                "move the rib there to where the board is thicker",
            ],
            limit: "At least 5 mm of wood round an air hole (common practice, no published source).",
        },
    }
}
