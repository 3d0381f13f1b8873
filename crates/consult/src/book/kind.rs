//! The page of a kind.

use super::page::Page;
use super::rests::NO_APPRAISAL;
use super::sheet::{Block, Card, Piece, Row, Run, Sheet, Table, Tone, say, section, text, toned};
use super::tables::{Shown, Sort};
use super::{Pages, fold};
use crate::words::{chance, either, inside, likely, sentence};
use pack::{Form, Standing};
use units::{Period, descending};

/// Roles below this share are not listed; as in the finding.
const LISTED_ROLE: f64 = 0.045;
/// From here one role is named alone: the lower limit of "likely". Published: IPCC guidance note, 2010.
const LEANS: f64 = 0.66;
/// What stands out by less is not worth a card, in bits. Basis: practice.
const TELLS: f64 = 0.08;
/// How many cards and rows are shown at most. Basis: practice.
const MOST_CARDS: usize = 8;
const MOST_SIGNS: usize = 7;

pub(super) fn sheet(pages: &Pages, kind: usize, money: bool) -> Sheet {
    let k = &pages.core.kinds[kind];
    let told = &pages.book.kinds[kind];
    let make = pages.main_make(kind);
    let sort = pages.sort(kind, make);
    let mut lead = vec![Block::Pieces(vec![pages.piece(kind)]), text(&told.purpose)];
    if k.standing == Standing::Outside {
        lead.push(toned(Tone::Care, "Outside of this guide, which knows it only to tell it from the rest."));
    }
    lead.push(Block::Rows(pages.in_short(kind, &sort)));
    lead.push(Block::Save);
    let mut body = Vec::new();
    section(&mut body, "Take care", care(pages, kind));
    if let cards @ [_, ..] = &*pages.telling(&sort) {
        let what = format!(
            "Of {} the answers that stand out most, beside all kinds of the guide.",
            pages.pieces(make)
        );
        body.push(Block::Group(
            "What to look for".to_string(),
            vec![toned(Tone::Hint, what), Block::Cards(cards.to_vec())],
        ));
    }
    section(&mut body, "Taken for", taken_for(pages, kind));
    section(&mut body, "How copies give themselves away", copies(pages, kind));
    section(&mut body, "When it was made", years(pages, kind));
    section(&mut body, "What it is worth", worth(pages, kind, money));
    section(&mut body, "What it was made as", made_as(pages, kind));
    section(&mut body, "Where it is met", met(told));
    section(&mut body, "About this kind", told.notes.iter().map(text).collect());
    section(&mut body, "Also said", also_said(pages, kind));
    section(&mut body, "Words used here", pages.words_in(&texts(pages, kind)));
    section(&mut body, "What this rests on", pages.rests_of(kind, &sort));
    let keys = [
        (pages.to(&Page::Kinds(Default::default())), "All kinds"),
        (pages.to(&Page::Compare(kind, None)), "Compare with\u{2026}"),
        ("./".to_string(), "Look at a piece"),
    ];
    Sheet { title: k.name.clone(), lead, body, keys: keys.map(|(to, says)| (to, says.to_string())).to_vec() }
}

impl Pages {
    /// A typical piece, to be drawn.
    pub(super) fn piece(&self, kind: usize) -> Piece {
        let k = &self.core.kinds[kind];
        let length = self.range(&self.sort(kind, self.main_make(kind)), Form::Length);
        Piece {
            draw: self.book.kinds[kind].draw.clone(),
            mm: length.map_or(80, |(_, middle, _)| (middle / 10.0) as u32).clamp(10, 400),
            says: format!("{}: a typical one", k.short),
            file: format!("{}-{}", self.core.head.id, k.id),
        }
    }

    /// The card of a kind in a list.
    pub(super) fn kind_card(&self, kind: usize, to: &Page) -> Card {
        let k = &self.core.kinds[kind];
        let outside = k.standing == Standing::Outside;
        Card {
            to: self.to(to),
            draw: self.book.kinds[kind].draw.clone(),
            says: k.short.clone(),
            note: if outside { "outside of this guide".to_string() } else { String::new() },
        }
    }

    /// `period pieces`.
    fn pieces(&self, make: usize) -> String {
        format!("{}s", inside(&self.core.makes[make].name))
    }

    /// What stands beside the drawing.
    pub(super) fn in_short(&self, kind: usize, sort: &Sort<'_>) -> Vec<(String, Vec<Run>)> {
        let row = |name: &str, says: String| (name.to_string(), vec![say(says)]);
        let mut rows = vec![row("Made as", self.made_mostly_as(sort))];
        let serves: Vec<String> =
            self.core.kinds[kind].serves.iter().map(|r| self.role(usize::from(*r))).collect();
        if !serves.is_empty() {
            let words: Vec<&str> = serves.iter().map(String::as_str).collect();
            rows.push(row("Served", format!("could have served as {}", either(&words))));
        }
        let main = self.core.kinds[kind].makes[self.main_make(kind)].as_ref();
        rows.extend(main.map(|facts| row("When", mostly(facts.period))));
        rows.extend(self.size(sort).map(|says| row("Size", says)));
        rows
    }

    fn role(&self, role: usize) -> String {
        inside(&self.core.roles[role].name)
    }

    fn made_mostly_as(&self, sort: &Sort<'_>) -> String {
        let roles = self.roles(sort);
        let order = descending(&roles);
        let first = order[0];
        if roles[first] >= LEANS {
            return format!("{}: {}", self.role(first), likely(roles[first]));
        }
        let listed = order.into_iter().filter(|r| roles[*r] >= LISTED_ROLE).take(4);
        listed.map(|r| format!("{}, {}", self.role(r), chance(roles[r]))).collect::<Vec<_>>().join("; ")
    }

    fn range(&self, sort: &Sort<'_>, form: Form) -> Option<(f64, f64, f64)> {
        let question = self.core.questions.iter().position(|q| q.form == form)?;
        self.shown(sort, question)?.range()
    }

    /// `38 to 94 mm long, 19 in 20; 115 to 190 g at 66 mm`.
    pub(super) fn size(&self, sort: &Sort<'_>) -> Option<String> {
        let (low, middle, high) = self.range(sort, Form::Length)?;
        let mm = |tenths: f64| (tenths / 10.0 + 0.5).max(1.0) as u32;
        let mut says = format!("{} to {} mm long, 19 in 20", mm(low), mm(high));
        if let Some((light, _, heavy)) = self.range(sort, Form::Heft) {
            // Heft is weight over length cubed, as the logarithm of g/cm3 in thousandths.
            let cubed = middle * middle * middle / 1e6;
            let grams = |heft: f64| rounded(libm::exp(heft / 1000.0) * cubed);
            says.push_str(&format!("; at {} mm {} to {} g", mm(middle), grams(light), grams(heavy)));
        }
        Some(says)
    }

    /// The looks that tell this sort best from all kinds together, as cards.
    fn telling(&self, sort: &Sort<'_>) -> Vec<Card> {
        let all = self.all();
        let (mut bits, mut cards) = (Vec::new(), Vec::new());
        for (at, q) in self.core.questions.iter().enumerate().filter(|(_, q)| q.form == Form::Choice) {
            let (Some(shown), Some(beside)) = (self.shown(sort, at), self.shown(&all, at)) else { continue };
            let (tells, choice) = shown.stands_out(&beside);
            if tells >= TELLS {
                bits.push(tells);
                let c = &q.choices[choice];
                let (here, there) = (chance(shown.shares[choice]), chance(beside.shares[choice]));
                cards.push(Card {
                    to: self.to(&Page::Look(at)),
                    draw: c.draw.clone(),
                    says: c.label.clone(),
                    note: format!("{} {here} of these, {there} of all.", q.ask),
                });
            }
        }
        descending(&bits).into_iter().take(MOST_CARDS).map(|i| std::mem::take(&mut cards[i])).collect()
    }

    /// Kinds that are taken for each other with the deciding check, from both sides.
    pub(super) fn confusions(&self, kind: usize) -> Vec<(usize, &str)> {
        let check = |c: &pack::Confusion| usize::from(c.kind);
        let own = self.book.kinds[kind].confusions.iter().map(|c| (check(c), c.check.as_str()));
        let mut all: Vec<(usize, &str)> = own.collect();
        for (other, told) in self.book.kinds.iter().enumerate() {
            let back = told.confusions.iter().find(|c| check(c) == kind);
            if let Some(c) = back.filter(|_| all.iter().all(|(k, _)| *k != other)) {
                all.push((other, c.check.as_str()));
            }
        }
        all.retain(|(k, _)| self.core.kinds[*k].standing != Standing::Unknown);
        all
    }
}

/// `mostly 1880 to 1915, hardly before 1850 or after 1935`.
pub(super) fn mostly(period: Period) -> String {
    let Period { earliest, likely_from, likely_to, latest } = period;
    format!("mostly {likely_from} to {likely_to}, hardly before {earliest} or after {latest}")
}

/// To about two digits: a weight from a length is no better.
fn rounded(grams: f64) -> u32 {
    let step = match grams {
        g if g < 20.0 => 1.0,
        g if g < 200.0 => 5.0,
        g if g < 1000.0 => 20.0,
        _ => 100.0,
    };
    ((grams / step + 0.5) as u32 * step as u32).max(1)
}

fn care(pages: &Pages, kind: usize) -> Vec<Block> {
    let cautions = pages.core.kinds[kind].cautions.iter();
    let tone = |grave: bool| if grave { Tone::Care } else { Tone::Plain };
    cautions.map(|c| &pages.core.cautions[usize::from(*c)]).map(|c| toned(tone(c.grave), &c.text)).collect()
}

fn taken_for(pages: &Pages, kind: usize) -> Vec<Block> {
    let mut lines: Vec<Vec<Run>> = pages
        .confusions(kind)
        .into_iter()
        .map(|(other, check)| {
            let short = &pages.core.kinds[other].short;
            let compare = pages.to(&Page::Compare(kind, Some(other)));
            vec![
                Run::Link(pages.to(&Page::Kind(other)), short.clone()),
                say(format!(": {} ", sentence(check))),
                Run::Link(compare, "Side by side".to_string()),
            ]
        })
        .collect();
    for twin in pages.core.kinds[kind].either.iter().map(|k| usize::from(*k)) {
        let name = pages.core.kinds[twin].short.clone();
        let link = Run::Link(pages.to(&Page::Kind(twin)), name);
        lines.push(vec![say("No look alone tells it from "), link, say(".")]);
    }
    if lines.is_empty() { Vec::new() } else { vec![Block::List(lines)] }
}

/// The signs by which a later piece of this kind differs most from a period one.
fn copies(pages: &Pages, kind: usize) -> Vec<Block> {
    let makes: Vec<usize> =
        (0..pages.core.makes.len()).filter(|m| pages.core.kinds[kind].makes[*m].is_some()).collect();
    if makes.first() != Some(&0) {
        return vec![text("This kind is itself a later piece: there is no old one that it was cast from.")];
    }
    let sorts: Vec<Sort<'_>> = makes.iter().map(|m| pages.sort(kind, *m)).collect();
    if sorts.len() < 2 {
        return Vec::new();
    }
    let (mut bits, mut rows) = (Vec::new(), Vec::new());
    for (at, q) in pages.core.questions.iter().enumerate().filter(|(_, q)| q.form == Form::Choice) {
        let shown: Option<Vec<Shown>> = sorts.iter().map(|s| pages.shown(s, at)).collect();
        let Some((old, later)) = shown.as_deref().and_then(<[Shown]>::split_first) else { continue };
        let apart: Vec<f64> = later.iter().map(|l| l.apart(old)).collect();
        let most = super::tables::top(&apart);
        if apart[most] < TELLS / 4.0 {
            continue;
        }
        let (_, sign) = later[most].stands_out(old);
        let cell = |s: &Shown| vec![(chance(s.shares[sign]), false)];
        bits.push(apart[most]);
        rows.push(Row {
            name: vec![
                Run::Strong(sentence(&q.choices[sign].clue)),
                say(" "),
                Run::Link(pages.to(&Page::Look(at)), "How to look".to_string()),
            ],
            mark: None,
            cells: std::iter::once(old).chain(later).map(cell).collect(),
        });
    }
    let order = descending(&bits).into_iter().take(MOST_SIGNS);
    let rows: Vec<Row> = order.map(|i| rows[i].clone()).collect();
    if rows.is_empty() {
        return vec![text("The tables of this guide know no look that tells its copies.")];
    }
    let heads = makes.iter().map(|m| pages.core.makes[*m].name.clone()).collect();
    let caption = "How often each sign is seen, by make; the most telling first".to_string();
    vec![
        toned(
            Tone::Hint,
            "How often each sign is seen; the most telling first. One sign alone proves nothing.",
        ),
        Block::Table(Table { caption, heads, rows }),
    ]
}

fn years(pages: &Pages, kind: usize) -> Vec<Block> {
    let makes = || pages.makes(kind);
    let line = |(name, facts): (&str, &pack::MakeFacts)| {
        let rests = pages.rests(facts.period_basis, facts.period_source);
        let says = format!(": {}; {}.", mostly(facts.period), rests);
        vec![Run::Strong(name.to_string()), say(says)]
    };
    vec![
        Block::Years(makes().map(|(name, facts)| (name.to_string(), facts.period)).collect()),
        Block::List(makes().map(line).collect()),
    ]
}

fn worth(pages: &Pages, kind: usize, open: bool) -> Vec<Block> {
    let line = |(name, facts): (&str, &pack::MakeFacts)| {
        let w = facts.worth.as_ref()?;
        let says = format!(
            ": {} to {} for half of sound, typical, complete ones; money of {}; {}.",
            (w.low.minor + 50) / 100,
            w.high.in_whole_units(),
            w.year,
            pages.rests(w.basis, w.source)
        );
        Some(vec![Run::Strong(name.to_string()), say(says)])
    };
    let lines: Vec<Vec<Run>> = pages.makes(kind).filter_map(line).collect();
    if lines.is_empty() {
        return vec![text("No figures for pieces like this one in the guide.")];
    }
    vec![Block::Money(vec![Block::List(lines), toned(Tone::Small, NO_APPRAISAL)], open)]
}

fn made_as(pages: &Pages, kind: usize) -> Vec<Block> {
    let mut blocks: Vec<Block> = Vec::new();
    let mut before: Vec<(String, String)> = Vec::new();
    for make in 0..pages.core.makes.len() {
        if pages.core.kinds[kind].makes[make].is_none() {
            continue;
        }
        let roles = pages.roles(&pages.sort(kind, make));
        let listed = descending(&roles).into_iter().filter(|r| roles[*r] >= LISTED_ROLE);
        let shares: Vec<(String, String)> =
            listed.map(|r| (pages.core.roles[r].name.clone(), likely(roles[r]))).collect();
        if shares != before {
            blocks.push(Block::Text(Tone::Plain, vec![Run::Strong(pages.core.makes[make].name.clone())]));
            blocks.push(Block::Shares(shares.clone()));
            before = shares;
        }
    }
    blocks
}

fn met(told: &pack::KindText) -> Vec<Block> {
    let row = |name: &str, says: &str| (name.to_string(), vec![say(sentence(says))]);
    let rows = [("Countries", &told.found), ("Goes with", &told.companions)];
    let rows: Vec<_> = rows.into_iter().filter(|r| !r.1.is_empty()).map(|r| row(r.0, r.1)).collect();
    if rows.is_empty() { Vec::new() } else { vec![Block::Rows(rows)] }
}

fn also_said(pages: &Pages, kind: usize) -> Vec<Block> {
    let said = pages.book.kinds[kind].also_said.iter();
    said.map(|s| {
        let rests = pages.rests(s.basis, s.source);
        Block::Text(Tone::Plain, vec![say(format!("{} ", sentence(&s.says))), say(format!("({rests}.)"))])
    })
    .collect()
}

/// All words of a kind's page that may need a meaning, folded.
fn texts(pages: &Pages, kind: usize) -> String {
    let told = &pages.book.kinds[kind];
    let mut all = vec![pages.core.kinds[kind].name.as_str(), &told.purpose, &told.companions];
    all.extend(told.notes.iter().map(String::as_str));
    all.extend(told.confusions.iter().map(|c| c.check.as_str()));
    fold::fold(&all.join(" "))
}
