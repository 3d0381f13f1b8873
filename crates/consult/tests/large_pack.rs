//! A pack with as many questions as can be read: its own longest links come back.

use consult::{Given, Guide, State, What, fragment, read_fragment};

#[test]
fn a_large_pack_reads_its_own_links() {
    let small = include_bytes!("../../../tests/golden/format-4/core.pack");
    let mut core = pack::read_core(small).expect("the golden pack");
    let one = core.questions[2].clone();
    for code in 65_000..65_395 {
        let mut q = one.clone();
        (q.code, q.choices[0].code, q.choices[1].code) = (code, 65_534, 65_535);
        core.questions.push(q);
        core.candidates.iter_mut().for_each(|c| c.rows.push(c.rows[2]));
    }
    assert_eq!((core.questions.len(), pack::check_core(&core)), (400, Ok(())));
    let guide = Guide::new(core, 2026).expect("a guide");
    let mut state = State::default();
    let open = |q: &usize| guide.core.questions[*q].gate.is_none();
    let given = |question| Given { question, what: What::OneOf(vec![0, 1]), sure: false };
    state.given = (0..400).filter(open).map(given).collect();
    let link = fragment(&guide, &state);
    let read = read_fragment(&guide, &State::default(), &link);
    assert!(read == Ok(state), "{} characters", link.len());
}
