//! What the room shows, as plain data.

use super::answers;
use super::update::{RIM, height, list, most, points, typed};
use super::words::{ADVICE, EDGES, LIES, NOT_RECAST, mm, per_cent};
use super::{Act, Outline, Photo, RulerView, Spot, Stage, Valued, sheet};
use crate::guide::Guide;
use crate::look::said;
use crate::state::{Given, State, What};
use crate::words::inside;
use serde::Serialize;

/// The room.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PhotoView {
    /// How far it has come.
    pub stage: Stage,
    /// Whether a picture can be taken in: the table of coins has come.
    pub ready: bool,
    /// The heading.
    pub heading: String,
    /// What to do.
    pub says: Vec<String>,
    /// Why something could not be done.
    pub fault: Option<String>,
    /// What is being worked on, per mille, once it takes long.
    pub busy: Option<i32>,
    /// The picture with what lies over it.
    pub picture: Option<PictureView>,
    /// Whether points can be put and moved.
    pub moves: bool,
    /// How far a nudge goes: `1 pixel`.
    pub step: String,
    /// Keys, in rows.
    pub rows: Vec<RowView>,
    /// The height as typed, and why it could not be used; none where it is not asked.
    #[serde(skip)]
    pub high: Option<(String, Option<String>)>,
    /// What was found: a title and lines.
    pub found: Vec<(String, Vec<String>)>,
    /// The outline at true size: its width and height with unit, the box in tenths of a millimetre, line and bar.
    pub sheet: Option<(String, String, String, String, String)>,
    /// The ruler on the screen.
    pub ruler: Option<RulerView>,
    /// What the figures rest on.
    pub basis: Vec<String>,
}

/// A row of keys.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RowView {
    /// What they are for; empty for keys that speak for themselves.
    pub label: String,
    /// The keys.
    pub keys: Vec<KeyOf>,
}

/// A key.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct KeyOf {
    /// On it.
    pub label: String,
    /// What it does.
    #[serde(skip)]
    pub act: Act,
    /// Whether it is pressed, for keys that stay so.
    pub set: Option<bool>,
    /// The one that is pressed most.
    pub strong: bool,
}

/// The picture, in tenths of its pixels.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct PictureView {
    /// Its address.
    pub address: String,
    /// Width and height, pixels.
    pub size: [i32; 2],
    /// How large it is shown: 1, 2 or 4.
    pub zoom: u8,
    /// Whether points can still be put.
    pub more: bool,
    /// What it shows, in words.
    pub alt: String,
    /// Points: x, y, what stands beside, whether it is the one that moves.
    pub marks: Vec<(i32, i32, String, bool)>,
    /// Lines from point to point.
    pub lines: String,
    /// The outline.
    pub contour: String,
    /// Patches: x, y, whether it is the piece.
    pub patches: Vec<(i32, i32, bool)>,
    /// The middle of the loupe.
    pub loupe: Option<(i32, i32)>,
}

/// The room of a state.
pub(crate) fn view(guide: &Guide, state: &State) -> PhotoView {
    let photo = &state.photo;
    let mut view = PhotoView {
        stage: photo.stage,
        ready: guide.tables.coins.get().is_some(),
        heading: heading(photo),
        says: says(photo),
        fault: photo.fault.clone(),
        busy: photo.busy,
        picture: picture(photo),
        moves: matches!(photo.stage, Stage::Card | Stage::Ends),
        step: if photo.step == 1 { "1 pixel".to_string() } else { format!("{} pixels", photo.step) },
        rows: Vec::new(),
        high: None,
        found: Vec::new(),
        sheet: None,
        ruler: None,
        basis: Vec::new(),
    };
    match photo.stage {
        Stage::Pick => view.rows.push(row("", vec![key("A ruler on the screen", Act::Ruler)])),
        Stage::Opening => {}
        Stage::Ruler => {
            view.ruler = Some(state.ruler.view());
            let wider = |label: &str, by: i32| key(label, Act::Wider(by));
            let keys = vec![
                wider("Longer", 10),
                wider("Shorter", -10),
                wider("A hair longer", 2),
                wider("A hair shorter", -2),
            ];
            view.rows.push(row("The bar for the card", keys));
            let keys = vec![
                strong("It is as long as the card", Act::Fits),
                key("Measure in a photo", Act::Back(Stage::Pick)),
            ];
            view.rows.push(row("", keys));
        }
        Stage::Card => card(guide, photo, &mut view),
        Stage::Height => {
            // The sentences are written of a card.
            let by = |text: &str| text.replace("card", if photo.coin.is_some() { "coin" } else { "card" });
            let keys = LIES.iter().enumerate();
            let keys = keys.map(|(at, (label, _))| toggle(&by(label), Act::Lies(at), photo.lies == Some(at)));
            view.rows.push(row(&by("How do card and piece lie?"), keys.collect()));
            view.high = Some((photo.high.clone(), typed(photo).and_then(Result::err)));
            if matches!(typed(photo), Some(Ok(_))) {
                view.rows.push(row("", vec![strong("Use this height", Act::Height)]));
            }
            view.rows.push(row("", vec![key(&by("The card again"), Act::Back(Stage::Card))]));
        }
        Stage::Ends => ends(guide, state, &mut view),
        Stage::Outline => outline(guide, state, &mut view),
    }
    view
}

fn key(label: &str, act: Act) -> KeyOf {
    KeyOf { label: label.to_string(), act, set: None, strong: false }
}

fn strong(label: &str, act: Act) -> KeyOf {
    KeyOf { strong: true, ..key(label, act) }
}

fn toggle(label: &str, act: Act, set: bool) -> KeyOf {
    KeyOf { set: Some(set), ..key(label, act) }
}

fn row(label: &str, keys: Vec<KeyOf>) -> RowView {
    RowView { label: label.to_string(), keys }
}

fn heading(photo: &Photo) -> String {
    match photo.stage {
        Stage::Pick => "Measure in a photo",
        Stage::Opening => "Opening the picture",
        Stage::Card if photo.proposed => "Is this the card?",
        Stage::Card if photo.coin.is_some() => "Tap round the coin\u{2019}s rim",
        Stage::Card => "Tap the card\u{2019}s edges",
        Stage::Height => "How high does it lie?",
        Stage::Ends if photo.at >= 2 => "Tap both sides where it is widest",
        Stage::Ends => "Tap both ends of the sole",
        Stage::Outline => "The outline of the sole",
        Stage::Ruler => "A ruler on the screen",
    }
    .to_string()
}

fn says(photo: &Photo) -> Vec<String> {
    let says = |text: &str| vec![text.to_string()];
    let count = points(photo).0.len();
    match photo.stage {
        Stage::Pick => ADVICE.iter().map(|line| (*line).to_string()).collect(),
        Stage::Opening => Vec::new(),
        Stage::Card if photo.proposed => says(
            "The lines should lie on its four edges. If one does not, move its points or tap them yourself.",
        ),
        Stage::Card => match photo.coin {
            None if count == 0 && photo.busy.is_some() => says(
                "A card is looked for. You may as well tap it: two points on each edge, round it in turn.",
            ),
            None if count < 8 => {
                let edge = EDGES.get(count / 2).copied().unwrap_or_default();
                vec![format!(
                    "Two points on each edge, well apart, round the card in turn. Next: the {edge} edge, point {} of 2.",
                    count % 2 + 1
                )]
            }
            None => says("Look at each point through the loupe, and nudge it onto the edge."),
            Some(_) if count < RIM[0] => {
                vec![format!("Spread {} points evenly along the rim; {} to go.", RIM[0], RIM[0] - count)]
            }
            Some(_) => says("Look at each point through the loupe, and nudge it onto the rim."),
        },
        Stage::Height => says(
            "What is nearer to the camera looks larger. Say how the measured part lies to the card; where you are not sure, \
             the length only becomes less sure too.",
        ),
        Stage::Ends if count < 2 => says("The first point on one end, the second on the other."),
        Stage::Ends => says("Nudge both until the loupe shows them right on the edge."),
        Stage::Outline if photo.outline.is_some() => {
            says("Where the line went wrong, choose what is missing or too much, and tap there.")
        }
        Stage::Outline => Vec::new(),
        Stage::Ruler => says("For an outline on paper or a card. Never lay the piece on the glass."),
    }
}

fn picture(photo: &Photo) -> Option<PictureView> {
    if !matches!(photo.stage, Stage::Card | Stage::Ends | Stage::Outline) {
        return None;
    }
    let outlined = photo.stage == Stage::Outline;
    let (points, at) = points(photo);
    let points = if outlined { &[] } else { points };
    // Eight numbers on a small card would lie over each other: only that of the point that moves is written.
    let label = |i: usize| if i == at || points.len() == 2 { (i + 1).to_string() } else { String::new() };
    let mark = |(i, p): (usize, &Spot)| (p.x, p.y, label(i), i == at);
    let mut lines = String::new();
    if photo.coin.is_none() || photo.stage == Stage::Ends {
        for pair in points.chunks_exact(2) {
            lines.push_str(&format!("M{} {}L{} {}", pair[0].x, pair[0].y, pair[1].x, pair[1].y));
        }
    }
    let contour =
        photo.outline.as_ref().filter(|_| outlined).map_or(String::new(), |o| sheet::path(&o.seen, 0));
    let alt = match photo.stage {
        Stage::Outline => "Your picture, with the outline over it".to_string(),
        _ => format!("Your picture, with {} of {} points", points.len(), most(photo)),
    };
    Some(PictureView {
        address: photo.address.clone(),
        size: photo.size,
        zoom: photo.zoom,
        more: !outlined && points.len() < most(photo),
        alt,
        marks: points.iter().enumerate().map(mark).collect(),
        lines,
        contour,
        patches: if outlined {
            photo.patches.iter().map(|p| (p.at.x, p.at.y, p.piece)).collect()
        } else {
            Vec::new()
        },
        loupe: points.get(at).map(|p| (p.x, p.y)),
    })
}

/// The keys that choose the point to move.
fn chosen(photo: &Photo) -> RowView {
    let (points, at) = points(photo);
    let one = |i: usize| toggle(&(i + 1).to_string(), Act::Point(i), i == at);
    row("Point to move", (0..points.len()).map(one).collect())
}

fn card(guide: &Guide, photo: &Photo, view: &mut PhotoView) {
    let (points, _) = points(photo);
    let whole = points.len() == 8 || photo.coin.is_some() && points.len() >= RIM[0];
    let mut keys = Vec::new();
    if whole {
        let label = match (photo.proposed, photo.coin) {
            (true, _) => "Yes, this is the card",
            (false, None) => "They lie on the edges",
            (false, Some(_)) => "They lie on the rim",
        };
        keys.push(strong(label, Act::Agree));
    }
    if photo.proposed {
        keys.push(key("No, I tap it", Act::By(None)));
    } else if !points.is_empty() {
        keys.push(key("Last point back", Act::Less));
    }
    view.rows.push(row("", keys));
    if !points.is_empty() {
        view.rows.push(chosen(photo));
    }
    let coins = guide.tables.coins.get().map_or(&[][..], |c| &c.coins);
    let coin =
        |(at, c): (usize, &pack::coins::Coin)| toggle(&c.name, Act::By(Some(at)), photo.coin == Some(at));
    let mut by = vec![toggle("a card", Act::By(None), photo.coin.is_none())];
    match photo.coin {
        None => by.push(toggle("a coin", Act::By(Some(0)), false)),
        Some(_) => by.extend(coins.iter().enumerate().map(coin)),
    }
    view.rows.push(row("Measured by", by));
    view.rows.push(row("", vec![key("Another picture", Act::Back(Stage::Pick))]));
    view.basis = basis(guide, photo);
}

fn basis(guide: &Guide, photo: &Photo) -> Vec<String> {
    let mut lines = vec![match photo.coin.and_then(|at| guide.tables.coins.get()?.coins.get(at)) {
        None => "A bank card measures 85.60 by 53.98 mm: ISO/IEC 7810, format ID-1.".to_string(),
        Some(coin) => {
            let wide = format!("{} is {}.{:02} mm wide", coin.name, coin.diameter / 100, coin.diameter % 100);
            let sources = guide.tables.coins.get().map(|c| &c.sources);
            match coin.source.zip(sources).and_then(|(s, all)| all.get(usize::from(s))) {
                Some(source) => format!("{wide}: {}.", source.text),
                None => format!("{wide} ({}).", coin.basis.phrase()),
            }
        }
    }];
    lines.push(
        "A point is taken to lie within three pixels of the edge in 95 cases of 100; a card may be off by a tenth of a \
         millimetre and a lens by a few in a hundred (common practice). What all of that does to a length follows by the \
         rules of the Guide to the expression of uncertainty in measurement."
            .to_string(),
    );
    lines
}

fn measured(title: &str, found: &Valued) -> (String, Vec<String>) {
    let mut lines =
        vec![format!("In 95 cases of 100 it is between {} and {}.", mm(found.low), mm(found.high))];
    if 2 * found.by_height * found.by_height > found.u * found.u {
        lines.push(
            "Most of the doubt comes from the height. Type it, or lay the card level with the sole."
                .to_string(),
        );
    }
    (format!("{title} {}", mm(found.length)), lines)
}

fn ends(guide: &Guide, state: &State, view: &mut PhotoView) {
    let photo = &state.photo;
    let titles = ["Length", "Width"];
    for (title, found) in titles.iter().zip(&photo.found) {
        view.found.extend(found.as_ref().map(|f| measured(title, f)));
    }
    if let Some((_, lines)) = view.found.last_mut() {
        lines.push(NOT_RECAST.to_string());
    }
    let mut keys = Vec::new();
    if photo.found[0].is_some() {
        keys.push(strong("Use this length", Act::Use));
        keys.push(key("Cut its outline", Act::Cut));
    }
    if !points(photo).0.is_empty() {
        keys.push(key("Last point back", Act::Less));
    }
    view.rows.push(row("", keys));
    if !points(photo).0.is_empty() {
        view.rows.push(chosen(photo));
    }
    let across = |which: usize, label: &str| toggle(label, Act::Across(which), list(photo) == which + 1);
    view.rows.push(row("What is tapped", vec![across(0, "the length"), across(1, "the width")]));
    view.rows.push(row(
        "",
        vec![
            key("The height again", Act::Back(Stage::Height)),
            key("Another picture", Act::Back(Stage::Pick)),
        ],
    ));
    let given = answers::of_length(guide).and_then(|q| state.answer_to(q));
    let used = given.filter(|g| matches!(g.what, What::Length(_, measure::Instrument::Photo(_))));
    view.found.extend(used.map(|g| (format!("It counts: {}.", said(guide, g)), Vec::new())));
    view.basis = basis(guide, photo);
    if let Some([from, to]) = height(photo) {
        view.basis.push(format!(
            "The measured part is taken to lie {} to {} above the card.",
            mm(from),
            mm(to)
        ));
    }
    if let Some([above, leans]) = photo.placed {
        let leans = (leans + 5) / 10;
        view.basis.push(format!(
            "The camera was {} above the card and leaned by {leans}\u{b0}.",
            mm(above / 10 * 10)
        ));
    }
}

fn outline(guide: &Guide, state: &State, view: &mut PhotoView) {
    let photo = &state.photo;
    let back = vec![
        key("Back to the length", Act::Back(Stage::Ends)),
        key("Another picture", Act::Back(Stage::Pick)),
    ];
    if let Some(outline) = &photo.outline {
        view.rows.push(row(
            "The next tap",
            vec![
                toggle("adds to the piece", Act::Adds(true), photo.adds),
                toggle("takes away", Act::Adds(false), !photo.adds),
            ],
        ));
        view.found.push(("Its figures".to_string(), figures(outline)));
        view.found.extend(nearest(guide, photo));
        let proposed = answers::proposed(guide, photo);
        let keys: Vec<KeyOf> =
            proposed.into_iter().filter_map(|(q, c)| proposal(guide, state, q, c)).collect();
        if !keys.is_empty() {
            view.rows.push(row("If you agree, it answers", keys));
        }
        let keys = vec![key("Print at true size", Act::Print), key("Save as drawing", Act::Save)];
        view.rows.push(row("", keys));
        let [w, h] = sheet::size(outline);
        let (wide, high) = (sheet::in_mm(w), sheet::in_mm(h));
        view.sheet = Some((wide, high, format!("0 0 {w} {h}"), sheet::line(outline), sheet::bar(outline)));
    }
    if !photo.patches.is_empty() {
        view.rows.push(row("", vec![key("Last mend back", Act::Unpatch)]));
    }
    view.rows.push(row("", back));
}

fn figures(o: &Outline) -> Vec<String> {
    let points = match o.points {
        0 => "no point",
        1 => "one point",
        _ => "two points",
    };
    vec![
        format!("{} long, {} at its widest, {points}.", mm(o.length), mm(o.width)),
        format!("Widest at {} of the length from the narrower end.", per_cent(o.widest)),
        format!(
            "Area {}.{} cm\u{b2}; halves alike {}; without hollows {}.",
            o.area / 100,
            o.area % 100 / 10,
            per_cent(o.symmetry),
            per_cent(o.convexity)
        ),
    ]
}

/// The kinds whose drawn sole is nearest.
fn nearest(guide: &Guide, photo: &Photo) -> Option<(String, Vec<String>)> {
    if photo.alike.is_empty() {
        return None;
    }
    let near = answers::nearest(guide, photo);
    let mut lines = Vec::new();
    for (drawn, _) in near.iter().filter(|(d, _)| !d.kinds.is_empty()).take(2) {
        let names: Vec<&str> = drawn
            .kinds
            .iter()
            .take(5)
            .filter_map(|k| guide.core.kinds.get(*k))
            .map(|k| k.short.as_str())
            .collect();
        let more = drawn.kinds.len().saturating_sub(names.len());
        let more = if more > 0 { format!(" and {more} more") } else { String::new() };
        lines.push(format!("Drawn with such a sole: {}{more}.", names.join("; ")));
    }
    if lines.is_empty() {
        lines.push("No sole that the guide draws is like it.".to_string());
    }
    lines.push(
        "This rests on the guide\u{2019}s drawings of typical soles, not on measured pieces: a hint where to look, and \
         nothing that counts by itself."
            .to_string(),
    );
    Some(("Nearest by shape".to_string(), lines))
}

/// A key for an answer that the outline proposes.
fn proposal(guide: &Guide, state: &State, question: usize, choice: usize) -> Option<KeyOf> {
    let q = guide.core.questions.get(question)?;
    let label = format!("{} {}", q.ask, inside(&q.choices.get(choice)?.label));
    let stands = matches!(state.answer_to(question), Some(Given { what: What::OneOf(set), .. }) if set[..] == [choice]);
    Some(toggle(&label, Act::Answer(question, choice), stands))
}
