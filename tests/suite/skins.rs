//! Skins of the three examples.
#![allow(clippy::unwrap_used, clippy::panic)]

use std::sync::OnceLock;

use boardwright::board::Board;
use boardwright::design::finding::{Code, Part};
use boardwright::design::{self, PanelCentre};
use boardwright::geometry::curve::Vector;
use boardwright::output::export::svg;
use boardwright::views::drawing::Layer;
use boardwright::views::sheets::skin_sheets;
use boardwright::wood::skin::{
    Face, Skin, SkinError, SkinLimits, SkinOptions, Treatment, flatten, skins, verdict,
};

const EXAMPLES: [&str; 3] = ["round-tail-6ft4", "noserider-9ft4", "twin-5ft8"];

fn boards() -> &'static [(Board, [Skin; 2])] {
    static BOARDS: OnceLock<Vec<(Board, [Skin; 2])>> = OnceLock::new();
    BOARDS.get_or_init(|| {
        let make = |name: &&str| {
            let file = format!("examples/{name}.toml");
            let text = std::fs::read_to_string(&file).unwrap();
            let board = Board::new(design::parse(&text, &file).unwrap()).unwrap();
            let construction = &board.design.construction;
            let skins = skins(&board.shell, construction, &SkinOptions::default()).unwrap();
            (board, skins)
        };
        EXAMPLES.iter().map(make).collect()
    })
}

fn each() -> impl Iterator<Item = (&'static Board, &'static Skin)> {
    boards()
        .iter()
        .flat_map(|(b, s)| s.iter().map(move |s| (b, s)))
}

/// Away from the land the mid-surface lies half a skin under the finished surface, whose section on the centreline is known.
#[test]
fn the_mid_surface_lies_half_a_skin_inside() {
    for (board, skin) in each() {
        let (bottom, middle) = (skin.face == Face::Bottom, skin.columns / 2);
        let start = board.family.plan().cleft_depth().unwrap_or(0.0);
        for (i, &x) in skin.rows.iter().enumerate() {
            if x < skin.follows[0].max(start) + 1.0 || x > skin.follows[1] - 1.0 {
                continue;
            }
            let p = skin.points[i * skin.columns + middle];
            // The nearest finished point of the centreline by search.
            let near = |x: f64| {
                let z = board.shell.centre_heights(x)[usize::from(!bottom)];
                (Vector::from([x, z]) - Vector::from([p.x, p.z])).norm()
            };
            let least = (-400..=400)
                .map(|k| near(x + f64::from(k) * 0.02))
                .fold(9e9, f64::min);
            // The normal leans across only where the bottom has a vee.
            assert!((least - skin.thickness / 2.0).abs() < 0.02, "{x} {least}");
        }
    }
}

/// Half the skin, laid flat with its centreline on the axis, and its mirror image are what the whole would have come to.
#[test]
fn the_halves_make_the_whole() {
    for (_, skin) in each() {
        let laid = flatten(&skin.points, &skin.triangles).unwrap();
        let middle = skin.columns / 2;
        let ends = [middle, skin.points.len() - skin.columns + middle];
        let [tail, nose] = ends.map(|k| laid.flat[k]);
        let ahead = (nose - tail).normalize();
        for (got, p) in skin.flat.iter().zip(&laid.flat) {
            let q = p - tail;
            let want = Vector::from([ahead.dot(&q), ahead.perp(&q)]) + skin.flat[ends[0]];
            assert!((got - want).norm() < 1e-6, "{got} {want}");
        }
        for (strain, stretch) in skin.strains.iter().zip(&laid.stretches) {
            assert!((strain.worst - stretch.worst()).abs() < 1e-9);
            assert!((strain.area - stretch.area_strain()).abs() < 1e-9);
        }
        for (t, strain) in skin.triangles.iter().zip(&skin.strains) {
            let [a, b, c] = t.map(|i| skin.points[i as usize]);
            let middle = (a + b + c) / 3.0;
            assert!((middle.xy() - Vector::from(strain.place)).norm() < 1e-9);
        }
    }
}

/// What is judged does not hang on the grid: twice as fine a one gives the same strains, though single triangles near a tip differ by half.
#[test]
fn the_greatest_strains_settle() {
    for (board, skin) in each() {
        let mut fine = skin.options;
        fine.row_step /= 2.0;
        fine.column_step /= 2.0;
        let finer = boardwright::wood::skin::skin(
            &board.shell,
            &board.design.construction,
            skin.face,
            &fine,
        );
        let [coarse, finer] = [skin, &finer.unwrap()].map(|s| s.greatest().unwrap());
        let SkinLimits {
            strain_along,
            strain_across,
            ..
        } = board.design.skins.limits;
        for (a, b, dry) in [
            (coarse.along.along, finer.along.along, strain_along[0]),
            (coarse.across.across, finer.across.across, strain_across[0]),
        ] {
            assert!(
                (a.abs() - b.abs()).abs() < 0.1 * dry + 0.08 * a.abs(),
                "{a} {b}"
            );
        }
    }
}

/// Every edge of the grid keeps its length within the strain reported; so does the centreline as a whole.
#[test]
fn lengths_are_kept_within_the_strain_reported() {
    for (_, skin) in each() {
        let worst = skin
            .strains
            .iter()
            .map(|s| s.worst.abs())
            .fold(0.0, f64::max);
        for t in &skin.triangles {
            let [a, b] = [t[0] as usize, t[1] as usize];
            let surface = (skin.points[a] - skin.points[b]).norm();
            let strain = surface / (skin.flat[a] - skin.flat[b]).norm() - 1.0;
            assert!(strain.abs() <= worst + 1e-9);
        }
        let [tail, nose] = skin.centre_line();
        let middle: Vec<_> = skin
            .points
            .iter()
            .skip(skin.columns / 2)
            .step_by(skin.columns)
            .collect();
        let length: f64 = middle.windows(2).map(|w| (w[1] - w[0]).norm()).sum();
        assert!((length / (nose - tail) - 1.0).abs() <= worst);
        let (mut surface, mut change) = (0.0, 0.0);
        for s in &skin.strains {
            surface += s.size;
            change += s.size * s.area / (1.0 + s.area);
        }
        assert!((change / surface).abs() < 2.0 * worst);
    }
}

/// The contour runs outside the trim line by the overhang, within the strain and the flat's slope.
#[test]
fn the_overhang_is_there_all_round() {
    for (_, skin) in each() {
        let contour = skin.contour();
        let trim = skin.trim_line();
        for p in &trim {
            let distance = contour
                .windows(2)
                .map(|w| {
                    let d = w[1] - w[0];
                    let t = ((p - w[0]).dot(&d) / d.norm_squared()).clamp(0.0, 1.0);
                    (p - w[0] - d * t).norm()
                })
                .fold(9e9, f64::min);
            // Steeply hanging skin is longer than its plan; the cleft side of a tail's face is spanned.
            let spanned = p.y < 1.0 || skin.cleft_line().first().is_some_and(|c| p.y < c.y + 1.0);
            assert!(
                spanned || (9.5..14.0).contains(&distance),
                "{:?} {p} {distance}",
                skin.face
            );
        }
    }
}

#[test]
fn planks_cover_the_panel_with_a_seam_on_the_centreline() {
    for (_, skin) in each() {
        let planks = skin.planks(90.0, PanelCentre::Seam);
        let half = skin.contour().iter().map(|p| p.y).fold(0.0, f64::max);
        assert!(planks.len() % 2 == 0);
        assert!((planks[0].edges[0] + half).abs() < 1e-9);
        assert!(planks.windows(2).all(|w| w[0].edges[1] == w[1].edges[0]));
        assert!(planks.iter().any(|p| p.edges[0] == 0.0));
        for p in &planks {
            assert!(
                p.width() <= 90.0 + 1e-9 && p.width() > 20.0 && p.length() > 100.0,
                "{p:?}"
            );
        }
        assert!(
            skin.planks(0.0, PanelCentre::Seam).is_empty()
                && skin.planks(f64::NAN, PanelCentre::Seam).is_empty()
        );
    }
}

#[test]
fn sheets_are_clean_and_labelled() {
    let folder = std::path::Path::new(env!("CARGO_TARGET_TMPDIR"));
    for (name, (board, _)) in EXAMPLES.iter().zip(boards()) {
        for sheet in skin_sheets(board).unwrap() {
            let faults = sheet.drawing.check();
            assert!(faults.is_empty(), "{name} {}: {faults:?}", sheet.name);
            let cuts = sheet
                .drawing
                .items
                .iter()
                .filter(|i| i.layer == Layer::OutsideCut);
            assert_eq!(cuts.count(), 1);
            let written = svg::write(&sheet.drawing, &Default::default()).unwrap();
            std::fs::write(folder.join(format!("{name}-{}.svg", sheet.name)), written).unwrap();
        }
    }
}

/// Bending strain goes with thickness: a skin ten times as thick is judged no milder, and relieved at least.
#[test]
fn thicker_skins_are_judged_no_milder() {
    for (board, skin) in each() {
        let limits = SkinLimits::default();
        let thin = verdict(skin, &limits);
        let mut thick = skin.clone();
        thick.thickness *= 10.0;
        let heavy = verdict(&thick, &limits);
        assert_eq!(thin.causes.len(), 4);
        assert!(heavy.treatment >= thin.treatment && heavy.treatment >= Treatment::Relieve);
        println!("{} {:?}", board.design.name, skin.face);
        for f in &thin.causes {
            println!(
                "  {:?} {:+.5} at {:.0?}: {:?}",
                f.cause, f.value, f.place, f.treatment
            );
        }
        println!("  {:?}", skin.follows);
    }
}

#[test]
fn options_are_checked() {
    let (board, _) = &boards()[0];
    for overhang in [-1.0, 101.0, f64::NAN] {
        let mut options = SkinOptions::default();
        options.overhang = overhang;
        let got = skins(&board.shell, &board.design.construction, &options);
        assert!(matches!(got, Err(SkinError::Option { .. })));
    }
}

/// Planks, scarfs and keyed pieces for stock shorter than the board.
#[test]
fn short_stock_is_joined() {
    let file = "examples/round-tail-6ft4.toml";
    let text = std::fs::read_to_string(file).unwrap();
    let with = |keys: &str| {
        let text = text.replace(
            "[construction]\n",
            &format!("[skins]\n{keys}\n[construction]\n"),
        );
        Board::new(design::parse(&text, file).unwrap()).unwrap()
    };
    let stock = 1200.0;
    let scarfed = with("plank_length = 1200\n");
    let (scarf, stagger) = (8.0, scarfed.design.shop.stagger);
    for panel in &scarfed.panels.panels {
        let scarf = scarf * panel.skin.thickness;
        for (i, plank) in panel.planks.iter().enumerate() {
            let mut from = plank.reach[0];
            for x in &plank.scarfs {
                assert!(x + scarf / 2.0 - from <= stock + 1e-6);
                assert!(x + scarf / 2.0 - from >= scarfed.design.shop.shortest_piece - 1e-6);
                from = x - scarf / 2.0;
            }
            assert!(plank.reach[1] - from <= stock + 1e-6);
            assert_eq!(plank.scarfs.is_empty(), plank.length() <= stock);
            let next = panel.planks.get(i + 1).map_or(&[][..], |p| &p.scarfs);
            for (a, b) in plank
                .scarfs
                .iter()
                .flat_map(|a| next.iter().map(move |b| (a, b)))
            {
                assert!((a - b).abs() >= stagger - 1e-6, "{a} {b}");
            }
        }
    }
    assert!(
        scarfed
            .quick_findings
            .iter()
            .all(|f| f.code != Code::SkinPlanksShort)
    );

    let keyed = with("plank_length = 1200\njoint = \"key\"\ncentre = \"plank\"\n");
    for panel in &keyed.panels.panels {
        let pieces = panel.pieces();
        assert_eq!(pieces.len(), 2);
        let area = |ring: &Vec<Vector<2>>| {
            let next = ring.iter().cycle().skip(1);
            ring.iter().zip(next).map(|(a, b)| a.perp(b)).sum::<f64>() / 2.0
        };
        // Keys on one piece are sockets on the other, so that the areas add up to the whole panel's.
        let sum: f64 = pieces.iter().map(area).sum();
        assert!(pieces.iter().all(|p| area(p) > 0.0));
        assert!(
            (sum / panel.area() - 1.0).abs() < 1e-3,
            "{sum} {}",
            panel.area()
        );
        for piece in &pieces {
            let xs = || piece.iter().map(|p| p.x);
            assert!(xs().fold(0.0, f64::max) - xs().fold(9e9, f64::min) <= stock);
        }
        assert!(
            panel
                .planks
                .iter()
                .any(|p| p.edges[0] < 0.0 && p.edges[1] > 0.0)
        );
    }
    for sheet in skin_sheets(&keyed).unwrap() {
        assert!(
            sheet.drawing.check().is_empty(),
            "{:?}",
            sheet.drawing.check()
        );
        let cuts = sheet
            .drawing
            .items
            .iter()
            .filter(|i| i.layer == Layer::OutsideCut);
        assert_eq!(cuts.count(), 2);
    }
}

/// A skin that cannot be developed is a trouble with a remedy; the board is made all the same.
#[test]
fn what_is_judged_stands_in_the_board() {
    for (board, skins) in boards() {
        assert_eq!(board.panels.panels.len(), 2);
        for (panel, skin) in board.panels.panels.iter().zip(skins) {
            assert_eq!(&panel.skin, skin);
            let limits = board.design.skins.limits;
            assert_eq!(panel.verdict, verdict(skin, &limits));
            let over = panel
                .verdict
                .causes
                .iter()
                .filter(|f| f.treatment > Treatment::Soak);
            let told = board
                .quick_findings
                .iter()
                .filter(|f| f.part == Part::Skin(skin.face));
            assert_eq!(over.count(), told.count());
            // Overhang all round is an outline's length times its width, and rounder at corners.
            let ring = panel.area() - panel.trimmed_area();
            let trim = skin.trim_line();
            let round: f64 = 2.0 * trim.windows(2).map(|w| (w[1] - w[0]).norm()).sum::<f64>();
            let wide = ring / round;
            assert!(
                (9.0..14.0).contains(&wide) || !skin.cleft_line().is_empty(),
                "{wide}"
            );
        }
    }
}

/// Maps hold every cell of the grid once, and the ring marks the greatest strain's place.
#[test]
fn strain_maps_cover_the_panel() {
    use boardwright::output::export::svg_shading;
    use boardwright::views::sheets::strain_maps;
    for (board, _) in boards() {
        let maps = strain_maps(board);
        assert_eq!(maps.len(), 4);
        for (map, panel) in maps
            .iter()
            .zip(board.panels.panels.iter().flat_map(|p| [p, p]))
        {
            let area: f64 = map
                .shading
                .areas
                .iter()
                .map(|(band, ring)| {
                    assert!(*band < map.shading.bands.len());
                    let next = ring.iter().cycle().skip(1);
                    ring.iter().zip(next).map(|(a, b)| a.perp(b)).sum::<f64>() / 2.0
                })
                .sum();
            let s = &panel.skin;
            let flat: f64 = s
                .triangles
                .iter()
                .map(|t| {
                    let [a, b, c] = t.map(|i| s.flat[i as usize]);
                    (b - a).perp(&(c - a)) / 2.0
                })
                .sum();
            assert!((area.abs() / flat - 1.0).abs() < 1e-9, "{area} {flat}");
            let svg = svg_shading::write(&map.shading).unwrap();
            assert!(svg.contains("Greatest") && svg.contains("<circle"));
        }
    }
}
