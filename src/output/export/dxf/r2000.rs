//! R2000 (AC1015): every table, block and object the version asks for, with handles and owners.

use super::entities;
use super::text::{alignment, text_body};
use super::writer::Writer;
use crate::geometry::path::Bounds;
use crate::views::drawing::{Item, Layer, Shape};
use std::borrow::Cow;

/// Handles of everything but the entities, which come after them.
mod handle {
    pub const VPORT: u32 = 0x1;
    pub const LTYPE: u32 = 0x2;
    pub const LAYER: u32 = 0x3;
    pub const STYLE: u32 = 0x4;
    pub const VIEW: u32 = 0x5;
    pub const UCS: u32 = 0x6;
    pub const APPID: u32 = 0x7;
    pub const DIMSTYLE: u32 = 0x8;
    pub const BLOCK_RECORD: u32 = 0x9;
    pub const ACTIVE: u32 = 0x10;
    pub const LINE_TYPES: u32 = 0x11;
    pub const LAYERS: u32 = 0x20;
    pub const STANDARD_STYLE: u32 = 0x30;
    pub const APPLICATION: u32 = 0x31;
    pub const STANDARD_DIM: u32 = 0x32;
    pub const MODEL: u32 = 0x40;
    pub const PAPER: u32 = 0x43;
    pub const ROOT: u32 = 0x50;
    pub const GROUPS: u32 = 0x51;
    pub const LAYOUTS: u32 = 0x52;
    pub const MODEL_LAYOUT: u32 = 0x53;
    pub const PAPER_LAYOUT: u32 = 0x54;
    pub const PLOT_STYLES: u32 = 0x55;
    pub const NORMAL: u32 = 0x56;
    pub const MULTILINES: u32 = 0x57;
    pub const MULTILINE: u32 = 0x58;
    pub const FIRST_ENTITY: u32 = 0x100;
}

pub(super) fn document(items: &[Cow<'_, Item>], bounds: Bounds) -> String {
    let mut body = Writer::with_capacity(64 * 1024);
    body.words(&[(0, "SECTION"), (2, "ENTITIES")]);
    let mut next = handle::FIRST_ENTITY;
    for item in items {
        if entity(&mut body, item, next) {
            next += 1;
        }
    }
    body.word(0, "ENDSEC");

    let mut w = Writer::with_capacity(body.text.len() + 24 * 1024);
    header(&mut w, bounds, next);
    w.words(&[(0, "SECTION"), (2, "CLASSES"), (0, "ENDSEC")]);
    tables(&mut w, bounds);
    blocks(&mut w);
    w.text.push_str(&body.text);
    objects(&mut w, bounds);
    w.word(0, "EOF");
    w.text
}

/// Writes one entity; `false` when rounding left nothing of it.
fn entity(w: &mut Writer, item: &Item, handle: u32) -> bool {
    let begin = |w: &mut Writer, kind: &str| {
        w.word(0, kind);
        w.handle(5, handle);
        w.handle(330, handle::MODEL);
        w.words(&[(100, "AcDbEntity"), (8, item.layer.name())]);
    };
    match &item.shape {
        Shape::Path(path) => {
            if let Some([x, y, radius]) = entities::circle(path) {
                begin(w, "CIRCLE");
                w.word(100, "AcDbCircle");
                w.grains(10, x);
                w.grains(20, y);
                w.word(30, "0");
                w.grains(40, radius);
                return true;
            }
            let chain = entities::vertices(path);
            if chain.len() < 2 {
                return false;
            }
            begin(w, "LWPOLYLINE");
            w.word(100, "AcDbPolyline");
            w.whole(90, chain.len() as i64);
            w.words(&[(70, if path.closed { "1" } else { "0" }), (43, "0")]);
            for vertex in &chain {
                w.grains(10, vertex.x);
                w.grains(20, vertex.y);
                if vertex.bulge != 0.0 {
                    w.ratio(42, vertex.bulge);
                }
            }
        }
        Shape::Text(text) => {
            begin(w, "TEXT");
            w.word(100, "AcDbText");
            text_body(w, text, &entities::text_r2000(&text.content));
            w.word(7, "Standard");
            alignment(w, text);
            w.word(100, "AcDbText");
        }
    }
    true
}

fn header(w: &mut Writer, bounds: Bounds, seed: u32) {
    w.words(&[(0, "SECTION"), (2, "HEADER")]);
    w.variable("$ACADVER", 1, "AC1015");
    w.variable("$DWGCODEPAGE", 3, "ANSI_1252");
    w.word(9, "$INSBASE");
    w.point(10, 0.0, 0.0, true);
    w.word(9, "$EXTMIN");
    w.point(10, bounds.min.x, bounds.min.y, true);
    w.word(9, "$EXTMAX");
    w.point(10, bounds.max.x, bounds.max.y, true);
    w.word(9, "$LIMMIN");
    w.point(10, bounds.min.x, bounds.min.y, false);
    w.word(9, "$LIMMAX");
    w.point(10, bounds.max.x, bounds.max.y, false);
    w.variable("$CLAYER", 8, "0");
    w.variable("$CELTYPE", 6, "ByLayer");
    w.variable("$CECOLOR", 62, "256");
    w.variable("$TEXTSTYLE", 7, "Standard");
    w.variable("$DIMSTYLE", 2, "Standard");
    w.variable("$LTSCALE", 40, "1");
    w.variable("$LUNITS", 70, "2");
    w.variable("$LUPREC", 70, "4");
    w.variable("$MEASUREMENT", 70, "1");
    w.variable("$INSUNITS", 70, "4");
    w.variable("$PSTYLEMODE", 290, "1");
    w.word(9, "$HANDSEED");
    w.handle(5, seed);
    w.word(0, "ENDSEC");
}

/// The body of the one view: the whole drawing.
pub(super) fn view(w: &mut Writer, bounds: Bounds) {
    let height = bounds.height().max(bounds.width()).max(1.0) * 1.05;
    w.point(10, 0.0, 0.0, false);
    w.point(11, 1.0, 1.0, false);
    w.point(
        12,
        (bounds.min.x + bounds.max.x) / 2.0,
        (bounds.min.y + bounds.max.y) / 2.0,
        false,
    );
    w.words(&[
        (13, "0"),
        (23, "0"),
        (14, "10"),
        (24, "10"),
        (15, "10"),
        (25, "10"),
    ]);
    w.words(&[
        (16, "0"),
        (26, "0"),
        (36, "1"),
        (17, "0"),
        (27, "0"),
        (37, "0"),
    ]);
    w.length(40, height);
    w.words(&[
        (41, "1"),
        (42, "50"),
        (43, "0"),
        (44, "0"),
        (50, "0"),
        (51, "0"),
    ]);
    w.words(&[
        (71, "0"),
        (72, "100"),
        (73, "1"),
        (74, "3"),
        (75, "0"),
        (76, "0"),
        (77, "0"),
        (78, "0"),
    ]);
}

fn table(w: &mut Writer, name: &str, handle: u32, count: i64) {
    w.words(&[(0, "TABLE"), (2, name)]);
    w.handle(5, handle);
    w.words(&[(330, "0"), (100, "AcDbSymbolTable")]);
    w.whole(70, count);
}

/// The beginning of a table's record, up to its name.
fn record(w: &mut Writer, kind: &str, handle: u32, owner: u32, class: &str, name: &str) {
    w.word(0, kind);
    w.handle(if kind == "DIMSTYLE" { 105 } else { 5 }, handle);
    w.handle(330, owner);
    w.words(&[(100, "AcDbSymbolTableRecord"), (100, class), (2, name)]);
}

fn tables(w: &mut Writer, bounds: Bounds) {
    w.words(&[(0, "SECTION"), (2, "TABLES")]);
    table(w, "VPORT", handle::VPORT, 1);
    record(
        w,
        "VPORT",
        handle::ACTIVE,
        handle::VPORT,
        "AcDbViewportTableRecord",
        "*Active",
    );
    w.word(70, "0");
    view(w, bounds);
    w.word(0, "ENDTAB");

    table(w, "LTYPE", handle::LTYPE, 3);
    let kinds = [
        ("ByBlock", ""),
        ("ByLayer", ""),
        ("Continuous", "Solid line"),
    ];
    for (i, (name, words)) in kinds.into_iter().enumerate() {
        let own = handle::LINE_TYPES + i as u32;
        record(
            w,
            "LTYPE",
            own,
            handle::LTYPE,
            "AcDbLinetypeTableRecord",
            name,
        );
        w.words(&[(70, "0"), (3, words), (72, "65"), (73, "0"), (40, "0")]);
    }
    w.word(0, "ENDTAB");

    table(w, "LAYER", handle::LAYER, Layer::ALL.len() as i64 + 1);
    let own = Layer::ALL.map(|layer| {
        (
            layer.name(),
            layer.colour_index(),
            layer == Layer::Reference,
        )
    });
    let all = std::iter::once(("0", 7, false)).chain(own);
    for (i, (name, colour, thin)) in all.enumerate() {
        let own = handle::LAYERS + i as u32;
        record(w, "LAYER", own, handle::LAYER, "AcDbLayerTableRecord", name);
        w.word(70, "0");
        w.whole(62, i64::from(colour));
        w.words(&[(6, "Continuous"), (370, if thin { "13" } else { "-3" })]);
        w.handle(390, handle::NORMAL);
    }
    w.word(0, "ENDTAB");

    table(w, "STYLE", handle::STYLE, 1);
    record(
        w,
        "STYLE",
        handle::STANDARD_STYLE,
        handle::STYLE,
        "AcDbTextStyleTableRecord",
        "Standard",
    );
    w.words(&[
        (70, "0"),
        (40, "0"),
        (41, "1"),
        (50, "0"),
        (71, "0"),
        (42, "2.5"),
        (3, "txt"),
        (4, ""),
    ]);
    w.word(0, "ENDTAB");

    table(w, "VIEW", handle::VIEW, 0);
    w.word(0, "ENDTAB");
    table(w, "UCS", handle::UCS, 0);
    w.word(0, "ENDTAB");

    table(w, "APPID", handle::APPID, 1);
    record(
        w,
        "APPID",
        handle::APPLICATION,
        handle::APPID,
        "AcDbRegAppTableRecord",
        "ACAD",
    );
    w.words(&[(70, "0"), (0, "ENDTAB")]);

    table(w, "DIMSTYLE", handle::DIMSTYLE, 1);
    w.words(&[(100, "AcDbDimStyleTable"), (71, "1")]);
    w.handle(340, handle::STANDARD_DIM);
    record(
        w,
        "DIMSTYLE",
        handle::STANDARD_DIM,
        handle::DIMSTYLE,
        "AcDbDimStyleTableRecord",
        "Standard",
    );
    w.word(70, "0");
    w.handle(340, handle::STANDARD_STYLE);
    w.word(0, "ENDTAB");

    table(w, "BLOCK_RECORD", handle::BLOCK_RECORD, 2);
    for (name, own, layout) in SPACES {
        record(
            w,
            "BLOCK_RECORD",
            own,
            handle::BLOCK_RECORD,
            "AcDbBlockTableRecord",
            name,
        );
        w.handle(340, layout);
    }
    w.words(&[(0, "ENDTAB"), (0, "ENDSEC")]);
}

/// The two spaces every file has: name, block record, layout. A space's block and its end have the next two handles.
const SPACES: [(&str, u32, u32); 2] = [
    ("*Model_Space", handle::MODEL, handle::MODEL_LAYOUT),
    ("*Paper_Space", handle::PAPER, handle::PAPER_LAYOUT),
];

fn blocks(w: &mut Writer) {
    w.words(&[(0, "SECTION"), (2, "BLOCKS")]);
    for (name, record, layout) in SPACES {
        let begin = |w: &mut Writer, kind: &str, own: u32| {
            w.word(0, kind);
            w.handle(5, own);
            w.handle(330, record);
            w.word(100, "AcDbEntity");
            if layout == handle::PAPER_LAYOUT {
                w.word(67, "1");
            }
            w.word(8, "0");
        };
        begin(w, "BLOCK", record + 1);
        w.words(&[(100, "AcDbBlockBegin"), (2, name), (70, "0")]);
        w.point(10, 0.0, 0.0, true);
        w.words(&[(3, name), (1, "")]);
        begin(w, "ENDBLK", record + 2);
        w.word(100, "AcDbBlockEnd");
    }
    w.word(0, "ENDSEC");
}

fn dictionary(w: &mut Writer, kind: &str, own: u32, owner: u32, entries: &[(&str, u32)]) {
    w.word(0, kind);
    w.handle(5, own);
    w.handle(330, owner);
    w.words(&[(100, "AcDbDictionary"), (281, "1")]);
    for &(name, entry) in entries {
        w.word(3, name);
        w.handle(350, entry);
    }
}

fn objects(w: &mut Writer, bounds: Bounds) {
    w.words(&[(0, "SECTION"), (2, "OBJECTS")]);
    let root = [
        ("ACAD_GROUP", handle::GROUPS),
        ("ACAD_LAYOUT", handle::LAYOUTS),
        ("ACAD_MLINESTYLE", handle::MULTILINES),
        ("ACAD_PLOTSTYLENAME", handle::PLOT_STYLES),
    ];
    dictionary(w, "DICTIONARY", handle::ROOT, 0, &root);
    dictionary(w, "DICTIONARY", handle::GROUPS, handle::ROOT, &[]);
    let layouts = [
        ("Model", handle::MODEL_LAYOUT),
        ("Layout1", handle::PAPER_LAYOUT),
    ];
    dictionary(w, "DICTIONARY", handle::LAYOUTS, handle::ROOT, &layouts);
    for (order, ((name, own), (_, block, _))) in layouts.into_iter().zip(SPACES).enumerate() {
        layout(w, name, own, block, order as i64, bounds);
    }
    let styles = [("Normal", handle::NORMAL)];
    dictionary(
        w,
        "ACDBDICTIONARYWDFLT",
        handle::PLOT_STYLES,
        handle::ROOT,
        &styles,
    );
    w.word(100, "AcDbDictionaryWithDefault");
    w.handle(340, handle::NORMAL);
    w.word(0, "ACDBPLACEHOLDER");
    w.handle(5, handle::NORMAL);
    w.handle(330, handle::PLOT_STYLES);
    let multilines = [("Standard", handle::MULTILINE)];
    dictionary(
        w,
        "DICTIONARY",
        handle::MULTILINES,
        handle::ROOT,
        &multilines,
    );
    w.word(0, "MLINESTYLE");
    w.handle(5, handle::MULTILINE);
    w.handle(330, handle::MULTILINES);
    w.words(&[
        (100, "AcDbMlineStyle"),
        (2, "STANDARD"),
        (70, "0"),
        (3, ""),
        (62, "256"),
    ]);
    w.words(&[(51, "90"), (52, "90"), (71, "2")]);
    w.words(&[
        (49, "0.5"),
        (62, "256"),
        (6, "BYLAYER"),
        (49, "-0.5"),
        (62, "256"),
        (6, "BYLAYER"),
    ]);
    w.word(0, "ENDSEC");
}

fn layout(w: &mut Writer, name: &str, own: u32, block: u32, order: i64, bounds: Bounds) {
    w.word(0, "LAYOUT");
    w.handle(5, own);
    w.handle(330, handle::LAYOUTS);
    w.words(&[
        (100, "AcDbPlotSettings"),
        (1, ""),
        (2, ""),
        (4, "A3"),
        (6, ""),
    ]);
    w.words(&[
        (40, "7.5"),
        (41, "20"),
        (42, "7.5"),
        (43, "20"),
        (44, "420"),
        (45, "297"),
    ]);
    w.words(&[
        (46, "0"),
        (47, "0"),
        (48, "0"),
        (49, "0"),
        (140, "0"),
        (141, "0"),
        (142, "1"),
        (143, "1"),
    ]);
    w.whole(70, if order == 0 { 1712 } else { 688 });
    w.words(&[
        (72, "1"),
        (73, "0"),
        (74, "5"),
        (7, ""),
        (75, "16"),
        (147, "1"),
        (148, "0"),
        (149, "0"),
    ]);
    w.words(&[(100, "AcDbLayout"), (1, name), (70, "1")]);
    w.whole(71, order);
    w.point(10, bounds.min.x, bounds.min.y, false);
    w.point(11, bounds.max.x, bounds.max.y, false);
    w.point(12, 0.0, 0.0, true);
    w.point(14, bounds.min.x, bounds.min.y, true);
    w.point(15, bounds.max.x, bounds.max.y, true);
    w.length(146, 0.0);
    w.point(13, 0.0, 0.0, true);
    w.words(&[
        (16, "1"),
        (26, "0"),
        (36, "0"),
        (17, "0"),
        (27, "1"),
        (37, "0"),
        (76, "0"),
    ]);
    w.handle(330, block);
}
