//! What becomes of the store, in words a person can act on.

/// The store of this device.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub enum Store {
    /// It is being opened.
    #[default]
    Opening,
    /// It can be read and written.
    Open,
    /// It was written by a newer edition: it is read only.
    Newer,
    /// It cannot be used at all.
    Refused,
}

/// What can fail, by the name that the browser gives it.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Failure {
    /// There is no room.
    Full,
    /// Another window of a newer edition wants to change the store.
    Closed,
    /// Anything else, with the browser's word for it.
    Other(String),
}

impl Failure {
    /// By the name of the browser's error.
    #[must_use]
    pub fn named(name: &str) -> Failure {
        match name {
            "QuotaExceededError" => Failure::Full,
            "InvalidStateError" => Failure::Closed,
            other => Failure::Other(other.chars().filter(char::is_ascii_alphanumeric).take(40).collect()),
        }
    }

    pub(crate) fn says(&self) -> String {
        match self {
            Failure::Full => "Not saved: this device has no room left for it. Nothing that was saved before is touched. \
                              Make room on the device, or export the cabinet and take photographs out, then save again."
                .to_string(),
            Failure::Closed => "Not saved: this window was left behind by a newer edition. What you typed still stands \
                                here; load the page again and it comes back."
                .to_string(),
            Failure::Other(word) => format!(
                "Not saved: the store of this browser failed ({word}). Nothing that was saved before is touched. Try \
                 again; if it fails again, export the cabinet and load the page anew."
            ),
        }
    }
}

impl Store {
    /// What must be said of it, if anything.
    pub(crate) fn says(&self) -> Option<&'static str> {
        Some(match self {
            Store::Opening | Store::Open => return None,
            Store::Newer => {
                "This cabinet was written by a newer edition of Pressmark. Here it can be read, searched and exported, and \
                 nothing can be changed. Load the page again with a connection to get the newer edition."
            }
            Store::Refused => {
                "This browser keeps nothing for this page: a private window, a setting or a frame in another site forbids \
                 it. A cabinet can be looked at here and not kept."
            }
        })
    }
}

/// What is known of the room on this device.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub struct Room {
    /// Whether the browser has promised not to clear it away by itself; nothing while it is not known.
    pub lasting: Option<bool>,
    /// Kilobytes in use.
    pub used: u64,
    /// Kilobytes that there may be.
    pub most: u64,
}

impl Room {
    /// In sentences.
    pub(crate) fn says(&self) -> Vec<String> {
        let mut out = Vec::new();
        match self.lasting {
            Some(true) => out.push("This browser has promised not to clear the cabinet away by itself.".to_string()),
            Some(false) => out.push(
                "This browser has not promised to keep the cabinet: when the device runs short of room, or after a crash, it may clear it away."
                    .to_string(),
            ),
            None => {}
        }
        if self.most > 0 {
            out.push(format!("In use: {}. Room for the page in all: {}.", size(self.used), size(self.most)));
        }
        if self.most > 0 && self.used.saturating_mul(10) > self.most.saturating_mul(8) {
            out.push("The room is nearly used up. Export the cabinet before you add more.".to_string());
        }
        out
    }
}

/// Kilobytes in words.
pub(crate) fn size(kilobytes: u64) -> String {
    match kilobytes {
        0..1_000 => format!("{kilobytes} kB"),
        1_000..10_000_000 => format!("{} MB", kilobytes / 1_000),
        _ => format!("{} GB", kilobytes / 1_000_000),
    }
}

/// The honest sentence about phones that forget.
pub(crate) const FORGETS: &str = "The cabinet is kept on this device and nowhere else. If you clear the data of this site, use a private window, or, on \
     an iPhone without Pressmark on the home screen, do not open it for a week, it can be lost. Export a copy and keep it \
     somewhere else.";
