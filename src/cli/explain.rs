//! `boardwright explain`.

use super::args::Explain;
use super::failure::Failure;
use super::paint::Paint;
use super::{print, terminal};
use crate::design::finding::Code;
use crate::views::pages;

pub(super) fn run(args: &Explain, paint: Paint) -> Result<u8, Failure> {
    let page = match &args.code {
        None => pages::codes(),
        Some(name) => match Code::find(&name.to_lowercase()) {
            Some(code) => pages::explain(code),
            None => return Err(Failure::usage(unknown(name))),
        },
    };
    print(&terminal::render(&page, paint)).map(|()| 0)
}

fn unknown(name: &str) -> String {
    let name: String = name.chars().take(60).filter(|c| !c.is_control()).collect();
    let near: Vec<&str> = Code::nearest(&name).into_iter().map(Code::name).collect();
    let hint = if near.is_empty() {
        String::new()
    } else {
        format!("; the nearest: {}", near.join(", "))
    };
    format!("no finding has the code `{name}`{hint}; `boardwright explain` lists them all")
}
