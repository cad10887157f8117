//! What is written about strips and wood: charts, planks, schedule, cutting list, the shop's page.
#![allow(clippy::unwrap_used, clippy::panic)]

use boardwright::board::Board;
use boardwright::design::{parse, starter};
use boardwright::geometry::path::Bounds;
use boardwright::output::export::{chart, dxf, svg};
use boardwright::output::{OutputOptions, files};
use boardwright::rail::StrainKind;
use boardwright::views::chart::ticks;
use boardwright::views::drawing::{Layer, Shape};
use boardwright::views::report::{report, strip_charts, tables};
use boardwright::views::sheets::plank_sheets;
use boardwright::views::table::Cell;

const EXAMPLES: [&str; 3] = ["twin-5ft8", "round-tail-6ft4", "noserider-9ft4"];

fn board(name: &str) -> Board {
    let text = std::fs::read_to_string(format!("examples/{name}.toml")).unwrap();
    Board::new(parse(&text, name).unwrap()).unwrap()
}

/// A board whose planks are so short that its strips are scarfed and several planks are cut.
fn scarfed() -> Board {
    let text = starter();
    let plank = text.find("[[shop.plank]]").unwrap();
    let next = text[plank + 2..]
        .find("\n[")
        .map_or(text.len(), |n| plank + 2 + n);
    let own = "[[shop.plank]]\nlength = 1300\nwidth = 60\nthickness = 24\n";
    let text = format!("{}{own}{}", &text[..plank], &text[next..]);
    Board::new(parse(&text, "board.toml").unwrap_or_else(|f| panic!("{f}"))).unwrap()
}

#[test]
fn a_chart_shows_what_the_schedule_says() {
    for name in EXAMPLES {
        let board = board(name);
        let charts = strip_charts(&board);
        assert_eq!(charts.len(), board.strips.len());
        let schedule = tables(&board, &report(&board));
        let schedule = schedule
            .iter()
            .find(|t| t.name == "strip-schedule")
            .unwrap();
        for ((work, named), row) in board
            .rail_wood
            .strips
            .iter()
            .zip(&charts)
            .zip(&schedule.table.rows)
        {
            let c = &named.chart;
            assert_eq!(c.marks.len(), board.ribs.len());
            let used = c.panels.last().unwrap();
            for (i, strained) in StrainKind::ALL.into_iter().enumerate() {
                let Some(d) = work.demand_of(strained) else {
                    continue;
                };
                let line = used.series.iter().find(|s| s.ink == i).unwrap();
                let most = line.points.iter().map(|p| p[1]).fold(0.0, f64::max);
                assert!(
                    (most - d.utilisation.ratio).abs() < 1e-9,
                    "{name} {strained:?}"
                );
                // The panel above carries the limit: its line is at the limit where the share is 1.
                let panel = &c.panels[i];
                let [x, y] = panel.callouts[0].at;
                let limit = panel.levels[0].value.abs();
                assert!((y.abs() / limit - most).abs() < 1e-9, "{name} {strained:?}");
                let inch = if board.design.report.is_metric() {
                    1.0
                } else {
                    25.4
                };
                assert!((x * inch - d.x).abs() < 1e-6);
                let column = 13 + 4 * i;
                assert_eq!(row[column + 1], Cell::Number(d.utilisation.ratio));
                assert_eq!(row[column + 2], Cell::Number(d.x));
            }
            let text = chart::write(c).unwrap();
            for tag in ["text", "title", "svg"] {
                let open = text.matches(&format!("<{tag}")).count();
                assert_eq!(open, text.matches(&format!("</{tag}>")).count());
            }
            assert!(!text.contains("NaN") && !text.contains("inf"));
            for rib in &board.ribs {
                assert!(text.contains(&format!(">{}</text>", rib.number)));
            }
            assert!(text.contains("from the tail, "));
        }
    }
}

#[test]
fn ticks_are_round_and_within() {
    for (low, high) in [
        (0.0, 1.9),
        (-3.0, 0.2),
        (0.0, 2413.0),
        (-0.004, 0.011),
        (5.0, 5.0),
    ] {
        let found = ticks(low, high, 5);
        assert_eq!(found.is_empty(), low == high);
        assert!(found.iter().all(|t| *t >= low - 1e-9 && *t <= high + 1e-9));
        assert!(found.len() <= 6, "{found:?}");
        if let [a, b, ..] = found[..] {
            let mantissa = (b - a) / 10f64.powf((b - a).log10().floor());
            assert!(
                [1.0, 2.0, 5.0, 10.0]
                    .iter()
                    .any(|m| (m - mantissa).abs() < 1e-6)
            );
        }
    }
}

/// At full size every piece has its length and its lane's width, lies in its plank, and is a kerf away from the next.
#[test]
fn planks_are_drawn_as_they_are_cut() {
    let boards = EXAMPLES.map(board).into_iter().chain([scarfed()]);
    let mut several = 0;
    for board in boards {
        let plan = board.rail_wood.cutting.as_ref().unwrap();
        let shop = &board.design.shop;
        let sheets = plank_sheets(&board);
        several += usize::from(sheets.len() > 1);
        let mut labels: Vec<String> = Vec::new();
        for sheet in &sheets {
            for drawing in [&sheet.page, &sheet.full] {
                assert_eq!(drawing.check(), vec![]);
            }
            svg::write(&sheet.page, &Default::default()).unwrap();
            dxf::write(&sheet.full, &Default::default()).unwrap();
            let marked: Vec<Bounds> = sheet
                .full
                .items
                .iter()
                .filter(|i| i.layer == Layer::Mark)
                .map(|i| i.bounds())
                .collect();
            // Leaves' ends are drawn too, taller than long.
            let pieces: Vec<&Bounds> = marked.iter().filter(|b| b.width() > b.height()).collect();
            for (i, a) in pieces.iter().enumerate() {
                for b in &pieces[i + 1..] {
                    let apart = [
                        b.min.x - a.max.x,
                        a.min.x - b.max.x,
                        b.min.y - a.max.y,
                        a.min.y - b.max.y,
                    ];
                    let gap = apart.into_iter().fold(f64::NEG_INFINITY, f64::max);
                    let least = shop.kerfs.crosscut.min(shop.kerfs.rip);
                    assert!(gap > least - 1e-6, "{gap}");
                }
            }
            let texts = sheet.full.items.iter().filter_map(|i| match &i.shape {
                Shape::Text(t) => Some(t.content.clone()),
                Shape::Path(_) => None,
            });
            labels.extend(texts.flat_map(|t| {
                let marks = t.split(": ").next().unwrap_or_default().to_owned();
                marks.split(", ").map(String::from).collect::<Vec<_>>()
            }));
            let drawn = sheets.len();
            assert!(sheet.what.contains(&format!("of {drawn}:")));
        }
        // Every piece's mark stands on some plank, and lengths drawn are those of the plan.
        let mut lengths: Vec<i64> = Vec::new();
        for (_, piece) in plan.pieces() {
            let mark = boardwright::wood::stock::piece_label(plan, &board.rail_wood.needs, piece);
            let mark = mark.to_string();
            assert!(labels.contains(&mark), "{mark}");
            lengths.push((piece.length * 100.0).round() as i64);
        }
        lengths.sort_unstable();
        lengths.dedup();
        for sheet in &sheets {
            for b in sheet
                .full
                .items
                .iter()
                .filter(|i| i.layer == Layer::Mark)
                .map(|i| i.bounds())
            {
                if b.width() > b.height() {
                    let drawn = (b.width() * 100.0).round() as i64;
                    assert!(lengths.iter().any(|l| (l - drawn).abs() <= 1), "{drawn}");
                }
            }
        }
    }
    assert!(
        several > 0,
        "no board here takes planks cut in several ways"
    );
}

#[test]
fn the_cutting_list_and_the_shops_page_name_every_piece_and_every_machine() {
    let board = scarfed();
    let plan = board.rail_wood.cutting.as_ref().unwrap();
    assert!(plan.scarfs.iter().any(|s| !s.joints.is_empty()));
    let files = files(&board, &report(&board), &OutputOptions::default()).unwrap();
    let text = |path: &str| {
        let file = files.iter().find(|f| f.path == path);
        let file = file.unwrap_or_else(|| panic!("no {path}"));
        String::from_utf8(file.bytes.clone()).unwrap()
    };
    let list = text("tables/cut-list.csv");
    assert_eq!(list.lines().count(), 1 + plan.pieces().count());
    for (_, piece) in plan.pieces() {
        let mark = boardwright::wood::stock::piece_label(plan, &board.rail_wood.needs, piece);
        assert!(list.contains(&format!(",{mark},")), "{mark}");
    }
    let page = text("milling.html");
    for plan in &board.rail_wood.milling {
        for step in &plan.steps {
            let name = step.machine.name();
            let name = format!("{}{}", name[..1].to_uppercase(), &name[1..]);
            let at = page
                .find(&format!(". {name}</h3>"))
                .unwrap_or_else(|| panic!("{name}"));
            let beside = &page[at..];
            let beside = &beside[..beside.find("</div></div>").unwrap()];
            assert!(
                beside.contains("class=\"mind\"") && beside.contains("manual"),
                "{beside}"
            );
        }
        assert!(text("tables/strip-schedule.csv").lines().count() == 1 + board.strips.len());
    }
    assert!(page.contains("scarfs at") && page.contains("mm</strong> radius, its centre"));
    assert!(text("index.html").contains("href=\"milling.html\""));
    for strip in &board.rail_wood.strips {
        text(&format!("charts/strip-{:02}.svg", strip.number));
    }
}
