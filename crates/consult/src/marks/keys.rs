//! What is typed by keys: the notation, and the diamond of the British mark.

/// A diamond mark while it is being entered.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Diamond {
    /// The place that the next key fills, by index into [`Corner::ALL`].
    pub at: usize,
    /// What stands in each place; empty for not entered, `?` for lost.
    pub holds: [String; 5],
}

/// A place in the diamond.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Corner {
    /// The circle at the top: the class of material.
    Class,
    /// The corner under it.
    Top,
    /// The left corner.
    Left,
    /// The right corner.
    Right,
    /// The bottom corner.
    Bottom,
}

impl Corner {
    /// In the order in which a person reads them.
    pub const ALL: [Corner; 5] = [Corner::Class, Corner::Top, Corner::Left, Corner::Right, Corner::Bottom];

    /// As the notation calls it.
    #[must_use]
    pub fn word(self) -> &'static str {
        match self {
            Corner::Class => "class",
            Corner::Top => "top",
            Corner::Left => "left",
            Corner::Right => "right",
            Corner::Bottom => "bottom",
        }
    }

    /// As a person is asked for it.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Corner::Class => "in the circle",
            Corner::Top => "in the top corner",
            Corner::Left => "in the left corner",
            Corner::Right => "in the right corner",
            Corner::Bottom => "in the bottom corner",
        }
    }
}

impl Diamond {
    /// The place that the next key fills.
    #[must_use]
    pub fn corner(&self) -> Corner {
        Corner::ALL.get(self.at).copied().unwrap_or(Corner::Class)
    }

    /// The keys for the place: the numerals of the classes for the circle, letters and figures for the corners; last the
    /// one for what is lost.
    #[must_use]
    pub fn keys(&self) -> Vec<String> {
        let mut keys: Vec<String> = match self.corner() {
            Corner::Class => ["I", "II", "III", "IV", "V"].map(String::from).to_vec(),
            _ => ('A'..='Z').chain('0'..='9').map(String::from).collect(),
        };
        keys.push("?".to_string());
        keys
    }

    /// A key. Two figures make a number; a place that is full hands on to the next empty one.
    pub(crate) fn press(&mut self, key: &str) {
        let figure = |text: &str| !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
        let Some(holds) = self.holds.get_mut(self.at).filter(|_| key.len() <= 3) else { return };
        if figure(key) && figure(holds) && holds.len() == 1 {
            holds.push_str(key);
        } else {
            *holds = key.to_string();
        }
        if figure(holds) && holds.len() < 2 {
            return;
        }
        if let Some(next) = self.holds.iter().position(String::is_empty) {
            self.at = next;
        }
    }

    /// The notation: `diamond class I top E left E right 31 bottom 2`. Empty places count as lost.
    #[must_use]
    pub fn notation(&self) -> String {
        let mut text = String::from("diamond");
        for (corner, holds) in Corner::ALL.iter().zip(&self.holds) {
            let holds = if holds.is_empty() { "?" } else { holds };
            text.push_str(&format!(" {} {holds}", corner.word()));
        }
        text
    }
}
