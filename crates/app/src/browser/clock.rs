//! The one place that asks what time it is, and for what nobody can foresee.

/// This year, by the device.
#[must_use]
pub fn this_year() -> i16 {
    i16::try_from(js_sys::Date::new_0().get_full_year()).unwrap_or(2100)
}

/// Days since 1 January 1970, by the device's own time: a day ends when it ends where one is.
#[must_use]
pub fn today() -> u32 {
    let minutes = js_sys::Date::new_0().get_timezone_offset() as i64;
    u32::try_from((now() - minutes * 60_000).div_euclid(86_400_000)).unwrap_or(0)
}

/// Milliseconds since 1970, UTC.
#[must_use]
pub fn now() -> i64 {
    js_sys::Date::now() as i64
}

/// Sixteen random bytes; all noughts where the browser has none to give.
#[must_use]
pub fn random() -> [u8; 16] {
    let mut bytes = [0; 16];
    if let Some(crypto) = web_sys::window().and_then(|w| w.crypto().ok()) {
        let _filled = crypto.get_random_values_with_u8_array(&mut bytes);
    }
    bytes
}
