//! What the room says, and what it counts on.

use picture::outline::Uncut;
use picture::photo::Refused;
use units::Length;

/// Standard uncertainty of a point that was looked at through the loupe, hundredths of a pixel. Practice: the loupe shows
/// a pixel as three of the screen's or more, an edge is blurred over two.
pub(super) const TAP: i32 = 150;

/// Radius of a patch, tenths of a millimetre. Practice: a fingertip on the picture of a small iron.
pub(super) const PATCH: i32 = 40;

/// Where the measured part lies: words, and its height above the card from least to greatest, tenths of a millimetre.
/// Practice: the heights of small irons.
pub(super) const LIES: [(&str, [i32; 2]); 5] = [
    ("The card is level with what I measure", [0, 10]),
    ("The piece stands on its sole, the card beside it", [0, 120]),
    ("Sole up, the card on the table", [150, 700]),
    ("On its side or its heel, the card on the table", [50, 400]),
    ("I do not know", [0, 600]),
];

/// The edges of a card, in turn.
pub(super) const EDGES: [&str; 4] = ["first", "second", "third", "fourth"];

pub(super) const ADVICE: [&str; 4] = [
    "Lay the piece on something plain, sole up or on its side, and a bank card close alongside. Best of all, prop the card \
     up until it is level with the sole.",
    "Hold the phone straight above, about two hand spans away, so that card and piece lie near the middle.",
    "Any card of the usual size will do: cover its number. A coin is the lesser way.",
    "The picture stays on this phone. Nothing of it is sent anywhere.",
];

pub(super) const NOT_RECAST: &str = "A photo never speaks for or against a recast: that is a matter of one part in a \
                                     hundred, and wants calipers.";

/// Why a photograph tells nothing, and what helps.
pub(super) fn refused(why: Refused) -> String {
    match why {
        Refused::TapsTooNear(edge) => {
            let edge = EDGES.get(usize::from(edge)).copied().unwrap_or_default();
            return format!(
                "The two points of the {edge} edge lie too near to each other. Put one near each end of that edge."
            );
        }
        Refused::NoFourCorners => {
            "These points make no card. Go round it in turn, two points on each edge, well apart."
        }
        Refused::CutOff => "A part of it lies outside of the picture. Take one that shows all of it.",
        Refused::TooSmall => "It is too small in this picture. Go nearer and take another one.",
        Refused::TooOblique => "The camera looked too much from the side. Take one from straight above.",
        Refused::NotFlat => {
            "This is no flat card of the usual size: it may be bent, lifted at one side, of another size, or a point lies \
             astray. Look at each point through the loupe."
        }
        Refused::NotRound => "These points do not lie on a round rim. Spread them evenly round the coin.",
        Refused::Unclear => "These points do not tell where the camera was. Move them, or take another picture.",
        Refused::TooHigh => "The piece stands too near to the camera. Take one from further away.",
        Refused::OffThePlane => "These two points tell no length: both lie in one place, or off the picture.",
        Refused::TooUncertain => {
            "The doubt would be greater than a third of the length. Go nearer, or lay the card closer and level."
        }
    }
    .to_string()
}

/// Why there is no outline, and what helps.
pub(super) fn uncut(why: Uncut) -> &'static str {
    match why {
        Uncut::NoWindow => {
            "The two points lie too far apart or off the picture. Put them on both ends of the sole."
        }
        Uncut::NoGround => {
            "The ground is of many colours, or there is too little of it round the piece. A plain cloth or paper helps."
        }
        Uncut::NoPiece => "Nothing stands out from the ground. Try a lighter or a darker one.",
        Uncut::Touches => {
            "What stands out reaches beyond the piece: a shadow, the card, a second thing. Move it away."
        }
    }
}

/// Tenths of a millimetre in words.
pub(super) fn mm(tenths: i32) -> String {
    Length(u32::try_from(tenths).unwrap_or_default()).in_mm()
}

/// Per mille as a percentage.
pub(super) fn per_cent(mille: i32) -> String {
    format!("{} %", (mille + 5) / 10)
}
