//! A board as the files a maker works from, in memory: the same board gives the same bytes.
//!
//! In: a [`Board`] and its [`Report`]. Out: a list of files, each with what it is for: pages, drawings, meshes, tables, and a manifest. File formats
//! are in [`export`], one a file, and know nothing of boards.
//!
//! Start with [`files`].

mod cautions;
mod error;
pub mod export;
mod gate;
mod html;
mod index;
mod index_mass;
mod index_skins;
mod manifest;
mod milling;
mod preview;
mod wood;

pub use cautions::CAUTIONS;
pub use error::OutputError;
pub use manifest::{MANIFEST, Manifest, ManifestEntry};
pub use preview::preview;

use crate::board::Board;
use crate::output::export::{chart, csv, dxf, json, stl, svg, svg_shading};
use crate::views::report::{Report, strip_charts, tables};
use crate::views::sheets::{plank_sheets, sheets, strain_maps};
use crate::views::solids::{
    MESH_TOLERANCE, bed_solids, block_solids, frame_preview, pad_solids, shell_mesh, strip_solids,
};

/// A file to be written.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct OutFile {
    /// Its path below the board's folder, with `/` between names.
    pub path: String,
    /// What it is, for an index.
    pub what: String,
    /// Its content.
    pub bytes: Vec<u8>,
}

/// What to write besides the usual.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct OutputOptions {
    /// Whether every drawing is also written as DXF R12, for old controllers.
    pub r12: bool,
}

/// Name of the index.
pub const INDEX: &str = "index.html";

/// Every file of `board`, whose report is given: drawings, meshes, tables, the report, the index and, last, the manifest.
///
/// # Errors
///
/// The first part that cannot be drawn or written; then nothing is given.
///
/// ```
/// use boardwright::{board::Board, design, output, views::report::report};
///
/// let board = Board::new(design::parse(design::starter(), "board.toml")?)?;
/// let files = output::files(&board, &report(&board), &output::OutputOptions::default())?;
/// assert!(files.iter().any(|file| file.path == "dxf/spine.dxf"));
/// # Ok::<(), Box<dyn std::error::Error>>(())
/// ```
pub fn files(
    board: &Board,
    report: &Report,
    options: &OutputOptions,
) -> Result<Vec<OutFile>, OutputError> {
    let sheets = sheets(board)?;
    let mut files = Vec::new();
    let mut add = |path: String, what: &str, bytes: Vec<u8>| {
        files.push(OutFile {
            path,
            what: what.to_owned(),
            bytes,
        });
    };
    let usual = dxf::DxfOptions::default();
    let old = ("dxf-r12", dxf::DxfVersion::R12);
    let all_versions = [("dxf", dxf::DxfVersion::R2000), old];
    let versions = &all_versions[..if options.r12 { 2 } else { 1 }];
    for sheet in &sheets {
        let (name, what) = (&sheet.name, &sheet.what);
        let text = svg::write(&sheet.drawing, &svg::SvgOptions::default())?;
        add(format!("svg/{name}.svg"), what, text.into_bytes());
        for &(folder, version) in versions {
            let text = dxf::write(&sheet.drawing, &dxf::DxfOptions { version, ..usual })?;
            add(format!("{folder}/{name}.dxf"), what, text.into_bytes());
        }
    }
    for map in strain_maps(board) {
        let text = svg_shading::write(&map.shading)?;
        let path = format!("maps/{}.svg", map.name);
        add(path, &map.what, text.into_bytes());
    }
    let planks = plank_sheets(board);
    for sheet in &planks {
        let (name, what) = (&sheet.name, &sheet.what);
        let text = svg::write(&sheet.page, &svg::SvgOptions::default())?;
        add(format!("svg/{name}.svg"), what, text.into_bytes());
        for &(folder, version) in versions {
            let text = dxf::write(&sheet.full, &dxf::DxfOptions { version, ..usual })?;
            add(format!("{folder}/{name}.dxf"), what, text.into_bytes());
        }
    }
    let charts = strip_charts(board);
    for named in &charts {
        let text = chart::write(&named.chart)?;
        add(
            format!("charts/{}.svg", named.name),
            &named.what,
            text.into_bytes(),
        );
    }
    let title = &board.design.name;
    let shell = [shell_mesh(&board.shell, MESH_TOLERANCE)?];
    let what = format!("the finished shell, within {MESH_TOLERANCE} mm");
    add("stl/shell.stl".into(), &what, stl::write(&shell, title)?);
    let frame = frame_preview(board)?;
    let what = "the frame with slices of the rail's strips, to look at";
    add(
        "stl/frame-preview.stl".into(),
        what,
        stl::write(&frame, title)?,
    );
    let strips = strip_solids(board)?;
    let what = "every strip of both rails before planing";
    add(
        "stl/rail-strips.stl".into(),
        what,
        stl::write(&strips, title)?,
    );
    let blocks = block_solids(board)?;
    if !blocks.is_empty() {
        let what = "the end blocks, shaped";
        add("stl/blocks.stl".into(), what, stl::write(&blocks, title)?);
    }
    let pads = pad_solids(board)?;
    if !pads.is_empty() {
        let what = "the pads of fins, leash plug and vent in place";
        add("stl/pads.stl".into(), what, stl::write(&pads, title)?);
    }
    let bed = bed_solids(board)?;
    if !bed.is_empty() {
        let what = "the building bed's cradles under the board";
        add("stl/bed.stl".into(), what, stl::write(&bed, title)?);
    }
    for named in tables(board, report) {
        let (name, what) = (named.name, &named.table.title);
        let text = csv::write(&named.table)?;
        add(format!("tables/{name}.csv"), what, text.into_bytes());
        let text = json::write(&named.table)?;
        add(format!("tables/{name}.json"), what, text.into_bytes());
    }
    let html = milling::page(board, report, &planks);
    let what = "milling sheets with cautions, cutting plan and strips: print this for the shop";
    add(milling::PAGE.into(), what, html.into_bytes());
    let text = format!("{:#}\n", report.json()?);
    let what = "measures, frame, rail and findings, for programs";
    add("board.json".into(), what, text.into_bytes());
    let html = index::page(board, report, &sheets, &files);
    files.push(OutFile {
        path: INDEX.into(),
        what: "this index".into(),
        bytes: html.into_bytes(),
    });
    gate::check(&board.design, &files)?;
    files.push(Manifest::new(title, &files).file()?);
    Ok(files)
}
