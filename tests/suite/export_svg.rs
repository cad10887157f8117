//! SVG files as a browser shows them.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common::browser;
use crate::common::python;
use boardwright::geometry::path::{Path, Point, Segment};
use boardwright::output::export::svg::{self, SvgOptions};
use boardwright::views::drawing::{Drawing, Item, Layer, Shape, scale_check};

const PIXELS_PER_MM: f64 = 96.0 / 25.4;

fn single(path: Path) -> Drawing {
    Drawing {
        title: "one".into(),
        items: vec![Item {
            part: "p".into(),
            layer: Layer::OutsideCut,
            shape: Shape::Path(path),
        }],
    }
}

/// The box of ink, in pixels, of the drawing on a page at its natural size.
fn inked(name: &str, drawing: &Drawing, options: &SvgOptions) -> Option<(f64, f64)> {
    let browser = browser::find()?;
    let folder = python::scratch(name);
    let drawn = svg::write(drawing, options).unwrap();
    std::fs::write(folder.join("drawing.svg"), drawn).unwrap();
    let page = folder.join("page.html");
    let html = "<!doctype html><body style=\"margin:0;background:#fff\"><img src=\"drawing.svg\" style=\"display:block\">";
    std::fs::write(&page, html).unwrap();
    let png = folder.join("page.png");
    browser::screenshot(&browser, &page, &png, 1000, 800);
    let report = python::run(
        "measure_png.py",
        &[png.to_str().unwrap(), "0", "0", "1000", "800"],
    )?;
    assert_eq!(report["size"], serde_json::json!([1000, 800]));
    let length = |axis: &str| report[axis]["length"].as_f64().unwrap();
    Some((length("x"), length("y")))
}

#[test]
fn a_100_mm_line_measures_100_mm_on_a_page() {
    let line = single(Path::polyline(
        &[Point::new(-20.0, 7.0), Point::new(80.0, 7.0)],
        false,
    ));
    // A wide stroke makes the ends dark enough to measure; its round caps add one width.
    let mut options = SvgOptions::default();
    options.line_width = 1.0;
    let Some((x, y)) = inked("svg-line", &line, &options) else {
        return;
    };
    let across = x - PIXELS_PER_MM;
    assert!((across - 377.95).abs() <= 1.0, "{across}");
    assert!((y - PIXELS_PER_MM).abs() <= 1.0, "{y}");
}

#[test]
fn arcs_and_cubics_reach_as_far_as_their_exact_bounds() {
    // Two lopsided arcs and a cubic; a flipped sweep or large-arc flag would change the box by millimetres.
    let path = Path {
        start: Point::new(0.0, 0.0),
        segments: vec![
            Segment::Arc {
                to: Point::new(60.0, 10.0),
                bulge: 1.6,
            },
            Segment::Arc {
                to: Point::new(90.0, 60.0),
                bulge: -0.5,
            },
            Segment::Cubic {
                c1: Point::new(60.0, 120.0),
                c2: Point::new(-60.0, 60.0),
                to: Point::new(0.0, 0.0),
            },
        ],
        closed: true,
    };
    for (name, path) in [
        ("svg-arcs", path.clone()),
        ("svg-arcs-back", path.reversed()),
    ] {
        let bounds = path.bounds();
        let mut options = SvgOptions::default();
        options.line_width = 1.0;
        let Some((x, y)) = inked(name, &single(path), &options) else {
            return;
        };
        let expected = |size: f64| (size + 1.0) * PIXELS_PER_MM;
        assert!(
            (x - expected(bounds.width())).abs() <= 1.5,
            "{x} {}",
            expected(bounds.width())
        );
        assert!(
            (y - expected(bounds.height())).abs() <= 1.5,
            "{y} {}",
            expected(bounds.height())
        );
    }
}

#[test]
fn the_document_says_millimetres_twice_and_names_its_parts() {
    let drawn = svg::write(&scale_check(), &SvgOptions::default()).unwrap();
    let attribute = |name: &str| {
        let start = drawn.find(&format!(" {name}=\"")).unwrap() + name.len() + 3;
        drawn[start..].split('"').next().unwrap().to_owned()
    };
    let (width, height, view) = (
        attribute("width"),
        attribute("height"),
        attribute("viewBox"),
    );
    let view: Vec<&str> = view.split(' ').collect();
    assert_eq!(width, format!("{}mm", view[2]));
    assert_eq!(height, format!("{}mm", view[3]));
    assert!(drawn.contains("id=\"scale\"") && drawn.contains("id=\"scale-check.scale\""));
    assert_eq!(
        drawn,
        svg::write(&scale_check(), &SvgOptions::default()).unwrap()
    );
}
