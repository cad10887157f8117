//! Two ribs' edges against a B-rep kernel's sections of the same offset surfaces.
#![allow(clippy::unwrap_used, clippy::panic)]

use boardwright::board::Board;
use boardwright::design::parse;
use serde_json::Value;

/// Bound of the design, mm.
const BOUND: f64 = 0.01;

/// `fixtures/rib_edges.json`, made by the script beside it with Open CASCADE. A template clears the skins in the planes of both faces: its bottom
/// edge is the higher of the two sections, its deck edge the lower.
#[test]
fn two_ribs_as_open_cascade_has_them() {
    let text = std::fs::read_to_string("tests/fixtures/rib_edges.json").unwrap();
    let fixture: Value = serde_json::from_str(&text).unwrap();
    let file = fixture["design"].as_str().unwrap();
    let design = parse(&std::fs::read_to_string(file).unwrap(), file).unwrap();
    let board = Board::new(design).unwrap();
    let numbers = |v: &Value| -> Vec<f64> {
        let list = v.as_array().unwrap().iter();
        list.map(|n| n.as_f64().unwrap()).collect()
    };
    let mut worst: f64 = 0.0;
    for output in fixture["ribs"].as_array().unwrap() {
        let number = output["rib"].as_u64().unwrap() as usize;
        let rib = &board.ribs[number - 1];
        let half = rib.thickness / 2.0;
        assert_eq!(numbers(&output["planes"]), [rib.x - half, rib.x + half]);
        let contour = rib.outline.flatten(0.001);
        // Heights at which a line upward at y crosses the contour.
        let crossings = |y: f64| -> [f64; 2] {
            let heights = contour.windows(2).filter_map(|w| {
                let (a, b) = (w[0], w[1]);
                ((a.x - y) * (b.x - y) < 0.0).then(|| a.y + (b.y - a.y) * (y - a.x) / (b.x - a.x))
            });
            heights.fold([f64::INFINITY, f64::NEG_INFINITY], |[low, high], z| {
                [low.min(z), high.max(z)]
            })
        };
        let [bottom, deck] = ["bottom", "deck"].map(|face| {
            let planes = output[face].as_array().unwrap();
            [numbers(&planes[0]), numbers(&planes[1])]
        });
        for (i, y) in numbers(&output["y"]).into_iter().enumerate() {
            let [low, high] = crossings(y);
            let want = [bottom[0][i].max(bottom[1][i]), deck[0][i].min(deck[1][i])];
            for (found, want) in [low, high].into_iter().zip(want) {
                worst = worst.max((found - want).abs());
                assert!(
                    (found - want).abs() < BOUND,
                    "rib {number}, y {y}: {found}, kernel {want}"
                );
            }
        }
    }
    println!("worst {worst:.4} mm");
}
