//! Measurements as dimensions.

use super::json::{Json, text};
use super::vocabulary::{DIMENSIONS, UNITS, find, reference};
use crate::record::{Measurement, decimal};

/// A measurement as a dimension, when its unit has an identity.
pub(super) fn dimension(m: &Measurement) -> Option<Json> {
    let value = m.value?;
    let unit = find(&UNITS, value.unit.word())?;
    let mut members = vec![("type", text("Dimension")), ("value", Json::Number(value.number()))];
    if let Some(u) = m.uncertainty.filter(|u| u.unit == value.unit) {
        let limit = |n: i64| Json::Number(decimal(n, 6, 0));
        members.push(("lower_value_limit", limit(value.millionths.saturating_sub(u.millionths))));
        members.push(("upper_value_limit", limit(value.millionths.saturating_add(u.millionths))));
    }
    let sort = find(&DIMENSIONS, &m.what).map(|word| reference(word, "Type", None));
    members.push(("classified_as", Json::List(sort.into_iter().collect())));
    members.push(("unit", reference(unit, "MeasurementUnit", None)));
    if !m.what.is_empty() {
        members.push(("_label", text(m.what.as_str())));
    }
    Some(Json::Object(members))
}
