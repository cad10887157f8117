//! The maker's shop: planks to be had, saws and what each machine takes.

use serde::{Deserialize, Serialize};

/// Planks of one size.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", deny_unknown_fields)]
pub struct Plank {
    /// What the maker calls it.
    pub name: String,
    /// Length as bought, mm.
    pub length: f64,
    /// Width as bought, mm.
    pub width: f64,
    /// Thickness as bought, mm.
    pub thickness: f64,
    /// How many there are; `None` for as many as the merchant has.
    #[serde(default)]
    pub count: Option<u32>,
    /// Price of one, in the maker's money; 0 for planks already on hand.
    #[serde(default)]
    pub price: f64,
    /// Nominal thickness and width in inches, if it is sold by nominal size (a "1 × 6"); board feet are then reckoned on these.
    #[serde(default)]
    pub nominal: Option<[f64; 2]>,
}

/// What each machine takes. All mm; the defaults are common practice, no published source.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", default, deny_unknown_fields)]
pub struct Allowances {
    /// Taken off the thickness of a plank when a face is dressed.
    pub dress_face: f64,
    /// Taken off the width of a plank when an edge is dressed.
    pub dress_edge: f64,
    /// Sanded off a leaf's thickness, both faces together.
    pub sand_leaf: f64,
    /// Sanded off a square starter each way, both faces together.
    pub sand_square: f64,
    /// Taken off a strip's width by the moulding cutters, bead and cove edge together, at the crown and the lips.
    pub mould: f64,
    /// Trimmed off a plank's length, both ends together, for splits and snipe.
    pub ends: f64,
}

impl Default for Allowances {
    fn default() -> Self {
        Self {
            dress_face: 2.0,
            dress_edge: 3.0,
            sand_leaf: 2.0,
            sand_square: 2.0,
            mould: 0.3,
            ends: 50.0,
        }
    }
}

/// Widths of cut, mm. The defaults are common practice, no published source.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", default, deny_unknown_fields)]
pub struct Kerfs {
    /// Of the saw that cuts planks into leaves.
    pub resaw: f64,
    /// Of the saw that rips leaves into strips.
    pub rip: f64,
    /// Of the saw that cuts strips to length.
    pub crosscut: f64,
}

impl Default for Kerfs {
    fn default() -> Self {
        Self {
            resaw: 1.5,
            rip: 2.5,
            crosscut: 3.0,
        }
    }
}

/// What the cutting plan makes least, before waste.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Aim {
    /// Number of planks.
    #[default]
    Planks,
    /// Their price.
    Price,
}

/// When strips are scarfed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Scarfing {
    /// Only when no plank is long enough, or the long ones do not suffice.
    #[default]
    WhenShort,
    /// Whenever shorter planks make a plan that takes less.
    WhenLess,
}

/// Everything about wood and machines that the maker decides.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case", default, deny_unknown_fields)]
pub struct Shop {
    /// Species of the rail, a name of the timber table or one the maker defines.
    pub species: String,
    /// Moisture content the wood is weighed and worked at, percent.
    pub moisture: f64,
    /// Planks to be had.
    pub planks: Vec<Plank>,
    /// Widths of cut.
    pub kerfs: Kerfs,
    /// What each machine takes.
    pub allowances: Allowances,
    /// Strips cut over and above those needed, as a share: 0.1 to 0.2 for breakage, knots and short grain (common practice).
    pub spare: f64,
    /// Shortest offcut worth keeping, mm.
    pub shortest_offcut: f64,
    /// Length of a scarf over the thickness it joins; 8 at least (common in boat-building).
    pub scarf_ratio: f64,
    /// Least distance along the rail between scarfs of neighbouring courses, mm.
    pub stagger: f64,
    /// Shortest piece of a scarfed strip, mm.
    pub shortest_piece: f64,
    /// When strips are scarfed.
    pub scarfing: Scarfing,
    /// What is made least.
    pub aim: Aim,
}

impl Default for Shop {
    fn default() -> Self {
        Self {
            species: "western redcedar".to_owned(),
            moisture: 10.0,
            planks: Vec::new(),
            kerfs: Kerfs::default(),
            allowances: Allowances::default(),
            spare: 0.15,
            shortest_offcut: 600.0,
            scarf_ratio: 8.0,
            stagger: 300.0,
            shortest_piece: 400.0,
            scarfing: Scarfing::WhenShort,
            aim: Aim::Planks,
        }
    }
}
