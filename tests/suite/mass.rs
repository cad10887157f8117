//! What a board weighs: against closed forms, the parts' own sizes, and published densities.
#![allow(clippy::unwrap_used, clippy::panic)]

use crate::common::solids;
use std::sync::OnceLock;

use boardwright::board::Board;
use boardwright::board::mass::{Material, Part, Region, shares};
use boardwright::design::timber::find;
use boardwright::design::{self, FinishKind, Through};
use boardwright::frame::pads;
use boardwright::geometry::curve::Vector;
use boardwright::rail::{CourseKind, Rail};
use boardwright::shape::{DEFAULT_TOLERANCE, loft};
use solids::Block;

const EXAMPLES: [&str; 3] = ["round-tail-6ft4", "noserider-9ft4", "twin-5ft8"];

fn text(name: &str) -> String {
    std::fs::read_to_string(format!("examples/{name}.toml")).unwrap()
}

fn board(text: &str) -> Board {
    Board::new(design::parse(text, "x").unwrap()).unwrap()
}

fn boards() -> &'static [Board] {
    static BOARDS: OnceLock<Vec<Board>> = OnceLock::new();
    BOARDS.get_or_init(|| EXAMPLES.iter().map(|n| board(&text(n))).collect())
}

fn part<'a>(board: &'a Board, name: &str) -> &'a Part {
    let found = board.mass.parts.iter().find(|p| p.name == name);
    found.unwrap_or_else(|| panic!("no {name}"))
}

/// Half a disc: area π r² / 2 and centroid 4 r / 3 π (closed form), within what chords leave.
#[test]
fn areas_and_moments_of_a_half_disc() {
    let r = 30.0;
    let ring: Vec<Vector<2>> = (0..=2000)
        .map(|k| std::f64::consts::PI * f64::from(k) / 2000.0)
        .map(|t| Vector::<2>::new(r * t.cos(), r * t.sin()))
        .collect();
    let half = Region::of_polygon(&ring);
    assert!((half.size / (std::f64::consts::PI * r * r / 2.0) - 1.0).abs() < 1e-5);
    let centroid = half.high / half.size;
    assert!((centroid / (4.0 * r / (3.0 * std::f64::consts::PI)) - 1.0).abs() < 1e-5);
    let side = Region::of_side(&ring);
    assert!((side.along / side.size).abs() < 1e-9);
}

/// Densities at 12 %: the Wood Handbook's formula by hand (specific gravities of GTR-282 Table 5-3b: redcedar 0.32, yellow-poplar 0.42),
/// and okoume against the air-dry density of its sheet in Chudnoff, Agriculture Handbook 607: 28 lb/ft³, printed to the pound.
#[test]
fn woods_weigh_what_the_books_say() {
    for (name, density) in [("western redcedar", 358.4), ("yellow-poplar", 470.4)] {
        assert!((find(name).unwrap().density(12.0).unwrap() - density).abs() < 1e-6);
    }
    let pound_per_cubic_foot = 16.018_463;
    let okoume = find("okoume").unwrap().density(12.0).unwrap() / pound_per_cubic_foot;
    assert!((okoume - 28.0).abs() < 0.6, "{okoume}");
    // In a board, each wood by its own density and volume.
    let dry = board(&text("noserider-9ft4").replace("[timber]\n", "[timber]\nmoisture = 12\n"));
    for (name, density) in [("bottom skin", 470.4), ("tail block", 470.4)] {
        let part = part(&dry, name);
        assert!((part.mass - part.volume.unwrap() * 1e-9 * density).abs() < 1e-9);
    }
    let rib = part(&dry, "rib 3");
    let found = &dry.ribs[2];
    let holes: f64 = found.holes.iter().map(|h| h.area().abs()).sum();
    let area = found.outline.area().abs() - holes;
    let by_hand = area * found.thickness * 1e-9 * okoume * pound_per_cubic_foot;
    assert!(
        (rib.mass / by_hand - 1.0).abs() < 2e-3,
        "{} {by_hand}",
        rib.mass
    );
}

/// The finished board is its parts and the air inside; the sections' sum is the shell's volume by exact integrals.
#[test]
fn parts_and_air_fill_the_shell() {
    for board in boards() {
        let m = &board.mass;
        let whole = m.shares.whole.size;
        assert!(
            (whole / board.measures.volume - 1.0).abs() < 5e-4,
            "{whole}"
        );
        let centre = m.shares.whole.centre().unwrap();
        let exact = board.measures.centre_of_volume;
        assert!((centre[0] - exact[0]).abs() < 0.5 && (centre[1] - exact[1]).abs() < 0.1);
        let wood: f64 = m.parts.iter().filter_map(|p| p.volume).sum();
        assert!((wood + m.hollow + m.cut_out - whole).abs() < 1.0);
        // Skins, and what is between them, are the whole.
        let s = &m.shares;
        let sum = s.bottom.size + s.deck.size + s.middle.size + s.ends[0].size + s.ends[1].size;
        assert!((sum / whole - 1.0).abs() < 1e-9);
        // A light board: between a sixth and a half of it is wood.
        assert!((0.15..0.5).contains(&(wood / whole)), "{}", wood / whole);
    }
}

/// Between its land lines a skin is its flat area times its thickness; beyond them it is planed to the rail. So the volume lies
/// between the area inside the lands and the whole trimmed panel, times the thickness.
#[test]
fn skins_weigh_what_their_panels_do() {
    for board in boards() {
        for panel in &board.panels.panels {
            let volume = part(board, &format!("{} skin", panel.skin.face.name()))
                .volume
                .unwrap();
            let most = panel.trimmed_area() * panel.skin.thickness;
            let lands = panel.skin.land_line();
            let inside: f64 = lands
                .windows(2)
                .map(|w| (w[1].x - w[0].x) * (w[0].y + w[1].y))
                .sum();
            let cleft: f64 = panel
                .skin
                .cleft_line()
                .windows(2)
                .map(|w| (w[1].x - w[0].x) * (w[0].y + w[1].y))
                .sum();
            let least = (inside - cleft) * panel.skin.thickness;
            assert!(volume < most * 1.002, "{volume} {most}");
            assert!(volume > least * 0.998, "{volume} {least}");
            assert!(volume > 0.75 * most, "{volume} {most}");
        }
    }
}

/// What is planed off never adds wood: strips weigh less than their profile's area times their length, and more than nothing.
#[test]
fn the_rail_loses_wood_to_the_plane() {
    for board in boards() {
        let c = &board.design.construction;
        for (kind, name, area) in [
            (
                CourseKind::Starter,
                "starters, both rails",
                c.starter.size.powi(2),
            ),
            (
                CourseKind::BeadOnly,
                "bead-only strips, both rails",
                c.strip.thickness * c.strip.width,
            ),
            (
                CourseKind::BeadAndCove,
                "bead-and-cove strips, both rails",
                c.strip.thickness * c.strip.width,
            ),
        ] {
            let strips = board.strips.iter().filter(|s| s.kind == kind);
            let rough: f64 = strips.map(|s| 2.0 * s.length * area).sum();
            let left = part(board, name).volume.unwrap();
            println!(
                "{} {name}: {:.2} of the rough wood left",
                board.design.name,
                left / rough
            );
            assert!(left < rough && left > 0.1 * rough, "{name} {left} {rough}");
        }
    }
}

/// Total and centre of gravity follow from the parts, and every part lies in the board.
#[test]
fn total_and_centre_are_the_parts_own() {
    for board in boards() {
        let m = &board.mass;
        let total: f64 = m.parts.iter().map(|p| p.mass).sum();
        assert!((total - m.total).abs() < 1e-12);
        for k in [0, 1] {
            let moment: f64 = m.parts.iter().map(|p| p.mass * p.centre[k]).sum();
            assert!((moment / total - m.centre[k]).abs() < 1e-9);
        }
        // Every part's centre lies within the board.
        for p in &m.parts {
            assert!(p.mass > 0.0, "{p:?}");
            let [bottom, deck] = board.shell.centre_heights(p.centre[0]);
            let [x, z] = p.centre;
            assert!((0.0..board.design.length).contains(&x), "{p:?}");
            assert!(z > 0.0 && z < 2.0 * board.measures.nose_rocker, "{p:?}");
            // A rib's and a block's middle lies in the hollow there; what is bent up at both ends has its own above.
            if p.name.starts_with("rib") || p.name.ends_with("block") {
                assert!(z > bottom && z < deck, "{p:?} {bottom} {deck}");
            }
        }
    }
}

/// Oil, cloth and fittings by hand: areal mass times the surface, and a fitting's moment.
#[test]
fn finish_and_fittings_are_added() {
    let name = "round-tail-6ft4";
    let plain = &boards()[0];
    let surface = plain.measures.surface_area * 1e-6;
    assert_eq!(plain.design.finish.kind, FinishKind::Oil);
    assert!((part(plain, "finish").mass - 0.06 * surface).abs() < 1e-9);
    let sheathed = board(&format!(
        "{}\n[finish]\nkind = \"sheath\"\nglue = 0\n[[fitting]]\nname = \"fins\"\nmass = 0.3\nat = 200\n",
        text(name)
    ));
    assert!((part(&sheathed, "finish").mass - 0.4 * surface).abs() < 1e-9);
    assert_eq!(sheathed.mass.of(Material::Glue), 0.0);
    assert_eq!(part(&sheathed, "fins").centre[0], 200.0);
    let wood = plain.mass.of(Material::Wood);
    let expected = wood + 0.4 * surface + 0.3;
    assert!((sheathed.mass.total - expected).abs() < 1e-9);
    let bare = board(&format!("{}\n[finish]\nkind = \"none\"\n", text(name)));
    assert!(
        bare.mass
            .parts
            .iter()
            .all(|p| p.material != Material::Finish)
    );
}

/// Moisture: density by the Handbook's formula goes up with the water in the wood, and the total by the same share.
#[test]
fn wet_wood_weighs_more() {
    let name = "twin-5ft8";
    let wood = |moisture: f64| {
        let with = format!("[timber]\nmoisture = {moisture}\n");
        board(&text(name).replace("[timber]\n", &with))
            .mass
            .of(Material::Wood)
    };
    let (dry, damp) = (wood(6.0), wood(15.0));
    assert!(damp > dry * 1.03 && damp < dry * 1.09, "{dry} {damp}");
}

/// The board displaces its own mass (Archimedes), carries what its volume displaces, and with a rider says how much is too much.
#[test]
fn it_floats_by_its_own_mass() {
    for board in boards() {
        assert_eq!(board.float_states.len(), 2);
        for float_states in &board.float_states {
            let afloat = float_states.afloat.as_ref().unwrap();
            let density = float_states.water.density();
            assert!((afloat.displaced * 1e-9 * density / board.mass.total - 1.0).abs() < 1e-9);
            let carries = board.measures.volume * 1e-9 * density;
            assert!((float_states.carries / carries - 1.0).abs() < 1e-3);
            assert!(afloat.draught > 3.0 && afloat.draught < 40.0);
        }
    }
    let ridden = board(&format!(
        "{}\n[rider]\nmass = 75\n",
        text("round-tail-6ft4")
    ));
    assert_eq!(ridden.float_states.len(), 4);
    let last = &ridden.float_states[2];
    assert!(last.ridden && last.afloat.is_err());
    assert!((last.load.mass - ridden.mass.total - 75.0).abs() < 1e-9);
    let light = board(&format!(
        "{}\n[rider]\nmass = 20\nat = 900\n",
        text("round-tail-6ft4")
    ));
    let afloat = light.float_states[2].afloat.as_ref().unwrap();
    assert!((afloat.displaced * 1e-9 * 1025.976 - light.mass.total - 20.0).abs() < 1e-6);
}

/// Weights out of place are faults with a remedy.
#[test]
fn weights_are_checked() {
    for (added, output) in [
        ("[rider]\nmass = 75\nat = 3000\n", "must be on the board"),
        (
            "[[fitting]]\nname = \"vent\"\nmass = 0.02\nat = 4000\n",
            "must be on the board",
        ),
        ("[skins]\ndry_strain_along = 0.5\n", "soaked"),
        ("[skins]\nsoaked_bend = 200\n", "soaked"),
    ] {
        let text = format!("{}\n{added}", text("round-tail-6ft4"));
        let faults = design::parse(&text, "x").unwrap_err().to_string();
        assert!(faults.contains(output), "{added}: {faults}");
    }
    let silly = text("round-tail-6ft4").replace("[timber]\n", "[timber]\nframe = \"okume\"\n");
    assert!(
        design::parse(&silly, "x")
            .unwrap_err()
            .to_string()
            .contains("okoume")
    );
}

/// A box in closed form: skins are length × beam × thickness with their centres half a thickness inside the faces, the rest is block.
#[test]
fn a_box_is_shared_out_exactly() {
    let [l, b, h] = [1800.0, 480.0, 70.0];
    let shell = loft(&Block([l, b, h]), DEFAULT_TOLERANCE).unwrap();
    let design = design::parse(&text("round-tail-6ft4"), "x").unwrap();
    let design = design
        .with(|draft| {
            draft.construction.bottom_skin = 4.0;
            draft.construction.deck_skin = 5.0;
        })
        .unwrap();
    let no_rail = Rail::default();
    let got = shares(&shell, &design.construction, &no_rail).unwrap();
    let close = |region: Region, size: f64, z: f64| {
        let centre = region.centre().unwrap();
        assert!(
            (region.size / size - 1.0).abs() < 1e-6,
            "{} {size}",
            region.size
        );
        assert!(
            (centre[0] - l / 2.0).abs() < 1e-4 && (centre[1] - z).abs() < 1e-4,
            "{centre:?}"
        );
    };
    close(got.whole, l * b * h, h / 2.0);
    close(got.bottom, l * b * 4.0, 2.0);
    close(got.deck, l * b * 5.0, h - 2.5);
    let mut rest = got.ends[0];
    rest += got.ends[1];
    close(rest, l * b * (h - 9.0), (h - 5.0 + 4.0) / 2.0);
    assert_eq!(got.rail, [Region::default(); 3]);
}

/// A file from before there were skins, finish and rider in it means what the keys' defaults say.
#[test]
fn an_old_file_still_works() {
    let old = "name = \"old\"\n[outline]\nlength = 1900\nwidth = 510\n[foil]\ncentre = 66\n";
    let design = design::parse(old, "x").unwrap();
    let skins = design.skins;
    assert_eq!((skins.plank_width, skins.plank_length), (90.0, None));
    assert_eq!(
        (skins.overhang, skins.limits),
        (10.0, design::SkinLimits::default())
    );
    assert_eq!(design.timber.skins, design.timber.rail);
    assert_eq!(design.timber.blocks, design.timber.rail);
    assert_eq!(design.timber.frame.name, "okoume");
    assert_eq!((design.finish.mass, design.finish.glue), (0.06, 0.2));
    assert!(design.fittings.is_empty() && design.rider.is_none());
    let board = Board::new(design).unwrap();
    assert_eq!(board.panels.panels.len(), 2);
    assert!(
        (2.0..6.0).contains(&board.mass.total),
        "{}",
        board.mass.total
    );
}

/// The maker's own wood goes before the table's.
#[test]
fn the_maker_s_own_wood_is_weighed() {
    let own = "[[timber.species]]\nname = \"ply\"\nspecific_gravity = 0.5\nmodulus = 8000\nrupture = 60\n";
    let text =
        text("twin-5ft8").replace("[timber]\n", "[timber]\nframe = \"ply\"\nmoisture = 12\n");
    let board = board(&format!("{text}\n{own}"));
    let spine = part(&board, "spine");
    assert_eq!(spine.of, "ply");
    assert!((spine.mass / (spine.volume.unwrap() * 1e-9 * 560.0) - 1.0).abs() < 1e-9);
}

/// Blocks weighed by the sections' rest are the blocks as solids, made another way (`blocks`).
#[test]
fn blocks_are_their_solids() {
    for board in boards() {
        for block in &board.blocks {
            let end = usize::from(block.which == boardwright::frame::blocks::BoardEnd::Nose);
            let found = board.mass.shares.ends[end];
            let solid = block.volume();
            println!(
                "{} {:?} {} {solid}",
                board.design.name, block.which, found.size
            );
            assert!(
                (found.size / solid - 1.0).abs() < 0.02,
                "{} {solid}",
                found.size
            );
            let moment = |k: usize| {
                let all = block.bodies.iter();
                let all = all.map(|b| b.volume() * b.centroid().unwrap()[k]);
                all.sum::<f64>() / solid
            };
            let [x, z] = found.centre().unwrap();
            assert!(
                (x - moment(0)).abs() < 2.0 && (z - moment(2)).abs() < 1.0,
                "{x} {z}"
            );
        }
    }
}

/// A pad is weighed as its pieces without the fitting's hole; skin, spine and tail block lose their parts of it. By hand from the
/// design's own sizes: a box of length, width and depth, or a round hole.
#[test]
fn cut_outs_are_left_out() {
    let mut seen = [0, 0];
    for board in boards() {
        let (c, fins) = (&board.design.construction, &board.design.fins.fins);
        let mut skins = [0.0, 0.0];
        let (mut spine, mut block, mut all) = (0.0, 0.0, 0.0);
        for fitting in &board.pads.fittings {
            let (slot, skin) = match fitting.through {
                Through::Bottom => (0, c.bottom_skin),
                Through::Deck => (1, c.deck_skin),
            };
            let under = fitting.depth - skin;
            let round = std::f64::consts::PI / 4.0 * fitting.base.powi(2);
            let (length, width) = match fitting.kind {
                pads::FittingKind::Fin => {
                    let number: usize = fitting.name.split('-').nth(1).unwrap().parse().unwrap();
                    let cut = fins[number - 1].cut;
                    (cut.length * cut.count as f64, cut.width)
                }
                // A strip as wide and as large as the disc.
                _ => (round / fitting.base, fitting.base),
            };
            skins[slot] += length * width * skin;
            all += length * width * fitting.depth;
            let on_centre = fitting.middle[1].abs() < 1e-9;
            let Some(pad) = &fitting.pad else {
                block += length * width * under;
                continue;
            };
            let mut gone = length * width * under;
            if on_centre && fitting.kind == pads::FittingKind::Fin {
                // What reaches over the tail block is the block's.
                let behind = (c.tail_block - fitting.middle[0] + length / 2.0).max(0.0);
                block += behind * width * under;
                spine += (length - behind) * c.spine * under;
                gone = (length - behind) * (width - c.spine) * under;
                seen[1] += 1;
            }
            let left = part(board, &format!("pad of {}", fitting.name))
                .volume
                .unwrap();
            let want = pad.volume() - gone;
            // A disc is weighed as a polygon.
            let room = if fitting.kind == pads::FittingKind::Fin {
                1e-6
            } else {
                1e-3
            };
            assert!(
                (left / want - 1.0).abs() < room,
                "{left} {want} {}",
                fitting.name
            );
            seen[0] += 1;
        }
        let m = &board.mass;
        let lost = |region: Region, name: &str| region.size - part(board, name).volume.unwrap();
        for (lost, want) in [
            (lost(m.shares.bottom, "bottom skin"), skins[0]),
            (lost(m.shares.deck, "deck skin"), skins[1]),
            (lost(m.shares.ends[0], "tail block"), block),
            (m.cut_out, all),
        ] {
            assert!((lost - want).abs() < 2e-3 * want + 1e-6, "{lost} {want}");
        }
        let holes: f64 = board.spine.holes.iter().map(|h| h.area().abs()).sum();
        let whole = (board.spine.outline.area().abs() - holes) * board.spine.thickness;
        let lost = whole - part(board, "spine").volume.unwrap();
        assert!((lost - spine).abs() < 1e-3 * whole, "{lost} {spine}");
    }
    assert!(seen[0] > 6 && seen[1] > 0, "{seen:?}");
}
