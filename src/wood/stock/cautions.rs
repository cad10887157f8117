//! What to mind at each machine. Usual practice; machine manuals, local rules and trained people come before it.

use super::machine::Machine;
use serde::Serialize;

/// A caution to print beside a machine.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize)]
#[serde(rename_all = "kebab-case")]
#[non_exhaustive]
pub enum Caution {
    /// Guards, riving knife, push sticks.
    Saw,
    /// Thin strips at the saw.
    ThinStrips,
    /// Router: guard and feed.
    Router,
    /// Planer: short stock.
    ShortStock,
    /// Steam and hot wood.
    Steam,
    /// Dust.
    Dust,
    /// Noise.
    Noise,
    /// Where the last word is.
    Defer,
}

impl Caution {
    /// Those that belong beside `machine`, the gravest first.
    pub fn at(machine: Machine) -> Vec<Self> {
        use Caution::{Defer, Dust, Noise, Router, Saw, ShortStock, Steam, ThinStrips};
        match machine {
            Machine::Dress => vec![ShortStock, Noise, Dust, Defer],
            Machine::Resaw => vec![Saw, Noise, Dust, Defer],
            Machine::Rip => vec![Saw, ThinStrips, Noise, Dust, Defer],
            Machine::SandLeaf | Machine::SandSquare => vec![ShortStock, Dust, Noise, Defer],
            Machine::Soften => vec![Steam, Defer],
            Machine::MouldBead | Machine::MouldCove => vec![Router, ThinStrips, Noise, Dust, Defer],
        }
    }

    /// The caution in words.
    pub fn text(self) -> &'static str {
        match self {
            Self::Saw => {
                "Guard on and riving knife set; featherboards; push sticks for the last of every cut; nobody in line with the blade."
            }
            Self::ThinStrips => {
                "Thin strips whip and are thrown back: hold them down and in with featherboards, support both ends, let no hand pass the \
                 cutter, and cut nothing shorter than the machine's maker allows."
            }
            Self::Router => {
                "Guard on; feed against the cutter's turning, never with it; featherboards over and beside; try each setting on waste."
            }
            Self::ShortStock => {
                "Feed nothing shorter or thinner than the machine's maker allows; use a carrier board for thin boards."
            }
            Self::Steam => {
                "Steam, hot water and hot wood scald: gloves, long sleeves and eye protection; never seal a steam box, and stand aside when it \
                 is opened."
            }
            Self::Dust => {
                "Wood dust harms the lungs, and western redcedar's is a respiratory sensitiser: extract it at the machine and wear a fitted mask."
            }
            Self::Noise => "Wear hearing and eye protection.",
            Self::Defer => {
                "The machine's manual, local rules and trained people come before this sheet."
            }
        }
    }
}
