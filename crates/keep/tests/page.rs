//! The page of the cabinet without a browser: what is typed, saved, lost and found again.

use cabinet::merge::Shelf;
use cabinet::record::{Moment, Uuid};
use keep::{Block, Does, Effect, Failure, Given, Key, Msg, Room, Saving, Spot, State, Store, View};
use keep::{card, key_of, states, update, view};

/// 29 November 2026, 12:00 UTC, in milliseconds.
const NOON: i64 = 1_795_953_600_000;

/// A page with a store behind it that keeps what is saved.
struct Page {
    state: State,
    time: i64,
    ids: u8,
    kept: Vec<Saving>,
    effects: Vec<Effect>,
}

impl Page {
    fn new() -> Page {
        let mut page = Page::shut();
        page.tell(Msg::Store(Store::Open));
        page.tell(Msg::Cards(String::new()));
        page
    }

    fn shut() -> Page {
        let state = State::begun(Moment(NOON).date(), "pack");
        Page { state, time: NOON, ids: 0, kept: Vec::new(), effects: Vec::new() }
    }

    /// A message; saves and reads are answered at once.
    fn tell(&mut self, msg: Msg) {
        self.time += 1000;
        let ids = &mut self.ids;
        let mut fresh = || {
            *ids += 1;
            Uuid::of_random([*ids; 16])
        };
        let effects = update(&mut self.state, msg, &mut Given { now: Moment(self.time), fresh: &mut fresh });
        for effect in effects {
            match &effect {
                Effect::Save(new) => {
                    self.kept.extend(new.iter().cloned());
                    let pieces: Vec<&str> = new.iter().map(Saving::piece).collect();
                    let cards = pieces.iter().filter_map(|p| card(&self.texts(p))).collect();
                    self.effects.push(effect.clone());
                    self.tell(Msg::Saved(cards));
                    continue;
                }
                Effect::Read(id) => {
                    let texts = self.texts(&id.to_string());
                    self.tell(Msg::States(*id, texts));
                }
                Effect::ReadMany(why, ids) => {
                    let all = ids.iter().map(|id| self.texts(&id.to_string())).collect();
                    self.tell(Msg::Many(*why, all));
                }
                _ => {}
            }
            self.effects.push(effect);
        }
    }

    fn texts(&self, piece: &str) -> Vec<String> {
        self.kept.iter().filter(|s| s.piece() == piece).map(|s| s.text.clone()).collect()
    }

    fn view(&self) -> View {
        view(&self.state)
    }

    /// Types into the field with this label.
    fn fill(&mut self, label: &str, text: &str) {
        let spot = fields(&self.view()).into_iter().find(|(l, _)| l.starts_with(label)).map(|(_, spot)| spot);
        self.tell(Msg::Type(spot.ok_or(label).expect("a field with this label"), text.to_string()));
    }

    fn press(&mut self, label: &str) {
        let key = keys(&self.view()).into_iter().find(|k| k.label == label);
        let key = key.ok_or_else(|| (label, keys(&self.view()))).expect("a key with this label");
        match key.does {
            Does::Msg(msg) => self.tell(msg),
            Does::To(to) => self.tell(Msg::Went(to)),
        }
    }

    fn write(&mut self, title: &str) {
        self.press("Write a record");
        self.fill("Title", title);
        self.press("Save");
    }

    /// Everything that the screen says.
    fn says(&self) -> String {
        format!("{:?}", self.view())
    }
}

fn walk(blocks: &[Block], each: &mut dyn FnMut(&Block)) {
    for block in blocks {
        each(block);
        if let Block::Card(inner) = block {
            walk(inner, each);
        }
    }
}

fn fields(view: &View) -> Vec<(String, Spot)> {
    let mut out = Vec::new();
    walk(&view.blocks, &mut |b| {
        if let Block::Fields(all) = b {
            out.extend(all.iter().map(|f| (f.label.clone(), f.spot)));
        }
    });
    out
}

fn keys(view: &View) -> Vec<Key> {
    let mut out = view.bar.clone();
    out.extend(view.notice.iter().flat_map(|(_, keys)| keys.clone()));
    walk(&view.blocks, &mut |b| {
        if let Block::Keys(_, all) = b {
            out.extend(all.iter().cloned());
        }
    });
    out
}

#[test]
fn a_record_is_written_saved_and_found() {
    let mut page = Page::new();
    assert!(page.says().contains("Nothing is kept yet"));
    page.write("Small flat iron");
    assert!(page.says().contains("Saved: 2026.1, Small flat iron."), "{}", page.says());
    assert!(
        page.effects.contains(&Effect::Persist { ask: true }),
        "the promise is asked for at the first save"
    );
    page.press("All pieces");
    page.write("Swan");
    page.press("All pieces");
    assert!(page.says().contains("2026.2"), "the next free number");
    page.fill("Look for", "swán");
    let says = page.says();
    assert!(says.contains("Swan") && !says.contains("Small flat iron"), "{says}");
}

#[test]
fn what_cannot_be_used_is_said_beside_its_field_and_nothing_is_saved() {
    let mut page = Page::new();
    page.press("Write a record");
    page.fill("Number", "12");
    page.fill("Title", "A");
    page.press("Save");
    assert!(page.kept.is_empty());
    assert!(page.says().contains("is no number for a piece"));
    page.fill("Number", "2026.7");
    page.press("Save");
    assert_eq!(page.kept.len(), 1);
    // Another piece may not wear it.
    page.press("All pieces");
    page.press("Write a record");
    page.fill("Number", "2026.7");
    page.press("Save");
    assert_eq!(page.kept.len(), 1);
    assert!(page.says().contains("wears this number already"));
}

#[test]
fn two_windows_lose_nothing_and_the_user_decides() {
    let mut one = Page::new();
    one.write("Iron");
    let mut other = Page::shut();
    (other.kept, other.ids) = (one.kept.clone(), 100);
    other.tell(Msg::Store(Store::Open));
    let id = one.kept[0].piece().to_string();
    other.tell(Msg::Cards(card(&other.texts(&id)).unwrap_or_default()));
    for (page, title) in [(&mut one, "Iron of brass"), (&mut other, "Iron of glass")] {
        page.tell(Msg::Went(format!("#edit/{id}")));
        page.fill("Title", title);
        page.press("Save");
    }
    // Both stores are one in a browser.
    let all: Vec<Saving> = one.kept.iter().chain(&other.kept[1..]).cloned().collect();
    (one.kept, one.ids) = (all, 200);
    assert_eq!(one.kept.len(), 3, "two states of their own beside the common one");
    one.tell(Msg::Others(vec![card(&one.texts(&id)).unwrap_or_default()]));
    one.tell(Msg::Went(format!("#piece/{id}")));
    let says = one.says();
    assert!(
        says.contains("Iron of brass")
            && says.contains("Iron of glass")
            && says.contains("Nothing was chosen")
    );
    one.press("That one holds");
    let shelf = Shelf::of(states(&one.texts(&id)).0);
    assert!(shelf.conflicts().is_empty());
    assert_eq!(shelf.versions().len(), 4, "the past stays");
    assert!(!one.says().contains("Nothing was chosen"));
}

#[test]
fn a_piece_that_was_taken_out_comes_back() {
    let mut page = Page::new();
    page.write("Iron");
    page.press("Take it out of the cabinet");
    assert!(page.says().contains("Taken out: 2026.1, Iron."));
    assert!(page.says().contains("There is none here"));
    page.press("Put it back");
    let shelf = Shelf::of(states(&page.kept.iter().map(|s| s.text.clone()).collect::<Vec<_>>()).0);
    assert!(shelf.conflicts().is_empty() && shelf.records().iter().all(|k| !k.is_gone()));
    assert!(page.says().contains("1 piece."));
}

#[test]
fn several_are_changed_at_once() {
    let mut page = Page::new();
    for title in ["A", "B", "C"] {
        page.write(title);
        page.press("All pieces");
    }
    page.press("Several");
    page.press("Choose all that are listed");
    page.fill("Where they are kept", "attic");
    page.press("Change 3 pieces");
    let last: Vec<&Saving> = page.kept.iter().rev().take(3).collect();
    assert!(last.iter().all(|s| s.text.contains("location: attic")));
    // Emptying takes the line away and nothing else.
    page.press("Several");
    page.press("Choose all that are listed");
    page.press("Change 3 pieces");
    let last: Vec<&Saving> = page.kept.iter().rev().take(3).collect();
    assert!(last.iter().all(|s| !s.text.contains("location:") && s.text.contains("title:")));
}

#[test]
fn a_full_device_loses_nothing_that_was_typed() {
    let mut page = Page::new();
    page.press("Write a record");
    page.fill("Title", "Iron");
    let save = Msg::Failed(Failure::named("QuotaExceededError"));
    page.tell(save);
    assert!(page.says().contains("no room left") && page.says().contains("\"Iron\""));
    page.press("Save");
    assert_eq!(page.kept.len(), 1);
}

#[test]
fn a_newer_store_is_read_and_not_written() {
    let mut page = Page::new();
    page.write("Iron");
    let cards = card(&page.texts(page.kept[0].piece())).unwrap_or_default();
    let mut newer = Page::shut();
    newer.kept = page.kept.clone();
    newer.tell(Msg::Store(Store::Newer));
    newer.tell(Msg::Cards(cards));
    assert!(newer.says().contains("newer edition") && newer.says().contains("Iron"));
    let id = newer.kept[0].piece().to_string();
    newer.tell(Msg::Went(format!("#piece/{id}")));
    for msg in [Msg::Delete, Msg::Save, Msg::New, Msg::TakeIn, Msg::Bulk, Msg::TakeFinding] {
        newer.tell(msg);
    }
    assert_eq!(newer.kept, page.kept);
    assert!(
        !newer.effects.iter().any(|e| matches!(e, Effect::Save(_) | Effect::Keep(..))),
        "{:?}",
        newer.effects
    );
}

#[test]
fn a_draft_comes_back_and_only_over_what_it_was_begun_from() {
    let mut page = Page::new();
    page.write("Iron");
    let id = page.kept[0].piece().to_string();
    page.tell(Msg::Went(format!("#edit/{id}")));
    page.fill("Title", "Iron with a chip");
    page.press("A measurement");
    page.fill("Size with its unit", "nonsense");
    let draft = page.effects.iter().rev().find_map(|e| match e {
        Effect::Keep(name, text) if name.starts_with("edit/") => Some((name.clone(), text.clone())),
        _ => None,
    });
    let (name, text) = draft.expect("a draft");
    // The page is gone; another one opens the form.
    let mut again = Page::shut();
    again.kept = page.kept.clone();
    again.tell(Msg::Store(Store::Open));
    again.tell(Msg::Went(format!("#edit/{id}")));
    again.tell(Msg::Noted(name.clone(), text.clone()));
    assert!(again.says().contains("Iron with a chip") && again.says().contains("nonsense"));
    // Saved otherwise meanwhile, the draft does not lie over it.
    let mut later = Page::shut();
    (later.kept, later.ids) = (page.kept.clone(), 50);
    later.tell(Msg::Store(Store::Open));
    later.tell(Msg::Went(format!("#edit/{id}")));
    later.fill("Title", "Other");
    later.press("Save");
    later.tell(Msg::Went(format!("#edit/{id}")));
    later.tell(Msg::Noted(name, text));
    assert!(!later.says().contains("with a chip"));
}

const FINDING: &str = "pack sha256: old\ntitle: Toy flat iron\nkind: Toy flat iron\nclass: Toy\ndate: 1850 to 1930\n\
                       finding: What: Toy flat iron, likely, 8 in 10\n| When: 1865 to 1905\nanswers: 1/irons/3.1/5.2/f~abcd\n\
                       \n[measurement]\nwhat: length\nvalue: 98 mm\nplus or minus: 0.8 mm\nmethod: ruler\n";

#[test]
fn a_finding_is_kept_and_later_laid_beside_a_new_one() {
    let mut page = Page::new();
    page.tell(Msg::Went("#keep/x".to_string()));
    assert!(page.effects.contains(&Effect::Note("keep/x".to_string())));
    page.tell(Msg::Noted("keep/x".to_string(), FINDING.to_string()));
    assert!(page.says().contains("Kept: 2026.1, Toy flat iron."), "{}", page.says());
    assert!(page.says().contains("98 mm") && page.says().contains("Ask the guide again"));
    assert!(
        page.effects.contains(&Effect::Keep("keep/x".to_string(), String::new())),
        "the note is taken away"
    );
    // The same answers and one more, with a revised pack.
    let now =
        FINDING.replace("old", "pack").replace("1865 to 1905", "1870 to 1890").replace("5.2/f", "5.2/7.1/f");
    page.tell(Msg::Noted("keep/y".to_string(), now));
    let says = page.says();
    assert!(
        says.contains("1870 to 1890") && says.contains("1865 to 1905") && says.contains("guide was revised"),
        "{says}"
    );
    page.press("Take this into the record");
    assert_eq!(page.kept.len(), 2);
    assert_eq!(page.kept[0].piece(), page.kept[1].piece());
    assert!(page.kept[1].text.contains("1870 to 1890"));
    // Another piece with these answers is another piece, when the user says so.
    page.tell(Msg::Noted("keep/z".to_string(), FINDING.replace("5.2/f", "5.2/7.1/f")));
    page.press("It is another piece");
    assert_ne!(page.kept[2].piece(), page.kept[1].piece());
    // What is damaged is refused with a sentence.
    page.tell(Msg::Noted("keep/q".to_string(), "nonsense".to_string()));
    assert_eq!(page.kept.len(), 3);
    assert!(page.says().contains("could not be made a record"));
}

#[test]
fn a_table_is_explained_and_taken_whole() {
    let mut page = Page::new();
    page.press("Take in a file");
    page.tell(Msg::Table("name;weight;shelf\nSwan;212;A\nFlat;x;B\n".as_bytes().to_vec()));
    page.press("Take 2 rows");
    assert!(page.kept.is_empty() && page.says().contains("Nothing was taken"), "{}", page.says());
    assert!(page.says().contains("Row 3"));
    page.tell(Msg::Table("name;weight;shelf\nSwan;212;A\nFlat;98,5;B\n".as_bytes().to_vec()));
    page.press("Take 2 rows");
    assert_eq!(page.kept.len(), 2);
    assert!(page.kept[1].text.contains("98.5 g") && page.kept[1].text.contains("location: B"));
}

#[test]
fn states_are_kept_under_names_of_their_own_bytes() {
    let mut page = Page::new();
    page.write("Iron");
    let (all, lost) = states(&[page.kept[0].text.clone(), "nonsense".to_string()]);
    assert_eq!((all.len(), lost), (1, 1));
    assert_eq!(key_of(&all[0], &page.kept[0].text), page.kept[0].key);
    assert_ne!(key_of(&all[0], "other"), page.kept[0].key);
}

#[test]
fn how_the_store_stands_is_said() {
    let mut page = Page::shut();
    page.tell(Msg::Store(Store::Refused));
    assert!(page.says().contains("keeps nothing for this page"));
    let mut page = Page::new();
    assert!(page.says().contains("on this device and nowhere else"));
    page.tell(Msg::Room(Room { lasting: Some(false), used: 900, most: 1000 }));
    assert!(page.says().contains("has not promised") && page.says().contains("nearly used up"));
    for n in 0..5 {
        page.write(&format!("Iron {n}"));
        page.press("All pieces");
    }
    assert!(page.says().contains("5 pieces were saved and never exported"));
    page.tell(Msg::Exported);
    assert!(!page.says().contains("never exported"));
    assert_eq!(page.view().title, "The cabinet");
}
