//! Wood: what a species weighs, how far it bends, and how it moves with the air.
//!
//! Lengths are millimetres, stresses and moduli megapascals (N/mm²), densities kg/m³, temperatures degrees Celsius, relative
//! humidity a fraction from 0 to 1, moisture content percent of ovendry mass.
//!
//! *Handbook* below means *Wood Handbook: Wood as an Engineering Material*, USDA Forest Products Laboratory, General Technical Report
//! FPL-GTR-190 (2010) or FPL-GTR-282 (2021); each value names its table and edition, or says that it is from memory. All values are
//! means of clear, straight-grained specimens: no board is bought with a promise of them.

mod bending;
mod density;
mod error;
mod moisture;
mod shrink;
mod species;
mod table;
mod torsion;
mod utilisation;

pub use bending::{BendKind, BendLimits, Limits, SOFTENED, curvature_factor, passing, strain};
pub use density::{board_density, green_to_moisture};
pub use error::TimberError;
pub use moisture::{Air, equilibrium_moisture};
pub use shrink::{Grain, Movement, change_coefficient, movement};
pub use species::{Basis, Provenance, Shrinkage, Species, Wood};
pub use table::{find, names, table};
pub use torsion::{TorsionBar, torsion_bar, twist_strain};
pub use utilisation::Utilisation;
