//! The skins: what they are, and how hard they are strained and bent.

use super::attachments::Attachments;
use super::text::{capital, counted, fine, size};
use crate::design::units::Unit;
use crate::views::document::{Block, Image, Picture, Prose, Section, Width};
use crate::views::report::{Report, SkinReport, SkinStrain};
use crate::views::table::{Cell, Quantity, Table};
use crate::wood::skin::{Cause, Treatment};

/// Radius over thickness beyond which a skin is called flat.
const FLAT: f64 = 9999.0;

/// The section; with attachments it shows the maps of strain.
pub(super) fn skins(report: &Report, attached: Option<&Attachments<'_>>) -> Section {
    let unit = report.report;
    let mut blocks = Vec::new();
    for skin in &report.skins.skins {
        blocks.push(Block::text(line(skin, unit)));
        if !skin.strains.is_empty() {
            blocks.push(Block::Table(findings(skin)));
        }
        if skin.treatment == Treatment::Soak {
            blocks.push(Block::text(skin.treatment.sentence()));
        }
    }
    blocks.push(Block::small(
        "Strain is how far the flat sheet must stretch (+) or shrink (-) to take the shape; a radius is that of the bend, in times the \
         thickness (×). Along and across are meant by the board. Try an offcut first: wood differs.",
    ));
    let pictures: Vec<Picture> = attached
        .iter()
        .flat_map(|a| a.maps)
        .map(|map| Picture {
            image: Image::Map(map.shading.clone()),
            width: Width::Full,
            caption: Prose::from(format!("{} ", map.what))
                .link("SVG", format!("maps/{}.svg", map.name)),
        })
        .collect();
    if !pictures.is_empty() {
        blocks.push(Block::Pictures(pictures));
    }
    Section::new("Skins", blocks)
        .with_aside("strain of the flat sheet and radius of its bends, at worst")
}

/// What a skin is, in a line.
fn line(skin: &SkinReport, unit: Unit) -> Prose {
    let scarfs: usize = skin.planks.iter().map(|p| p.scarfs.len()).sum();
    let mut line = format!(
        ": {} of {}, flat {} by {}, {}",
        fine(skin.thickness, unit),
        skin.species,
        size(skin.length, unit),
        size(skin.width, unit),
        counted(skin.planks.len(), "plank", "planks")
    );
    if scarfs > 0 {
        line.push_str(&format!(", {}", counted(scarfs, "scarf", "scarfs")));
    }
    if skin.pieces > 1 {
        line.push_str(&format!(", {} pieces", skin.pieces));
    }
    Prose::default().strong(capital(skin.face.name())).and(line)
}

fn findings(skin: &SkinReport) -> Table {
    let mut table = Table::with_columns(&[
        "",
        "worst",
        "limit dry",
        "limit soaked",
        "from the tail",
        "off centre",
        "what to do",
    ]);
    table.rows.extend(skin.strains.iter().map(|f| {
        let [value, dry, soaked] = values(f);
        vec![
            match f.cause {
                Cause::StrainAlong => "strain along",
                Cause::StrainAcross => "strain across",
                Cause::BendAlong => "radius along",
                Cause::BendAcross => "radius across",
            }
            .into(),
            value,
            dry,
            soaked,
            Quantity::Size(f.x).into(),
            if f.off < 1.0 {
                "centre".into()
            } else {
                Quantity::Size(f.off).into()
            },
            f.treatment.name().into(),
        ]
    }));
    table
}

/// The value and both limits.
fn values(f: &SkinStrain) -> [Cell; 3] {
    if f.cause.is_bend() {
        [f.value, f.dry, f.soaked].map(|v| {
            if v > FLAT {
                "flat".into()
            } else {
                Quantity::Times(v).into()
            }
        })
    } else {
        [
            Quantity::Signed(f.value, 3).into(),
            Quantity::Percent(f.dry, 2).into(),
            Quantity::Percent(f.soaked, 2).into(),
        ]
    }
}
