//! Maps of the strain in a skin's sheet.

use std::cmp::Ordering;

use crate::board::Board;
use crate::design::units;
use crate::geometry::curve::Vector;
use crate::geometry::path::Point;
use crate::views::drawing::{Band, Shading, diverging};
use crate::wood::skin::{Panel, Strain};

/// A map and the name of the file it goes into, without an ending.
#[derive(Debug, Clone, PartialEq)]
pub struct StrainMap {
    /// File name stem, such as `bottom-strain-along`.
    pub name: String,
    /// What the map shows, for an index.
    pub what: String,
    /// The map.
    pub shading: Shading,
}

/// Bands wanted on each side of zero.
const SIDE: f64 = 7.0;

/// Strain along and across the board of every panel, on its flat image.
pub fn strain_maps(board: &Board) -> Vec<StrainMap> {
    let panels = board.panels.panels.iter();
    panels
        .flat_map(|panel| {
            let greatest = panel.greatest;
            let limits = board.design.skins.limits;
            [
                map(
                    board,
                    panel,
                    "along",
                    |s| s.along,
                    greatest.map(|g| g.along),
                    limits.strain_along,
                ),
                map(
                    board,
                    panel,
                    "across",
                    |s| s.across,
                    greatest.map(|g| g.across),
                    limits.strain_across,
                ),
            ]
        })
        .collect()
}

fn map(
    board: &Board,
    panel: &Panel,
    way: &str,
    value: fn(&Strain) -> f64,
    greatest: Option<Strain>,
    limits: [f64; 2],
) -> StrainMap {
    let (skin, face) = (&panel.skin, panel.skin.face.name());
    let most = greatest.map_or(0.0, |s| value(&s).abs());
    let step = nice(most / SIDE);
    let side = (most / step - 0.5).ceil().clamp(1.0, 20.0) as usize;
    let band = |strain: f64| {
        let k = (strain / step).round().clamp(-(side as f64), side as f64);
        (k + side as f64) as usize
    };
    let mut lines = vec![mirrored(&skin.contour()), mirrored(&skin.trim_line())];
    lines.extend(board.ribs.iter().map(|rib| skin.station_line(rib.x)));
    let [tail, nose] = skin.centre_line();
    lines.push(vec![Point::new(tail, 0.0), Point::new(nose, 0.0)]);
    lines.retain(|line| line.len() > 1);
    let mut words = vec![format!(
        "{}: {face} skin, strain {way} the board, percent; red is stretched, blue shortened. Nose to the right.",
        board.design.name
    )];
    if let Some(s) = greatest {
        let unit = board.design.report;
        words.push(format!(
            "Greatest {:+.3} %, in the ring: {} from the tail, {} off the centreline. Limit dry {:.2} %, limit soaked {:.2} %.",
            100.0 * value(&s),
            units::size(s.place[0], unit),
            units::size(s.place[1].abs(), unit),
            100.0 * limits[0],
            100.0 * limits[1]
        ));
    }
    let mark = greatest.and_then(|s| skin.flat_of(s.place[0], s.place[1]));
    StrainMap {
        name: format!("{face}-strain-{way}"),
        what: format!("{face} skin: strain {way} the board"),
        shading: Shading {
            title: format!("{}: {face} skin, strain {way}", board.design.name),
            bands: bands(side, step),
            areas: areas(panel, value, band),
            lines,
            mark,
            words,
        },
    }
}

fn bands(side: usize, step: f64) -> Vec<Band> {
    let percent = 100.0 * step;
    let decimals = (1.0 - (percent / 2.0).log10().floor()).clamp(1.0, 6.0) as usize;
    let colours = diverging(side).into_iter().enumerate();
    colours
        .map(|(i, colour)| {
            let middle = percent * (i as f64 - side as f64);
            let (from, to) = (middle - percent / 2.0, middle + percent / 2.0);
            // Each band is named by its bound away from zero, the middle one by both.
            Band {
                colour,
                label: match i.cmp(&side) {
                    Ordering::Less => format!("{from:+.decimals$}"),
                    Ordering::Equal => format!("±{to:.decimals$}"),
                    Ordering::Greater => format!("{to:+.decimals$}"),
                },
            }
        })
        .collect()
}

/// The grid's cells in the flat, runs of one band across the panel joined. Strain goes from triangles to their corners and back to
/// the cells, by area, which takes out what the diagonals of the grid put in.
fn areas(
    panel: &Panel,
    value: fn(&Strain) -> f64,
    band: impl Fn(f64) -> usize,
) -> Vec<(usize, Vec<Point>)> {
    let skin = &panel.skin;
    let mut corners = vec![(0.0, 0.0); skin.points.len()];
    for (triangle, strain) in skin.triangles.iter().zip(&skin.strains) {
        for &corner in triangle {
            if let Some(sum) = corners.get_mut(corner as usize) {
                sum.0 += value(strain) * strain.size;
                sum.1 += strain.size;
            }
        }
    }
    let corner = |i: usize, j: usize| {
        let (sum, weight) = corners[i * skin.columns + j];
        sum / weight
    };
    let flat = |i: usize, j: usize| skin.flat[i * skin.columns + j];
    let cells = skin.columns - 1;
    let mut out = Vec::new();
    for i in 0..skin.rows.len() - 1 {
        let row: Vec<usize> = (0..cells)
            .map(|j| {
                let ends = [(i, j), (i, j + 1), (i + 1, j), (i + 1, j + 1)];
                band(ends.iter().map(|&(i, j)| corner(i, j)).sum::<f64>() / 4.0)
            })
            .collect();
        let mut start = 0;
        for run in row.chunk_by(|a, b| a == b) {
            let end = start + run.len();
            let mut polygon: Vec<Vector<2>> = (start..=end).map(|j| flat(i, j)).collect();
            polygon.extend((start..=end).rev().map(|j| flat(i + 1, j)));
            out.push((row[start], polygon.to_vec()));
            start = end;
        }
    }
    out
}

/// The round number, 1, 2 or 5 times a power of ten, next above.
fn nice(value: f64) -> f64 {
    if value.is_nan() || value <= 1e-9 {
        return 1e-9;
    }
    let power = 10f64.powf(value.log10().floor());
    let steps = [1.0, 2.0, 5.0, 10.0];
    let fits = steps
        .into_iter()
        .find(|s| s * power >= value * (1.0 - 1e-9));
    fits.unwrap_or(10.0) * power
}

/// A starboard line and its mirror image, as one.
fn mirrored(line: &[Vector<2>]) -> Vec<Point> {
    let mut out = line.to_vec();
    out.extend(line.iter().rev().map(|p| Point::new(p.x, -p.y)));
    out
}

#[cfg(test)]
mod tests {
    use super::nice;

    #[test]
    fn round_numbers() {
        for (value, expected) in [(0.11, 0.2), (0.2, 0.2), (0.003, 0.005), (7.0, 10.0)] {
            assert!((nice(value) / expected - 1.0).abs() < 1e-12, "{value}");
        }
    }
}
