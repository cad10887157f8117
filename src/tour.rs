//! A guided tour: from a design to its files in six steps.
//!
//! Every step is a value made from the ones before it by one function. Lengths are millimetres, x runs from the tail to the nose, y to starboard, z up.
//!
//! # 1. A design
//!
//! [`design::parse`](crate::design::parse) reads a design file; [`design::starter`](crate::design::starter) is one to begin with. What is wrong in a file
//! comes back with line, column and what to do.
//!
//! ```
//! use boardwright::design;
//!
//! let design = design::parse(design::starter(), "board.toml")?;
//! assert!(design.length > 1000.0);
//!
//! let faults = design::parse("length = \"seven bananas\"", "board.toml").unwrap_err();
//! assert!(faults.to_string().contains("board.toml"));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! # 2. The shell
//!
//! [`shape::shell`](crate::shape::shell) lofts the finished board: bicubic patches of the starboard half. They are the truth for everything
//! that follows, and can be asked for any section or measure.
//!
//! ```
//! use boardwright::design;
//! use boardwright::shape::{DEFAULT_TOLERANCE, measures, shell};
//!
//! let design = design::parse(design::starter(), "board.toml")?;
//! let shell = shell(&design, DEFAULT_TOLERANCE)?;
//! let middle = shell.length() / 2.0;
//! let [bottom, deck] = shell.centre_heights(middle);
//! assert!(deck > bottom);
//! // Exact for the patches; measures() has width, rocker, volume and the rest.
//! let litres = measures(&shell)?.volume / 1e6;
//! assert!(litres > 10.0 && shell.section_area(middle)? > 0.0);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! # 3. A rib
//!
//! [`Board::new`](crate::board::Board::new) runs all the stages that follow the shell: rail, frame, skins, fittings, masses. A rib is a contour of lines and
//! arcs with its holes, in a plane of constant x.
//!
//! ```
//! use boardwright::{board::Board, design};
//!
//! let board = Board::new(design::parse(design::starter(), "board.toml")?)?;
//! let rib = &board.ribs[board.ribs.len() / 2];
//! assert!(rib.outline.closed && !rib.outline.has_cubics());
//! // The path measures itself: its length within 1e-6 mm, its box, its area.
//! let edge = rib.outline.length(1e-6);
//! let size = rib.outline.bounds();
//! assert!(edge > 2.0 * size.width() && rib.outline.area() > rib.area());
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! # 4. The rail
//!
//! The rail is a stack of strips, solved in every rib's plane and between. Each strip knows where it runs.
//!
//! ```
//! use boardwright::{board::Board, design};
//!
//! let board = Board::new(design::parse(design::starter(), "board.toml")?)?;
//! let longest = board.strips.iter().map(|strip| strip.solved(&board.rail).count()).max();
//! assert!(longest > Some(10));
//! let stack = &board.rail.stacks[board.rail.stacks.len() / 2];
//! assert!(stack.inner_boundary().is_some_and(|line| line.len() > 2));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! # 5. A table
//!
//! [`views::report`](crate::views::report) is what the board comes to, in numbers. Tables know no file format; exporters know no rib.
//!
//! ```
//! use boardwright::design;
//! use boardwright::output::export::csv;
//! use boardwright::shape::{DEFAULT_TOLERANCE, measures, shell};
//! use boardwright::views::table::{Column, Table};
//!
//! let design = design::parse(design::starter(), "board.toml")?;
//! let measures = measures(&shell(&design, DEFAULT_TOLERANCE)?)?;
//! let table = Table {
//!     title: "Section areas".into(),
//!     columns: vec![Column::measured("from the tail", "mm", 1), Column::measured("area", "mm²", 0)],
//!     rows: measures.section_areas.iter().map(|s| vec![s.x.into(), s.area.into()]).collect(),
//! };
//! let text = csv::write(&table)?;
//! assert!(text.starts_with("from the tail (mm),area (mm²)\r\n") && text.lines().count() == 42);
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! # 6. A file
//!
//! [`output::files`](crate::output::files) makes every file in memory; one alone comes from its exporter.
//!
//! ```
//! use boardwright::{board::Board, design, output, views::report::report};
//!
//! let board = Board::new(design::parse(design::starter(), "board.toml")?)?;
//! let files = output::files(&board, &report(&board), &output::OutputOptions::default())?;
//! let spine = files.iter().find(|file| file.path == "dxf/spine.dxf");
//! assert!(spine.is_some_and(|file| file.bytes.ends_with(b"EOF\n")));
//! # Ok::<(), Box<dyn std::error::Error>>(())
//! ```
//!
//! # From here
//!
//! - Rows of points of your own become a patch, measures and a solid by [`loft_points`](crate::geometry::surface::loft_points); `examples/loft_points.rs`.
//! - Curves become lines and arcs by [`arcs_along`](crate::geometry::path::arcs_along).
//! - Whether the parts fit: [`dry_fit`](crate::views::dry_fit::dry_fit).
