//! DXF files as foreign readers see them.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common::python;
use boardwright::geometry::path::{Path, Point, Segment};
use boardwright::output::export::dxf::{self, DxfOptions, DxfVersion, Labels};
use boardwright::views::drawing::{Align, Drawing, Item, Layer, Shape, Text, scale_check};
use serde_json::Value;
use std::f64::consts::PI;

fn item(part: &str, layer: Layer, shape: Shape) -> Item {
    Item {
        part: part.into(),
        layer,
        shape,
    }
}

/// A slot 40 long between centres and 10 wide, its ends half circles.
fn slot() -> Path {
    let line = |x, y| Segment::Line {
        to: Point::new(x, y),
    };
    let arc = |x, y| Segment::Arc {
        to: Point::new(x, y),
        bulge: 1.0,
    };
    Path {
        start: Point::new(100.0, 20.0),
        segments: vec![
            line(140.0, 20.0),
            arc(140.0, 30.0),
            line(100.0, 30.0),
            arc(100.0, 20.0),
        ],
        closed: true,
    }
}

/// A closed shape of two cubics, and the area it has.
fn lens() -> Path {
    let cubic = |c1: (f64, f64), c2: (f64, f64), to: (f64, f64)| Segment::Cubic {
        c1: Point::new(c1.0, c1.1),
        c2: Point::new(c2.0, c2.1),
        to: Point::new(to.0, to.1),
    };
    Path {
        start: Point::new(-50.0, 100.0),
        segments: vec![
            cubic((0.0, 60.0), (120.0, 80.0), (250.0, 100.0)),
            cubic((180.0, 170.0), (40.0, 150.0), (-50.0, 100.0)),
        ],
        closed: true,
    }
}

/// Outside first, so that the order in the file is the writer's doing.
fn rib() -> Drawing {
    let text = |content: &str, align, angle| {
        Shape::Text(Text {
            at: Point::new(60.0, 90.0),
            height: 6.0,
            angle,
            align,
            content: content.into(),
        })
    };
    Drawing {
        title: "Rib — “7”".into(),
        items: vec![
            item(
                "rib-07",
                Layer::Text,
                text("Rib 7 × 6 mm, 12.5°, 40 %% \\P", Align::Middle, 0.25),
            ),
            item("rib-07", Layer::Text, text("nose →", Align::Start, 0.0)),
            item(
                "rib-07",
                Layer::Reference,
                Shape::Path(Path::rectangle(
                    Point::new(-80.0, -80.0),
                    Point::new(280.0, 180.0),
                )),
            ),
            item(
                "rib-07",
                Layer::Mark,
                Shape::Path(Path::polyline(
                    &[
                        Point::new(0.0, 95.0),
                        Point::new(20.0, 95.0),
                        Point::new(20.0, 99.0),
                    ],
                    false,
                )),
            ),
            item("rib-07", Layer::OutsideCut, Shape::Path(lens())),
            item("rib-07", Layer::Slot, Shape::Path(slot())),
            item(
                "rib-07",
                Layer::InsideCut,
                Shape::Path(Path::circle(Point::new(10.0, -30.0), 25.0)),
            ),
        ],
    }
}

fn options(version: DxfVersion) -> DxfOptions {
    let mut options = DxfOptions::default();
    options.version = version;
    options
}

/// Writes the drawings and returns the auditor's reports; it fails on any error or fix.
fn audited(name: &str, texts: &[String]) -> Option<Vec<Value>> {
    let folder = python::scratch(name);
    let paths: Vec<String> = texts
        .iter()
        .enumerate()
        .map(|(i, text)| {
            let path = folder.join(format!("{i}.dxf"));
            std::fs::write(&path, text).unwrap();
            path.to_str().unwrap().to_owned()
        })
        .collect();
    let arguments: Vec<&str> = paths.iter().map(String::as_str).collect();
    let seen = python::run("check_dxf.py", &arguments)?;
    seen.as_array().cloned()
}

fn number(value: &Value) -> f64 {
    value.as_f64().unwrap()
}

#[test]
fn both_versions_audit_clean_and_keep_every_number() {
    let versions = [DxfVersion::R2000, DxfVersion::R12];
    let texts = versions.map(|v| dxf::write(&rib(), &options(v)).unwrap());
    let Some(reports) = audited("dxf-rib", &texts) else {
        return;
    };
    for (report, (version, kind)) in reports
        .iter()
        .zip([("AC1015", "LWPOLYLINE"), ("AC1009", "POLYLINE")])
    {
        assert_eq!(report["version"], version);
        assert_eq!(report["errors"], serde_json::json!([]));
        assert_eq!(report["fixes"], serde_json::json!([]));
        assert_eq!(report["insunits"], 4);
        assert_eq!(report["measurement"], 1);
        let entities = report["entities"].as_array().unwrap();
        assert_eq!(report["recovered"], entities.len());
        let layers: Vec<String> = entities
            .iter()
            .map(|e| e["layer"].as_str().unwrap().to_lowercase())
            .collect();
        assert_eq!(
            layers,
            [
                "inside-cut",
                "slot",
                "outside-cut",
                "mark",
                "reference",
                "text",
                "text"
            ]
        );
        // Drill cycles look for circles.
        assert_eq!(entities[0]["kind"], "CIRCLE");
        assert_eq!(entities[0]["centre"], serde_json::json!([10.0, -30.0]));
        assert_eq!(entities[0]["radius"], 25.0);
        for entity in &entities[..5] {
            assert!(entity["kind"] == kind || entity["kind"] == "CIRCLE");
            assert_eq!(entity["zero_length"], 0);
            assert_eq!(
                entity["closed"],
                entity["layer"].as_str().unwrap().to_lowercase() != "mark"
            );
        }
        let [circle, slot, outline] = [&entities[0], &entities[1], &entities[2]];
        assert!((number(&circle["area"]) - PI * 625.0).abs() < 1e-3);
        let expected = [-15.0, -55.0, 35.0, -5.0];
        for (side, expected) in circle["box"].as_array().unwrap().iter().zip(expected) {
            assert!((number(side) - expected).abs() < 1e-6, "{circle}");
        }
        assert!((number(&slot["area"]) - (400.0 + 25.0 * PI)).abs() < 1e-3);
        assert_eq!(slot["vertices"], 4);
        // Arcs within 0.02 mm of a contour 650 mm round change its area by less than 13 mm².
        assert!(
            (number(&outline["area"]) - lens().area()).abs() < 6.5,
            "{outline}"
        );
        let box_ = lens().bounds();
        for (side, expected) in outline["box"]
            .as_array()
            .unwrap()
            .iter()
            .zip([box_.min.x, box_.min.y, box_.max.x, box_.max.y])
        {
            assert!((number(side) - expected).abs() < 0.021);
        }
        let [label, nose] = [&entities[5], &entities[6]];
        // R12 has no code for signs beyond ASCII, but for the degree's.
        let words = if version == "AC1009" {
            ["nose ->", "Rib 7 x 6 mm, 12.5°, 40 %% /P"]
        } else {
            ["nose →", "Rib 7 × 6 mm, 12.5°, 40 %% \\P"]
        };
        assert_eq!([&nose["text"], &label["text"]], words);
        assert_eq!(label["at"], serde_json::json!([60.0, 90.0]));
        assert!((number(&label["rotation"]) - 0.25f64.to_degrees()).abs() < 1e-4);
    }
}

#[test]
fn labels_become_strokes_on_the_mark_layer() {
    let mut strokes = DxfOptions::default();
    strokes.labels = Labels::Strokes;
    strokes.reference = false;
    let mut drawing = rib().merged(scale_check());
    drawing.items[0].shape = Shape::Text(Text {
        at: Point::new(0.0, 300.0),
        height: 8.0,
        angle: 1.0,
        align: Align::End,
        content: (32u8..127).map(char::from).collect(),
    });
    let mut old = strokes;
    old.version = DxfVersion::R12;
    let texts = [strokes, old].map(|o| dxf::write(&drawing, &o).unwrap());
    for report in audited("dxf-strokes", &texts).into_iter().flatten() {
        let entities = report["entities"].as_array().unwrap();
        assert!(entities.len() > 150);
        for entity in entities {
            assert_ne!(entity["kind"], "TEXT");
            assert_ne!(
                entity["layer"].as_str().unwrap().to_lowercase(),
                "reference"
            );
            assert_eq!(entity["zero_length"], 0);
        }
    }
}

#[test]
fn an_unfit_drawing_is_refused() {
    let mut twice = rib();
    let copy = twice.items[4].clone();
    twice.items.push(copy);
    for version in [DxfVersion::R2000, DxfVersion::R12] {
        assert!(dxf::write(&twice, &options(version)).is_err());
    }
    let empty = Drawing {
        title: "none".into(),
        items: vec![],
    };
    assert!(dxf::write(&empty, &DxfOptions::default()).is_err());
}

#[test]
fn an_open_reader_written_in_rust_agrees() {
    for version in [DxfVersion::R2000, DxfVersion::R12] {
        let text = dxf::write(&rib(), &options(version)).unwrap();
        let read = ::dxf::Drawing::load(&mut std::io::Cursor::new(text)).unwrap();
        assert_eq!(
            read.header.default_drawing_units,
            ::dxf::enums::Units::Millimeters
        );
        assert_eq!(
            read.header.drawing_units,
            ::dxf::enums::DrawingUnits::Metric
        );
        let closed = read
            .entities()
            .filter(|e| match &e.specific {
                ::dxf::entities::EntityType::LwPolyline(line) => line.flags & 1 == 1,
                ::dxf::entities::EntityType::Polyline(line) => line.flags & 1 == 1,
                ::dxf::entities::EntityType::Circle(circle) => circle.radius == 25.0,
                _ => false,
            })
            .count();
        assert_eq!(closed, 4);
        assert_eq!(read.entities().count(), 7);
    }
}

#[test]
fn writing_twice_gives_the_same_bytes_in_plain_ascii() {
    for version in [DxfVersion::R2000, DxfVersion::R12] {
        let text = dxf::write(&rib(), &options(version)).unwrap();
        assert!(text.is_ascii());
        assert!(!text.contains("\n-0\n"));
        assert!(!text.contains("SPLINE"));
        assert_eq!(text, dxf::write(&rib(), &options(version)).unwrap());
    }
}
