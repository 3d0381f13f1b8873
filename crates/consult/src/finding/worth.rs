//! What it is worth: the mixture of the candidates' bands, so that doubt about the kind widens it.

use super::facts::Facts;
use crate::bands::{Bands, plain};
use crate::guide::Guide;
use crate::sale;
use crate::state::State;
use crate::view::WorthView;
use appraise::{round_down, round_up};

/// The band, or a sentence why there is none.
pub(crate) fn view(guide: &Guide, state: &State, facts: &Facts) -> Result<WorthView, String> {
    let bands = Bands::of(guide, facts, None, &|_| true, &|_, worth| Some(plain(worth)));
    let bands = bands.ok_or_else(|| "No figures for pieces like this one in the guide.".to_string())?;
    let code = bands.currency.code().to_string();
    let quantiles = [0.10, 0.25, 0.50, 0.75, 0.90].map(|q| bands.mixture.quantile(q));
    let whole = |low: i64, high: i64| format!("{} to {} {code}", round_down(low) / 100, round_up(high) / 100);
    Ok(WorthView {
        half: whole(quantiles[1], quantiles[3]),
        eight: whole(quantiles[0], quantiles[4]),
        quantiles,
        besides: sale::besides(guide, state, facts),
        basis: format!(
            "For a sound, typical, complete example; money of {}, {}. Price evidence, not an appraisal: insurance and tax \
             need a qualified one.",
            bands.money_of(),
            bands.basis.phrase()
        ),
        currency: code,
    })
}
