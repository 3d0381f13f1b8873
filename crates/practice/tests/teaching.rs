//! Lessons of the pack, the talk, and what a teacher gets.

use crate::common::{compiled, compiled_of, files, guide, guide_of};
use practice::{Maker, Now, Of, Paper, Sight, Tally, Trainer, Turn, Walk, twins};

fn last(turns: &[Turn]) -> Vec<&str> {
    turns.last().map_or_else(Vec::new, |t| t.remains.iter().map(|r| r.0.as_str()).collect())
}

/// Six worked pieces with fading help, and the engine, given what each shows, finds its kind first.
#[test]
fn the_first_steps_lead_where_they_say() {
    let guide = guide();
    let sight = Sight::new(guide);
    let trainer = Trainer::new(guide, &sight);
    let helps: Vec<&str> =
        trainer.lessons().iter().map(|l| trainer.stand(l, &Walk::default()).help).collect();
    assert_eq!(helps, ["Shown", "Shown", "Asked", "Asked", "Alone", "Alone"]);
    for lesson in trainer.lessons() {
        let piece = trainer.piece_of(lesson);
        let kind = &guide.core.kinds[piece.kind].name;
        let all = trainer.talk_of(&piece, &piece.looks());
        assert_eq!(last(&all).first(), Some(&kind.as_str()), "{}: {:?}", lesson.title, last(&all));
        // Its own steps bring the kind among those that remain.
        let steps: Vec<usize> = lesson.steps.iter().map(|s| usize::from(s.question)).collect();
        let talk = trainer.talk_of(&piece, &steps);
        assert!(last(&talk).contains(&kind.as_str()), "{}: {:?}", lesson.title, last(&talk));
        assert!(trainer.stand(lesson, &Walk::default()).views.len() == 3, "{}", lesson.title);
        // Every look of a step can be pointed out on a drawing.
        for q in steps {
            assert!(sight.marked(guide, &piece, q).contains("ask="), "{}", lesson.title);
        }
    }
}

#[test]
fn help_fades() {
    let guide = guide();
    let sight = Sight::new(guide);
    let trainer = Trainer::new(guide, &sight);
    let lessons = trainer.lessons();
    // Shown: going on is enough.
    let mut walk = Walk::default();
    while matches!(trainer.stand(&lessons[0], &walk).now, Now::Show) {
        walk = trainer.walked(&lessons[0], &walk, None);
    }
    let stand = trainer.stand(&lessons[0], &walk);
    assert_eq!(stand.done.len(), lessons[0].steps.len());
    assert!(
        stand
            .done
            .iter()
            .all(|d| d.right.is_none() && !d.says.is_empty() && d.turn.says.starts_with("After "))
    );
    assert!(matches!(stand.now, Now::End(ref is, _) if is.contains("period")));
    // Asked: a wrong answer is told as one, and the look is explained all the same.
    let mut walk = Walk::default();
    let Now::Ask(q, _, offers) = trainer.stand(&lessons[2], &walk).now else {
        unreachable!("a look is asked")
    };
    let truth = trainer.piece_of(&lessons[2]).truth[q].expect("it is told");
    let wrong = offers.iter().position(|o| o.stands != truth).expect("a wrong one");
    walk = trainer.walked(&lessons[2], &walk, Some(wrong));
    assert_eq!(trainer.stand(&lessons[2], &walk).done[0].right, Some(false));
    assert_eq!(trainer.walked(&lessons[2], &walk, Some(99)), walk, "what is not offered changes nothing");
    // Alone: looks are chosen, kinds named.
    let Now::Choose(looks, kinds) = trainer.stand(&lessons[4], &Walk::default()).now else {
        unreachable!("alone")
    };
    let latch = guide.core.questions.iter().position(|q| q.id == "latch").expect("the pack asks it");
    assert!(!looks.iter().any(|l| l.stands == latch), "its gate was not looked at");
    let kind = trainer.piece_of(&lessons[4]).kind;
    let at = looks.len() + kinds.iter().position(|k| k.stands == kind).expect("offered");
    let walk = trainer.walked(&lessons[4], &Walk::default(), Some(at));
    assert!(matches!(trainer.stand(&lessons[4], &walk).now, Now::End(ref is, _) if is.starts_with("Yes.")));
}

/// A club's pack gets its own lessons by a file, without code.
#[test]
fn a_clubs_lessons_are_its_own() {
    let mut files = files();
    files.retain(|(p, _)| !p.starts_with("lessons/"));
    let lesson = "[[block]]\nname = \"Ours\"\nkinds = [\"swan\", \"animal\"]\n[[lesson]]\nid = \"ours\"\ntitle = \"Our swan\"\nhelp = \"asked\"\n\
        kind = \"swan\"\nmake = \"period\"\nintro = \"Look.\"\nlooks = { grip = \"other\", hold = \"neck\", sole = \"smooth\" }\nends = \"A swan.\"\n\
        [[lesson.step]]\nlook = \"grip\"\nsays = \"One.\"\n[[lesson.step]]\nlook = \"hold\"\nsays = \"Two.\"\n[[lesson.step]]\nlook = \"sole\"\nsays = \"Three.\"\n";
    files.push(("lessons/ours.toml".to_string(), lesson.to_string()));
    let codes = files.iter_mut().find(|f| f.0 == "codes.csv").expect("codes");
    codes.1.push_str("lesson,ours,77\n");
    let made = compiled_of(files);
    // What a pack teaches comes with the book: it costs the first question nothing.
    assert_eq!(made.core_bytes, compiled().core_bytes);
    println!("{} bytes of book, the club's {}", compiled().book_bytes.len(), made.book_bytes.len());
    let guide = guide_of(&made);
    let sight = Sight::new(&guide);
    let trainer = Trainer::new(&guide, &sight);
    assert_eq!(trainer.lessons().len(), 1);
    assert_eq!(trainer.lessons()[0].code, 77);
    let first: Vec<&str> = trainer.blocks()[0].iter().map(|k| guide.core.kinds[*k].id.as_str()).collect();
    assert_eq!(first, ["swan", "animal"]);
}

#[test]
fn the_talk_ends_with_the_piece() {
    let guide = guide();
    let sight = Sight::new(guide);
    let trainer = Trainer::new(guide, &sight);
    let maker = Maker::new(guide, &sight);
    let tools: Vec<usize> = (0..guide.core.tools.len()).collect();
    let (mut found, count) = (0, 40);
    for seed in 0..count {
        let piece = maker.hand(&Of::default(), seed);
        let turns = trainer.talk(&piece, &tools);
        assert!(
            !turns.is_empty() && turns.iter().all(|t| t.says.starts_with("After the ") && !t.mark.is_empty()),
            "{turns:?}"
        );
        // What remains is said with its chance, the likeliest first, and the opening comes first.
        let opening = usize::from(guide.core.opening[0]);
        assert_eq!(turns[0].question, opening);
        let ends = last(&turns);
        let is = |k: usize| guide.core.kinds[k].name.as_str() == *ends.first().unwrap_or(&"");
        found += u64::from(
            (0..guide.core.kinds.len()).any(|k| is(k) && (k == piece.kind || twins(guide, k, piece.kind))),
        );
        if seed < 1 {
            turns.iter().for_each(|t| println!("{}", t.says));
        }
    }
    println!("{found} of {count} talks end with the kind");
    // Fewer looks than all: the pieces' kind comes first more often than nine times in ten. Basis: practice.
    assert!(found * 10 >= count * 9, "{found} of {count}");
}

#[test]
fn a_class_has_the_same_sheets() {
    let guide = guide();
    let (one, other) = (Sight::new(guide), Sight::new(guide));
    let (a, b) = (Trainer::new(guide, &one), Trainer::new(guide, &other));
    for (paper, each) in [(Paper::A4, 4), (Paper::Letter, 3)] {
        // Arithmetic: (297 - 36) / 62 and (279 - 36) / 62, rounded down.
        assert_eq!(paper.pieces(), each);
        let sheets = a.sheets(12, 10, &[0, 1], paper);
        assert_eq!(sheets, b.sheets(12, 10, &[0, 1], paper));
        assert_eq!(sheets.pages.iter().map(|p| p.places.len()).sum::<usize>(), 10);
        assert!(sheets.pages.iter().all(|p| p.places.len() <= each));
        assert_eq!(sheets.keys.len(), 10);
        for (place, key) in sheets.pages.iter().flat_map(|p| &p.places).zip(&sheets.keys) {
            assert_eq!(place.number, key.number);
            let answer = place.answers.iter().find(|x| x.0 == key.letter).expect("a letter of the sheet");
            assert_eq!(answer.1, key.answer);
            assert!(!place.drawings.is_empty() && !key.why.is_empty());
            // The sheet itself holds no answer in the accent.
            assert!(place.drawings.iter().all(|d| !d.0.contains("ask=")));
        }
    }
    assert_ne!(a.sheets(12, 10, &[], Paper::A4).keys, a.sheets(13, 10, &[], Paper::A4).keys);
}

#[test]
fn own_pieces_and_votes() {
    let guide = guide();
    let sight = Sight::new(guide);
    let trainer = Trainer::new(guide, &sight);
    let answers = "grip = pierced\ndepth = blind\nlength = 64 mm\nsole = ground-not\n";
    let faults = trainer.own("12", answers, None).expect_err("no such choice");
    assert!(faults[0].starts_with("No. 12: line 4: "), "{faults:?}");
    let own = trainer.own(
        "12",
        "grip = pierced\ndepth = blind\nlength = 64 mm\nskin = dark ?\nrust = can't tell\n",
        Some("simplified-pierced"),
    );
    let own = own.expect("a record");
    assert_eq!((own.piece.mm, own.named), (Some(64), true));
    // What was told unsurely, or could not be told, is nothing to ask a class.
    let ids: Vec<&str> = own.looks.iter().map(|q| guide.core.questions[*q].id.as_str()).collect();
    assert_eq!(ids, ["length", "grip", "depth"]);
    let round = trainer.round(&own, own.looks[2]).expect("a round");
    assert_eq!(round.ask, "No. 12: do the holes go right through?");
    let mut tally = Tally::default();
    assert_eq!(tally.says(&round), "Nobody has voted yet.");
    for _ in 0..5 {
        tally.vote(1, true);
    }
    tally.vote(0, true);
    tally.vote(0, true);
    tally.vote(2, true);
    tally.vote(2, false);
    assert_eq!(
        tally.says(&round),
        "5 of 7 votes for \u{201c}They stop short\u{201d}. Most of the others: \u{201c}Right through: daylight\u{201d}, 2."
    );
    assert!(trainer.running(&own, &own.looks).is_some_and(|t| !t.remains.is_empty()));
    assert!(trainer.own("13", "", None).is_err());
    assert!(trainer.own("13", "grip = bar\n", Some("spoon")).is_err());
}
