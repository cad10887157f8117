//! Neutral charts: panels one under the other over a common axis.

/// A line through points, with a name for the key.
#[derive(Debug, Clone, PartialEq)]
pub struct Series {
    /// Its name.
    pub name: String,
    /// Points by the axes' units, in rising x.
    pub points: Vec<[f64; 2]>,
    /// Which of the chart's inks it is drawn in, from 0.
    pub ink: usize,
}

/// A level that is not to be passed.
#[derive(Debug, Clone, PartialEq)]
pub struct Level {
    /// Where, in the panel's unit.
    pub value: f64,
    /// What to write beside it.
    pub label: String,
}

/// A point worth reading off.
#[derive(Debug, Clone, PartialEq)]
pub struct Callout {
    /// Where, by the axes' units.
    pub at: [f64; 2],
    /// What to write beside it.
    pub label: String,
    /// The ink of its series.
    pub ink: usize,
}

/// One panel.
#[derive(Debug, Clone, PartialEq)]
pub struct ChartPanel {
    /// What is drawn upward.
    pub title: String,
    /// Its unit; empty for a share.
    pub unit: String,
    /// The lines.
    pub series: Vec<Series>,
    /// Limits; those far outside the lines are written, not drawn.
    pub levels: Vec<Level>,
    /// Points that are labelled.
    pub callouts: Vec<Callout>,
}

/// A place on the common axis.
#[derive(Debug, Clone, PartialEq)]
pub struct ChartMark {
    /// Where.
    pub x: f64,
    /// What to write above it.
    pub label: String,
}

/// A chart.
#[derive(Debug, Clone, PartialEq)]
pub struct Chart {
    /// Its title.
    pub title: String,
    /// A line under the title.
    pub subtitle: String,
    /// Name and unit of the common axis.
    pub axis: String,
    /// From where to where the axis runs.
    pub range: [f64; 2],
    /// Places marked on every panel.
    pub marks: Vec<ChartMark>,
    /// What the marks are.
    pub marks_name: String,
    /// The panels, from the top.
    pub panels: Vec<ChartPanel>,
}

/// Round values from `low` to `high`, about `count` of them, 1, 2 or 5 times a power of ten apart. None where the range is none.
///
/// ```
/// # use boardwright::views::chart::ticks;
/// assert_eq!(ticks(0.0, 1.9, 4), [0.0, 0.5, 1.0, 1.5]);
/// assert_eq!(ticks(-30.0, 30.0, 4), [-20.0, 0.0, 20.0]);
/// ```
pub fn ticks(low: f64, high: f64, count: usize) -> Vec<f64> {
    let rough = (high - low) / count.max(1) as f64;
    if !rough.is_finite() || rough <= 0.0 {
        return Vec::new();
    }
    let power = 10f64.powf(rough.log10().floor());
    let step = [1.0, 2.0, 5.0, 10.0]
        .into_iter()
        .map(|m| m * power)
        .find(|s| *s >= rough * 0.999)
        .unwrap_or(10.0 * power);
    let first = (low / step - 1e-9).ceil() as i64;
    let last = (high / step + 1e-9).floor() as i64;
    (first..=last.min(first + 100))
        .map(|i| i as f64 * step)
        .collect()
}
