//! Water.

/// Standard acceleration of gravity, m/s², exact (3rd CGPM, 1901).
pub const GRAVITY: f64 = 9.806_65;

/// Which water the board floats in.
#[derive(Debug, Clone, Copy, PartialEq, serde::Serialize)]
#[serde(rename_all = "lowercase")]
pub enum Water {
    /// Sea water of practical salinity 35 at 15 °C and sea level: 1025.976 kg/m³ (TEOS-10 by its own library gsw 3.6, absolute
    /// salinity 35.165 g/kg).
    Sea,
    /// Fresh water at 15 °C and sea level: 999.103 kg/m³ (the same).
    Fresh,
    /// Any other density, kg/m³.
    Density(f64),
}

impl Water {
    /// Density, kg/m³.
    pub fn density(self) -> f64 {
        match self {
            Self::Sea => 1025.9760,
            Self::Fresh => 999.1026,
            Self::Density(density) => density,
        }
    }
}
