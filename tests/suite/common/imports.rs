//! Which of the crate's files use which, read from the source text.

use std::collections::{BTreeMap, BTreeSet};
use std::fs;
use std::path::{Path, PathBuf};

/// A module's path from the crate's root, such as `["rail", "solve"]`.
pub type Module = Vec<String>;

/// The crate's source files by module, without its roots `lib.rs` and `main.rs`.
pub struct Sources {
    files: BTreeMap<Module, String>,
    /// What a module passes on from elsewhere: (module, name) to the path it stands for.
    passed_on: BTreeMap<(Module, String), Module>,
}

impl Sources {
    /// All below `root`, the folder `src`.
    pub fn read(root: &Path) -> Self {
        let mut paths = Vec::new();
        collect(root, &mut paths);
        let files: BTreeMap<Module, String> = paths
            .iter()
            .map(|path| (module(path.strip_prefix(root).unwrap()), code(path)))
            .filter(
                |(module, _)| !matches!(module.as_slice(), [one] if one == "lib" || one == "main"),
            )
            .collect();
        let mut sources = Self {
            files,
            passed_on: BTreeMap::new(),
        };
        let mut passed_on = BTreeMap::new();
        for (module, text) in &sources.files {
            for (public, path) in uses(text) {
                if let (true, Some(path)) = (public, sources.absolute(module, &path)) {
                    let name = path[path.len() - 1].clone();
                    passed_on.insert((module.clone(), name), path);
                }
            }
        }
        sources.passed_on = passed_on;
        sources
    }

    pub fn modules(&self) -> impl Iterator<Item = &Module> {
        self.files.keys()
    }

    /// A path as written in `module`, from the crate's root; `None` for other crates'.
    fn absolute(&self, module: &Module, path: &[String]) -> Option<Module> {
        let mut base = module.clone();
        let mut rest = path;
        match path.first()?.as_str() {
            "crate" => {
                base.clear();
                rest = &path[1..];
            }
            "self" => rest = &path[1..],
            "super" => {
                while rest.first().is_some_and(|s| s == "super") {
                    base.pop();
                    rest = &rest[1..];
                }
            }
            child => {
                base.push(child.to_owned());
                self.files.get(&base)?;
                rest = &path[1..];
            }
        }
        base.extend_from_slice(rest);
        Some(base)
    }

    /// The module whose file defines what a path from the root names.
    fn home(&self, path: &Module) -> Option<Module> {
        let depth = (0..=path.len())
            .rev()
            .find(|n| self.files.contains_key(&path[..*n]))?;
        let at = path[..depth].to_vec();
        match path.get(depth) {
            Some(name) => match self.passed_on.get(&(at.clone(), name.clone())) {
                Some(path) => self.home(path),
                None => Some(at),
            },
            None => Some(at),
        }
    }

    /// The paths from the root that a module's code names, without what it only passes on.
    pub fn named(&self, module: &Module) -> BTreeSet<Module> {
        let text = &self.files[module];
        let used = uses(text).into_iter().filter(|(public, _)| !public);
        let used = used.map(|(_, path)| path).chain(inline(text));
        used.filter_map(|path| self.absolute(module, &path))
            .collect()
    }

    /// The modules whose files a module's code uses.
    pub fn used(&self, module: &Module) -> BTreeSet<Module> {
        let homes = self
            .named(module)
            .into_iter()
            .filter_map(|path| self.home(&path));
        homes.filter(|home| home != module).collect()
    }
}

fn collect(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            collect(&path, found);
        } else if path.extension().is_some_and(|e| e == "rs") {
            found.push(path);
        }
    }
}

fn module(path: &Path) -> Module {
    let mut parts: Module = path
        .iter()
        .map(|p| p.to_str().unwrap().to_owned())
        .collect();
    let last = parts.pop().unwrap();
    match last.trim_end_matches(".rs") {
        "mod" => {}
        name => parts.push(name.to_owned()),
    }
    parts
}

/// A file's code without comments and its own tests.
fn code(path: &Path) -> String {
    let text = fs::read_to_string(path).unwrap();
    let text = text.split("#[cfg(test)]\nmod tests").next().unwrap();
    let lines = text.lines().filter(|l| !l.trim_start().starts_with("//"));
    lines.collect::<Vec<_>>().join("\n")
}

/// The paths of `use` declarations, braces multiplied out, and whether they pass names on. Each begins a line, as rustfmt has it.
pub fn uses(text: &str) -> Vec<(bool, Module)> {
    let mut found = Vec::new();
    let mut lines = text.lines();
    while let Some(line) = lines.next() {
        let Some((public, path)) = declared(line) else {
            continue;
        };
        let mut path = path.to_owned();
        while !path.ends_with(';') {
            let Some(more) = lines.next() else { break };
            path.push_str(more.trim());
        }
        let paths = multiplied(path.trim_end_matches(';'));
        found.extend(paths.into_iter().map(|path| (public, path)));
    }
    found
}

/// What follows `use` at a line's begin, and whether `pub` or the like stands before it.
fn declared(line: &str) -> Option<(bool, &str)> {
    let line = line.trim();
    if let Some(path) = line.strip_prefix("use ") {
        return Some((false, path));
    }
    let (public, path) = line.split_once(" use ")?;
    let whole = public == "pub" || (public.starts_with("pub(") && public.ends_with(')'));
    whole.then_some((true, path))
}

/// `a::{b, c::d}` as `a::b` and `a::c::d`.
fn multiplied(path: &str) -> Vec<Module> {
    let path = path.trim();
    let Some(open) = path.find('{') else {
        let path = path.split(" as ").next().unwrap();
        let parts = path.split("::").map(|p| p.trim().to_owned());
        return vec![parts.filter(|p| p != "self" || path == "self").collect()];
    };
    let head: Module = path[..open]
        .split("::")
        .map(|p| p.trim().to_owned())
        .filter(|p| !p.is_empty())
        .collect();
    let inner = &path[open + 1..path.rfind('}').unwrap_or(path.len())];
    let mut items = Vec::new();
    let (mut depth, mut start) = (0, 0);
    for (i, c) in inner.char_indices() {
        match c {
            '{' => depth += 1,
            '}' => depth -= 1,
            ',' if depth == 0 => {
                items.push(&inner[start..i]);
                start = i + 1;
            }
            _ => {}
        }
    }
    items.push(&inner[start..]);
    let whole = items
        .into_iter()
        .filter(|i| !i.trim().is_empty())
        .flat_map(multiplied);
    whole.map(|tail| [head.clone(), tail].concat()).collect()
}

/// Paths from `crate` or `super` in the code outside of `use` declarations.
fn inline(text: &str) -> Vec<Module> {
    let mut found = Vec::new();
    for (at, _) in text.match_indices("::") {
        let before = &text[..at];
        let word: String = before
            .chars()
            .rev()
            .take_while(|c| c.is_alphanumeric() || *c == '_')
            .collect();
        let word: String = word.chars().rev().collect();
        let head = &before[..before.len() - word.len()];
        if (word != "crate" && word != "super") || head.ends_with("::") {
            continue;
        }
        // Declarations are read apart; where one is broken, the lines after its first have no path from the root.
        if declared(head.rsplit('\n').next().unwrap()).is_some() || head.trim_end().ends_with("use")
        {
            continue;
        }
        let tail = text[at..]
            .chars()
            .take_while(|c| c.is_alphanumeric() || *c == '_' || *c == ':');
        let path = word + &tail.collect::<String>();
        found.push(
            path.split("::")
                .map(str::to_owned)
                .filter(|p| !p.is_empty())
                .collect(),
        );
    }
    found
}

/// Groups of modules each of which leads back to itself through the others.
pub fn circles(sources: &Sources) -> Vec<BTreeSet<Module>> {
    let edges: BTreeMap<Module, BTreeSet<Module>> = sources
        .modules()
        .map(|m| (m.clone(), sources.used(m)))
        .collect();
    let reached = |from: &Module| {
        let mut seen = BTreeSet::new();
        let mut open: Vec<&Module> = edges[from].iter().collect();
        while let Some(next) = open.pop() {
            if seen.insert(next.clone()) {
                open.extend(edges.get(next).into_iter().flatten());
            }
        }
        seen
    };
    let all: BTreeMap<&Module, BTreeSet<Module>> = edges.keys().map(|m| (m, reached(m))).collect();
    let mut found: Vec<BTreeSet<Module>> = Vec::new();
    for (module, far) in &all {
        if far.contains(*module) && !found.iter().any(|c| c.contains(*module)) {
            let back = far.iter().filter(|other| all[other].contains(*module));
            found.push(back.cloned().collect());
        }
    }
    found
}
