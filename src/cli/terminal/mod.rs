//! Documents on a terminal: sections in lines that fit an everyday terminal.

mod columns;
mod wrap;

use super::paint::Paint;
use crate::design::units::Unit;
use crate::views::document::{Block, Document, Prose, Remark, Section, Span, Step, Tone};
use wrap::{hung, one_line, wrapped};

/// The document as lines; what a reader must not miss comes last, where the eye ends up.
pub(super) fn render(document: &Document, paint: Paint) -> String {
    let mut screen = Screen {
        text: String::new(),
        paint,
        unit: document.unit,
    };
    let title = one_line(&document.title);
    screen.line(&paint.bold(&title));
    for block in &document.lead {
        screen.block(block, "");
    }
    let (last, first): (Vec<&Section>, Vec<&Section>) =
        document.sections.iter().partition(|s| s.is_verdict);
    for section in first.into_iter().chain(last) {
        screen.section(section);
    }
    screen.text
}

struct Screen {
    text: String,
    paint: Paint,
    unit: Unit,
}

impl Screen {
    fn line(&mut self, line: &str) {
        self.text.push_str(line);
        self.text.push('\n');
    }

    /// Lines in the ink of their tone.
    fn lines(&mut self, tone: Tone, lines: &[String]) {
        for line in lines {
            let line = match tone {
                Tone::Plain | Tone::Note => line.clone(),
                Tone::Small => self.paint.dim(line),
                Tone::Warning => self.paint.yellow(line),
                Tone::Error => self.paint.red(line),
            };
            self.line(&line);
        }
    }

    fn section(&mut self, section: &Section) {
        let heading = one_line(&section.heading);
        let aside = wrapped(&section.aside.plain(), heading.chars().count() + 2, 2);
        let mut aside = aside.into_iter();
        let first = aside.next().filter(|_| !section.aside.is_empty());
        let first = first.map_or(String::new(), |aside| {
            format!("  {}", self.paint.dim(&aside))
        });
        let heading = format!("\n{}{first}", self.paint.bold(&heading));
        self.line(&heading);
        for more in aside {
            self.line(&format!("  {}", self.paint.dim(&more)));
        }
        for block in &section.blocks {
            self.block(block, "  ");
        }
    }

    fn block(&mut self, block: &Block, indent: &str) {
        match block {
            Block::Text(tone, words) => self.lines(*tone, &hung(indent, indent, &readable(words))),
            Block::Table(table) => {
                for line in columns::lines(table, self.unit) {
                    let tone = if line.is_heading {
                        Tone::Small
                    } else {
                        Tone::Plain
                    };
                    self.lines(tone, &[line.text]);
                }
            }
            Block::Definitions(all) => {
                let rows = all.iter().map(|d| [one_line(&d.term), readable(&d.text)]);
                let lines = columns::pairs(&rows.collect::<Vec<_>>());
                self.lines(Tone::Plain, &lines);
            }
            Block::Findings(remarks) => remarks.iter().for_each(|r| self.remark(r)),
            Block::Sketch(sketch) => {
                for line in sketch.lines() {
                    self.line(line);
                }
            }
            // A terminal draws no pictures.
            Block::Pictures(_) => {}
            Block::Files(files) => {
                let rows = files.iter().map(|f| [f.path.clone(), f.what.clone()]);
                let lines = columns::pairs(&rows.collect::<Vec<_>>());
                self.lines(Tone::Plain, &lines);
            }
            Block::Step(step) => self.step(step),
            Block::Folded { summary, blocks } => {
                self.lines(Tone::Plain, &hung(indent, indent, summary));
                for block in blocks {
                    self.block(block, indent);
                }
            }
        }
    }

    /// What is wrong and where, what to change, and rib by rib what there is more to say.
    fn remark(&mut self, remark: &Remark) {
        self.lines(remark.tone, &hung("  ", "  ", &remark.sentence()));
        for (i, remedy) in remark.remedies.iter().enumerate() {
            let lead = if i == 0 { "    → " } else { "      or " };
            let lines = hung(lead, &" ".repeat(lead.chars().count()), remedy);
            self.lines(Tone::Plain, &lines);
        }
        let numbers = remark.ribs.iter().map(|(rib, _)| rib.to_string().len());
        let width = numbers.max().unwrap_or(1);
        for (rib, line) in &remark.ribs {
            let lead = format!("    rib {rib:>width$}  ");
            let lines = hung(&lead, &" ".repeat(lead.chars().count()), line);
            self.lines(Tone::Plain, &lines);
        }
    }

    fn step(&mut self, step: &Step) {
        self.line(&format!("  {}", self.paint.bold(&one_line(&step.heading))));
        for words in &step.work {
            self.lines(Tone::Plain, &hung("    ", "    ", &readable(words)));
        }
        for caution in &step.cautions {
            self.lines(Tone::Warning, &hung("    ! ", "      ", caution));
        }
    }
}

/// The words alone: a terminal shows where a link leads by its path.
fn readable(prose: &Prose) -> String {
    let words = prose.0.iter().map(|span| match span {
        Span::Plain(text) | Span::Strong(text) => text.clone(),
        Span::Link { text, to } if text == to => text.clone(),
        Span::Link { text, to } => format!("{text} ({to})"),
    });
    words.collect()
}
