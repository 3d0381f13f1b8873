//! How often the bundled guide is right about pieces drawn from its own tables and examined with ruler and magnet, and
//! that they are examined as the page has it.

use consult::{Body, Guide, Manner, Msg, Screen, State, update, view};
use reason::Told;
use survey::simulate::{Drawer, Examined, Figures, Form, Piece, Setting, figures, numbers, run};
use tests::{SEED, deep, packs};

/// A share of `n` with the least that is asked of it. With full counts the limit itself; with few pieces what a share
/// that just keeps the limit falls below one time in a thousand: 3.09 standard errors less (published: any table of
/// the standard normal, such as NIST/SEMATECH handbook 1.3.6.7.1).
fn holds(name: &str, share: f64, n: f64, limit: f64) -> Result<(), String> {
    let chance = if deep() { 0.0 } else { 3.09 * (limit * (1.0 - limit) / n.max(1.0)).sqrt() };
    if share >= limit - chance {
        return Ok(());
    }
    Err(format!("{name}: {share:.3} of {n:.0}, at least {limit:.2} less {chance:.3} for chance"))
}

/// The limits, as `workshop simulate` prints them; basis: practice, what a guide has to do to be worth its looks.
fn broken(form: Form, f: &Figures) -> Vec<String> {
    let (first, three, role) = if form == Form::Hard { (0.85, 0.96, 0.93) } else { (0.75, 0.92, 0.88) };
    let n = f.pieces as f64;
    [
        holds("right kind first", f.first, n, first),
        holds("right kind in the first three", f.three, n, three),
        holds("right role first", f.role, n, role),
        holds("right among kinds shown at 90 or more", f.sure_kind.1, n * f.sure_kind.0, 0.90),
        holds("right among roles shown at 90 or more", f.sure_role.1, n * f.sure_role.0, 0.90),
    ]
    .into_iter()
    .filter_map(Result::err)
    .map(|says| format!("{}: {says}", form.name()))
    .collect()
}

#[test]
fn hard_pieces_come_out_right() {
    let guide = packs::guide();
    let n = if deep() { 4000 } else { 400 };
    let mut faults = Vec::new();
    for form in Form::ALL {
        let f = figures(&guide, &run(&guide, &Setting::pocket(SEED), form, n));
        println!(
            "figure: {}, {n} pieces, ruler and magnet: kind first {:.3}, in the first three {:.3}, role {:.3} (first of its table {:.3}, drawn {:.3}), \
             period or not {:.3}; shown at 90 or more: kind {:.3}, right {:.3}, role {:.3}, right {:.3} (drawn {:.3}); {:.2} \
             answers until settled or spent, {:.2} looks in all",
            form.name(),
            f.first,
            f.three,
            f.role,
            f.role_first,
            f.role_drawn,
            f.period,
            f.sure_kind.0,
            f.sure_kind.1,
            f.sure_role.0,
            f.sure_role.1,
            f.sure_role_drawn.1,
            f.until,
            f.looks
        );
        if form != Form::Easy {
            faults.extend(broken(form, &f));
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

/// The page led through a piece: the questions it asks, in order, and the share of the first kind in the end.
fn on_the_page(guide: &Guide, piece: &Piece, tools: &[&str]) -> (Vec<usize>, f64) {
    let at = |id: &&str| guide.core.tools.iter().position(|t| t.id == *id);
    let mut state = State::default();
    state.place_asked = true;
    state.manner = Manner::Guided;
    state.tools = tools.iter().filter_map(at).collect();
    let mut asked = Vec::new();
    while let Body::Look(look) = view(guide, &state).body {
        let question = look.question;
        asked.push(question);
        let taps = match &piece.told[question] {
            Told::OneOf(set) => vec![Msg::Choose { question, choice: set[0] }],
            Told::Measured { value, .. } => vec![Msg::Type(format!("{value}")), Msg::Enter(question)],
            Told::Cannot => vec![Msg::Cannot(question)],
        };
        for msg in taps {
            state = update(guide, state, msg).0;
        }
        state.screen = Screen::Look;
        assert!(asked.len() <= guide.core.questions.len(), "it ends");
    }
    state.screen = Screen::Finding;
    match view(guide, &state).body {
        Body::Finding(found) => (asked, f64::from(found.share) / 1000.0),
        _ => (asked, f64::NAN),
    }
}

#[test]
fn pieces_are_examined_as_the_page_has_it() {
    let guide = packs::guide();
    let setting = Setting::pocket(SEED);
    let (drawer, examiner) = (Drawer::new(&guide), setting.examiner(&guide));
    for i in 0..if deep() { 200 } else { 12 } {
        let piece = drawer.draw(Form::HardAndWrong, None, &mut numbers(SEED, i));
        let examined: Examined = examiner.examine(&piece);
        let (asked, share) = on_the_page(&guide, &piece, &["magnet", "ruler"]);
        assert_eq!(asked, examined.asked, "piece {i}");
        assert!(
            (share - examined.shown.kinds[0].1).abs() < 0.0011,
            "piece {i}: {share} {:?}",
            examined.shown
        );
    }
}
