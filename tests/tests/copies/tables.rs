//! What the tables may say of a copy.

use consult::Guide;
use tests::packs;

/// The most that a single look from memory may say for or against a copy. Basis: memory; what nobody has counted should
/// not settle the matter alone.
const MOST: f64 = 15.0;

/// How many times likelier the one is than the other.
fn times(a: f64, b: f64) -> f64 {
    if a == b { 1.0 } else { a.max(b) / a.min(b) }
}

/// The loudest look so far, and what is too loud.
#[derive(Default)]
struct Heard {
    most: f64,
    says: String,
    faults: Vec<String>,
    compared: usize,
}

impl Heard {
    fn hear(&mut self, times: f64, from_memory: bool, says: impl Fn() -> String) {
        self.compared += 1;
        // Tables are whole per mille: what stands at fifteen may be a rounding beyond.
        if from_memory && times > MOST + 1e-9 {
            self.faults.push(format!("{}: {times:.1} times", says()));
        }
        if times > self.most {
            (self.most, self.says) = (times, says());
        }
    }

    fn told(self, what: &str) {
        println!("figure: one look, {what}: {:.1} times at most ({})", self.most, self.says);
        assert!(self.compared > 20, "nothing was compared");
        assert!(self.faults.is_empty(), "{}", self.faults.join("\n"));
    }
}

/// Questions that stand with the makes, by index.
pub(crate) fn about_make(guide: &Guide) -> Vec<usize> {
    let files = packs::files();
    let questions = files.iter().filter(|(path, _)| path.starts_with("questions/"));
    let ids: Vec<String> = questions
        .flat_map(|(_, text)| text.split("[[question]]").skip(1))
        .filter(|q| q.lines().any(|l| l == "about = \"make\""))
        .filter_map(|q| q.lines().find_map(|l| l.strip_prefix("id = ")))
        .map(|id| id.trim_matches('"').to_string())
        .collect();
    ids.iter().filter_map(|id| guide.core.questions.iter().position(|q| q.id == *id)).collect()
}

/// The table of a question over the candidates wanted, as common as they are at the first place; nothing when there are
/// none. The kind for everything unknown, the last, is never among them.
fn mean(guide: &Guide, question: usize, wanted: impl Fn(u16, u16) -> bool) -> Option<Vec<f64>> {
    let core = &guide.core;
    let mut mean = vec![0.0; core.questions[question].choices.len()];
    let mut whole = 0.0;
    for (c, candidate) in core.candidates.iter().enumerate() {
        if usize::from(candidate.kind) + 1 < core.kinds.len() && wanted(candidate.kind, candidate.make) {
            let weight = f64::from(candidate.prior[0]);
            whole += weight;
            mean.iter_mut().zip(guide.model.truth(question, c)).for_each(|(m, p)| *m += weight * p);
        }
    }
    (whole > 0.0).then(|| mean.iter().map(|m| m / whole).collect())
}

/// Within a kind and a form the makes differ by these tables alone.
#[test]
fn a_look_from_memory_says_no_more_than_fifteen_within_a_kind() {
    let guide = packs::guide();
    let core = &guide.core;
    let mut heard = Heard::default();
    for (l, later) in core.candidates.iter().enumerate().filter(|(_, c)| c.make != 0) {
        let beside =
            core.candidates.iter().position(|c| (c.kind, c.form, c.make) == (later.kind, later.form, 0));
        for (p, at) in beside.into_iter().flat_map(|p| (0..core.questions.len()).map(move |at| (p, at))) {
            let q = &core.questions[at];
            let rows = [p, l].map(|c| &q.rows[usize::from(core.candidates[c].rows[at])]);
            let from_memory = rows.iter().any(|r| r.basis.word() == "memory");
            let tables = [p, l].map(|c| guide.model.truth(at, c));
            for (choice, (a, b)) in q.choices.iter().zip(tables[0].iter().zip(tables[1])) {
                heard.hear(times(*a, *b), from_memory, || {
                    let (kind, make) = (usize::from(later.kind), usize::from(later.make));
                    format!("{}, {}: {} = {}", core.kinds[kind].id, core.makes[make].id, q.id, choice.id)
                });
            }
        }
    }
    heard.told("old or later within a kind");
}

/// A kind that is never old has no period table to be held against: it stands beside all old pieces together. And so do all
/// later pieces together.
#[test]
fn a_look_at_the_make_says_no_more_than_fifteen_beside_all_old_pieces() {
    let guide = packs::guide();
    let core = &guide.core;
    let only_later = |kind: u16| core.kinds[usize::from(kind)].makes[0].is_none();
    let iron = |kind: u16| {
        let at = core.questions.iter().position(|q| q.id == "material")?;
        Some(mean(&guide, at, |k, _| k == kind)?[0] > 0.5)
    };
    let (mut one, mut all) = (Heard::default(), Heard::default());
    let questions = about_make(&guide);
    assert_eq!(
        questions.len(),
        11,
        "sole, texture, skin, wear, seams, metal, rust, joints, wire, letters, heat"
    );
    for at in questions {
        let q = &core.questions[at];
        let old = mean(&guide, at, |_, make| make == 0).unwrap_or_default();
        let later = mean(&guide, at, |_, make| make != 0).unwrap_or_default();
        for (choice, (a, b)) in q.choices.iter().zip(old.iter().zip(&later)) {
            all.hear(times(*a, *b), true, || format!("{} = {}", q.id, choice.id));
        }
        // Glass and brass differ from iron by more than their make, so only the iron ones are held to it.
        for kind in (0..core.kinds.len() as u16).filter(|k| only_later(*k) && iron(*k) == Some(true)) {
            let own = mean(&guide, at, |k, _| k == kind).unwrap_or_default();
            for (choice, (a, b)) in q.choices.iter().zip(old.iter().zip(&own)) {
                let id = &core.kinds[usize::from(kind)].id;
                one.hear(times(*a, *b), true, || format!("{id}: {} = {}", q.id, choice.id));
            }
        }
    }
    one.told("a recent kind beside all old pieces");
    all.told("all later pieces beside all old ones");
}

/// From memory: at a collectors' sale one in ten is a copy or fewer, at a flea market up to every second one, at a gift shop
/// most are; where nothing is said about the place, it is between the first two.
#[test]
fn copies_are_met_where_the_trade_meets_them() {
    let guide = packs::guide();
    let core = &guide.core;
    let share = |id: &str| {
        let at = core.places.iter().position(|p| p.id == id).expect("the pack has this place");
        let of = |later: bool| -> f64 {
            let side = core.candidates.iter().filter(|c| (c.make != 0) == later);
            side.map(|c| f64::from(c.prior[at])).sum()
        };
        of(true) / (of(true) + of(false))
    };
    let places = ["specialist", "family", "unnamed", "market", "gift"].map(|p| (p, share(p)));
    println!("figure: later pieces by place: {places:.2?}");
    assert!(places.windows(2).all(|w| w[0].1 < w[1].1), "{places:?}");
    let [(_, specialist), _, _, (_, market), (_, gift)] = places;
    assert!(specialist <= 0.15 && (0.25..=0.5).contains(&market) && gift >= 0.85, "{places:?}");
}
