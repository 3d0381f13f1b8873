//! The one place that asks what year it is.

/// This year, by the device.
#[must_use]
pub fn this_year() -> i16 {
    i16::try_from(js_sys::Date::new_0().get_full_year()).unwrap_or(2100)
}
