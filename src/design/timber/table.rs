//! The species table.
//!
//! Units of the printed tables are kept in the rows below and converted once, so that each number can be held against its page:
//! pounds per square inch for strengths, millions of them for moduli.
//!
//! Paulownia's radial and tangential shrinkage are absent: no source for them was read. Plywood is not in the table.

use super::TimberError;
use super::species::{Basis, Provenance, Shrinkage, Species, Wood};
use std::sync::LazyLock;

/// One pound per square inch, MPa.
const PSI: f64 = 6.894757e-3;

struct Row {
    name: &'static str,
    wood: Wood,
    gravity: (f64, Basis),
    /// Million psi.
    modulus: f64,
    /// psi.
    rupture: f64,
    /// psi.
    shear: Option<f64>,
    /// G/E, Handbook Table 5-1 (GTR-190), the lesser of G_LR/E_L and G_LT/E_L; from memory.
    shear_ratio: Option<f64>,
    /// Radial, tangential, volumetric percent, fibre saturation percent.
    shrinkage: (f64, f64, f64, f64),
    source: &'static str,
    provenance: Provenance,
}

use Basis::{Green, TwelvePercent};
use Provenance::{Memory, Read};
use Wood::{Hardwood, Softwood};

const ROWS: &[Row] = &[
    Row {
        name: "western redcedar",
        wood: Softwood,
        gravity: (0.32, TwelvePercent),
        modulus: 1.11,
        rupture: 7500.0,
        shear: Some(990.0),
        shear_ratio: Some(0.086),
        shrinkage: (2.4, 5.0, 6.8, 22.0),
        source: "Handbook Table 5-3b (GTR-282), Table 4-3 (GTR-190); G/E Table 5-1 from memory",
        provenance: Memory,
    },
    Row {
        name: "western redcedar (canada)",
        wood: Softwood,
        gravity: (0.31, Green),
        modulus: 1.19,
        rupture: 7800.0,
        shear: Some(810.0),
        shear_ratio: Some(0.086),
        shrinkage: (2.4, 5.0, 6.8, 22.0),
        source: "Handbook Table 5-4b (GTR-282), gravity on green volume; Table 4-3 (GTR-190); G/E Table 5-1 from memory",
        provenance: Memory,
    },
    Row {
        name: "northern white-cedar",
        wood: Softwood,
        gravity: (0.31, TwelvePercent),
        modulus: 0.80,
        rupture: 6500.0,
        shear: Some(850.0),
        shear_ratio: Some(0.187),
        shrinkage: (2.2, 4.9, 7.2, 22.0),
        source: "Handbook Table 5-3b (GTR-282), Table 4-3 (GTR-190); G/E Table 5-1 from memory",
        provenance: Memory,
    },
    Row {
        name: "yellow-poplar",
        wood: Hardwood,
        gravity: (0.42, TwelvePercent),
        modulus: 1.58,
        rupture: 10100.0,
        shear: Some(1190.0),
        shear_ratio: Some(0.069),
        shrinkage: (4.6, 8.2, 12.7, 30.0),
        source: "Handbook Table 5-3b (GTR-282), Table 4-3 (GTR-190); G/E Table 5-1 from memory",
        provenance: Memory,
    },
    Row {
        name: "sitka spruce",
        wood: Softwood,
        gravity: (0.40, TwelvePercent),
        modulus: 1.57,
        rupture: 10200.0,
        shear: Some(1150.0),
        shear_ratio: Some(0.061),
        shrinkage: (4.3, 7.5, 11.5, 30.0),
        source: "Handbook Table 5-3b (GTR-282); shrinkage Table 4-3 and G/E Table 5-1 (GTR-190) from memory",
        provenance: Memory,
    },
    Row {
        name: "american basswood",
        wood: Hardwood,
        gravity: (0.37, TwelvePercent),
        modulus: 1.46,
        rupture: 8700.0,
        shear: Some(990.0),
        shear_ratio: Some(0.046),
        shrinkage: (6.6, 9.3, 15.8, 30.0),
        source: "Handbook Table 5-3b (GTR-282), Table 4-3 (GTR-190); G/E Table 5-1 from memory",
        provenance: Memory,
    },
    Row {
        name: "douglas-fir, coast",
        wood: Softwood,
        gravity: (0.48, TwelvePercent),
        modulus: 1.95,
        rupture: 12400.0,
        shear: Some(1130.0),
        shear_ratio: Some(0.064),
        shrinkage: (4.8, 7.6, 12.4, 30.0),
        source: "Handbook Table 5-3b (GTR-282); shrinkage Table 4-3 and G/E Table 5-1 (GTR-190) from memory",
        provenance: Memory,
    },
    Row {
        name: "balsa",
        wood: Hardwood,
        gravity: (0.16, Green),
        modulus: 0.49,
        rupture: 3140.0,
        shear: Some(300.0),
        shear_ratio: Some(0.037),
        shrinkage: (3.0, 7.6, 10.8, 30.0),
        source: "Handbook Table 5-5b (GTR-282), gravity on green volume; shrinkage Table 4-4 and G/E Table 5-1 (GTR-190) from memory",
        provenance: Memory,
    },
];

/// Redwood: from the metric Table 5-3a, so in MPa; name, gravity, MOE, MOR, shear, shrinkage.
type MetricRow = (&'static str, f64, f64, f64, f64, (f64, f64, f64));

const REDWOOD: &[MetricRow] = &[
    (
        "redwood, old growth",
        0.40,
        9200.0,
        69.0,
        6.5,
        (2.6, 4.4, 6.8),
    ),
    (
        "redwood, young growth",
        0.35,
        7600.0,
        54.0,
        7.6,
        (2.2, 4.9, 7.0),
    ),
];

fn shrinkage(
    (radial, tangential, volumetric, fibre_saturation): (f64, f64, f64, f64),
) -> Shrinkage {
    Shrinkage {
        radial,
        tangential,
        volumetric: Some(volumetric),
        fibre_saturation,
    }
}

fn from_row(row: &Row) -> Species {
    Species {
        name: row.name.to_owned(),
        wood: row.wood,
        specific_gravity: row.gravity.0,
        basis: row.gravity.1,
        modulus: row.modulus * 1e6 * PSI,
        centre_loaded: true,
        rupture: row.rupture * PSI,
        shear: row.shear.map(|s| s * PSI),
        shear_ratio: row.shear_ratio,
        shrinkage: Some(shrinkage(row.shrinkage)),
        source: row.source.to_owned(),
        provenance: row.provenance,
    }
}

fn from_metric(&(name, gravity, modulus, rupture, shear, (r, t, v)): &MetricRow) -> Species {
    Species {
        name: name.to_owned(),
        wood: Softwood,
        specific_gravity: gravity,
        basis: TwelvePercent,
        modulus,
        centre_loaded: true,
        rupture,
        shear: Some(shear),
        shear_ratio: Some(0.066),
        shrinkage: Some(shrinkage((r, t, v, 22.0))),
        source: "Handbook Table 5-3a (metric, GTR-190); shear Table 5-3a, shrinkage Table 4-3 and G/E Table 5-1 from memory"
            .to_owned(),
        provenance: Memory,
    }
}

/// Paulownia grown in Turkey: one trial, not the Handbook's.
///
/// Akyildiz & Kol, *Some technological properties and uses of paulownia (Paulownia tomentosa Steud.) wood*, Journal of Environmental
/// Biology 31 (2010) 351–355, abstract: basic density 0.272 g/cm³, bending strength 43.56 N/mm², modulus of elasticity 4281 N/mm². The
/// abstract gives only volumetric shrinkage (7.78 %), so none is kept here; how the modulus was loaded is not said, so it is taken as true.
fn paulownia() -> Species {
    Species {
        name: "paulownia".to_owned(),
        wood: Hardwood,
        specific_gravity: 0.272,
        basis: Green,
        modulus: 4281.32,
        centre_loaded: false,
        rupture: 43.56,
        shear: None,
        shear_ratio: None,
        shrinkage: None,
        source:
            "Akyildiz & Kol, J. Environ. Biol. 31 (2010) 351-355, abstract; one trial in Turkey"
                .to_owned(),
        provenance: Read,
    }
}

/// Okoume, the usual veneer of light marine plywood.
///
/// Chudnoff, *Tropical Timbers of the World*, USDA Agriculture Handbook 607 (1984), as the Forest Products Laboratory's sheet on
/// *Aucoumea klaineana* gives it: basic specific gravity 0.37, air-dry density 28 lb/ft³; at 12 % (2 cm standard) bending strength
/// 12 600 psi, modulus 1.145 million psi; shrinkage radial 4.1, tangential 6.1, volumetric 11.3 %. How the modulus was loaded is not
/// said, so it is taken as true; nor is fibre saturation, so it is the usual 30 %.
fn okoume() -> Species {
    Species {
        name: "okoume".to_owned(),
        wood: Hardwood,
        specific_gravity: 0.37,
        basis: Green,
        modulus: 1.145e6 * PSI,
        centre_loaded: false,
        rupture: 12_600.0 * PSI,
        shear: None,
        shear_ratio: None,
        shrinkage: Some(shrinkage((4.1, 6.1, 11.3, 30.0))),
        source:
            "Chudnoff, Agriculture Handbook 607 (1984), by the Forest Products Laboratory's sheet"
                .to_owned(),
        provenance: Read,
    }
}

static TABLE: LazyLock<Vec<Species>> = LazyLock::new(|| {
    ROWS.iter()
        .map(from_row)
        .chain(REDWOOD.iter().map(from_metric))
        .chain([paulownia(), okoume()])
        .collect()
});

/// Every species of the table.
pub fn table() -> &'static [Species] {
    &TABLE
}

/// The names [`find`] knows.
pub fn names() -> impl Iterator<Item = &'static str> {
    table().iter().map(|s| s.name.as_str())
}

/// The species called `name`; case, spaces and hyphens do not matter.
///
/// # Errors
///
/// [`TimberError::Unknown`], with the name it most resembles if one shares a word with it.
pub fn find(name: &str) -> Result<&'static Species, TimberError> {
    let key = plain(name);
    table()
        .iter()
        .find(|s| plain(&s.name) == key)
        .ok_or_else(|| TimberError::Unknown {
            name: name.to_owned(),
            nearest: nearest(name),
        })
}

fn plain(name: &str) -> String {
    name.chars()
        .filter(|c| c.is_alphanumeric())
        .flat_map(char::to_lowercase)
        .collect()
}

fn nearest(name: &str) -> Option<&'static str> {
    let key = plain(name);
    let words = || name.split(|c: char| !c.is_alphanumeric()).map(plain);
    names()
        .find(|n| !key.is_empty() && plain(n).contains(&key))
        .or_else(|| names().find(|n| words().any(|w| w.len() > 3 && plain(n).contains(&w))))
}
