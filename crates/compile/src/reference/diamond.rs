//! `diamond.toml`: the British diamond mark.

use super::Context;
use super::marks::small;
use crate::cursor::{Table, Value};
use crate::fault::{meant, quote};
use crate::text::Limit;
use pack::marks::{Corner, Diamond, Instead, Layout, Letters};
use units::{Basis, Year};

const CORNERS: [(&str, Corner); 4] =
    [("year", Corner::Year), ("month", Corner::Month), ("day", Corner::Day), ("parcel", Corner::Parcel)];

/// Reads the file.
pub(crate) fn read(top: &Table<'_>, context: &Context<'_>) -> Diamond {
    let rests = context.rests_of(top);
    let bounds = top.need_text("bounds_basis", Limit::NAME, "bounds_basis = \"memory\"");
    let bounds_basis = Basis::from_word(&bounds).unwrap_or_else(|| {
        let hint = "Write one of: published, practice, memory.";
        context.faults.add(&top.spot_of("bounds_basis"), format!("{} is no basis.", quote(&bounds)), hint);
        Basis::Memory
    });
    let (from, to) = (context.day_of(top, "from"), context.day_of(top, "to"));
    let months = top.table("months").map(|t| {
        context.rests_of(&t);
        let letters = letters(&t);
        t.done();
        letters
    });
    let months = months.unwrap_or_default();
    if months.len() != 12 {
        context.faults.add(&top.spot_of("months"), "There must be twelve letters, January first.", "");
    }
    let found = Diamond {
        name: top.need_text("name", Limit::NAME, "name = \"British diamond mark\""),
        says: top.need_text("says", Limit::SENTENCES, "says = \"What it proves.\""),
        caution: top.text("caution", Limit::SENTENCES).unwrap_or_default(),
        from: from.unwrap_or(0),
        to: to.unwrap_or(0),
        bounds_basis,
        term: small(top, "term", 3, 100),
        fades: small(top, "fades", 0, 200),
        basis: rests.basis,
        source: rests.source,
        layouts: top.tables("layout").iter().filter_map(|t| layout(t, context)).collect(),
        years: top.tables("years").iter().map(|t| years(t, context)).collect(),
        months,
        instead: top.tables("instead").iter().filter_map(|t| instead(t, context)).collect(),
        classes: top.table("classes").map(|t| classes(&t, context)).unwrap_or_default(),
    };
    top.done();
    found
}

fn letters(table: &Table<'_>) -> String {
    let text = table.need_text("letters", Limit::NAME, "letters = \"CGWHEMIRDBKA\"");
    if !text.bytes().all(|b| b.is_ascii_uppercase()) {
        table.faults().add(&table.spot_of("letters"), "Only capitals can stand here, without spaces.", "");
    }
    text
}

fn layout(table: &Table<'_>, context: &Context<'_>) -> Option<Layout> {
    context.rests_of(table);
    let (from, to) = (context.day_of(table, "from"), context.day_of(table, "to"));
    let mut corners = Vec::new();
    for name in ["top", "right", "bottom", "left"] {
        let word = table.need_text(name, Limit::NAME, &format!("{name} = \"day\""));
        match CORNERS.iter().find(|(w, _)| *w == word) {
            Some((_, corner)) if !corners.contains(corner) => corners.push(*corner),
            Some(_) => {
                let says = format!("{} stands in another corner too.", quote(&word));
                context.faults.add(&table.spot_of(name), says, "Each stands in one.");
            }
            None if word.is_empty() => {}
            None => {
                let hint = meant(&word, CORNERS.iter().map(|(w, _)| *w), "Write one of");
                context.faults.add(
                    &table.spot_of(name),
                    format!("{} cannot stand here.", quote(&word)),
                    hint,
                );
            }
        }
    }
    table.done();
    from.zip(to).map(|(from, to)| Layout { from, to, corners })
}

fn years(table: &Table<'_>, context: &Context<'_>) -> Letters {
    context.rests_of(table);
    let from = table.need("from", "from = 1842").and_then(|v| v.whole(1600, 2200));
    let letters = letters(table);
    table.text("note", Limit::SENTENCES);
    table.done();
    Letters { from: from.and_then(|y| Year::try_from(y).ok()).unwrap_or(1600), letters }
}

fn instead(table: &Table<'_>, context: &Context<'_>) -> Option<Instead> {
    let rests = context.rests_of(table);
    let (from, to) = (context.day_of(table, "from"), context.day_of(table, "to"));
    let year = table.get("year").and_then(|v| pair(&v, 1600, 2200));
    let month = table.get("month").and_then(|v| pair(&v, 1, 12));
    if year.is_none() && month.is_none() {
        let hint = "Write for example: month = [\"R\", 9]";
        context.faults.add(&table.spot(), "Neither year nor month has another letter.", hint);
    }
    let share = small(table, "of_1000", 500, 1000);
    let note = table.need_text("note", Limit::SENTENCES, "note = \"What happened.\"");
    table.done();
    let (from, to) = from.zip(to)?;
    Some(Instead {
        from,
        to,
        year: year.and_then(|(l, n)| Some((l, Year::try_from(n).ok()?))),
        month: month.and_then(|(l, n)| Some((l, u8::try_from(n).ok()?))),
        share,
        note,
        basis: rests.basis,
        source: rests.source,
    })
}

/// `["R", 9]`: a letter and what it stands for.
fn pair(value: &Value<'_>, least: i64, most: i64) -> Option<(String, i64)> {
    let list = value.list();
    let [letter, number] = &list[..] else {
        value.fault("This must be a letter and a number.", "Write for example: [\"R\", 9]");
        return None;
    };
    let text = letter.text(Limit::NAME)?;
    if text.len() != 1 || !text.bytes().all(|b| b.is_ascii_uppercase()) {
        letter.fault(format!("{} is not one capital.", quote(&text)), "");
        return None;
    }
    number.whole(least, most).map(|n| (text, n))
}

fn classes(table: &Table<'_>, context: &Context<'_>) -> Vec<(String, String)> {
    context.rests_of(table);
    let mut list = Vec::new();
    for value in table.need("names", "names = [[\"I\", \"metal\"]]").map(|v| v.list()).unwrap_or_default() {
        let pair = value.texts(Limit::NAME);
        match &pair[..] {
            [(numeral, _), (what, _)]
                if !numeral.is_empty() && numeral.bytes().all(|b| b"IVXLC".contains(&b)) =>
            {
                list.push((numeral.clone(), what.clone()));
            }
            _ => value.fault("A class is a Roman numeral and a material.", "Write: [\"I\", \"metal\"]"),
        }
    }
    table.done();
    list
}
