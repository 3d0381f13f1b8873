//! The keys of a line and the views that draw them. The values and what they show stand in the art.

/// One key of a line.
#[derive(Debug, PartialEq, Eq)]
pub struct Key {
    /// The key as it stands in a line.
    pub name: &'static str,
    /// The views that draw it, parted by spaces; the first is taken when a line asks for the key and names no view.
    pub views: &'static str,
    /// The value that is drawn when nothing is said; empty for a key that takes a number.
    pub usual: &'static str,
}

impl Key {
    /// Whether the view draws it.
    pub(crate) fn drawn_in(&self, view: &str) -> bool {
        self.views.split(' ').any(|v| v == view)
    }
}

/// The place of a key in [`KEYS`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u8)]
pub(crate) enum At {
    View,
    Body,
    Outline,
    Grip,
    Fixing,
    Heel,
    Holes,
    Screw,
    Top,
    Sole,
    Mark,
    Letters,
    Finish,
    Surface,
    Wear,
    Inside,
    Seam,
    Magnet,
    Heft,
    Material,
    Colour,
    Cord,
    Vents,
    Chimney,
    Door,
    Size,
    Ask,
}

/// How many keys there are.
pub(crate) const COUNT: usize = 27;

/// The smallest and the largest length that `size` takes, mm.
pub const SIZES: (i32, i32) = (10, 400);

const fn key(name: &'static str, views: &'static str, usual: &'static str) -> Key {
    Key { name, views, usual }
}

/// All keys, in the order of `At`.
pub static KEYS: [Key; COUNT] = [
    key("view", "", "side"),
    key("body", "side both", "flat"),
    key("outline", "sole both", "one-point"),
    key("grip", "side both grip", "bar"),
    key("fixing", "joint", "one"),
    key("heel", "side both", "square"),
    key("holes", "grip", "none"),
    key("screw", "screw", "slot"),
    key("top", "side both", "one-piece"),
    key("sole", "sole both", "smooth"),
    key("mark", "mark", "none"),
    key("letters", "mark", "raised"),
    key("finish", "material", "bare"),
    key("surface", "surface", "smooth"),
    key("wear", "edge", "crisp"),
    key("inside", "cut", "solid"),
    key("seam", "seam", "none"),
    key("magnet", "magnet", "holds"),
    key("heft", "heft", "light"),
    key("material", "material", "iron"),
    key("colour", "material", "grey"),
    key("cord", "end side both", "none"),
    key("vents", "side both", "none"),
    key("chimney", "side both", "none"),
    key("door", "end", "none"),
    key("size", "card both", ""),
    key("ask", "", "none"),
];

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_and_their_places_agree() {
        for (at, name) in [
            (At::View, "view"),
            (At::Grip, "grip"),
            (At::Wear, "wear"),
            (At::Magnet, "magnet"),
            (At::Door, "door"),
            (At::Ask, "ask"),
        ] {
            assert_eq!(KEYS[at as usize].name, name);
        }
    }
}
