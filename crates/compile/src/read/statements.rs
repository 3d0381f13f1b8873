//! `[[kind.also_said]]`: where two statements conflict, the one that the tables do not follow is kept with its basis.

use super::Context;
use crate::cursor::Table;
use crate::model::Rests;
use crate::text::Limit;
use pack::Statement;

/// Reads the statements of a kind.
pub(super) fn read(kind: &Table<'_>, context: &Context<'_>, above: Rests) -> Vec<Statement> {
    // Above it may stand a source of the kind's own figures; a contrary statement never rests on that one.
    let above = Rests { source: None, ..above };
    let one = |t: Table<'_>| {
        let says = t.need_text("says", Limit::SENTENCE, "says = \"Others put the first ones at 1865.\"");
        t.need_text("basis", Limit::NAME, "basis = \"memory\"");
        let rests = context.rests(&t, above);
        t.done();
        context.count(rests);
        Statement { says, basis: rests.basis, source: rests.source }
    };
    kind.tables("also_said").into_iter().map(one).collect()
}
