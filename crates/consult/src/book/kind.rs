//! The page of a kind.

use super::Pages;
use super::figures::{length, mm, mostly, rounded};
use super::makes::{copies, made_as, worth, years};
use super::page::{Grouping, Page};
use super::sheet::{Block, Card, Piece, Sheet, Tone};
use super::tables::{Shown, Sort};
use super::write::{card, cards, group, line, lines, pair, ranked, text};
use crate::words::{chance, either, inside, likely, sentence};
use pack::{Form, Standing};
use units::descending;

/// Roles below this share are not listed; as in the finding.
pub(super) const LISTED_ROLE: f64 = 0.045;
/// From here one role is named alone: the lower limit of "likely". Published: IPCC guidance note, 2010.
const LEANS: f64 = 0.66;
/// What stands out by less is not worth a card, in bits. Basis: practice.
const TELLS: f64 = 0.08;
/// How many cards are shown at most. Basis: practice.
const MOST_CARDS: usize = 8;

pub(super) fn sheet(pages: &Pages, kind: usize, money: bool) -> Sheet {
    let k = &pages.core.kinds[kind];
    let told = &pages.book.kinds[kind];
    let make = pages.main_make(kind);
    let sort = pages.sort(kind, make);
    let mut lead = vec![Block::Pieces(vec![pages.piece(kind)]), text(Tone::Plain, &told.purpose)];
    if k.standing == Standing::Outside {
        lead.push(text(Tone::Care, "Outside of this guide, which knows it only to tell it from the rest."));
    }
    lead.push(Block::Rows(pages.in_short(kind, &sort)));
    lead.push(Block::Save);
    let mut body = Vec::new();
    let mut care = Vec::new();
    for c in &k.cautions {
        let c = &pages.core.cautions[usize::from(*c)];
        care.push(text(if c.grave { Tone::Care } else { Tone::Plain }, &c.text));
    }
    card(&mut body, "Take care", care);
    let mut telling = pages.telling(&sort);
    if !telling.is_empty() {
        let what = format!("Of {} the answers that stand out most, beside all kinds.", pages.pieces(make));
        telling.insert(0, text(Tone::Hint, &what));
    }
    group(&mut body, "What to look for", telling);
    card(&mut body, "Taken for", taken_for(pages, kind));
    card(&mut body, "How copies give themselves away", copies(pages, kind));
    card(&mut body, "When it was made", years(pages, kind));
    card(&mut body, "What it is worth", worth(pages, kind, money));
    card(&mut body, "What it was made as", made_as(pages, kind));
    let mut met = Vec::new();
    for (name, says) in [("Countries", &told.found), ("Goes with", &told.companions)] {
        if !says.is_empty() {
            met.push(pair(name, &sentence(says)));
        }
    }
    card(&mut body, "Where it is met", if met.is_empty() { Vec::new() } else { vec![Block::Rows(met)] });
    card(&mut body, "About this kind", told.notes.iter().map(|n| text(Tone::Plain, n)).collect());
    let said = lines(told.also_said.len(), &mut |at| {
        let s = &told.also_said[at];
        let says = format!("{} ({}.)", sentence(&s.says), pages.rests(s.basis, s.source));
        Some(line(String::new(), "", &says))
    });
    card(&mut body, "Also said", said);
    let mut words = format!("{} {} {}", k.name, told.purpose, told.companions);
    for more in told.notes.iter().chain(told.confusions.iter().map(|c| &c.check)) {
        words.push(' ');
        words.push_str(more);
    }
    card(&mut body, "Words used here", pages.words_in(&words));
    card(&mut body, "What this rests on", pages.rests_of(kind, &sort));
    let all = Page::Kinds(Grouping::Usual);
    let keys = [(&all, "All kinds"), (&Page::Compare(kind, None), "Compare with\u{2026}")];
    pages.keyed(&k.name, lead, body, keys, true)
}

impl Pages {
    /// A typical piece, to be drawn.
    #[inline(never)]
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

    /// `period pieces`.
    fn pieces(&self, make: usize) -> String {
        format!("{}s", inside(&self.core.makes[make].name))
    }

    /// What stands beside the drawing.
    pub(super) fn in_short(&self, kind: usize, sort: &Sort<'_>) -> Vec<(String, String)> {
        let roles = self.roles(sort);
        let order = descending(&roles);
        let role = |r: usize| inside(&self.core.roles[r].name);
        let mut made = String::new();
        for r in order.into_iter().take(4) {
            if made.is_empty() && roles[r] >= LEANS {
                made = format!("{}: {}", role(r), likely(roles[r]));
                break;
            }
            if roles[r] >= LISTED_ROLE {
                let gap = if made.is_empty() { "" } else { "; " };
                made.push_str(&format!("{gap}{}, {}", role(r), chance(roles[r])));
            }
        }
        let mut rows = vec![pair("Made as", &made)];
        let serves: Vec<String> =
            self.core.kinds[kind].serves.iter().map(|r| role(usize::from(*r))).collect();
        if !serves.is_empty() {
            let words: Vec<&str> = serves.iter().map(String::as_str).collect();
            rows.push(pair("Use", &format!("could have served as {}", either(&words))));
        }
        let make = self.main_make(kind);
        let name = inside(&self.core.makes[make].name);
        rows.push(pair("Mostly", &format!("{name}: {}", likely(self.share(kind, make)))));
        if let Some(facts) = &self.core.kinds[kind].makes[make] {
            rows.push(pair("When", &format!("{} {}", self.pieces(make), mostly(facts.period))));
        }
        if let Some(size) = self.size(sort) {
            rows.push(pair("Size", &size));
        }
        rows
    }

    fn range(&self, sort: &Sort<'_>, form: Form) -> Option<(f64, f64, f64)> {
        let question = self.core.questions.iter().position(|q| q.form == form)?;
        self.shown(sort, question)?.range()
    }

    /// `38 to 94 mm, 19 in 20; at 66 mm 115 to 190 g`.
    fn size(&self, sort: &Sort<'_>) -> Option<String> {
        let range = self.range(sort, Form::Length)?;
        let mut says = length(range);
        if let Some((light, _, heavy)) = self.range(sort, Form::Heft) {
            // Heft is weight over length cubed, as the logarithm of g/cm3 in thousandths.
            let cubed = range.1 * range.1 * range.1 / 1e6;
            let grams = |heft: f64| rounded(libm::exp(heft / 1000.0) * cubed);
            says.push_str(&format!("; at {} mm {} to {} g", mm(range.1), grams(light), grams(heavy)));
        }
        Some(says)
    }

    /// The looks that tell this sort best from all kinds together, as cards.
    fn telling(&self, sort: &Sort<'_>) -> Vec<Block> {
        let all = self.all();
        let questions = &self.core.questions;
        let both =
            |q: usize| -> Option<(Shown, Shown)> { Some((self.shown(sort, q)?, self.shown(&all, q)?)) };
        let best = ranked(questions.len(), MOST_CARDS, &mut |q| match both(q) {
            Some((here, there)) if questions[q].form == Form::Choice => {
                let bits = here.stands_out(&there).0;
                if bits >= TELLS { bits } else { 0.0 }
            }
            _ => 0.0,
        });
        cards(best.len(), &mut |at| {
            let (here, there) = both(best[at])?;
            let (_, choice) = here.stands_out(&there);
            let q = &questions[best[at]];
            let (seen, usual) = (chance(here.shares[choice]), chance(there.shares[choice]));
            Some(Card {
                to: self.to(&Page::Look(best[at])),
                draw: q.choices[choice].draw.clone(),
                says: q.choices[choice].label.clone(),
                note: format!("{} Here {seen}; of all {usual}.", q.ask),
            })
        })
    }

    /// Kinds that are taken for each other with the deciding check, from both sides.
    #[inline(never)]
    pub(super) fn confusions(&self, kind: usize) -> Vec<(usize, &str)> {
        let mut all: Vec<(usize, &str)> = Vec::new();
        for c in &self.book.kinds[kind].confusions {
            all.push((usize::from(c.kind), &c.check));
        }
        for (other, told) in self.book.kinds.iter().enumerate() {
            let back = told.confusions.iter().find(|c| usize::from(c.kind) == kind);
            if let Some(c) = back
                && all.iter().all(|(k, _)| *k != other)
            {
                all.push((other, &c.check));
            }
        }
        all.retain(|(k, _)| self.core.kinds[*k].standing != Standing::Unknown);
        all
    }
}

fn taken_for(pages: &Pages, kind: usize) -> Vec<Block> {
    let all = pages.confusions(kind);
    let mut blocks = lines(all.len(), &mut |at| {
        let (other, check) = all[at];
        let to = pages.to(&Page::Compare(kind, Some(other)));
        Some(line(to, &pages.core.kinds[other].short, &format!(": {}", sentence(check))))
    });
    let twins = &pages.core.kinds[kind].either;
    blocks.extend(lines(twins.len(), &mut |at| {
        let twin = usize::from(twins[at]);
        let to = pages.to(&Page::Compare(kind, Some(twin)));
        Some(line(to, &pages.core.kinds[twin].short, ": no look alone tells the two apart."))
    }));
    blocks
}
