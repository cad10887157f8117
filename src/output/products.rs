//! What is written of a board: one product a line, in the order of the files.

use super::export::{chart, csv, dxf, html, json, stl, svg, svg_shading};
use super::{OutFile, OutputError, OutputOptions};
use crate::board::Board;
use crate::geometry::mesh::Mesh;
use crate::views::document::FileEntry;
use crate::views::drawing::Drawing;
use crate::views::pages::{self, Attachments, FileGroup};
use crate::views::report::{NamedChart, Report, strip_charts, tables};
use crate::views::sheets::{PlankSheet, Sheet, StrainMap, plank_sheets, sheets, strain_maps};
use crate::views::solids::{
    MESH_TOLERANCE, bed_solids, block_solids, frame_preview, pad_solids, shell_mesh, strip_solids,
};

/// Something that is written of a board.
pub(super) struct Product {
    /// What it is, for the index.
    pub what: &'static str,
    /// Makes its files; none where the board has no such thing.
    pub make: fn(&Context<'_>) -> Result<Vec<OutFile>, OutputError>,
}

/// Every product. The index comes last, for it lists the files of those before it.
pub(super) const PRODUCTS: [Product; 14] = [
    product("templates at full size, SVG and DXF", templates),
    product("maps of the strain in the skins", maps),
    product("planks with their cuts, SVG and DXF", planks),
    product("bend and twist along each strip", charts),
    product("the finished shell as a mesh", shell),
    product("the frame as meshes", frame),
    product("the rail's strips as meshes", strips),
    product("the end blocks as meshes", blocks),
    product("the pads as meshes", pads),
    product("the building bed as meshes", bed),
    product("tables, CSV and JSON", all_tables),
    product("the page for the shop", milling),
    product("the report, for programs", board_json),
    product("the index", index),
];

const fn product(
    what: &'static str,
    make: fn(&Context<'_>) -> Result<Vec<OutFile>, OutputError>,
) -> Product {
    Product { what, make }
}

/// What products are made from: the board, what several of them show, and the files of the products before.
pub(super) struct Context<'a> {
    board: &'a Board,
    report: &'a Report,
    options: &'a OutputOptions,
    sheets: Vec<Sheet>,
    maps: Vec<StrainMap>,
    planks: Vec<PlankSheet>,
    charts: Vec<NamedChart>,
    groups: Vec<FileGroup>,
}

impl<'a> Context<'a> {
    /// Draws what is shown more than once.
    pub fn new(
        board: &'a Board,
        report: &'a Report,
        options: &'a OutputOptions,
    ) -> Result<Self, OutputError> {
        Ok(Self {
            board,
            report,
            options,
            sheets: sheets(board)?,
            maps: strain_maps(board),
            planks: plank_sheets(board),
            charts: strip_charts(board),
            groups: Vec::new(),
        })
    }

    /// Takes note of a product's files for the index.
    pub fn list(&mut self, product: &Product, files: &[OutFile]) {
        let entry = |file: &OutFile| FileEntry {
            path: file.path.clone(),
            what: file.what.clone(),
            bytes: file.bytes.len(),
        };
        self.groups.push(FileGroup {
            what: product.what.to_owned(),
            files: files.iter().map(entry).collect(),
        });
    }
}

fn file(path: impl Into<String>, what: impl Into<String>, bytes: impl Into<Vec<u8>>) -> OutFile {
    OutFile {
        path: path.into(),
        what: what.into(),
        bytes: bytes.into(),
    }
}

/// A drawing as SVG, and as DXF in every version that is wanted; the two may be to different scales.
fn drawn(
    context: &Context<'_>,
    name: &str,
    what: &str,
    [for_svg, for_dxf]: [&Drawing; 2],
) -> Result<Vec<OutFile>, OutputError> {
    let text = svg::write(for_svg, &svg::SvgOptions::default())?;
    let mut files = vec![file(format!("svg/{name}.svg"), what, text)];
    let old = ("dxf-r12", dxf::DxfVersion::R12);
    let versions = [("dxf", dxf::DxfVersion::R2000), old];
    let wanted = if context.options.r12 { 2 } else { 1 };
    for (folder, version) in versions.into_iter().take(wanted) {
        let usual = dxf::DxfOptions::default();
        let text = dxf::write(for_dxf, &dxf::DxfOptions { version, ..usual })?;
        files.push(file(format!("{folder}/{name}.dxf"), what, text));
    }
    Ok(files)
}

fn templates(context: &Context<'_>) -> Result<Vec<OutFile>, OutputError> {
    let mut files = Vec::new();
    for sheet in &context.sheets {
        let drawing = &sheet.drawing;
        files.extend(drawn(
            context,
            &sheet.name,
            &sheet.what,
            [drawing, drawing],
        )?);
    }
    Ok(files)
}

fn maps(context: &Context<'_>) -> Result<Vec<OutFile>, OutputError> {
    let map = |map: &StrainMap| {
        let text = svg_shading::write(&map.shading)?;
        Ok(file(format!("maps/{}.svg", map.name), &map.what, text))
    };
    context.maps.iter().map(map).collect()
}

fn planks(context: &Context<'_>) -> Result<Vec<OutFile>, OutputError> {
    let mut files = Vec::new();
    for sheet in &context.planks {
        files.extend(drawn(
            context,
            &sheet.name,
            &sheet.what,
            [&sheet.page, &sheet.full],
        )?);
    }
    Ok(files)
}

fn charts(context: &Context<'_>) -> Result<Vec<OutFile>, OutputError> {
    let chart = |named: &NamedChart| {
        let text = chart::write(&named.chart)?;
        Ok(file(
            format!("charts/{}.svg", named.name),
            &named.what,
            text,
        ))
    };
    context.charts.iter().map(chart).collect()
}

/// Meshes in one file; none where there are no meshes.
fn meshes(
    context: &Context<'_>,
    path: &str,
    what: &str,
    meshes: &[Mesh],
) -> Result<Vec<OutFile>, OutputError> {
    if meshes.is_empty() {
        return Ok(Vec::new());
    }
    let bytes = stl::write(meshes, &context.board.design.name)?;
    Ok(vec![file(path, what, bytes)])
}

fn shell(context: &Context<'_>) -> Result<Vec<OutFile>, OutputError> {
    let what = format!("the finished shell, within {MESH_TOLERANCE} mm");
    let shell = [shell_mesh(&context.board.shell, MESH_TOLERANCE)?];
    meshes(context, "stl/shell.stl", &what, &shell)
}

fn frame(context: &Context<'_>) -> Result<Vec<OutFile>, OutputError> {
    let what = "the frame with slices of the rail's strips, to look at";
    meshes(
        context,
        "stl/frame-preview.stl",
        what,
        &frame_preview(context.board)?,
    )
}

fn strips(context: &Context<'_>) -> Result<Vec<OutFile>, OutputError> {
    let what = "every strip of both rails before planing";
    meshes(
        context,
        "stl/rail-strips.stl",
        what,
        &strip_solids(context.board)?,
    )
}

fn blocks(context: &Context<'_>) -> Result<Vec<OutFile>, OutputError> {
    let what = "the end blocks, shaped";
    meshes(
        context,
        "stl/blocks.stl",
        what,
        &block_solids(context.board)?,
    )
}

fn pads(context: &Context<'_>) -> Result<Vec<OutFile>, OutputError> {
    let what = "the pads of fins, leash plug and vent in place";
    meshes(context, "stl/pads.stl", what, &pad_solids(context.board)?)
}

fn bed(context: &Context<'_>) -> Result<Vec<OutFile>, OutputError> {
    let what = "the building bed's cradles under the board";
    meshes(context, "stl/bed.stl", what, &bed_solids(context.board)?)
}

fn all_tables(context: &Context<'_>) -> Result<Vec<OutFile>, OutputError> {
    let mut files = Vec::new();
    for named in tables(context.board, context.report) {
        let (name, what) = (named.name, &named.table.title);
        let text = csv::write(&named.table)?;
        files.push(file(format!("tables/{name}.csv"), what, text));
        let text = json::write(&named.table)?;
        files.push(file(format!("tables/{name}.json"), what, text));
    }
    Ok(files)
}

fn milling(context: &Context<'_>) -> Result<Vec<OutFile>, OutputError> {
    let page = html::write(&pages::milling(
        context.board,
        context.report,
        &context.planks,
    ))?;
    let what = "milling sheets with cautions, cutting plan and strips: print this for the shop";
    Ok(vec![file(pages::MILLING, what, page)])
}

fn board_json(context: &Context<'_>) -> Result<Vec<OutFile>, OutputError> {
    let text = format!("{:#}\n", context.report.json()?);
    let what = "measures, frame, rail and warnings, for programs";
    Ok(vec![file("board.json", what, text)])
}

fn index(context: &Context<'_>) -> Result<Vec<OutFile>, OutputError> {
    let attached = Attachments {
        sheets: &context.sheets,
        maps: &context.maps,
        planks: &context.planks,
        charts: &context.charts,
        groups: &context.groups,
    };
    let page = pages::board(context.board, context.report, Some(&attached));
    let page = html::write(&page)?;
    Ok(vec![file(pages::INDEX, "this index", page)])
}
