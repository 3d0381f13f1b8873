//! What a piece may be worth: bands, what sales, condition and general prices do to them, and the most to pay.
//! Never in here: an appraisal, float money outside a function, trade knowledge, a browser, a clock.

mod band;
mod condition;
mod drift;
mod estimate;
mod figure;
mod index;
mod ledger;
mod limit;
mod market;
mod mixture;
mod round;
mod sale;
mod sheet;
mod steps;
mod student;
mod terms;
mod update;

pub use band::Band;
pub use condition::{NotSo, Worn, worn};
pub use drift::Drift;
pub use estimate::Estimate;
pub use figure::Figure;
pub use index::{Ratio, factor, last_year};
pub use ledger::{Find, Found, comparables};
pub use limit::{Hopes, Line, Suggested, Why, suggest};
pub use market::{Apart, Market, Pool};
pub use mixture::Mixture;
pub use round::{round_down, round_up};
pub use sale::{Comparable, Of};
pub use sheet::{Lot, Outcome, Part, Sheet};
pub use steps::{next_bid, on_step};
pub use terms::{Cost, TaxOn, Terms};
