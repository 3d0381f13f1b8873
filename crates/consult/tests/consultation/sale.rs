//! The room for a sale: the most to pay, condition, the sheet for the day, sales at work.

use crate::common::{SEED, irons, irons_unread, tiny_priced, walked};
use consult::sale::{Act, Desk, Field, PayView, SaleView, SheetView};
use consult::{
    Body, Effect, FindingView, Guide, Kept, Msg, Screen, State, Table, fragment, read_fragment, update, view,
};
use proptest::prelude::*;
use proptest::test_runner::{RngSeed, TestRunner};
use reason::Random;

fn act(guide: &Guide, state: &State, act: Act) -> State {
    update(guide, state.clone(), Msg::Sale(act)).0
}

fn typed(guide: &Guide, state: &State, field: Field, text: &str) -> State {
    act(guide, state, Act::Type(field, text.to_string()))
}

fn room(guide: &Guide, state: &State) -> SaleView {
    match view(guide, state).body {
        Body::Sale(room) => *room,
        other => unreachable!("the room was asked for: {other:?}"),
    }
}

fn pay(guide: &Guide, state: &State) -> PayView {
    room(guide, state).pay.expect("the desk was asked for")
}

fn sheet(guide: &Guide, state: &State) -> SheetView {
    room(guide, state).sheet.expect("the desk was asked for")
}

fn finding(guide: &Guide, state: &State) -> FindingView {
    match view(guide, &update(guide, state.clone(), Msg::Show(Screen::Finding)).0).body {
        Body::Finding(f) => *f,
        other => unreachable!("the finding was asked for: {other:?}"),
    }
}

/// In the room, money shown, after a few answers or none.
fn inside(guide: &Guide, told: bool) -> State {
    let taps: &[(u8, u16, u16, u16)] = if told { &[(19, 0, 1, 0), (19, 1, 1, 0)] } else { &[] };
    let state = walked(guide, taps);
    let state = update(guide, state, Msg::Show(Screen::Sale)).0;
    if state.money { state } else { update(guide, state, Msg::Money).0 }
}

/// So many parts of `of`, rounded half up.
fn part(minor: i64, parts: i64, of: i64) -> i64 {
    (2 * minor * parts + of).div_euclid(2 * of)
}

/// A bid as an invoice reckons it, without the project's own terms.
fn cost(hammer: i64, (premium, tax, on, shipping): (i64, i64, usize, i64)) -> i64 {
    let premium = part(hammer, premium, 1000);
    let taxed = [hammer + premium, hammer, premium, 0][on];
    hammer + premium + part(taxed, tax, 100_000) + shipping
}

fn decimal(value: i64, places: usize) -> String {
    let by = 10_i64.pow(places as u32);
    format!("{}.{:0places$}", value / by, value % by)
}

fn with_terms(guide: &Guide, state: State, (premium, tax, on, shipping): (i64, i64, usize, i64)) -> State {
    let state = typed(guide, &state, Field::Premium, &decimal(premium, 1));
    let state = typed(guide, &state, Field::Tax, &decimal(tax, 3));
    let state = typed(guide, &state, Field::Shipping, &decimal(shipping, 2));
    act(guide, &state, Act::TaxOn(on))
}

fn for_all<S: Strategy>(cases: u32, of: S, holds: impl Fn(S::Value) -> Result<(), TestCaseError>) {
    let config = ProptestConfig {
        cases,
        rng_seed: RngSeed::Fixed(SEED),
        failure_persistence: None,
        ..ProptestConfig::default()
    };
    let outcome = TestRunner::new(config).run(&of, holds);
    assert!(outcome.is_ok(), "{}", outcome.unwrap_err());
}

#[test]
fn the_most_to_pay_keeps_the_limit_and_a_bid_more_does_not() {
    let guide = tiny_priced();
    let start = inside(&guide, false);
    let of = (1_i64..5_000_000, 0_i64..=300, 0_i64..=30_000, 0_usize..4, 0_i64..5_000);
    for_all(60, of, |(limit, premium, tax, on, shipping)| {
        let terms = (premium, tax, on, shipping);
        let state = with_terms(&guide, start.clone(), terms);
        let state = typed(&guide, &state, Field::Limit, &decimal(limit, 2));
        let shown = pay(&guide, &state);
        prop_assert_eq!(shown.limit_minor, Some(limit));
        let Some(bid) = shown.highest_minor else {
            // The smallest step of bids is one unit of the currency.
            prop_assert!(cost(100, terms) > limit, "a bid of one unit would keep {}", limit);
            return Ok(());
        };
        prop_assert_eq!(shown.total_minor, Some(cost(bid, terms)));
        prop_assert!(cost(bid, terms) <= limit && shown.over.is_none());
        let more = pay(&guide, &act(&guide, &state, Act::Step(true)));
        prop_assert!(more.hammer_minor > Some(bid) && more.total_minor > Some(limit) && more.over.is_some());
        let back = act(&guide, &act(&guide, &state, Act::Step(true)), Act::Step(false));
        prop_assert_eq!(pay(&guide, &back).hammer_minor, Some(bid), "up and down again");
        // To the cent: what the arithmetic says keeps the limit, one cent more does not.
        let says = shown.arithmetic.unwrap_or_default();
        let exact = says.split(" = ").nth(1).and_then(|s| s.split(' ').next()).unwrap_or_default();
        let exact: i64 = exact.replace('.', "").parse().map_err(|_| TestCaseError::fail(says.clone()))?;
        prop_assert!(cost(exact, terms) <= limit && limit < cost(exact + 1, terms), "{}", says);
        Ok(())
    });
}

/// Worked by hand. Basis: arithmetic.
#[test]
fn worked_by_hand() {
    let guide = irons();
    let state = with_terms(&guide, inside(&guide, false), (200, 0, 0, 0));
    let state = typed(&guide, &state, Field::Limit, "60");
    // 60 / 1.2 = 50, which is a step of bids.
    let shown = pay(&guide, &state);
    assert_eq!(shown.highest.as_deref(), Some("50.00 USD"));
    // 50.00 + 10.00 + 8.875 % of 60.00 (5.325, half up) + 4.50 = 69.83.
    let state = with_terms(&guide, inside(&guide, false), (200, 8875, 0, 450));
    let state = typed(&guide, &state, Field::Hammer, "50");
    let lines: Vec<String> = pay(&guide, &state).cost.into_iter().map(|(_, amount)| amount).collect();
    assert_eq!(lines, ["50.00 USD", "10.00 USD", "5.33 USD", "4.50 USD", "69.83 USD"]);
}

/// Everything that a hand can type is a figure or gets a sentence; what is not understood changes no terms.
#[test]
fn whatever_is_typed() {
    let guide = tiny_priced();
    let texts = [
        "",
        " ",
        "-4",
        "1..2",
        "1e9",
        "NaN",
        "99999999999999999999",
        "12,",
        ",",
        "\u{663}",
        "1 000",
        "17.55555",
        "\u{0}\n\t",
        "\u{1F600}",
        "100000000",
        "0",
        "00012.50",
        "US",
        "../x",
        "<b>",
    ];
    let fields = [
        Field::Limit,
        Field::Premium,
        Field::Tax,
        Field::Shipping,
        Field::Currency,
        Field::Hammer,
        Field::Budget,
        Field::Date,
        Field::Label,
        Field::LotLimit,
    ];
    for desk in Desk::ALL {
        let mut state = act(&guide, &inside(&guide, true), Act::Desk(desk));
        for (field, text) in fields.iter().flat_map(|f| texts.map(|t| (*f, t))) {
            state = typed(&guide, &state, field, text);
            for after in
                [Act::PutLot, Act::PutPiece, Act::PutInto(0), Act::Open(0), Act::Step(false), Act::Won(0)]
            {
                let next = act(&guide, &state, after);
                let _ = view(&guide, &next);
            }
            let shown = view(&guide, &state);
            assert!(matches!(shown.body, Body::Sale(_)));
        }
    }
    let state = with_terms(&guide, inside(&guide, false), (175, 8875, 1, 1200));
    for bad in ["-4", "1..2", "1e9", "17.55555", "999999999"] {
        let after = typed(&guide, &state, Field::Premium, bad);
        assert_eq!(after.sale.house, state.sale.house, "{bad}");
        let fields = pay(&guide, &after).terms.fields;
        assert!(fields[0].fault.as_ref().is_some_and(|f| f.ends_with('.')), "{bad}: {fields:?}");
    }
}

fn kept(effects: &[Effect], name: Kept) -> Option<String> {
    effects.iter().rev().find_map(|e| match e {
        Effect::Keep { name: n, text } if *n == name => Some(text.clone()),
        _ => None,
    })
}

fn a_day(guide: &Guide) -> State {
    let state = with_terms(guide, inside(guide, true), (100, 0, 3, 0));
    let state = act(guide, &state, Act::Desk(Desk::Sheet));
    let state = typed(guide, &state, Field::Budget, "100");
    let state = typed(guide, &state, Field::Date, "2026-11-28");
    ["33", "66", "55"].into_iter().fold(state, |state, limit| {
        let state = typed(guide, &state, Field::Label, &format!("Lot at {limit}"));
        let state = typed(guide, &state, Field::LotLimit, limit);
        act(guide, &state, Act::PutLot)
    })
}

#[test]
fn what_is_kept_comes_back_and_damage_is_refused() {
    let guide = irons();
    let (state, effects) = update(&guide, a_day(&guide), Msg::Sale(Act::Passed(1)));
    let sheet_text = kept(&effects, Kept::Sheet).expect("the sheet is kept");
    assert_eq!(sheet_text, state.sale.sheet);
    let back = |name: Kept, text: &str| {
        let state = act(&guide, &inside(&guide, false), Act::Desk(Desk::Sheet));
        update(&guide, state, Msg::Kept(name, text.to_string())).0
    };
    let again = back(Kept::Sheet, &sheet_text);
    assert_eq!((again.sale.sheet.as_str(), &again.notice), (sheet_text.as_str(), &None));
    let again = update(&guide, again, Msg::Kept(Kept::Terms, state.sale.house.clone())).0;
    assert_eq!(sheet(&guide, &again).lots, sheet(&guide, &state).lots);
    assert_eq!(sheet(&guide, &again).left, sheet(&guide, &state).left);

    for bad in [
        "x",
        "sale",
        "sale 2 2026 USD 1",
        "sale 1 2026-13-01 USD 1",
        "sale 1 2026 usd 1",
        "sale 1 2026 USD -1",
        "sale 1 2026 USD 1 1",
        "sale 1 2026 USD 1\nlot\topen\tA\t",
        "sale 1 2026 USD 1\npiece\t1\t0\t\t\t",
        "sale 1 2026 USD 1\nlot\topen\t\t\npiece\t1\t0\t\t\t",
        "sale 1 2026 USD 1\nlot\twon\tA\t\npiece\t1\t0\t\t\t",
        "sale 1 2026 USD 1\nlot\topen\tA\t\npiece\t1\t2\t\t\t",
        "sale 1 2026 USD 1\nlot\topen\tA\t\npiece\t1\t0\tX\tY\t",
        "sale 1 2026 USD 1\nlot\topen\tA\t\npiece\t1\t0\t\t\t\tmore",
        "sale 1 2026 USD 99999999999999999999",
    ] {
        let refused = back(Kept::Sheet, bad);
        assert!(refused.sale.sheet.is_empty(), "{bad}");
        assert!(refused.notice.as_ref().is_some_and(|n| n.contains("sheet") && n.ends_with('.')), "{bad}");
    }
    let terms = state.sale.house;
    for cut in 1..terms.len() {
        let text = &terms[..cut];
        let refused = back(Kept::Terms, text);
        let sound = text.ends_with("currency=");
        assert_eq!(refused.sale.house.is_empty(), !sound, "{text}");
        assert_eq!(refused.notice.is_some(), !sound, "{text}");
    }
    for bad in ["premium=1;premium=1;tax=0;on=whole;shipping=0;margin=0", "premium=-1", &"x".repeat(10_000)] {
        assert!(back(Kept::Terms, bad).notice.is_some_and(|n| n.contains("damaged")), "{bad}");
    }
}

/// Arithmetic: a premium of a tenth, nothing else; a budget of 100.
#[test]
fn the_budget_of_a_day_binds_after_a_lot_is_won() {
    let guide = irons();
    let state = a_day(&guide);
    let bids = |s: &State| sheet(&guide, s).lots.iter().map(|l| l.bid_minor).collect::<Vec<_>>();
    // 33 / 1.1 = 30, 66 / 1.1 = 60, 55 / 1.1 = 50; from 20 the steps are 2.50, from 50 they are 5.
    assert_eq!(bids(&state), [Some(3000), Some(6000), Some(5000)]);
    let won = act(&guide, &act(&guide, &state, Act::Open(1)), Act::Won(1));
    assert_eq!(sheet(&guide, &won).left_minor, Some(10_000 - 6600));
    // 34 left: 34 / 1.1 = 30.909 for the third, 30 for the first, whose limit is 33.
    assert_eq!(bids(&won), [Some(3000), None, Some(3000)]);
    assert_eq!(sheet(&guide, &won).lots[1].says, "Won at 60.00 USD, 66.00 USD in all");
    let again = act(&guide, &won, Act::Again(1));
    assert_eq!(bids(&again), bids(&state));
    let lost = act(&guide, &act(&guide, &act(&guide, &state, Act::Open(0)), Act::Step(true)), Act::Lost(0));
    assert_eq!(sheet(&guide, &lost).lots[0].says, "Went to another at 32.50 USD");
    assert_eq!(sheet(&guide, &lost).left_minor, Some(10_000));
    // Two pieces: 33 + 11 = 44, and 44 / 1.1 = 40. A gap raises the first by a quarter: data/reference/prices/prices.toml.
    let mixed = act(&guide, &typed(&guide, &state, Field::LotLimit, "11"), Act::PutInto(0));
    assert_eq!(bids(&mixed)[0], Some(4000));
    let gap = sheet(&guide, &act(&guide, &mixed, Act::LotGap(0)));
    assert_eq!(gap.lots[0].limit, "Limit 52.25 USD, 2 pieces together");
}

#[test]
fn the_piece_goes_on_the_sheet_with_its_link() {
    let guide = irons();
    let state = typed(&guide, &inside(&guide, true), Field::Limit, "45");
    let put = act(&guide, &state, Act::PutPiece);
    let lot = &sheet(&guide, &put).lots[0];
    let linked = read_fragment(&guide, &State::default(), &lot.link).expect("a sound link");
    assert_eq!((linked.screen, &linked.given), (Screen::Finding, &state.given));
    assert_eq!(lot.limit, "Limit 45.00 USD");
    assert!(finding(&guide, &state).title.starts_with(&lot.label[..10]), "{}", lot.label);
}

#[test]
fn hidden_money_is_nowhere() {
    let guide = irons();
    let shown = act(&guide, &a_day(&guide), Act::Invented);
    let hidden = update(&guide, shown, Msg::Money).0;
    for desk in Desk::ALL {
        let state = act(&guide, &hidden, Act::Desk(desk));
        let text = serde_json::to_string(&room(&guide, &state)).expect("a view");
        assert!(!text.contains("USD"), "{desk:?}: {text}");
        assert!(text.contains("not an appraisal"));
    }
}

#[test]
fn conditions_exclude_each_other_and_travel_in_the_link() {
    let guide = irons();
    let state = act(&guide, &inside(&guide, true), Act::Desk(Desk::Condition));
    let at = |name: &str| {
        let parts = room(&guide, &state).worn.expect("the desk").parts;
        parts
            .iter()
            .flat_map(|(_, l)| l)
            .find(|c| c.name == name)
            .expect("a condition of the tables")
            .condition
    };
    let crack = act(&guide, &state, Act::Condition(at("Crack through body or post")));
    assert_eq!(crack.condition, ["crack"]);
    let hairline = act(&guide, &crack, Act::Condition(at("Hairline")));
    assert_eq!(hairline.condition, ["hairline"], "one takes the place of the other");
    let two = act(&guide, &hairline, Act::Condition(at("Grip missing")));
    let link = fragment(&guide, &two);
    assert!(link.contains("/whairline+grip-missing/"), "{link}");
    let read = read_fragment(&guide, &State::default(), &link).expect("a sound link");
    assert_eq!(read.condition, two.condition);
    // 0.60 x 0.32 = 0.192: data/reference/prices/conditions.toml.
    let together = room(&guide, &two).worn.expect("the desk").together.join(" ");
    assert!(together.contains("to about 19 in 100 of the band"), "{together}");
    let (plain, worn) = (finding(&guide, &state).worth, finding(&guide, &two).worth);
    let (plain, worn) = (plain.expect("figures"), worn.expect("figures"));
    assert_eq!(plain.quantiles, worn.quantiles, "the band of a sound piece stays beside it");
    assert!(plain.besides.is_empty() && worn.besides.iter().any(|l| l.contains("8 in 10: ")), "{worn:?}");
    assert_eq!(act(&guide, &two, Act::Condition(at("Hairline"))).condition, ["grip-missing"]);
    let fresh = update(&guide, two.clone(), Msg::Fresh).0;
    assert!(fresh.condition.is_empty());
    assert_eq!(update(&guide, fresh, Msg::Undo).0.condition, two.condition);
}

/// A copy lowers the suggestion, keeping more back lowers it, a gap raises it; the lines sum to the limit.
#[test]
fn the_suggested_limit_is_the_sum_of_its_lines() {
    let guide = irons();
    let minor =
        |text: &str| -> i64 { text.trim_end_matches(" USD").replace('.', "").parse().expect("an amount") };
    let mut limits = Vec::new();
    for margin in 0..3 {
        let state = act(&guide, &inside(&guide, true), Act::Margin(margin));
        let lines = pay(&guide, &state).suggested;
        let (last, parts) = lines.split_last().expect("a suggestion");
        let sum: i64 = parts.iter().map(|(_, amount)| minor(amount)).sum();
        assert_eq!(sum, minor(&last.1), "{lines:?}");
        limits.push(sum);
        let taken = pay(&guide, &act(&guide, &state, Act::Suggested));
        assert_eq!(taken.limit_minor, Some(sum));
        let gap = pay(&guide, &act(&guide, &state, Act::Gap)).suggested;
        assert!(minor(&gap.last().expect("a suggestion").1) > sum);
    }
    assert!(limits[0] > limits[1] && limits[1] > limits[2], "{limits:?}");
    assert!(pay(&guide, &inside(&guide, false)).suggested.is_empty(), "nothing is suggested for nothing");
}

/// One tap on the sheet notes a result; it moves the limit for the next such piece its own way, and the finding says so
/// beside the band of the guide, which stays.
#[test]
fn a_noted_result_moves_the_next_limit() {
    let guide = irons();
    let state = typed(&guide, &inside(&guide, true), Field::Limit, "45");
    let limit = |s: &State| -> f64 {
        let amount = pay(&guide, &act(&guide, s, Act::Desk(Desk::Pay))).suggested.last().cloned();
        let (_, amount) = amount.expect("there are figures");
        amount.trim_end_matches(" USD").parse().expect("an amount")
    };
    let before = (limit(&state), finding(&guide, &state).worth.expect("figures"));
    let put = act(&guide, &state, Act::PutPiece);
    let open = act(&guide, &put, Act::Open(0));
    assert_eq!(limit(&open), before.0, "a lot that has not come up says nothing");
    let lost = act(&guide, &typed(&guide, &open, Field::Budget, "100"), Act::Lost(0));
    assert!(limit(&lost) > before.0, "45 is above the band: {} {}", limit(&lost), before.0);
    let after = finding(&guide, &lost).worth.expect("figures");
    assert_eq!(after.quantiles, before.1.quantiles);
    let says = after.besides.join(" ");
    assert!(says.starts_with("With the result of such kinds on your sheet: half of such "), "{says}");
    let seen = room(&guide, &act(&guide, &lost, Act::Desk(Desk::Seen))).seen.expect("the desk").noted;
    assert!(seen.none.is_none() && seen.sales.len() == 1 && seen.sales[0].used, "{seen:?}");
}

/// The real finding knows nothing of invented sales.
#[test]
fn invented_sales_never_touch_the_finding() {
    let guide = irons();
    let mut shown = 0;
    let mut random = Random::seeded(SEED);
    let mut n = move || random.bits() as u16;
    for _ in 0..6 {
        let taps: Vec<_> = (0..3).map(|_| (19, n(), n(), n())).collect();
        let before = update(&guide, walked(&guide, &taps), Msg::Money).0;
        let room_state = update(&guide, before.clone(), Msg::Show(Screen::Sale)).0;
        let room_state = act(&guide, &room_state, Act::Desk(Desk::Seen));
        let off = room(&guide, &room_state).seen.expect("the desk");
        assert!(!off.on && off.notice.is_empty() && off.invented.is_none(), "off by default");
        let on = act(&guide, &room_state, Act::Invented);
        let sold = room(&guide, &on).seen.expect("the desk");
        assert_eq!(sold.notice, "Invented sales of an invented club, for demonstration only.");
        assert_eq!(sold.noted, off.noted);
        let seen = sold.invented.expect("they are shown");
        if !seen.sales.is_empty() {
            shown += 1;
            assert!(seen.sales.iter().all(|s| s.basis == "invented, for demonstration only"), "{seen:?}");
            assert!(
                seen.with != seen.before && seen.with.ends_with("invented, for demonstration only"),
                "{seen:?}"
            );
        }
        assert_eq!(finding(&guide, &on), finding(&guide, &before));
        let limit = |s: &State| pay(&guide, &act(&guide, s, Act::Desk(Desk::Pay))).suggested;
        assert_eq!(limit(&on), limit(&room_state));
        assert!(!fragment(&guide, &on).contains("invented"));
    }
    assert!(shown > 0, "no kind of these has a sale");
}

#[test]
fn the_tables_are_asked_for_when_they_are_needed() {
    let guide = irons_unread();
    let (state, effects) = update(&guide, State::default(), Msg::Show(Screen::Sale));
    assert!(effects.contains(&Effect::Tables(Table::Prices)) && room(&guide, &state).coming);
    let (state, effects) = update(&guide, state, Msg::Kept(Kept::Terms, "damaged".to_string()));
    assert!(!effects.contains(&Effect::Tables(Table::Demo)), "off by default");
    assert_eq!(state.notice, None, "nothing is read before the tables are there");
    let link = fragment(&guide, &state);
    assert!(link.contains("/b~"), "{link}");
}

/// Every number is a year, a part of a chance, a per cent, or has its unit behind it.
fn figures_have_units(text: &str) -> bool {
    let words: Vec<&str> = text.split_whitespace().collect();
    let bare = |w: &str| w.trim_matches(|c: char| !c.is_ascii_alphanumeric()).to_string();
    words.iter().enumerate().all(|(i, w)| {
        let word = bare(w);
        if !word.starts_with(|c: char| c.is_ascii_digit()) {
            return true;
        }
        let next = words.get(i + 1).map(|w| bare(w)).unwrap_or_default();
        let behind = words.get(i + 1).copied().unwrap_or_default();
        let whole = i > 0 && words[i - 1] == "in" && ["10", "100", "20", "30", "50"].contains(&word.as_str());
        let year = word.len() == 4 && (word.starts_with("19") || word.starts_with("20"));
        let date = word.len() == 10 && word.matches('-').count() == 2;
        let one = word == "1" && behind == "+";
        whole
            || year
            || date
            || one
            || behind.starts_with('%')
            || ["USD", "in", "to", "times", "sales", "pieces"].contains(&next.as_str())
    })
}

#[test]
fn no_figure_without_its_unit() {
    assert!(!figures_have_units("Bid up to 50.00") && !figures_have_units("to 60 of the band"));
    let guide = irons();
    let state = typed(&guide, &act(&guide, &a_day(&guide), Act::Invented), Field::Limit, "80");
    let state = act(&guide, &state, Act::Condition(0));
    for desk in Desk::ALL {
        let state = act(&guide, &act(&guide, &state, Act::Desk(desk)), Act::Open(0));
        let room = room(&guide, &state);
        let mut said: Vec<String> = vec![room.care.clone()];
        if let Some(p) = room.pay {
            said.extend(p.cost.iter().chain(&p.suggested).map(|(n, a)| format!("{n}: {a}")));
            said.extend([p.highest, p.hammer, p.over, p.arithmetic].into_iter().flatten());
            said.extend(p.about);
            said.push(p.suggested_rests);
        }
        if let Some(s) = room.sheet {
            said.extend(s.left);
            said.extend(s.about);
            said.extend(s.lots.into_iter().flat_map(|l| {
                let open = l.open.into_iter().flat_map(|o| {
                    o.each
                        .into_iter()
                        .chain(o.hammer)
                        .chain(o.cost.into_iter().map(|(n, a)| format!("{n}: {a}")))
                });
                open.chain([l.says, l.limit]).collect::<Vec<_>>()
            }));
        }
        for s in room.seen.into_iter().flat_map(|s| s.invented.into_iter().chain([s.noted])) {
            said.extend([s.before, s.with, s.rests]);
            said.extend(s.sales.into_iter().map(|r| format!("{}, {}, {}", r.price, r.date, r.basis)));
        }
        if let Some(w) = room.worn {
            said.extend(w.together);
            said.extend(
                w.parts.into_iter().flat_map(|(_, l)| l).map(|c| format!("{}; {}", c.effect, c.basis)),
            );
        }
        assert!(said.len() > 1, "{desk:?}");
        for text in said {
            assert!(figures_have_units(&text), "{desk:?}: {text}");
        }
    }
}

/// Ids outlive editions: what a link names is checked for its form, and what the tables lack counts for nothing.
#[test]
fn links_with_odd_conditions() {
    let guide = irons();
    let with = |ids: &[&str]| {
        let mut state = State::default();
        state.condition = ids.iter().map(ToString::to_string).collect();
        state
    };
    let read = |ids: &[&str]| read_fragment(&guide, &State::default(), &fragment(&guide, &with(ids)));
    assert!(read(&["crack", "tiny"]).is_ok());
    let many: Vec<String> = (0..21).map(|i| format!("c{i}")).collect();
    let many: Vec<&str> = many.iter().map(String::as_str).collect();
    for bad in
        [&["crack", "crack"][..], &["Crack"], &["", "crack"], &["a_b"], &["x".repeat(41).as_str()], &many]
    {
        assert!(read(bad).is_err_and(|e| e.ends_with('.')), "{bad:?}");
    }
    // Of another edition, and two that cannot hold together: the first that is known stands.
    let odd =
        update(&guide, read(&["no-such", "crack", "hairline"]).expect("sound ids"), Msg::Show(Screen::Sale))
            .0;
    let together =
        room(&guide, &act(&guide, &odd, Act::Desk(Desk::Condition))).worn.expect("the desk").together;
    assert_eq!(together[0], "In this condition: Crack through body or post.");
}
