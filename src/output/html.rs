//! Bits of HTML.

use std::fmt::{Display, Write};

pub(super) const STYLE: &str = "\
body{font:16px/1.5 system-ui,sans-serif;color:#222;background:#fff;margin:0 auto;max-width:72rem;padding:1.5rem}\
h1{margin:0;font-size:2rem}h2{margin:2.2rem 0 .6rem;font-size:1.25rem;border-bottom:1px solid #ccc}\
table{border-collapse:collapse;margin:0 0 1rem}td,th{text-align:left;padding:.15rem 1.4rem .15rem 0;vertical-align:top}\
td.n,th.n{text-align:right;font-variant-numeric:tabular-nums}tr+tr td{border-top:1px solid #eee}\
.sheets{display:grid;grid-template-columns:repeat(auto-fill,minmax(15rem,1fr));gap:1rem}.sheets+.sheets{margin-top:1rem}\
.sheets.wide{grid-template-columns:1fr}figure{margin:0;border:1px solid #ddd;border-radius:4px;padding:.7rem}\
figure svg{display:block;width:100%;max-height:22rem}\
svg path{fill:none;stroke-width:1;vector-effect:non-scaling-stroke}\
figcaption{margin-top:.5rem;font-size:.9rem}a{color:#124e96}\
.error,.warning,.note{border-left:4px solid #c77d0a;padding:.1rem 0 .1rem .9rem;margin:.8rem 0}.note{border-color:#888}.error{border-color:#b3261e}\
.error p,.warning p,.note p{margin:.2rem 0}dt{font-weight:600}dd{margin:0 0 .6rem}.small{color:#555;font-size:.9rem}\
@media print{a{color:inherit}figure{break-inside:avoid}}";

pub(super) fn put(html: &mut String, what: impl Display) {
    let _ = write!(html, "{what}");
}

/// Text as HTML, in elements and in attributes.
pub(super) fn escape(text: &str) -> String {
    let mut out = String::with_capacity(text.len());
    for c in text.chars() {
        match c {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            '\n' | '\t' => out.push(c),
            c if c.is_control() => out.push('\u{fffd}'),
            c => out.push(c),
        }
    }
    out
}
