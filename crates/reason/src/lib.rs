//! The mathematics of identification: tables, answers, posterior, next question, explanation. Never in here:
//! words of the trade, a browser, a clock, a file; float functions other than + - * / sqrt and `libm`.
//!
//! A piece is one of finitely many *candidates* (kind x make x form). A [`Model`] holds their tables, a list of
//! [`Answer`]s is weighed against them by [`weigh`], which gives a [`Posterior`]; [`Plan`] ranks what to ask next.

mod ahead;
mod answer;
mod explain;
mod fit;
mod gain;
mod likelihood;
mod load;
mod model;
mod next;
mod normal;
mod posterior;
mod random;

pub use ahead::ahead;
pub use answer::{Answer, Told};
pub use explain::{chance_misread, log10_odds};
pub use fit::{Fit, fit, fit_limits, simulated_limits, with_fit};
pub use gain::{Goal, Plan};
pub use likelihood::log_likelihood;
pub use model::{Model, Parts, Quantity, QuestionParts, RowParts};
pub use next::{Look, Reach, looks_left, rank};
pub use posterior::{Posterior, weigh};
pub use random::Random;
