//! How a skin or a strip swells and shrinks with the air.

use super::{Air, Shrinkage, Species, TimberError, equilibrium_moisture};
use serde::{Deserialize, Serialize};

/// Which way the growth rings lie in the size that moves.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Grain {
    /// The size runs across the rings: width of a quartersawn board, thickness of a flatsawn one.
    Radial,
    /// The size runs along the rings: width of a flatsawn board.
    Tangential,
}

/// What a size does when the air changes.
#[derive(Debug, Clone, Copy, PartialEq, Serialize)]
pub struct Movement {
    /// Moisture content before, percent.
    pub from: f64,
    /// Moisture content after, percent.
    pub to: f64,
    /// Change of the size, mm; positive is swelling.
    pub change: f64,
    /// Whether both moisture contents lie within 6 to 14 %, where the coefficients of Table 13-5 hold; outside, take the change as
    /// a rough one.
    pub in_range: bool,
}

/// Dimensional change coefficient, per percent of moisture content, of a size at about 10 %.
///
/// `C = (S/100)/F ÷ (1 − (S/100)(F − 10)/F)` with shrinkage S percent and fibre saturation point F percent. The relation is our own
/// inference: it gives all fourteen pairs of Handbook Tables 4-3 and 13-5 (GTR-190) that we hold to the five decimals printed, eight of
/// them read in a scan and the others from memory, with F = 30 % for the hardwoods and Sitka spruce, 22 % for the cedars and redwood.
pub fn change_coefficient(shrinkage: Shrinkage, grain: Grain) -> f64 {
    let s = match grain {
        Grain::Radial => shrinkage.radial,
        Grain::Tangential => shrinkage.tangential,
    } / 100.0;
    let f = shrinkage.fibre_saturation;
    s / f / (1.0 - s * (f - 10.0) / f)
}

/// Change of `size` mm when wood at rest in `from` comes to rest in `to`: `ΔD = D · C · (M_to − M_from)` (Handbook, chapter 13, GTR-190).
///
/// Moisture contents above the fibre saturation point count as that point.
///
/// # Errors
///
/// [`TimberError::Missing`] if the species has no shrinkage; [`TimberError::Range`] from [`equilibrium_moisture`].
///
/// ```
/// # use boardwright::design::timber::{Air, Grain, find, movement};
/// // A flatsawn redcedar skin 500 mm wide, glued up at 20 °C and 50 %, taken to a wet beach at 25 °C and 85 %: 9.27 to 17.76 % moisture.
/// let shop = Air { temperature: 20.0, humidity: 0.50 };
/// let beach = Air { temperature: 25.0, humidity: 0.85 };
/// let skin = movement(find("western redcedar")?, 500.0, Grain::Tangential, shop, beach)?;
/// assert!((skin.change - 9.917).abs() < 1e-3);
/// # Ok::<(), boardwright::design::timber::TimberError>(())
/// ```
pub fn movement(
    species: &Species,
    size: f64,
    grain: Grain,
    from: Air,
    to: Air,
) -> Result<Movement, TimberError> {
    let shrinkage = species.shrinkage.ok_or_else(|| TimberError::Missing {
        species: species.name.clone(),
        property: "shrinkage",
    })?;
    let from = equilibrium_moisture(from)?;
    let to = equilibrium_moisture(to)?;
    let held = |m: f64| m.min(shrinkage.fibre_saturation);
    let coefficient = change_coefficient(shrinkage, grain);
    Ok(Movement {
        from,
        to,
        change: size * coefficient * (held(to) - held(from)),
        in_range: [from, to].iter().all(|m| (6.0..=14.0).contains(m)),
    })
}
