//! What a page is told as text: the address, what one program leaves for the next, a file of answers.

use crate::project::{IRONS_GUIDE, TINY, TINY_GUIDE, at};
use crate::{Reader, must, sentence};
use consult::book::{Pages, Reading, Turn, sheet, turn};
use consult::{Guide, Msg, State, What, arrive, fragment, from_text, leave, read_fragment, update, view};
use practice::room::Page;
use std::fs;
use std::sync::LazyLock;

/// Keys of the sketches, as the tests of the guide have them.
const OUTSIDE: [&str; 9] = ["body", "outline", "grip", "heel", "top", "sole", "cord", "vents", "door"];

#[allow(clippy::expect_used, reason = "a test harness: without its packs no test can mean anything")]
static PAGES: LazyLock<Pages> = LazyLock::new(|| {
    Pages::from_bytes(&TINY.core_bytes, &TINY.book_bytes, OUTSIDE.to_vec()).expect("a sound pack")
});

/// Parts of links of the small pack; its codes are in its `codes.csv`.
const PARTS: [&str; 34] = [
    "/",
    "+",
    "u",
    "x",
    "/p1",
    "/p2",
    "/o",
    "/a3",
    "/1.640r",
    "/1.640p12",
    "/2.1200s",
    "/3.1",
    "/3.2+3u",
    "/4.1+2",
    "/5.1",
    "/mNO_1134?8",
    "/m$e2$80$ae",
    "/wcrack+tiny",
    "/q1",
    "/q5",
    "/f",
    "/l",
    "/s",
    "/k",
    "/b",
    "/n",
    "/h",
    "1/tiny",
    "1/irons",
    "tiny/kind/2",
    "tiny/compare/2/1",
    "tiny/find/wire+grip",
    "tiny/word/grip",
    "lesson/1",
];

/// The answers of the pieces in museums.
fn told() -> Vec<String> {
    let mut folders: Vec<_> =
        fs::read_dir(at("tests/cases/museum")).into_iter().flatten().flatten().collect();
    folders.sort_by_key(fs::DirEntry::path);
    folders.iter().filter_map(|folder| fs::read_to_string(folder.path().join("answers.txt")).ok()).collect()
}

fn irons() -> Vec<State> {
    told().iter().filter_map(|text| from_text(&IRONS_GUIDE, text).ok()).collect()
}

/// Links of the small pack, without their checks.
const TINY_LINKS: [&str; 7] = [
    "1/tiny",
    "1/tiny/p2/3.1/f",
    "1/tiny/a3/o/1.640p12/2.1200s/3.2+3u/4.1/k",
    "1/tiny/mNO_1134?8/wcrack+tiny/b",
    "1/tiny/3.x/q5/h",
    "tiny/compare/2/1",
    "tiny/find/wire+grip",
];

/// The check as `fragment.rs` describes it, worked out here once more: whoever forges a link knows it.
fn sealed(body: &str) -> String {
    let letters = b"abcdefghijkmnpqrstuvwxyz23456789";
    let hash = body.bytes().fold(2_166_136_261_u32, |h, b| (h ^ u32::from(b)).wrapping_mul(16_777_619));
    let hash = hash ^ (hash >> 15);
    let check: String = (0..4).map(|i| char::from(letters[(hash >> (5 * i)) as usize % 32])).collect();
    format!("{body}~{check}")
}

/// The address of a page: that of the questions, with its check as it came and as it should be; that of the guide; that
/// of practice.
pub(crate) const LINK: Reader = Reader {
    name: "link",
    seeds: || {
        let body = |state: &State| {
            let link = fragment(&IRONS_GUIDE, state);
            link.rsplit_once('~').map_or(String::new(), |(body, _)| body.to_string())
        };
        let all = irons().iter().map(body).chain(TINY_LINKS.map(String::from)).collect::<Vec<_>>();
        all.into_iter().map(String::into_bytes).collect()
    },
    words: &PARTS,
    answered: |bytes| {
        let Ok(text) = core::str::from_utf8(bytes) else { return Ok(false) };
        let mut read = false;
        for link in [text.to_string(), sealed(text)] {
            read |= followed(&TINY_GUIDE, &link)?;
            if let Ok(state) = read_fragment(&IRONS_GUIDE, &State::default(), &link) {
                legal(&IRONS_GUIDE, &state)?;
                read = true;
            }
        }
        must(
            Page::read(&Page::read(text).fragment()) == Page::read(text),
            "a page of practice does not come back",
        )?;
        let page = PAGES.page(text);
        let turned = turn(
            &PAGES,
            Reading::default(),
            Turn::Went { fragment: text.to_string(), down: 0, again: false },
        );
        must(!sheet(&PAGES, &turned.0).title.is_empty(), "a page without a title")?;
        match page {
            Ok(page) => {
                let own = PAGES.fragment(&page);
                let again = PAGES.page(&own).map(|page| PAGES.fragment(&page));
                must(again == Ok(own), "a page is not found by its own fragment")?;
            }
            Err(says) => return sentence(&says).map(|()| read),
        }
        Ok(true)
    },
};

/// A link is refused with a sentence, or it leads to a state that is sound, is shown, and comes back.
fn followed(guide: &Guide, link: &str) -> Result<bool, String> {
    match read_fragment(guide, &State::default(), link) {
        Ok(state) => {
            legal(guide, &state)?;
            shown(guide, &state)?;
            let again = read_fragment(guide, &State::default(), &fragment(guide, &state))?;
            must(
                again.given == state.given && again.marks.text.trim() == state.marks.text.trim(),
                "a link does not come back",
            )?;
            Ok(true)
        }
        Err(says) => sentence(&says).map(|()| false),
    }
}

/// A state can be shown: at its own screen there is something.
fn shown(guide: &Guide, state: &State) -> Result<(), String> {
    must(!format!("{:?}", view(guide, state).body).is_empty(), "nothing is shown")
}

/// What must hold of any state, as far as an answer can name what the pack has not.
fn legal(guide: &Guide, state: &State) -> Result<(), String> {
    let core = &guide.core;
    must(state.place < core.places.len(), "the place")?;
    must(state.tools.iter().all(|tool| *tool < core.tools.len()), "a tool")?;
    must(state.focus.is_none_or(|question| question < core.questions.len()), "the question asked")?;
    for (i, given) in state.given.iter().enumerate() {
        let question = core.questions.get(given.question).ok_or("the question of an answer")?;
        must(
            state.given[..i].iter().all(|other| other.question != given.question),
            "a question answered twice",
        )?;
        if let What::OneOf(set) = &given.what {
            must(!set.is_empty() && set.iter().all(|choice| *choice < question.choices.len()), "a choice")?;
            must((1..set.len()).all(|i| !set[..i].contains(&set[i])), "a choice named twice")?;
        }
    }
    Ok(())
}

/// What one program leaves for the next: preferences, then links, whose checks are made right.
pub(crate) const HANDOVER: Reader =
    Reader {
        name: "handover",
        seeds: || {
            let mut state = State::default();
            let mut seeds = vec![leave(&TINY_GUIDE, &state)];
            for (question, choice) in [(2, 1), (3, 0), (4, 1)] {
                state = update(&TINY_GUIDE, state, Msg::Choose { question, choice }).0;
                seeds.push(leave(&TINY_GUIDE, &state));
            }
            seeds.extend([
                "tools=ruler,magnet;unit=in;manner=free;theme=sun\n1/tiny/3.1/f\n1/tiny\n1/tiny/p2/q1"
                    .to_string(),
                leave(&TINY_GUIDE, &update(&TINY_GUIDE, state, Msg::Undo).0),
            ]);
            // As they are typed: the check is put on when they are read.
            seeds.iter().map(|text| bare(text).into_bytes()).collect()
        },
        words: &[
            "\n1/tiny/",
            "tools=",
            "unit=in;",
            "manner=free;",
            "theme=sun;",
            "/3.1",
            "/4.1",
            "/5.2",
            "/1.640r",
            "/2.1200s",
            "/q5",
            "/p2",
            "/o",
            "/f",
            "/h",
            "/k",
            "/x",
            "/mA",
            "/wcrack",
            "\n",
            "~aaaa",
            "calipers=",
        ],
        answered: |bytes| {
            let Ok(text) = core::str::from_utf8(bytes) else { return Ok(false) };
            let mut lines = text.lines();
            let mut all = vec![lines.next().unwrap_or_default().to_string()];
            all.extend(lines.map(|line| {
                if line.is_empty() || line.contains('~') { line.to_string() } else { sealed(line) }
            }));
            match arrive(&TINY_GUIDE, &all.join("\n")) {
                Err(says) => sentence(&says).map(|()| false),
                Ok(mut state) => {
                    let left = leave(&TINY_GUIDE, &state);
                    must(
                        arrive(&TINY_GUIDE, &left).map(|s| s.given) == Ok(state.given.clone()),
                        "it does not go on",
                    )?;
                    for _ in 0..all.len() {
                        legal(&TINY_GUIDE, &state)?;
                        shown(&TINY_GUIDE, &state)?;
                        state = update(&TINY_GUIDE, state, Msg::Undo).0;
                    }
                    Ok(true)
                }
            }
        },
    };

/// Links of a text without their checks.
fn bare(text: &str) -> String {
    let lines = text.lines().map(|line| line.rsplit_once('~').map_or(line, |(body, _)| body));
    lines.collect::<Vec<_>>().join("\n")
}

/// A file of answers.
pub(crate) const ANSWERS: Reader = Reader {
    name: "answers",
    seeds: || told().into_iter().map(String::into_bytes).collect(),
    words: &[
        "place = ",
        "length = ",
        " mm",
        " in",
        " g",
        " oz",
        " lb",
        " calipers",
        " | ",
        " ?",
        "can't tell",
        "heft = ",
        "grip = ",
        "wire",
        "bar",
        "#",
        "\n",
        "=",
        "1/2",
        "0",
        "99999999999",
        "2 5/8",
        "\u{202e}",
    ],
    answered: |bytes| {
        let Ok(text) = core::str::from_utf8(bytes) else { return Ok(false) };
        let mut read = false;
        for guide in [&IRONS_GUIDE, &TINY_GUIDE] {
            match from_text(guide, text) {
                Ok(state) => {
                    legal(guide, &state)?;
                    let again = read_fragment(guide, &State::default(), &fragment(guide, &state))?;
                    must(again.given == state.given, "answers do not come back from their link")?;
                    read = true;
                }
                Err(faults) => must(
                    !faults.is_empty() && faults.iter().all(|f| f.starts_with("line ")),
                    "a fault without its line",
                )?,
            }
        }
        Ok(read)
    },
};
