//! Cases as rows, in `tests/cases/measure`: what was measured, what must be said of it, and the basis of that.

use crate::common::{metal, pairs, rows, table};
use measure::{
    Caution, Celsius, Density, FineMass, Heft, Instrument, Lean, Magnet, Possible, Says, Scale, Side, Told,
    Unweighed, Weighed, Why, before_water, density, heft, possible, recast,
};
use pack::metals::Metals;
use units::{Length, Mass};

type Checked = Result<(), String>;

/// One check for every row: what is wrong with it, or nothing.
fn check(table: &Metals, file: &str, row: &[String]) -> Checked {
    let cell = |i: usize| row.get(i).map_or("", String::as_str);
    let bases = ["published: ", "practice", "memory: ", "arithmetic: ", "by definition"];
    let basis = row.last().map_or("", String::as_str);
    if !bases.iter().any(|b| basis.starts_with(b)) {
        return Err(format!("its basis is {basis}"));
    }
    match file {
        "recast.csv" => {
            let found = recast(table, metal(table, cell(0)), &pairs(cell(1)));
            if said(found.says) != cell(2) {
                return Err(format!("it says {} ({:.2})", said(found.says), found.ratio));
            }
            let bound = |i: usize, none: f64| if cell(i).is_empty() { none } else { number(cell(i)) };
            within(found.ratio, bound(3, 0.0), bound(4, f64::MAX))
        }
        "density.csv" => {
            let found = weighed(row);
            let Ok(found) = found else {
                let wanted = cell(5).is_empty() && found == Err(Unweighed::TooCoarse);
                return if wanted { Ok(()) } else { Err(format!("{found:?}")) };
            };
            within(f64::from(found.value), number(cell(5)), number(cell(6)))?;
            let told = Told { density: Some(found), ..Told::default() };
            left(table, &possible(table, &told), cell(7), cell(8)).map_err(|e| format!("{found:?}: {e}"))
        }
        "heft.csv" => {
            let (length, by) = length(cell(0));
            let mass = (Mass(cell(1).parse().map_err(|_| "no mass")?), Instrument::Scales);
            let found = heft((length, by), mass).ok_or("no heft")?;
            let says = match found.beside(table, metal(table, cell(2))) {
                Heft::Lighter => "lighter",
                Heft::AsExpected => "as expected",
                Heft::Heavier => "heavier",
            };
            if says == cell(3) { Ok(()) } else { Err(format!("it is {says}, {found:?}")) }
        }
        _ => {
            let found = possible(table, &told(table, row));
            let first = found.iter().max_by(|a, b| a.share.total_cmp(&b.share)).ok_or("there is no metal")?;
            let id = &table.metals[first.metal].id;
            let named = |p: &&Possible| cell(4).split('|').any(|id| table.metals[p.metal].id == id);
            let share: f64 = found.iter().filter(named).map(|p| p.share).sum();
            if !named(&first) || share < number(cell(5)) {
                return Err(format!("first is {id} with {:.2}; those named have {share:.2}", first.share));
            }
            left(table, &found, cell(6), cell(7))
        }
    }
}

fn number(text: &str) -> f64 {
    text.parse().expect(text)
}

fn within(found: f64, from: f64, to: f64) -> Checked {
    if (from..=to).contains(&found) { Ok(()) } else { Err(format!("{found:.3} is not in {from} to {to}")) }
}

fn said(says: Says) -> &'static str {
    match says {
        Says::Leans(Lean::Recast) => "leans recast",
        Says::Leans(Lean::Original) => "leans original",
        Says::Leans(Lean::Neither) => "leans neither",
        Says::OtherPattern(Side::Smaller) => "other pattern smaller",
        Says::OtherPattern(Side::Larger) => "other pattern larger",
        Says::ProvesNothing(why) => match why {
            Why::RoughPiece => "rough piece",
            Why::RoughReference => "rough reference",
            Why::Worked => "worked",
            Why::NoLength => "no length",
            Why::NoPairs => "no pairs",
            Why::NoShrinkage => "no shrinkage",
            Why::TooShort => "too short",
            Why::Disagree => "disagree",
        },
    }
}

fn weighed(row: &[String]) -> Result<Density, Unweighed> {
    let grams = |i: usize| FineMass(row[i].parse().expect(&row[i]));
    let weighed = match row[0].as_str() {
        "hanging" => Weighed::Hanging { air: grams(1), water: grams(2) },
        _ => Weighed::Displaced { air: grams(1), gain: grams(2) },
    };
    density(weighed, Scale { step: grams(3) }, row[4].parse().ok().map(Celsius))
}

/// `1400r`: tenths of a millimetre by ruler.
fn length(text: &str) -> (Length, Instrument) {
    let (tenths, sign) = text.split_at(text.len() - 1);
    let by = match sign {
        "r" => Instrument::Ruler,
        "c" => Instrument::Calipers,
        _ => Instrument::ByEye,
    };
    (Length(tenths.parse().expect(text)), by)
}

fn told(table: &Metals, row: &[String]) -> Told {
    let whole = |text: &str| text.parse::<u32>().expect(text);
    let colour = table.colours.iter().position(|c| c.id == row[1]);
    assert!(colour.is_some() || row[1].is_empty(), "no colour {}", row[1]);
    Told {
        magnet: match row[0].as_str() {
            "strong" => Some(Magnet::Strong),
            "weak" => Some(Magnet::Weak),
            "none" => Some(Magnet::None),
            _ => None,
        },
        colour,
        density: row[2].split_once("+-").map(|(value, u)| Density { value: whole(value), u: whole(u) }),
        heft: row[3].split_once('/').and_then(|(length, mass)| {
            heft((Length(whole(length)), Instrument::Ruler), (Mass(whole(mass)), Instrument::Scales))
        }),
    }
}

fn left(table: &Metals, found: &[Possible], must: &str, must_not: &str) -> Checked {
    for (ids, wanted) in [(must, true), (must_not, false)] {
        for id in ids.split_whitespace() {
            let at = table.metals.iter().position(|m| m.id == id).ok_or(format!("nothing is called {id}"))?;
            if found[at].left != wanted {
                return Err(format!("{id} is {}left", if wanted { "not " } else { "" }));
            }
        }
    }
    // Whoever may have iron is told to dry it; whoever cannot is not.
    let dry = before_water(table, found).contains(&Caution::DryAtOnce);
    let iron = found.iter().any(|p| p.left && table.metals[p.metal].rusts);
    if dry == iron { Ok(()) } else { Err("the caution about water is wrong".to_string()) }
}

#[test]
fn every_row_holds() {
    let table = table();
    let mut broken = Vec::new();
    // How many rows each table must have at least, so that none is lost unseen.
    for (file, columns, least) in
        [("recast.csv", 6, 27), ("density.csv", 10, 13), ("heft.csv", 5, 13), ("metals.csv", 9, 15)]
    {
        let rows = rows(&format!("cases/measure/{file}"), columns);
        assert!(rows.len() >= least, "{file} has {} rows", rows.len());
        println!("figure: measure: {} rows in {file}", rows.len());
        for row in &rows {
            if let Err(says) = check(&table, file, row) {
                broken.push(format!("{file}: {}: {says}", row.join(",")));
            }
        }
    }
    assert!(broken.is_empty(), "{}", broken.join("\n"));
}
