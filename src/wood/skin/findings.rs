//! What a panel will not do, and what to change.

use super::verdict::{Cause, Treatment, WorstCause};
use super::{Face, FlattenError, Panel, SkinError, Strain};
use crate::design::finding::{BoardEnd, Change, Code, Fact, Finding, Part, Place, SkinFault};
use crate::design::{Design, PanelJoint};

/// A share of a panel that a maker may pull down by hand (common practice, no published source).
const SMALL: f64 = 0.01;
/// Most laminations that are offered, and thinnest skin, mm (common practice, no published source).
const LAMINATIONS: f64 = 4.0;
const THINNEST: f64 = 3.0;

/// The finding that a skin which cannot be laid flat is.
pub(super) fn not_flat(face: Face, error: &SkinError) -> Finding {
    let (fault, changes) = match error {
        SkinError::NoSurface { .. } => (
            SkinFault::NoSurface,
            vec![Change::ThinnerSkins, Change::ThickerBoard],
        ),
        SkinError::Flatten { source, .. } => (
            match source {
                FlattenError::Folded { .. } => SkinFault::Folds,
                FlattenError::Unsettled { .. } => SkinFault::Unsettled,
                _ => SkinFault::Triangles,
            },
            vec![Change::NarrowPlanks, Change::GentlerSurface],
        ),
        _ => (SkinFault::Triangles, vec![Change::NarrowPlanks]),
    };
    Finding::new(Code::SkinNotFlat, Part::Skin(face))
        .fact(Fact::Skin(fault))
        .remedies(changes)
}

/// What is over the limits of a soaked panel, and planks that cannot be had.
pub(super) fn panel_findings(design: &Design, panel: &Panel) -> Vec<Finding> {
    let causes = panel.verdict.causes.iter();
    let over = causes.filter(|c| c.treatment > Treatment::Soak);
    let found = over.map(|c| {
        if c.cause.is_bend() {
            bent(design, panel, c)
        } else {
            strained(design, panel, c)
        }
    });
    found.chain(short(design, panel)).collect()
}

/// Where a cause is worst.
fn place(design: &Design, worst: &WorstCause) -> Place {
    let c = &design.construction;
    let [x, y] = worst.place;
    let block = if x < c.tail_block {
        Some(BoardEnd::Tail)
    } else if x > design.length - c.nose_block {
        Some(BoardEnd::Nose)
    } else {
        None
    };
    Place {
        y: Some(y.abs()),
        block,
        ..Place::at(x)
    }
}

fn strained(design: &Design, panel: &Panel, worst: &WorstCause) -> Finding {
    let limits = &design.skins.limits;
    let (code, limit, value): (_, _, fn(&Strain) -> f64) = match worst.cause {
        Cause::StrainAlong => (Code::SkinStrainAlong, limits.strain_along[1], |s| s.along),
        _ => (Code::SkinStrainAcross, limits.strain_across[1], |s| {
            s.across
        }),
    };
    let share = panel.skin.share_over(value, limit);
    let dry = (share < SMALL).then_some(Change::TryPanelDry);
    Finding::new(code, Part::Skin(panel.skin.face))
        .at(place(design, worst))
        .measured(worst.value, limit)
        .fact(Fact::ShareOver(share))
        .remedies(dry)
        .remedies([Change::SplitPanel, Change::LessDoubleCurvature])
}

fn bent(design: &Design, panel: &Panel, worst: &WorstCause) -> Finding {
    let limits = &design.skins.limits;
    let (code, limit) = match worst.cause {
        Cause::BendAlong => (Code::SkinBendAlong, limits.bend_along[1]),
        _ => (Code::SkinBendAcross, limits.bend_across[1]),
    };
    let thickness = panel.skin.thickness;
    let radius = thickness / worst.value;
    let laminations = (thickness / (radius * limit)).ceil();
    let laminate = (laminations <= LAMINATIONS).then_some(Change::LaminateSkin {
        count: laminations as usize,
        thickness: thickness / laminations,
    });
    let thin = (10.0 * radius * limit).floor() / 10.0;
    let thinner = (thin >= THINNEST).then_some(Change::ThinnerSkin(thin));
    Finding::new(code, Part::Skin(panel.skin.face))
        .at(place(design, worst))
        .measured(1.0 / worst.value, 1.0 / limit)
        .fact(Fact::Radius(radius))
        .remedies([Change::RelieveSkin])
        .remedies(laminate)
        .remedies(thinner)
        .remedies([Change::GentlerSurface])
}

fn short(design: &Design, panel: &Panel) -> Option<Finding> {
    let stock = design.skins.plank_length?;
    let shop = &design.shop;
    let scarf = shop.scarf_ratio * panel.skin.thickness;
    let keyed = design.skins.joint == PanelJoint::Key && !panel.cuts.is_empty();
    // Planks short by themselves are no fault of the scarfs.
    let long = panel.planks.iter().filter(|p| p.length() > stock);
    let pieces = long.flat_map(|p| p.pieces(&p.scarfs, scarf));
    let wrong = |piece: &f64| *piece > stock + 1e-6 || *piece < shop.shortest_piece - 1e-6;
    let worst = pieces.filter(wrong).fold(f64::NAN, f64::max);
    let longest = panel.planks.iter().map(|p| p.length()).fold(0.0, f64::max);
    if keyed || longest <= stock || worst.is_nan() {
        return None;
    }
    let limit = if worst > stock {
        stock
    } else {
        shop.shortest_piece
    };
    Some(
        Finding::new(Code::SkinPlanksShort, Part::Skin(panel.skin.face))
            .measured(worst, limit)
            .fact(Fact::LongestPlank(longest))
            .fact(Fact::StockLength(stock))
            .remedies([Change::ShorterPieces, Change::LongerSkinPlanks]),
    )
}
