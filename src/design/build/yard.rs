//! The wood and the shop.

use crate::design::timber::{Basis, Provenance, Species, Wood, find, names};
use crate::design::{
    Aim, Allowances, Kerfs, Plank, Scarfing, Shop, Softened, Timber, hint, read::File,
    scalar::plain, source::Report, table::Table,
};

/// The species of the parts and what goes with the rail's.
pub(super) fn timber(file: &File, report: &mut Report<'_>) -> Option<Timber> {
    let table = file.one("timber")?;
    let shop = file.one("shop")?;
    let own: Vec<Option<Species>> = file
        .all("timber.species")
        .map(|table| species(table, report))
        .collect();
    let mut pick = |key: &str| wood(table, file, &own, key, report);
    let rail = pick("rail");
    let mut or_rail = |key: &str| {
        if table.given(key) {
            pick(key)
        } else {
            rail.clone()
        }
    };
    let (skins, blocks) = (or_rail("skins"), or_rail("blocks"));
    let frame = pick("frame");
    let own: Option<Vec<Species>> = own.into_iter().collect();
    own?;
    Some(Timber {
        rail: rail?,
        frame: frame?,
        skins: skins?,
        blocks: blocks?,
        working: table.number("working")?,
        softened: match table.word("softened")? {
            "starters" => Softened::Starters,
            "strips" => Softened::Strips,
            "all" => Softened::All,
            _ => Softened::None,
        },
        end_allowance: shop.number("end_allowance")?,
        scarf_strain: shop.number("scarf_strain")?,
        assumed_planks: file.all("shop.plank").next().is_none(),
    })
}

/// The species that `key` names, the maker's own going first.
fn wood(
    table: &Table,
    file: &File,
    own: &[Option<Species>],
    key: &str,
    report: &mut Report<'_>,
) -> Option<Species> {
    let name = if table.given(key) {
        table.text(key)?
    } else {
        table.word(key)?
    };
    let same = |a: &str, b: &str| a.trim().to_lowercase() == b.trim().to_lowercase();
    let ours = file
        .all("timber.species")
        .zip(own)
        .find(|(table, _)| table.text("name").is_some_and(|n| same(n, name)));
    match ours {
        Some((_, species)) => species.clone(),
        None => match find(name) {
            Ok(species) => Some(species.clone()),
            Err(_) => {
                unknown(table, file, (key, name), report);
                None
            }
        },
    }
}

/// Notes a species that nobody knows, with the nearest names.
fn unknown(table: &Table, file: &File, (key, name): (&str, &str), report: &mut Report<'_>) {
    let mut all: Vec<&str> = names().collect();
    all.extend(file.all("timber.species").filter_map(|t| t.text("name")));
    let lower = name.trim().to_lowercase();
    // Names that share a word, or else the one that is a slip of the pen away.
    let words: Vec<&str> = lower
        .split(|c: char| !c.is_alphanumeric())
        .filter(|w| w.chars().count() > 3)
        .collect();
    let mut near: Vec<&str> = all
        .iter()
        .copied()
        .filter(|n| words.iter().any(|w| n.to_lowercase().contains(w)))
        .take(3)
        .collect();
    if near.is_empty() {
        near.extend(hint::nearest(&lower, all.iter().copied()));
    }
    let remedy = if near.is_empty() {
        format!(
            "choose one of: {}; or describe yours in [[timber.species]]",
            names().collect::<Vec<_>>().join("; ")
        )
    } else {
        format!(
            "did you mean \"{}\"? Or describe yours in [[timber.species]]",
            near.join("\" or \"")
        )
    };
    report.add(
        table.span(key),
        format!("no species called \"{}\" is known", name.trim()),
        remedy,
    );
}

fn species(table: &Table, report: &mut Report<'_>) -> Option<Species> {
    table.demand("name", report);
    let name = table.text("name").map(|n| n.trim().to_owned());
    if name.as_deref() == Some("") {
        report.add(
            table.span("name"),
            "`name` must not be empty".to_owned(),
            "write the species' name between the quotes",
        );
        return None;
    }
    let specific_gravity = table.need("specific_gravity", report);
    let modulus = table.need("modulus", report);
    let rupture = table.need("rupture", report);
    let species = Species {
        name: name?,
        wood: match table.word("wood")? {
            "hardwood" => Wood::Hardwood,
            _ => Wood::Softwood,
        },
        specific_gravity: specific_gravity?,
        basis: match table.word("basis")? {
            "green" => Basis::Green,
            _ => Basis::TwelvePercent,
        },
        modulus: modulus?,
        centre_loaded: table.word("loading")? == "centre",
        rupture: rupture?,
        shear: table.number_if_given("shear")?,
        shear_ratio: table.number_if_given("shear_ratio")?,
        shrinkage: None,
        source: table.text("source").unwrap_or("the maker's own").to_owned(),
        provenance: Provenance::Maker,
    };
    let strain = species.rupture / species.true_modulus();
    // The table's species break at 0.5 to 0.95 %; a slip of unit is off by far more.
    if !(0.001..=0.05).contains(&strain) {
        report.add(
            table.span("rupture"),
            format!(
                "`rupture` over `modulus` gives a breaking strain of {} %; wood breaks near 0.7 %",
                plain(100.0 * strain)
            ),
            "check the units of both: they are in MPa",
        );
        return None;
    }
    Some(species)
}

/// The shop, for a species called `rail`.
pub(super) fn shop(file: &File, rail: Option<&str>, report: &mut Report<'_>) -> Option<Shop> {
    let (timber, table) = (file.one("timber")?, file.one("shop")?);
    let (kerf, takes) = (file.one("shop.kerf")?, file.one("shop.allowance")?);
    let planks: Vec<Option<Plank>> = file
        .all("shop.plank")
        .map(|table| plank(table, report))
        .collect();
    let mut planks: Vec<Plank> = planks.into_iter().collect::<Option<_>>()?;
    if file.all("shop.plank").next().is_none() {
        planks.push(assumed());
    }
    Some(Shop {
        species: rail?.to_owned(),
        moisture: timber.number("moisture")?,
        planks,
        kerfs: Kerfs {
            resaw: kerf.number("resaw")?,
            rip: kerf.number("rip")?,
            crosscut: kerf.number("crosscut")?,
        },
        allowances: Allowances {
            dress_face: takes.number("dress_face")?,
            dress_edge: takes.number("dress_edge")?,
            sand_leaf: takes.number("sand_leaf")?,
            sand_square: takes.number("sand_square")?,
            mould: takes.number("mould")?,
            ends: takes.number("ends")?,
        },
        spare: table.number("spare")?,
        shortest_offcut: table.number("shortest_offcut")?,
        scarf_ratio: table.number("scarf_ratio")?,
        stagger: table.number("stagger")?,
        shortest_piece: table.number("shortest_piece")?,
        scarfing: match table.word("scarfing")? {
            "when-less" => Scarfing::WhenLess,
            _ => Scarfing::WhenShort,
        },
        aim: match table.word("aim")? {
            "price" => Aim::Price,
            _ => Aim::Planks,
        },
    })
}

/// Planks of a size that most merchants have (common practice, no published source).
fn assumed() -> Plank {
    Plank {
        name: "50 × 150, assumed".to_owned(),
        length: 3000.0,
        width: 150.0,
        thickness: 50.0,
        count: None,
        price: 0.0,
        nominal: None,
    }
}

fn plank(table: &Table, report: &mut Report<'_>) -> Option<Plank> {
    let sizes = ["length", "width", "thickness"].map(|name| table.need(name, report));
    let [length, width, thickness] = [sizes[0]?, sizes[1]?, sizes[2]?];
    let nominal = [
        table.number_if_given("nominal_thickness")?,
        table.number_if_given("nominal_width")?,
    ];
    let named = table.text("name").map(str::trim).filter(|n| !n.is_empty());
    Some(Plank {
        name: named.map_or_else(
            || format!("{} × {}", plain(thickness), plain(width)),
            str::to_owned,
        ),
        length,
        width,
        thickness,
        // A whole number up to 1000 by its range.
        count: table.number_if_given("count")?.map(|n| n as u32),
        price: table.number("price")?,
        nominal: (nominal != [None, None]).then(|| {
            [nominal[0].unwrap_or(thickness), nominal[1].unwrap_or(width)].map(|mm| mm / 25.4)
        }),
    })
}
