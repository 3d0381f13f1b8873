//! `kinds/*.toml`: one family to a file, then its kinds.

use super::sections::{About, Desk};
use super::{Context, examples, names, statements};
use crate::checks::MOST_KINDS;
use crate::cursor::Table;
use crate::fault::{meant, quote};
use crate::model::{Caution, Common, Form, Kind, Manifest, Mention, Question, Rests};
use crate::resolve::MOST_FORMS;
use crate::text::Limit;
use pack::Standing;

/// What the reader of kinds needs.
pub(super) struct Shelf<'a> {
    pub(super) context: &'a Context<'a>,
    pub(super) manifest: &'a Manifest,
    pub(super) questions: &'a [Question],
    pub(super) cautions: &'a [Caution],
}

impl Shelf<'_> {
    fn desk(&self) -> Desk<'_> {
        Desk { context: self.context, manifest: self.manifest, questions: self.questions }
    }

    /// Reads the family and the kinds of a file behind those already read.
    pub(super) fn read(&self, file: &Table<'_>, families: &mut Vec<Common>, kinds: &mut Vec<Kind>) {
        let mut rests = self.manifest.rests;
        let family = file.table("family").map(|t| {
            let _ = t.id("cast");
            t.need_text("name", Limit::NAME, "name = \"Cast flat irons\"");
            rests = self.context.rests(&t, rests);
            let common = self.common(&t, rests);
            self.done(&t);
            families.push(common);
            families.len() - 1
        });
        for table in file.tables("kind") {
            if kinds.len() > MOST_KINDS {
                return;
            }
            if let Some(kind) = self.kind(&table, rests, family, kinds) {
                kinds.push(kind);
            }
            self.done(&table);
        }
        file.done();
    }

    /// The makes give their names to tables: when there are none, for a fault in `pack.toml`, nobody knows what may
    /// stand here.
    fn done(&self, table: &Table<'_>) {
        if !self.manifest.makes.is_empty() {
            table.done();
        }
    }

    /// What kinds and families share.
    fn common(&self, table: &Table<'_>, rests: Rests) -> Common {
        let desk = self.desk();
        let roles = &self.manifest.roles;
        Common {
            section: desk.section(table, rests, About::Anything),
            by_make: desk.by_make(table, rests),
            at: desk.at(table),
            makes: desk.makes(table),
            serves: table.get("serves").map(|v| names(&v, roles, "role")),
            cautions: table.get("cautions").map(|v| {
                let found = v.texts(Limit::NAME).into_iter().filter_map(|(id, spot)| {
                    let at = self.cautions.iter().position(|c| c.id == id);
                    if at.is_none() {
                        let hint =
                            v.faults().meant(&id, self.cautions.iter().map(|c| c.id.as_str()), "Cautions");
                        let says = format!("cautions.toml has no caution {}.", quote(&id));
                        v.faults().add_unknown(&spot, says, hint);
                    }
                    at.and_then(|i| u16::try_from(i).ok())
                });
                let mut found: Vec<u16> = found.collect();
                found.sort_unstable();
                found.dedup();
                found
            }),
        }
    }

    fn kind(&self, table: &Table<'_>, above: Rests, family: Option<usize>, read: &[Kind]) -> Option<Kind> {
        let id = table.id("solid-bar-toy");
        let standing = standing(table);
        let unknown = standing == Standing::Unknown;
        let rests = self.context.rests(table, above);
        let common = if unknown {
            if let Some(v) = table.get("common") {
                v.fault("The unknown kind has no commonness.", "Its share is `unknown` in pack.toml.");
            }
            0
        } else {
            let value = table.need("common", "common = 3").and_then(|v| v.whole(1, 5));
            value.map_or(0, |c| usize::try_from(c - 1).unwrap_or(0))
        };
        let kind = Kind {
            id: id.clone().unwrap_or_default(),
            spot: table.spot_of("id"),
            name: table.need_text("name", Limit::NAME, "name = \"One-piece flat iron, solid cast grip\""),
            short: table.need_text("short", Limit::SHORT, "short = \"Solid cast grip\""),
            purpose: table.need_text("purpose", Limit::SENTENCE, "purpose = \"A child's play iron.\""),
            draw: self.context.drawing(table),
            standing,
            common,
            own: self.common(table, rests),
            forms: self.forms(table, rests),
            taken_for: taken_for(table),
            either: mentions(table, "either"),
            notes: notes(table),
            found: table.text("found", Limit::SENTENCE).unwrap_or_default(),
            companions: table.text("companions", Limit::SENTENCE).unwrap_or_default(),
            same_as: mentions(table, "same_as").into_iter().map(|m| m.id).collect(),
            also_said: statements::read(table, self.context, rests),
            examples: examples::read(table, self),
            family,
        };
        let id = id?;
        if read.iter().any(|k| k.id == id) {
            let says = format!("There are two kinds {}.", quote(&id));
            self.context.faults.add(&table.spot_of("id"), says, "Give each its own id.");
            return None;
        }
        Some(kind)
    }

    /// The forms; one without a table of its own when none is written.
    fn forms(&self, table: &Table<'_>, above: Rests) -> Vec<Form> {
        let mut sum = 0.0;
        let mut forms = Vec::new();
        for t in table.tables("form") {
            t.need_text("name", Limit::NAME, "name = \"lettered\"");
            let share = t.need("share", "share = 50").and_then(|v| v.number(0.1, 100.0)).unwrap_or(1.0);
            let rests = self.context.rests(&t, above);
            let section = self.desk().section(&t, rests, About::Anything);
            t.done();
            sum += share;
            forms.push(Form { share, section });
        }
        if !forms.is_empty() && (sum - 100.0).abs() > 1e-6 {
            let spot = table.spot_of("form");
            let says = format!("The shares of the forms sum to {sum}, not to 100.");
            self.context.faults.add(&spot, says, "");
        }
        if forms.len() > MOST_FORMS {
            let says = format!("There are {} forms; at most {MOST_FORMS} are read.", forms.len());
            self.context.faults.add(&table.spot_of("form"), says, "Make some of them kinds.");
        }
        if forms.is_empty() {
            forms.push(Form { share: 1.0, section: crate::model::Section::default() });
        }
        for f in &mut forms {
            f.share /= sum.max(1.0);
        }
        forms
    }
}

fn standing(table: &Table<'_>) -> Standing {
    let Some(value) = table.get("standing") else {
        return Standing::Inside;
    };
    match value.text(Limit::NAME).as_deref() {
        Some("inside") | None => Standing::Inside,
        Some("outside") => Standing::Outside,
        Some("unknown") => Standing::Unknown,
        Some(other) => {
            let hint = meant(other, ["inside", "outside", "unknown"].into_iter(), "Write one of");
            value.fault(format!("{} is not a standing.", quote(other)), hint);
            Standing::Inside
        }
    }
}

fn taken_for(table: &Table<'_>) -> Vec<(Mention, String)> {
    let mut list = Vec::new();
    for t in table.tables("taken_for") {
        let kind = t.need_text("kind", Limit::NAME, "kind = \"wire-grip-toy\"");
        let check = t.need_text("check", Limit::SENTENCE, "check = \"Holes in the metal?\"");
        t.done();
        let spot = t.spot_of("kind");
        list.push((Mention { id: kind, spot }, check));
    }
    list
}

fn mentions(table: &Table<'_>, field: &str) -> Vec<Mention> {
    let texts = table.get(field).map(|v| v.texts(Limit::NAME)).unwrap_or_default();
    texts.into_iter().map(|(id, spot)| Mention { id, spot }).collect()
}

fn notes(table: &Table<'_>) -> Vec<String> {
    let notes = paragraphs(&table.text("notes", Limit::PAGES).unwrap_or_default());
    if notes.iter().any(|p| p.chars().count() > Limit::PARAGRAPH.most) {
        let says = format!("A paragraph is longer than {} characters.", Limit::PARAGRAPH.most);
        let spot = table.spot_of("notes");
        table.faults().add(&spot, says, "Part it by a blank line.");
    }
    notes
}

/// Paragraphs, parted by blank lines; the lines within one are joined.
fn paragraphs(text: &str) -> Vec<String> {
    let joined = |p: &[&str]| p.iter().map(|l| l.trim()).collect::<Vec<&str>>().join(" ");
    let lines: Vec<&str> = text.lines().collect();
    lines.split(|l| l.trim().is_empty()).filter(|p| !p.is_empty()).map(joined).collect()
}
