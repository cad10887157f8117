//! Planks: the faces of their leaves with everything that is cut from them.

use super::label::{path, polyline, text};
use crate::board::Board;
use crate::design::units::{self, list};
use crate::geometry::path::{Path, Point};
use crate::views::drawing::{Align, Drawing, Item, Layer, text_width};
use crate::wood::stock::cutting::{CuttingPlan, LaneCut, LeafCut, PlankCut};
use crate::wood::stock::{Plank, Shop, piece_label};

/// A way of cutting planks, however many are cut that way.
#[derive(Debug, Clone, PartialEq)]
pub struct PlankSheet {
    /// File name stem, such as `plank-1`.
    pub name: String,
    /// What it shows, for an index.
    pub what: String,
    /// For a page: lengths and widths each to a scale of their own.
    pub page: Drawing,
    /// At full size, to lay on a plank or to mark leaves out by.
    pub full: Drawing,
}

/// A drawing for every layout of a plank that the cutting plan has; none without a plan.
pub fn plank_sheets(board: &Board) -> Vec<PlankSheet> {
    let Ok(plan) = &board.rail_wood.cutting else {
        return Vec::new();
    };
    let shop = &board.design.shop;
    let mut groups: Vec<Vec<&PlankCut>> = Vec::new();
    for cut in &plan.planks {
        match groups.iter_mut().find(|g| g.iter().any(|p| alike(p, cut))) {
            Some(group) => group.push(cut),
            None => groups.push(vec![cut]),
        }
    }
    let of = groups.len();
    let sheets = groups.iter().enumerate().filter_map(|(i, cuts)| {
        let first = *cuts.first()?;
        let size = shop.planks.get(first.size)?;
        let count = format!("cut {} like this", cuts.len());
        let title = format!("Plank {} of {of}: {}, {count}", i + 1, size.name);
        let drawn = |view| {
            let layout = Layout {
                board,
                plan,
                shop,
                size,
                cuts,
                part: format!("plank-{}", i + 1),
                view,
            };
            Drawing {
                title: format!("{}: {title}", board.design.name),
                items: layout.items(&title),
            }
        };
        Some(PlankSheet {
            name: format!("plank-{}", i + 1),
            what: format!("{title}; not to scale: use the written sizes; the DXF is at full size"),
            page: drawn(View::page(size.length)),
            full: drawn(View::FULL),
        })
    });
    sheets.collect()
}

/// Whether two planks are cut alike, to a hundredth of a millimetre.
fn alike(a: &PlankCut, b: &PlankCut) -> bool {
    let near = |a: f64, b: f64| (a - b).abs() < 0.01;
    let lanes = |a: &LaneCut, b: &LaneCut| {
        let pairs = a.pieces.iter().zip(&b.pieces);
        a.pieces.len() == b.pieces.len()
            && pairs
                .clone()
                .all(|(a, b)| near(a.from, b.from) && near(a.length, b.length))
    };
    let leaves = |a: &LeafCut, b: &LeafCut| {
        a.section == b.section
            && a.lanes.len() == b.lanes.len()
            && a.lanes.iter().zip(&b.lanes).all(|(a, b)| lanes(a, b))
    };
    a.size == b.size
        && a.leaves.len() == b.leaves.len()
        && a.leaves.iter().zip(&b.leaves).all(|(a, b)| leaves(a, b))
}

/// Scales of a drawing.
#[derive(Debug, Clone, Copy)]
struct View {
    /// Along the plank.
    along: f64,
    /// Across it, and for the end view.
    across: f64,
    /// Height of letters, mm on paper.
    letter: f64,
}

impl View {
    const FULL: Self = Self {
        along: 1.0,
        across: 1.0,
        letter: 5.0,
    };

    /// The least of the usual scales at which a plank is no longer than a page.
    fn page(length: f64) -> Self {
        const PAGE: f64 = 310.0;
        let scales = [5.0, 10.0, 20.0, 50.0, 100.0];
        let by = scales.into_iter().find(|s| length / s <= PAGE);
        Self {
            along: 1.0 / by.unwrap_or(200.0),
            across: 0.5,
            letter: 2.6,
        }
    }

    /// What to say of the scales.
    fn words(self) -> String {
        if self.along == 1.0 {
            "Full size. The lines are for marking out; kerfs lie between them.".to_owned()
        } else {
            format!(
                "Lengths 1:{:.0}, widths 1:{:.0}; not to scale: use the written sizes. The DXF is at full size.",
                1.0 / self.along,
                1.0 / self.across
            )
        }
    }
}

struct Layout<'a> {
    board: &'a Board,
    plan: &'a CuttingPlan,
    shop: &'a Shop,
    size: &'a Plank,
    /// Planks cut alike; the first is drawn.
    cuts: &'a [&'a PlankCut],
    part: String,
    view: View,
}

impl Layout<'_> {
    /// A size to set a machine to, in the maker's unit.
    fn fine(&self, mm: f64) -> String {
        units::fine_size(mm, self.board.design.report)
    }

    /// A length to mark out, in the maker's unit.
    fn place(&self, mm: f64) -> String {
        units::place(mm, self.board.design.report)
    }

    fn items(&self, title: &str) -> Vec<Item> {
        let Some(cut) = self.cuts.first() else {
            return Vec::new();
        };
        let h = self.view.letter;
        let mut items = Vec::new();
        let mut y = 0.0;
        let mut line = |items: &mut Vec<Item>, height: f64, words: String| {
            y -= height * 1.3;
            items.push(text(
                &self.part,
                Point::new(0.0, y),
                height,
                Align::Start,
                words,
            ));
            y -= height * 0.6;
        };
        line(
            &mut items,
            h * 1.4,
            format!("{}. {title}", self.board.design.name),
        );
        line(&mut items, h, self.view.words());
        let k = &self.shop.kerfs;
        line(
            &mut items,
            h,
            format!(
                "Kerfs: resaw {}, rip {}, crosscut {}. Dressed face at the left of the end view, dressed edge below; {} trimmed off each end.",
                self.fine(k.resaw),
                self.fine(k.rip),
                self.fine(k.crosscut),
                self.fine(self.shop.allowances.ends / 2.0)
            ),
        );
        line(
            &mut items,
            h,
            format!(
                "Marks: strip and rail, such as 4 port{}; a spare's number; a part's number from the tail where scarfed, such as 4 port part 2.",
                if self.board.design.construction.starter.laminations > 1 {
                    ", a lamination's number after a point, such as 1.2 port"
                } else {
                    ""
                }
            ),
        );
        let short = "Then comes the length. Where room is short: 4P port, 4S starboard, 4X1 the first spare.";
        line(&mut items, h, short.to_owned());
        let top = y - 4.0 * h;
        let end = self.end_view(cut, Point::new(0.0, top), &mut items);
        let left = end + 6.0 * h;
        let mut top = top;
        let mut whole = Vec::new();
        for (i, leaf) in cut.leaves.iter().enumerate() {
            if leaf.lanes.is_empty() {
                whole.push(i + 1);
            } else {
                top = self.leaf(i, leaf, Point::new(left, top), &mut items) - 4.5 * h;
            }
        }
        if !whole.is_empty() {
            let words = match whole.len() {
                1 => format!("Resawn board {} stays whole.", list(&whole)),
                _ => format!("Resawn boards {} stay whole.", list(&whole)),
            };
            items.push(text(
                &self.part,
                Point::new(left, top),
                h,
                Align::Start,
                words,
            ));
        }
        items
    }

    /// The plank's end with its leaves; gives the right side of it.
    fn end_view(&self, cut: &PlankCut, at: Point, items: &mut Vec<Item>) -> f64 {
        let s = self.view.across;
        let h = self.view.letter;
        let (thick, wide) = (self.size.thickness * s, self.size.width * s);
        let rectangle = |a: Point, b: Point| Path::rectangle(a, b);
        items.push(text(
            &self.part,
            Point::new(at.x, at.y + 0.8 * h),
            h,
            Align::Start,
            "end".to_owned(),
        ));
        items.push(path(
            &self.part,
            Layer::Reference,
            rectangle(
                Point::new(at.x, at.y - wide),
                Point::new(at.x + thick, at.y),
            ),
        ));
        let edge = self.shop.allowances.dress_edge * s;
        let mut x = at.x + self.shop.allowances.dress_face * s;
        for (i, leaf) in cut.leaves.iter().enumerate() {
            let right = x + leaf.thickness * s;
            items.push(path(
                &self.part,
                Layer::Mark,
                rectangle(Point::new(x, at.y - wide + edge), Point::new(right, at.y)),
            ));
            items.push(text(
                &self.part,
                Point::new((x + right) / 2.0, at.y - wide / 2.0),
                h,
                Align::Middle,
                (i + 1).to_string(),
            ));
            x = right + self.shop.kerfs.resaw * s;
        }
        at.x + thick.max(text_width("end", h))
    }

    /// A leaf's face, its upper left corner at `at`; gives its lower side.
    fn leaf(&self, index: usize, leaf: &LeafCut, at: Point, items: &mut Vec<Item>) -> f64 {
        let (sx, sy, h) = (self.view.along, self.view.across, self.view.letter);
        let wide = (self.size.width - self.shop.allowances.dress_edge) * sy;
        let long = self.size.length * sx;
        let bottom = at.y - wide;
        items.push(text(
            &self.part,
            Point::new(at.x, at.y + 0.8 * h),
            h,
            Align::Start,
            format!(
                "Resawn board {}, {} thick as sawn, rips {} wide",
                index + 1,
                self.fine(leaf.thickness),
                self.fine(leaf.lane_width)
            ),
        ));
        items.push(path(
            &self.part,
            Layer::Reference,
            Path::rectangle(Point::new(at.x, bottom), Point::new(at.x + long, at.y)),
        ));
        let start = at.x + self.shop.allowances.ends / 2.0 * sx;
        let step = (leaf.lane_width + self.shop.kerfs.rip) * sy;
        let high = leaf.lane_width * sy;
        for (n, lane) in leaf.lanes.iter().enumerate() {
            let low = bottom + step * n as f64;
            self.lane(index, n, lane, Point::new(start, low), high, items);
        }
        let used = leaf.lanes.len();
        let rest = (leaf.room as usize).saturating_sub(used);
        if rest > 0 {
            let low = bottom + step * used as f64;
            let block = step * rest as f64 - self.shop.kerfs.rip * sy;
            let long = self.cuts.first().map_or(0.0, |c| c.length) * sx;
            items.push(path(
                &self.part,
                Layer::Reference,
                Path::rectangle(
                    Point::new(start, low),
                    Point::new(start + long, low + block),
                ),
            ));
            let rips = if rest == 1 { "rip" } else { "rips" };
            self.words(
                Point::new(start, low),
                [long, block],
                &[format!("{rest} {rips} kept whole")],
                items,
            );
        }
        bottom
    }

    /// A lane with its pieces and offcut, its lower left corner at `at`.
    fn lane(
        &self,
        leaf: usize,
        lane: usize,
        cut: &LaneCut,
        at: Point,
        high: f64,
        items: &mut Vec<Item>,
    ) {
        let sx = self.view.along;
        for (p, piece) in cut.pieces.iter().enumerate() {
            let low = Point::new(at.x + piece.from * sx, at.y);
            let long = piece.length * sx;
            items.push(path(
                &self.part,
                Layer::Mark,
                Path::rectangle(low, Point::new(low.x + long, low.y + high)),
            ));
            // The same place in every plank that is cut alike.
            let alike = self.cuts.iter();
            let alike = alike.filter_map(|c| c.leaves.get(leaf)?.lanes.get(lane)?.pieces.get(p));
            let labels =
                alike.map(|piece| piece_label(self.plan, &self.board.rail_wood.needs, piece));
            let (marks, short): (Vec<String>, Vec<String>) = labels
                .map(|label| (label.to_string(), label.short()))
                .unzip();
            let length = self.place(piece.length);
            let (marks, short) = (marks.join(", "), short.join(" "));
            let words = [
                format!("{marks}: {length}"),
                marks,
                format!("{short}: {length}"),
                short,
            ];
            self.words(low, [long, high], &words, items);
        }
        let from = self.cuts.first().map_or(0.0, |c| c.length) - cut.offcut;
        let long = cut.offcut * sx;
        if long > 0.2 {
            let low = Point::new(at.x + from * sx, at.y);
            items.push(path(
                &self.part,
                Layer::Reference,
                Path::rectangle(low, Point::new(low.x + long, low.y + high)),
            ));
            let fate = if cut.keep { "kept" } else { "waste" };
            let words = [
                format!("{fate} {}", self.place(cut.offcut)),
                fate.to_owned(),
            ];
            let taken = self.words(low, [long, high], &words, items);
            if !cut.keep {
                items.extend(self.hatch(low, [long, high], taken));
            }
        }
    }

    /// Slanted lines over what is waste, but for `taken` in its middle, where words are.
    fn hatch(&self, low: Point, [long, high]: [f64; 2], taken: f64) -> Vec<Item> {
        let middle = low.x + long / 2.0;
        let count = (long / high).ceil().min(400.0) as usize;
        let lines = (0..count).filter_map(|i| {
            let x = low.x + high * i as f64;
            let run = high.min(low.x + long - x);
            let clear = x + run < middle - taken / 2.0 || x > middle + taken / 2.0;
            (run > 0.05 && clear).then(|| {
                polyline(
                    &self.part,
                    Layer::Reference,
                    &[Point::new(x, low.y), Point::new(x + run, low.y + run)],
                )
            })
        });
        lines.collect()
    }

    /// The first of `choices` that fits into a box of `size` at `low`, in its middle; gives the width it takes, 0 when none does.
    fn words(&self, low: Point, size: [f64; 2], choices: &[String], items: &mut Vec<Item>) -> f64 {
        let h = self.view.letter.min(0.7 * size[1]);
        let fits = |words: &&String| text_width(words, h) + h <= size[0];
        let Some(words) = choices.iter().find(fits) else {
            return 0.0;
        };
        items.push(text(
            &self.part,
            Point::new(low.x + size[0] / 2.0, low.y + (size[1] - h) / 2.0),
            h,
            Align::Middle,
            words.clone(),
        ));
        text_width(words, h)
    }
}
