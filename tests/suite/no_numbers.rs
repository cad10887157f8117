//! No NaN and no infinity in any file or on any line: every neutral type refuses one or writes a dash, and boards of which parts weigh
//! nothing are looked through word by word.

use boardwright::design::units::{self, Unit};
use boardwright::geometry::mesh::Mesh;
use boardwright::geometry::path::{Path, Point, Segment};
use boardwright::output::export::{ExportError, chart, csv, dxf, json, stl, svg, svg_shading};
use boardwright::views::chart::{Callout, Chart, ChartMark, ChartPanel, Level, Series};
use boardwright::views::drawing::{Align, Drawing, Item, Layer, Shading, Shape, Text};
use boardwright::views::table::{Column, Table};
use boardwright::{board::Board, design, views::report::report};

use crate::common::program;
use program::{assert_code, empty, err, out, run_in};

const NONE: [f64; 3] = [f64::NAN, f64::INFINITY, f64::NEG_INFINITY];

/// Where a text says what is no number, in any spelling that this language or C, JSON's kin or spreadsheets use.
fn said(text: &str) -> Option<&str> {
    let word = |w: &&str| {
        let low = w.to_lowercase();
        matches!(
            low.as_str(),
            "nan" | "inf" | "infinity" | "1.#qnan" | "1.#inf" | "∞"
        )
    };
    text.split(|c: char| !c.is_alphanumeric() && c != '∞')
        .find(word)
}

#[test]
fn the_search_finds_what_it_is_for() {
    for text in [
        "a NaN b",
        "x=-inf",
        "[Infinity]",
        "NaN",
        "∞ mm",
        "L1 NaNz NaN",
    ] {
        assert!(said(text).is_some(), "{text}");
    }
    for text in ["information", "nanometre", "CaNaN"] {
        assert_eq!(said(text), None);
    }
}

#[test]
fn tables_refuse_it() {
    for none in NONE {
        let table = Table {
            title: "Parts".into(),
            columns: vec![Column::measured("mass", "kg", 3)],
            rows: vec![vec![none.into()]],
        };
        assert!(matches!(
            csv::write(&table),
            Err(ExportError::TableNotFinite { .. })
        ));
        assert!(matches!(
            json::write(&table),
            Err(ExportError::TableNotFinite { .. })
        ));
    }
}

fn sound_chart() -> Chart {
    Chart {
        title: "Bends".into(),
        subtitle: String::new(),
        axis: "from the tail, mm".into(),
        range: [0.0, 100.0],
        marks: vec![ChartMark {
            x: 50.0,
            label: "rib 1".into(),
        }],
        marks_name: "ribs".into(),
        panels: vec![ChartPanel {
            title: "strain".into(),
            unit: "%".into(),
            series: vec![Series {
                name: "easy way".into(),
                points: vec![[0.0, 0.1], [100.0, 0.3]],
                ink: 0,
            }],
            levels: vec![Level {
                value: 0.5,
                label: "limit".into(),
            }],
            callouts: vec![Callout {
                at: [100.0, 0.3],
                label: "0.3".into(),
                ink: 0,
            }],
        }],
    }
}

#[test]
fn charts_refuse_it_wherever_it_stands() {
    let places: [fn(&mut Chart) -> &mut f64; 6] = [
        |c| &mut c.range[1],
        |c| &mut c.marks[0].x,
        |c| &mut c.panels[0].series[0].points[1][0],
        |c| &mut c.panels[0].series[0].points[1][1],
        |c| &mut c.panels[0].levels[0].value,
        |c| &mut c.panels[0].callouts[0].at[1],
    ];
    let sound = chart::write(&sound_chart()).unwrap();
    assert_eq!(said(&sound), None);
    for none in NONE {
        for place in places {
            let mut chart = sound_chart();
            *place(&mut chart) = none;
            let refused = chart::write(&chart).unwrap_err();
            assert!(matches!(refused, ExportError::PictureNotFinite { .. }));
            assert!(refused.to_string().contains("Bends"), "{refused}");
        }
    }
}

#[test]
fn maps_refuse_it() {
    let p = Point::new;
    for none in NONE {
        let sound = Shading {
            title: "Strain".into(),
            bands: vec![],
            areas: vec![(0, vec![p(0.0, 0.0), p(9.0, 0.0), p(0.0, 9.0)])],
            lines: vec![vec![p(0.0, 0.0), p(1.0, 1.0)]],
            mark: Some(p(1.0, 1.0)),
            words: vec![],
        };
        assert!(svg_shading::write(&sound).is_ok());
        let mut maps = [sound.clone(), sound.clone(), sound];
        maps[0].areas[0].1.push(p(none, 0.0));
        maps[1].lines[0][1].y = none;
        maps[2].mark = Some(p(1.0, none));
        for map in maps {
            let refused = svg_shading::write(&map).unwrap_err();
            assert!(matches!(refused, ExportError::PictureNotFinite { .. }));
        }
    }
}

#[test]
fn drawings_refuse_it() {
    let item = |shape| Item {
        part: "rib-1".into(),
        layer: Layer::Mark,
        shape,
    };
    let p = Point::new;
    let path = |to, segment| {
        Shape::Path(Path {
            start: to,
            segments: vec![segment],
            closed: false,
        })
    };
    let line = |n: f64| path(p(0.0, 0.0), Segment::Line { to: p(n, 5.0) });
    let start = |n: f64| path(p(n, 0.0), Segment::Line { to: p(5.0, 5.0) });
    let arc = |n: f64| {
        path(
            p(0.0, 0.0),
            Segment::Arc {
                to: p(5.0, 5.0),
                bulge: n,
            },
        )
    };
    let curve = |n: f64| {
        let (c1, c2) = (p(1.0, n), p(2.0, 2.0));
        path(
            p(0.0, 0.0),
            Segment::Cubic {
                c1,
                c2,
                to: p(5.0, 5.0),
            },
        )
    };
    let text = |at: Point, height: f64, angle: f64| {
        let (align, content) = (Align::Start, "rib 1".into());
        Shape::Text(Text {
            at,
            height,
            angle,
            align,
            content,
        })
    };
    let shapes = |n: f64| {
        vec![
            line(n),
            start(n),
            arc(n),
            curve(n),
            text(p(n, 0.0), 5.0, 0.0),
            text(p(0.0, 0.0), n, 0.0),
            text(p(0.0, 0.0), 5.0, n),
        ]
    };
    let drawing = |shape| Drawing {
        title: "Rib 1".into(),
        items: vec![item(shape)],
    };
    let svg_of = |d: &Drawing| svg::write(d, &svg::SvgOptions::default());
    let dxf_of = |d: &Drawing, version| {
        let mut options = dxf::DxfOptions::default();
        options.version = version;
        dxf::write(d, &options)
    };
    for shape in shapes(1.0) {
        assert!(svg_of(&drawing(shape)).is_ok());
    }
    for none in NONE {
        for shape in shapes(none) {
            let drawing = drawing(shape);
            assert!(matches!(
                svg_of(&drawing),
                Err(ExportError::UnfitDrawing { .. })
            ));
            for version in [dxf::DxfVersion::R12, dxf::DxfVersion::R2000] {
                assert!(matches!(
                    dxf_of(&drawing, version),
                    Err(ExportError::UnfitDrawing { .. })
                ));
            }
        }
    }
}

#[test]
fn meshes_refuse_it() {
    let corners = [
        [0.0, 0.0, 0.0],
        [9.0, 0.0, 0.0],
        [0.0, 9.0, 0.0],
        [0.0, 0.0, 9.0],
    ];
    let solid = Mesh {
        name: "block".into(),
        vertices: corners.map(nalgebra::Point3::from).to_vec(),
        triangles: vec![[0, 2, 1], [0, 1, 3], [1, 2, 3], [0, 3, 2]],
    };
    assert!(stl::write(std::slice::from_ref(&solid), "block").is_ok());
    for none in NONE {
        for axis in 0..3 {
            let mut mesh = solid.clone();
            mesh.vertices[2][axis] = none;
            let refused = stl::write(&[mesh], "block");
            assert!(matches!(refused, Err(ExportError::UnfitMesh { .. })));
        }
    }
}

#[test]
fn lengths_volumes_and_masses_are_a_dash() {
    for none in NONE {
        for unit in [Unit::Mm, Unit::Cm, Unit::M, Unit::In, Unit::Ft] {
            for text in [
                units::length(none, unit),
                units::size(none, unit),
                units::place(none, unit),
                units::fine_size(none, unit),
                units::mass(none, unit),
                units::force(none, unit),
                units::mm(none, 1),
                units::inches(none, 3),
                units::feet_inches(none),
                units::litres(none),
            ] {
                assert!(text.starts_with('–') && said(&text).is_none(), "{text}");
            }
        }
    }
}

/// JSON has no word for it: `null` stands there.
#[test]
fn the_report_for_programs_says_null() {
    let design = design::parse(design::starter(), "x").unwrap();
    let mut report = report(&Board::new(design).unwrap());
    report.mass.total = f64::NAN;
    let json = report.json().unwrap();
    assert!(json["mass"]["total"].is_null(), "{}", json["mass"]);
    assert_eq!(said(&json.to_string()), None);
}

/// Boards of which this and that weighs nothing, all of it at once too, and of the lightest wood.
fn weightless() -> Vec<(&'static str, String)> {
    let fitting = "[[fitting]]\nname = 'leash'\nmass = 0\nat = 100\n";
    let no_glue = "[finish]\nglue = 0\n";
    let bare = "[finish]\nkind = 'none'\n";
    let oil = "[finish]\nmass = 0\n";
    let nothing = "[finish]\nkind = 'sheath'\nmass = 0\nglue = 0\n";
    let own =
        "[[timber.species]]\nname = 'air'\nspecific_gravity = 0.05\nmodulus = 9000\nrupture = 60\n";
    let light =
        "[timber]\nrail = 'air'\nframe = 'air'\nskins = 'air'\nblocks = 'air'\nmoisture = 0\n";
    let rider = "[rider]\nmass = 1\n";
    let all = format!("{nothing}{fitting}{fitting}{light}{own}{rider}");
    let free = "[[shop.plank]]\nlength = 3000\nwidth = 200\nthickness = 50\nprice = 0\n[shop]\naim = 'price'\n";
    [
        ("glue", no_glue),
        ("bare", bare),
        ("oil", oil),
        ("finish-and-glue", nothing),
        ("fitting", fitting),
        ("light", &format!("{light}{own}")),
        ("free-planks", free),
        ("everything", &all),
    ]
    .map(|(name, more)| {
        let least = "name = 'Least'\n[outline]\nlength = 1900\nwidth = 500\n[foil]\ncentre = 62\n";
        (name, format!("{least}{more}"))
    })
    .to_vec()
}

#[test]
fn boards_that_weigh_nothing_here_and_there_say_no_such_thing() {
    for (name, text) in weightless() {
        let folder = empty(&format!("no-numbers-{name}"));
        std::fs::write(folder.join("board.toml"), text).unwrap();
        let runs: [&[&str]; 5] = [
            &["build", "board.toml", "--out", "board", "--r12"],
            &["check", "board.toml"],
            &["check", "board.toml", "--json"],
            &["dry-fit", "board.toml"],
            &["dry-fit", "board.toml", "--json"],
        ];
        for arguments in runs {
            let output = run_in(&folder, arguments);
            for lines in [out(&output), err(&output)] {
                assert_eq!(said(&lines), None, "{name}, {arguments:?}:\n{lines}");
            }
            if arguments[0] != "dry-fit" {
                assert_code(&output, 0);
            }
        }
        let files = program::files(&folder.join("board"));
        assert!(files.len() > 50, "{}", files.len());
        for (path, bytes) in files {
            if path.ends_with(".stl") {
                let numbers = bytes[84..]
                    .chunks_exact(50)
                    .flat_map(|t| t[..48].chunks_exact(4));
                let finite = |n: &[u8]| f32::from_le_bytes(n.try_into().unwrap()).is_finite();
                assert!(numbers.into_iter().all(finite), "{name}: {path}");
            } else {
                assert_eq!(
                    said(&String::from_utf8(bytes).unwrap()),
                    None,
                    "{name}: {path}"
                );
            }
        }
    }
}
