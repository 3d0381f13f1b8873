//! From resolved candidates to what travels: tables numbered, each stored once.

use crate::codes::Codes;
use crate::fault::Faults;
use crate::model::{Model, Taught};
use crate::prior::priors;
use crate::resolve::{Draft, facts};
use pack::{
    Book, Candidate, Caution, Confusion, Core, Figure, Kind, KindText, Late, Lesson, Lessons, Named, Proof,
    Question, QuestionText, RoleRow, Row,
};

/// Everything but the limits of fit, which are found by simulating the core itself.
pub(crate) fn core(model: &Model, drafts: &[Draft], codes: &mut Codes, faults: &Faults) -> Core {
    let m = &model.manifest;
    let mut named = |what: &str, things: &[crate::model::Thing]| -> Vec<Named> {
        let one = |t: &crate::model::Thing| Named {
            code: codes.of(what, &t.id, &t.spot, faults),
            id: t.id.clone(),
            name: t.name.clone(),
        };
        things.iter().map(one).collect()
    };
    let (places, tools, parts) =
        (named("place", &m.places), named("tool", &m.tools), named("part", &m.parts));
    let (roles, makes) = (named("role", &m.roles), named("make", &m.makes));
    let mut questions: Vec<Question> = model.questions.iter().map(|q| question(q, codes, faults)).collect();
    let kinds = model
        .kinds
        .iter()
        .enumerate()
        .map(|(i, k)| {
            let occurs = |make: usize| drafts.iter().any(|d| d.kind == i && d.make == make);
            kind(model, k, &occurs, codes, faults)
        })
        .collect();
    let mut role_rows: Vec<RoleRow> = Vec::new();
    let mut candidates = Vec::new();
    for (draft, prior) in drafts.iter().zip(priors(model, drafts)) {
        let rows = draft.entries.iter().zip(&mut questions).map(|(entry, question)| {
            let row = entry.as_ref().map(|e| Row {
                says: e.says.clone(),
                basis: e.rests.basis,
                source: e.rests.source,
            });
            row.map_or(0, |row| number(&mut question.rows, row))
        });
        let rows = rows.collect();
        let roles = draft.roles.as_ref().map(|r| RoleRow { shares: r.shares.clone(), basis: r.basis });
        candidates.push(Candidate {
            kind: small(draft.kind),
            make: small(draft.make),
            form: small(draft.form),
            prior,
            roles: roles.map_or(0, |r| number(&mut role_rows, r)),
            rows,
        });
    }
    let opening = m.opening.iter().filter_map(|o| model.questions.iter().position(|q| q.id == o.id));
    Core {
        head: m.head.clone(),
        places,
        tools,
        parts,
        roles,
        makes,
        mixed: m.mixed,
        groups: m.groups.iter().map(|(_, overlap)| *overlap).collect(),
        questions,
        kinds,
        candidates,
        role_rows,
        opening: opening.map(small).collect(),
        cautions: model.cautions.iter().map(|c| caution(c, codes, faults)).collect(),
        fit_limits: Vec::new(),
        art: Vec::new(),
    }
}

/// The long texts.
pub(crate) fn book(
    model: &Model,
    core_digest: &[u8; 32],
    (art, late): (Vec<Figure>, Late),
    codes: &mut Codes,
    faults: &Faults,
) -> Book {
    let mut core = [0; 8];
    core.copy_from_slice(&core_digest[..8]);
    Book {
        id: model.manifest.head.id.clone(),
        core,
        late,
        sources: model.sources.clone(),
        kinds: model.kinds.iter().map(|k| kind_text(model, k)).collect(),
        questions: model.questions.iter().map(question_text).collect(),
        art,
        terms: model.terms.clone(),
        lessons: lessons(&model.taught, codes, faults),
    }
}

fn lessons(taught: &Taught, codes: &mut Codes, faults: &Faults) -> Lessons {
    let step = |l: &crate::model::Lesson| Lesson {
        code: codes.of("lesson", &l.id, &l.spot, faults),
        ..l.wire.clone()
    };
    let steps = taught.lessons.iter().map(step).collect();
    let proof =
        |p: &crate::model::Proof| Proof { code: codes.of("proof", &p.id, &p.spot, faults), ..p.wire.clone() };
    Lessons { steps, blocks: taught.blocks.clone(), proofs: taught.proofs.iter().map(proof).collect() }
}

/// The index of a row, which is added when nothing equal is there.
fn number<T: PartialEq>(rows: &mut Vec<T>, row: T) -> u16 {
    let at = rows.iter().position(|r| *r == row).unwrap_or_else(|| {
        rows.push(row);
        rows.len() - 1
    });
    small(at)
}

/// Counts are capped far below when files are read; the reader of packs would refuse what does not fit.
fn small(n: usize) -> u16 {
    u16::try_from(n).unwrap_or(u16::MAX)
}

fn question(q: &crate::model::Question, codes: &mut Codes, faults: &Faults) -> Question {
    let mut wire = q.wire.clone();
    wire.code = codes.of("question", &q.id, &q.spot, faults);
    for c in &mut wire.choices {
        c.code = codes.of("choice", &format!("{}.{}", q.id, c.id), &q.spot, faults);
    }
    wire
}

/// A kind; years of a make that has no share are left behind.
fn kind(
    model: &Model,
    kind: &crate::model::Kind,
    occurs: &dyn Fn(usize) -> bool,
    codes: &mut Codes,
    faults: &Faults,
) -> Kind {
    let family = kind.family.map(|f| &model.families[f]);
    Kind {
        code: codes.of("kind", &kind.id, &kind.spot, faults),
        id: kind.id.clone(),
        name: kind.name.clone(),
        short: kind.short.clone(),
        standing: kind.standing,
        serves: kind.own.serves.clone().or(family.and_then(|f| f.serves.clone())).unwrap_or_default(),
        makes: (0..model.manifest.makes.len()).map(|m| facts(model, kind, m).filter(|_| occurs(m))).collect(),
        cautions: kind.own.cautions.clone().or(family.and_then(|f| f.cautions.clone())).unwrap_or_default(),
        either: twins(model, kind),
    }
}

/// Kinds that this one is declared not to be told from, whichever of the two says so.
fn twins(model: &Model, kind: &crate::model::Kind) -> Vec<u16> {
    let says = |a: &crate::model::Kind, b: &crate::model::Kind| a.either.iter().any(|m| m.id == b.id);
    let twin = |(_, other): &(usize, &crate::model::Kind)| says(kind, other) || says(other, kind);
    model.kinds.iter().enumerate().filter(twin).map(|(i, _)| small(i)).collect()
}

fn kind_text(model: &Model, kind: &crate::model::Kind) -> KindText {
    let confusion = |(mention, check): &(crate::model::Mention, String)| {
        let at = model.kinds.iter().position(|k| k.id == mention.id)?;
        Some(Confusion { kind: small(at), check: check.clone() })
    };
    KindText {
        purpose: kind.purpose.clone(),
        draw: kind.draw.clone(),
        notes: kind.notes.clone(),
        confusions: kind.taken_for.iter().filter_map(confusion).collect(),
        found: kind.found.clone(),
        companions: kind.companions.clone(),
        same_as: kind.same_as.clone(),
        also_said: kind.also_said.clone(),
    }
}

fn question_text(q: &crate::model::Question) -> QuestionText {
    // Most questions say nothing of it at all.
    let altered = if q.altered.iter().all(String::is_empty) { Vec::new() } else { q.altered.clone() };
    QuestionText { seller: q.seller.clone(), newcomers: q.newcomers.clone(), altered }
}

fn caution(c: &crate::model::Caution, codes: &mut Codes, faults: &Faults) -> Caution {
    Caution {
        code: codes.of("caution", &c.id, &c.spot, faults),
        id: c.id.clone(),
        text: c.text.clone(),
        grave: c.grave,
        raised_by: c.raised_by.clone(),
    }
}
