//! What makes a drawing unfit for a cutter, found before anything is written.

use std::collections::BTreeMap;

use super::{Drawing, Layer, Shape};
use crate::geometry::path::{GRAIN, Path, Segment};

/// A fault and where it is.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[error("{part}, layer {}, item {item}: {defect}", layer.name())]
pub struct DrawingFault {
    /// Index of the item in the drawing.
    pub item: usize,
    /// The item's part.
    pub part: String,
    /// The item's layer.
    pub layer: Layer,
    /// What is wrong.
    pub defect: Defect,
}

/// What is wrong with an item.
#[derive(Debug, Clone, PartialEq, thiserror::Error)]
#[non_exhaustive]
pub enum Defect {
    /// A coordinate, bulge, height or angle is not a finite number.
    #[error("a number is not finite; look for a division by zero in the part that drew it")]
    NotFinite,
    /// The path has no segments.
    #[error("the path has no segments; leave it out of the drawing")]
    Empty,
    /// A segment goes nowhere.
    #[error("segment {segment} has no length; drop it with `without_empty_segments`")]
    ZeroLength {
        /// Index of the segment.
        segment: usize,
    },
    /// A closed path does not come back.
    #[error("the closed path ends {gap:.4} mm from its start; end its last segment on the start")]
    Gap {
        /// Distance, mm.
        gap: f64,
    },
    /// The same path is drawn already; a cutter would run it twice.
    #[error("the same path is drawn already as item {first}; keep one of them")]
    Duplicate {
        /// Index of the earlier item.
        first: usize,
    },
    /// A stretch of a cut contour is on a cut layer already, in another contour; a cutter would run it twice.
    #[error(
        "segment {segment} is cut already as part of item {first}; put one of the contours on the reference layer"
    )]
    CutTwice {
        /// Index of the segment.
        segment: usize,
        /// Index of the earlier item.
        first: usize,
    },
    /// A text has a height that is not above zero.
    #[error("the text height {height} is not above zero; give it a height in mm")]
    TextHeight {
        /// The height, mm.
        height: f64,
    },
}

impl Drawing {
    /// Every fault, in item order; empty when the drawing is fit to write. Points nearer than
    /// [`GRAIN`] are one point. Paths of one piece count that coincide forwards, backwards or from
    /// another start vertex are duplicates; reference lines are compared only among themselves.
    pub fn check(&self) -> Vec<DrawingFault> {
        let mut faults = Vec::new();
        let mut sound = Vec::new();
        for (index, item) in self.items.iter().enumerate() {
            let before = faults.len();
            let mut report = |defect| {
                faults.push(DrawingFault {
                    item: index,
                    part: item.part.clone(),
                    layer: item.layer,
                    defect,
                });
            };
            match &item.shape {
                Shape::Path(path) => path_defects(path, &mut report),
                Shape::Text(text) => {
                    let numbers = [text.at.x, text.at.y, text.height, text.angle];
                    if numbers.iter().any(|n| !n.is_finite()) {
                        report(Defect::NotFinite);
                    } else if text.height < GRAIN {
                        report(Defect::TextHeight {
                            height: text.height,
                        });
                    }
                }
            }
            if let (true, Shape::Path(path)) = (faults.len() == before, &item.shape) {
                sound.push((index, item.layer == Layer::Reference, path));
            }
        }
        for (later, first) in duplicates(&sound) {
            let item = &self.items[later];
            faults.push(DrawingFault {
                item: later,
                part: item.part.clone(),
                layer: item.layer,
                defect: Defect::Duplicate { first },
            });
        }
        // A whole repeat is told as such.
        let repeated: Vec<usize> = faults.iter().map(|f| f.item).collect();
        for (later, segment, first) in self.cut_twice() {
            if !repeated.contains(&later) {
                let item = &self.items[later];
                faults.push(DrawingFault {
                    item: later,
                    part: item.part.clone(),
                    layer: item.layer,
                    defect: Defect::CutTwice { segment, first },
                });
            }
        }
        faults.sort_by_key(|fault| fault.item);
        faults
    }

    /// Contours on cut layers with a segment that an earlier one has too, once a contour: (item, segment, earlier item).
    fn cut_twice(&self) -> Vec<(usize, usize, usize)> {
        let grains = |p: super::Point| [p.x, p.y].map(|v| (v / GRAIN).round() as i64);
        let mut seen: BTreeMap<([[i64; 2]; 2], i64), usize> = BTreeMap::new();
        let mut found: Vec<(usize, usize, usize)> = Vec::new();
        for (index, item) in self.items.iter().enumerate() {
            let Shape::Path(path) = &item.shape else {
                continue;
            };
            if !matches!(
                item.layer,
                Layer::InsideCut | Layer::Slot | Layer::OutsideCut
            ) {
                continue;
            }
            for (k, (from, segment)) in path.pieces().enumerate() {
                let bulge = match *segment {
                    Segment::Line { .. } => 0.0,
                    Segment::Arc { bulge, .. } => bulge,
                    Segment::Cubic { .. } => continue,
                };
                let (a, b) = (grains(from), grains(segment.to()));
                // Whichever way it is travelled.
                let (ends, bulge) = if a <= b {
                    ([a, b], bulge)
                } else {
                    ([b, a], -bulge)
                };
                let key = (ends, (bulge / 1e-6).round() as i64);
                let first = *seen.entry(key).or_insert(index);
                if first != index && found.last().is_none_or(|f| f.0 != index) {
                    found.push((index, k, first));
                }
            }
        }
        found
    }

    /// The drawing without segments that go nowhere and without paths that had no others.
    pub fn without_empty_segments(&self) -> Self {
        let items = self
            .items
            .iter()
            .filter_map(|item| {
                let mut item = item.clone();
                if let Shape::Path(path) = &mut item.shape {
                    *path = path.without_empty_segments();
                    if path.segments.is_empty() {
                        return None;
                    }
                }
                Some(item)
            })
            .collect();
        Self {
            title: self.title.clone(),
            items,
        }
    }
}

fn path_defects(path: &Path, report: &mut impl FnMut(Defect)) {
    let start_finite = path.start.x.is_finite() && path.start.y.is_finite();
    if !start_finite || path.segments.iter().any(|s| !s.is_finite()) {
        report(Defect::NotFinite);
        return;
    }
    if path.segments.is_empty() {
        report(Defect::Empty);
    }
    for (segment, (from, piece)) in path.pieces().enumerate() {
        if piece.is_empty(from, GRAIN) {
            report(Defect::ZeroLength { segment });
        }
    }
    let gap = (path.end() - path.start).norm();
    if path.closed && gap >= GRAIN {
        report(Defect::Gap { gap });
    }
}

/// Pairs of (later, earlier) item indices whose paths coincide.
fn duplicates(paths: &[(usize, bool, &Path)]) -> Vec<(usize, usize)> {
    let mut order: Vec<_> = paths
        .iter()
        .map(|&(index, reference, path)| {
            let left = path
                .segments
                .iter()
                .map(|s| s.to().x)
                .fold(path.start.x, f64::min);
            (
                (reference, path.closed, path.segments.len()),
                left,
                index,
                path,
            )
        })
        .collect();
    order.sort_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)).then(a.2.cmp(&b.2)));
    let mut found: Vec<(usize, usize)> = Vec::new();
    for (i, a) in order.iter().enumerate() {
        let rivals = order[i + 1..]
            .iter()
            .take_while(|b| b.0 == a.0 && b.1 - a.1 < GRAIN);
        for b in rivals {
            let pair = (a.2.max(b.2), a.2.min(b.2));
            // One report for each repeat, however many earlier copies there are.
            if !found.iter().any(|f| f.0 == pair.0) && coincide(a.3, b.3) {
                found.push(pair);
            }
        }
    }
    found
}

/// Whether two paths of equal length and closedness are one, forwards or backwards, from any vertex.
fn coincide(a: &Path, b: &Path) -> bool {
    let back = b.reversed();
    let count = a.segments.len();
    let offsets = if a.closed { count } else { 1 };
    [b, &back].into_iter().any(|b| {
        let pieces: Vec<_> = b.pieces().collect();
        (0..offsets).any(|offset| {
            a.pieces().enumerate().all(|(i, (from, piece))| {
                let (other_from, other) = pieces[(i + offset) % count];
                (from - other_from).norm() < GRAIN && same_piece(piece, other)
            })
        })
    })
}

fn same_piece(a: &Segment, b: &Segment) -> bool {
    use crate::geometry::path::Segment::{Arc, Cubic, Line};
    let near = |p: super::Point, q: super::Point| (p - q).norm() < GRAIN;
    match (*a, *b) {
        (Line { to: p }, Line { to: q }) => near(p, q),
        (Arc { to: p, bulge: g }, Arc { to: q, bulge: h }) => near(p, q) && (g - h).abs() < 1e-6,
        (
            Cubic { c1, c2, to },
            Cubic {
                c1: d1,
                c2: d2,
                to: end,
            },
        ) => near(c1, d1) && near(c2, d2) && near(to, end),
        _ => false,
    }
}

#[cfg(test)]
mod tests {
    use super::super::{Item, Point};
    use super::*;

    fn drawing(paths: Vec<Path>) -> Drawing {
        Drawing {
            title: "t".into(),
            items: paths
                .into_iter()
                .map(|path| Item {
                    part: "rib-01".into(),
                    layer: Layer::OutsideCut,
                    shape: Shape::Path(path),
                })
                .collect(),
        }
    }

    fn defects(paths: Vec<Path>) -> Vec<Defect> {
        drawing(paths)
            .check()
            .into_iter()
            .map(|f| f.defect)
            .collect()
    }

    fn outline() -> Path {
        let mut path = Path::rectangle(Point::zeros(), Point::new(30.0, 20.0));
        path.segments[1] = Segment::Arc {
            to: Point::new(30.0, 20.0),
            bulge: 0.5,
        };
        path
    }

    #[test]
    fn a_sound_drawing_has_no_faults() {
        assert_eq!(
            defects(vec![outline(), Path::circle(Point::new(9.0, 9.0), 3.0)]),
            vec![]
        );
    }

    #[test]
    fn each_fault_is_found() {
        let mut nan = outline();
        nan.segments[0] = Segment::Line {
            to: Point::new(f64::NAN, 0.0),
        };
        assert_eq!(defects(vec![nan]), vec![Defect::NotFinite]);

        let mut stuck = outline();
        stuck.segments.insert(0, Segment::Line { to: stuck.start });
        assert_eq!(
            defects(vec![stuck.clone()]),
            vec![Defect::ZeroLength { segment: 0 }]
        );
        assert_eq!(
            drawing(vec![stuck]).without_empty_segments().check(),
            vec![]
        );

        let mut open = outline();
        open.segments.pop();
        assert!(matches!(defects(vec![open])[..], [Defect::Gap { gap }] if gap == 20.0));
    }

    /// A whole and its piece: no path is repeated, but most of one is cut twice.
    #[test]
    fn a_stretch_that_two_contours_share_is_found() {
        let whole = outline();
        let mut piece = Path::polyline(
            &[
                Point::new(0.0, 20.0),
                Point::zeros(),
                Point::new(20.0, 0.0),
                Point::new(20.0, 20.0),
            ],
            true,
        );
        assert_eq!(
            defects(vec![whole.clone(), piece.clone()]),
            vec![Defect::CutTwice {
                segment: 0,
                first: 0
            }]
        );
        // Backwards too; and not on the reference layer.
        piece = piece.reversed();
        let found = defects(vec![whole.clone(), piece.clone()]);
        assert!(
            matches!(found[..], [Defect::CutTwice { first: 0, .. }]),
            "{found:?}"
        );
        let mut drawing = drawing(vec![whole, piece]);
        drawing.items[0].layer = Layer::Reference;
        assert_eq!(drawing.check(), vec![]);
    }

    #[test]
    fn duplicates_are_found_backwards_and_from_every_vertex() {
        let path = outline();
        for offset in 0..path.segments.len() {
            let mut turned = path.clone();
            turned.segments.rotate_left(offset);
            turned.start = turned.end();
            for copy in [turned.reversed(), turned] {
                assert_eq!(
                    defects(vec![path.clone(), copy]),
                    vec![Defect::Duplicate { first: 0 }]
                );
            }
        }
    }

    #[test]
    fn a_shifted_or_differently_bulged_copy_is_no_duplicate() {
        let mut flat = outline();
        flat.segments[1] = Segment::Arc {
            to: Point::new(30.0, 20.0),
            bulge: -0.5,
        };
        let shifted = outline().transform(&crate::geometry::path::Placement::shift(0.0, 0.01));
        // It is no repeat, but its three straight sides are cut twice.
        let twice = Defect::CutTwice {
            segment: 0,
            first: 0,
        };
        assert_eq!(defects(vec![outline(), flat, shifted]), vec![twice]);
    }

    #[test]
    fn a_reference_line_may_lie_on_a_cut() {
        let mut both = drawing(vec![outline(), outline()]);
        both.items[1].layer = Layer::Reference;
        assert_eq!(both.check(), vec![]);
    }
}
