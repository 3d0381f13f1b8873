//! What it is worth: the mixture of the candidates' bands, so that doubt about the kind widens it.

use super::facts::Facts;
use crate::bands::{Bands, plain};
use crate::guide::Guide;
use crate::sale;
use crate::state::State;
use crate::view::WorthView;

/// The band, or a sentence why there is none.
pub(crate) fn view(guide: &Guide, state: &State, facts: &Facts) -> Result<WorthView, String> {
    let bands = Bands::of(guide, facts, None, &|_| true, &|_, worth| Some(plain(worth)));
    let bands = bands.ok_or_else(|| "No figures for pieces like this one in the guide.".to_string())?;
    Ok(WorthView {
        half: bands.between(0.25, 0.75),
        eight: bands.between(0.10, 0.90),
        quantiles: [0.10, 0.25, 0.50, 0.75, 0.90].map(|q| bands.mixture.quantile(q)),
        besides: sale::besides(guide, state, facts),
        basis: format!(
            "For a sound, typical, complete example; money of {}, {}. Price evidence, not an appraisal: insurance and tax \
             need a qualified one.",
            bands.money_of(),
            bands.basis.phrase()
        ),
        currency: bands.currency.code().to_string(),
    })
}
