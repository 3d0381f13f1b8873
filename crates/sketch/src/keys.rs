//! The keys of a line and the views that draw them. The values and what they show stand in the art.

/// One key of a line.
#[derive(Debug, PartialEq, Eq)]
pub struct Key {
    /// The key as it stands in a line.
    pub name: &'static str,
    /// The views that draw it, parted by spaces; the first is taken when a line asks for the key and names no view.
    pub views: &'static str,
    /// Further views that show it as well when it is said, but not well enough to be asked there.
    pub also: &'static str,
    /// The value that is drawn when nothing is said; empty for a key that takes a number.
    pub usual: &'static str,
}

impl Key {
    /// Whether the view draws it, and it can be asked there.
    pub(crate) fn drawn_in(&self, view: &str) -> bool {
        self.views.split(' ').any(|v| v == view)
    }

    /// Whether the view shows it when it is said.
    pub(crate) fn seen_in(&self, view: &str) -> bool {
        self.drawn_in(view) || self.also.split(' ').any(|v| v == view)
    }
}

/// The place of a key in [`KEYS`].
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
#[repr(u8)]
#[allow(dead_code, reason = "keys that a view draws by itself are found by their place")]
pub(crate) enum At {
    View,
    Body,
    Outline,
    Grip,
    Posts,
    Cover,
    Wire,
    Fixing,
    Latch,
    Join,
    Heel,
    Height,
    Width,
    Walls,
    Sides,
    Holes,
    Screw,
    Top,
    Sole,
    Mark,
    Letters,
    Where,
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
    Company,
    Fingers,
    Heat,
    Size,
    Ask,
}

/// How many keys there are.
pub(crate) const COUNT: usize = 40;

/// The smallest and the largest length that `size` takes, mm.
pub const SIZES: (i32, i32) = (10, 400);

const fn key(name: &'static str, views: &'static str, usual: &'static str) -> Key {
    Key { name, views, also: "", usual }
}

const fn also(also: &'static str, key: Key) -> Key {
    Key { also, ..key }
}

/// The views that show a whole iron.
const IRON: &str = "side both end three";

/// All keys, in the order of `At`.
pub static KEYS: [Key; COUNT] = [
    key("view", "", "side"),
    key("body", "side both end three", "flat"),
    key("outline", "sole both three", "one-point"),
    key("grip", "side both grip end three", "bar"),
    key("posts", "side", "two"),
    also(IRON, key("cover", "grip", "bare")),
    key("wire", "grip", "dark"),
    key("fixing", "joint", "one"),
    key("latch", "joint", "full"),
    key("join", "joint", "single"),
    key("heel", "side both three", "square"),
    key("height", "side", "low"),
    key("width", "sole", "normal"),
    key("walls", "end three", "sloping"),
    key("sides", "side both three", "plain"),
    key("holes", "grip", "none"),
    key("screw", "screw", "slot"),
    key("top", "side both end three", "one-piece"),
    key("sole", "sole both three", "smooth"),
    also("both three", key("mark", "mark", "none")),
    key("letters", "mark", "raised"),
    key("where", "where", "top"),
    also(IRON, key("finish", "material", "bare")),
    key("surface", "surface", "smooth"),
    key("wear", "edge", "crisp"),
    key("inside", "cut", "solid"),
    key("seam", "seam", "none"),
    key("magnet", "magnet", "holds"),
    key("heft", "heft", "light"),
    also(IRON, key("material", "material", "iron")),
    key("colour", "material", "grey"),
    key("cord", "end side both three", "none"),
    key("vents", "side both three", "none"),
    key("chimney", "side both three", "none"),
    also("side both", key("door", "end three", "none")),
    key("company", "company", "alone"),
    key("fingers", "grip", "whole"),
    key("heat", "heat", "clear"),
    key("size", "card both three", ""),
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
            (At::Walls, "walls"),
            (At::Where, "where"),
            (At::Door, "door"),
            (At::Fingers, "fingers"),
            (At::Heat, "heat"),
            (At::Size, "size"),
            (At::Ask, "ask"),
        ] {
            assert_eq!(KEYS[at as usize].name, name);
        }
    }
}
