//! What can be wrong with a question about wood.

/// Why a property could not be given.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum TimberError {
    /// A number is outside what the equation or the property allows.
    #[error("{what} is {value}, outside {least} to {greatest}; give a value inside")]
    Range {
        /// The quantity, with its unit.
        what: &'static str,
        /// The value given.
        value: f64,
        /// Least value allowed.
        least: f64,
        /// Greatest value allowed.
        greatest: f64,
    },
    /// No species of this name is in the table.
    #[error("no species called \"{name}\" is in the table{}; define it, or choose one of the table's", hint(.nearest))]
    Unknown {
        /// The name asked for.
        name: String,
        /// The nearest name in the table, if one is near.
        nearest: Option<&'static str>,
    },
    /// A species lacks a property that the question needs.
    #[error("{species} has no value for {property}; give one for it, or choose another species")]
    Missing {
        /// The species.
        species: String,
        /// The property that is absent.
        property: &'static str,
    },
}

fn hint(nearest: &Option<&'static str>) -> String {
    nearest.map_or_else(String::new, |n| format!(", did you mean \"{n}\"?"))
}

/// `value` if it is finite and within `least..=greatest`.
pub(super) fn within(
    what: &'static str,
    value: f64,
    least: f64,
    greatest: f64,
) -> Result<f64, TimberError> {
    if value >= least && value <= greatest {
        Ok(value)
    } else {
        Err(TimberError::Range {
            what,
            value,
            least,
            greatest,
        })
    }
}
