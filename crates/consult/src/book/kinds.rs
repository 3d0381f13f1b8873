//! All kinds, grouped by what they look like, by what they were made as, or by name.

use super::Pages;
use super::fold::fold;
use super::page::{Grouping, Page};
use super::sheet::{Block, Card, Sheet, Tone};
use super::write::{cards, group, text, top};
use pack::{Form, Standing};
use units::order;

impl Pages {
    /// The kinds that have a page: all but the one for whatever the guide does not know.
    #[inline(never)]
    pub(super) fn kinds(&self) -> Vec<usize> {
        (0..self.core.kinds.len()).filter(|k| self.core.kinds[*k].standing != Standing::Unknown).collect()
    }

    /// The card of a kind in a list: to its page, or beside another kind.
    #[inline(never)]
    pub(super) fn kind_card(&self, kind: usize, beside: Option<usize>) -> Card {
        let k = &self.core.kinds[kind];
        let outside = k.standing == Standing::Outside;
        let to = match beside {
            None => Page::Kind(kind),
            Some(one) => Page::Compare(one, Some(kind)),
        };
        Card {
            to: self.to(&to),
            draw: self.book.kinds[kind].draw.clone(),
            says: k.short.clone(),
            note: String::from(if outside { "outside of this guide" } else { "" }),
        }
    }

    /// Whether kinds can be grouped by the answers to a look.
    pub(super) fn groups_by(&self, question: usize) -> bool {
        self.core.questions.get(question).is_some_and(|q| q.form == Form::Choice && q.gate.is_none())
    }

    /// The looks of the opening by which kinds can be grouped.
    fn usual_looks(&self) -> Vec<usize> {
        self.core.opening.iter().map(|q| usize::from(*q)).filter(|q| self.groups_by(*q)).collect()
    }

    /// The choice that a kind shows most often at a look, and how often.
    #[inline(never)]
    pub(super) fn mostly_shows(&self, kind: usize, question: usize) -> Option<(usize, f64)> {
        let shown = self.shown(&self.sort(kind, self.main_make(kind)), question)?;
        let choice = top(&shown.shares);
        Some((choice, *shown.shares.get(choice)?))
    }
}

pub(super) fn sheet(pages: &Pages, by: Grouping) -> Sheet {
    let usual = pages.usual_looks();
    let by = match (by, usual.first()) {
        (Grouping::Usual, Some(q)) => Grouping::Look(*q),
        (Grouping::Usual, None) => Grouping::Name,
        (by, _) => by,
    };
    let mut ways = Vec::new();
    let mut way = |grouping: Grouping, says: &str| {
        ways.push((pages.to(&Page::Kinds(grouping)), says.to_string(), grouping == by));
    };
    for q in &usual {
        way(Grouping::Look(*q), pages.part(*q));
    }
    // A look that was asked for by a link stands among the others.
    if let Grouping::Look(q) = by
        && !usual.contains(&q)
    {
        way(by, pages.part(q));
    }
    way(Grouping::Role, "Made as");
    way(Grouping::Name, "A to Z");
    let kinds = pages.kinds();
    let how = match by {
        Grouping::Look(q) => {
            format!("each by the answer that it shows most. {}", pages.core.questions[q].ask)
        }
        Grouping::Role => "each by what it was made as most.".to_string(),
        _ => "by name.".to_string(),
    };
    let hint = text(Tone::Hint, &format!("{} kinds, {how}", kinds.len()));
    pages.sheet("All kinds", vec![Block::Keys(ways), hint], groups(pages, &kinds, by))
}

fn groups(pages: &Pages, kinds: &[usize], by: Grouping) -> Vec<Block> {
    if by == Grouping::Name {
        let mut names = Vec::new();
        for k in kinds {
            names.push(fold(&pages.core.kinds[*k].short));
        }
        let sorted = order(kinds.len(), &|a, b| names[a].cmp(&names[b]));
        return cards(kinds.len(), &mut |at| Some(pages.kind_card(kinds[sorted[at]], None)));
    }
    // The names of all groups in their order, and what each kind belongs to.
    let mut names: Vec<&str> = Vec::new();
    let mut belongs = Vec::new();
    if let Grouping::Look(q) = by {
        names.extend(pages.core.questions[q].choices.iter().map(|c| c.label.as_str()));
        belongs.extend(kinds.iter().map(|k| pages.mostly_shows(*k, q).map(|m| m.0)));
    } else {
        names.extend(pages.core.roles.iter().map(|r| r.name.as_str()));
        belongs.extend(kinds.iter().map(|k| Some(top(&pages.roles(&pages.sort(*k, pages.main_make(*k)))))));
    }
    let mut blocks = Vec::new();
    for (at, name) in names.iter().enumerate() {
        let inside =
            cards(kinds.len(), &mut |k| (belongs[k] == Some(at)).then(|| pages.kind_card(kinds[k], None)));
        group(&mut blocks, name, inside);
    }
    blocks
}
