//! From specific gravity to the mass of a board.

/// Density of water that specific gravities refer to, kg/m³.
const WATER: f64 = 1000.0;

/// Density in kg/m³ of wood of specific gravity `gravity` on its volume at `moisture` percent:
/// `ρ = 1000 · G · (1 + M/100)` (Handbook, chapter 4, GTR-190 and GTR-282).
///
/// ```
/// # use boardwright::design::timber::board_density;
/// assert!((board_density(0.4, 12.0) - 448.0).abs() < 1e-9); // the handbook's example, 27.97 lb/ft³
/// ```
pub fn board_density(gravity: f64, moisture: f64) -> f64 {
    WATER * gravity * (1.0 + moisture / 100.0)
}

/// Specific gravity on the volume at `moisture` percent from the basic one on green volume:
/// `G_x = G_b / (1 − 0.265 · G_b · (1 − x/30))`; at 30 % and above the volume is the green one
/// (Handbook, GTR-190, chapter 4; formula from memory).
pub fn green_to_moisture(basic: f64, moisture: f64) -> f64 {
    basic / (1.0 - 0.265 * basic * (1.0 - moisture.clamp(0.0, 30.0) / 30.0))
}
