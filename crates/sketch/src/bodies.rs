//! Bodies from the side and what belongs to them: heels, tops, vents, chimneys, cords. Sole on y = 90, toe right.

/// How a body is drawn and where the grip stands on it.
pub(crate) struct Shell {
    /// The outline after the heel when `heel`, else all of it.
    pub(crate) art: &'static str,
    /// Whether the outline begins with a heel of choice.
    pub(crate) heel: bool,
    /// Height of the deck on which the grip stands, drawing units from the top.
    pub(crate) deck: i32,
    /// The middle of the grip.
    pub(crate) mid: i32,
    /// Scale of the grip, per mille; 0 where the body is the grip too and takes no other.
    pub(crate) scale: i32,
    /// What is usual with this body: places in the tables of grip, vents, chimney, cord.
    pub(crate) usual: [u8; 4],
    /// Drawn over the outline.
    pub(crate) over: &'static str,
}

const fn shell(art: &'static str, heel: bool, place: [i32; 3], usual: [u8; 4], over: &'static str) -> Shell {
    Shell {
        art,
        heel,
        deck: place[0],
        mid: place[1],
        scale: place[2],
        usual,
        over,
    }
}

const BAR: u8 = 0;
const WOOD: u8 = 7;
const POSTS: u8 = 8;
const MOULDED: u8 = 16;
const LOOP: u8 = 13;
const FREE: u8 = 20;

/// In the order of the values of `body`.
pub(crate) static BODIES: [Shell; 23] = [
    // flat
    shell(
        "L128 60Q162 62 187 90Z",
        true,
        [60, 80, 1000],
        [BAR, 0, 0, 0],
        "tM36 82H172",
    ),
    // box
    shell(
        "L136 44Q166 48 187 90Z",
        true,
        [44, 82, 760],
        [POSTS, 0, 0, 0],
        "bM10 50H154Q148 44 136 44H16Q10 44 10 50ZtM20 82H178bR8 54 8 31 1.5lM8 70H4",
    ),
    // ember
    shell(
        "L136 44Q166 48 187 90Z",
        true,
        [44, 78, 760],
        [WOOD, 1, 1, 0],
        "bM11 55H158Q150 44 136 44H18Q11 44 11 55ZtM20 84H180bO12 55 3.5lM150 55V62",
    ),
    // hood
    shell(
        "M18 90V77H173Q181 81 187 90Z",
        false,
        [44, 82, 760],
        [WOOD, 0, 0, 0],
        "bM12 71Q10 46 28 44H124Q152 48 170 71ZtM22 65H154",
    ),
    // pan
    shell(
        "M100 56H190Q192 88 174 90H116Q98 88 100 56Z",
        false,
        [56, 145, 0],
        [FREE, 0, 0, 0],
        "bM96 50H194V57H96ZbM101 66L74 58L72 66L102 75ZbM74 56L20 42Q10 40 9 46Q8 52 18 55L72 68ZtM112 83H179",
    ),
    // block
    shell(
        "H170Q188 62 191 90Z",
        true,
        [56, 96, 1000],
        [4, 0, 0, 0],
        "tM20 82H184",
    ),
    // sleeve
    shell(
        "L112 66Q150 68 192 90Z",
        true,
        [66, 70, 1000],
        [WOOD, 0, 0, 0],
        "tM20 84H174",
    ),
    // thin
    shell(
        "M18 86V66Q18 60 26 60H128Q156 62 178 86Z",
        false,
        [60, 82, 1000],
        [10, 0, 0, 0],
        "bR10 85 180 5 2.5tM26 78H150M26 68H142",
    ),
    // electric
    shell(
        "M14 82Q10 48 52 44H112Q156 48 184 82Z",
        false,
        [46, 84, 780],
        [MOULDED, 0, 0, 2],
        "bM12 82H187L191 90H12ZtM28 74H160",
    ),
    // tank
    shell(
        "M46 90V52H140Q170 56 187 90Z",
        false,
        [52, 100, 860],
        [WOOD, 0, 0, 0],
        "bR6 42 31 32 9bR15 36 11 6 1lM37 62H46M37 67H46hO62 76 3O76 76 3O90 76 3O104 76 3O118 76 3O132 76 3tM52 84H180",
    ),
    // gas
    shell(
        "L136 48Q166 52 187 90Z",
        true,
        [48, 84, 840],
        [WOOD, 0, 0, 0],
        "bM16 62H9L7 60V58H4V72H7V70L9 68H16ZhO50 74 3O66 74 3O82 74 3O98 74 3O114 74 3O130 74 3tM20 82H180",
    ),
    // swan
    shell(
        "M28 78C14 62 8 54 10 44C34 50 62 40 84 52C108 62 122 56 124 42C126 30 116 28 114 38Q102 34 92 32Q104 12 122 14C142 16 146 38 144 52C142 68 136 76 128 78Z",
        false,
        [60, 80, 0],
        [FREE, 0, 0, 0],
        "kO117 24 1.5tM34 62C50 54 70 60 78 70M30 54C44 52 54 54 60 58bM18 90V78H150Q170 80 186 90Z",
    ),
    // animal
    shell(
        "M22 76C12 56 24 44 44 46C74 38 96 44 110 42C114 34 118 28 122 20L130 28H140L148 20L152 32C158 46 150 52 142 54C142 60 148 66 164 68Q172 70 170 76Z",
        false,
        [60, 80, 0],
        [FREE, 0, 0, 0],
        "kO133 37 1.5O145 37 1.5tM48 74C44 60 62 54 74 66M126 60C122 66 128 70 138 70M137 43Q140 46 143 43bM14 90V76H170Q182 80 188 90Z",
    ),
    // rocker
    shell(
        "M30 50Q30 44 36 44H144Q150 44 150 50Q90 106 30 50Z",
        false,
        [44, 90, 760],
        [POSTS, 0, 0, 0],
        "bM16 90V81H164V90Z\
         lM44 57V65M56 60V71M68 62V75M80 63V77M92 63V77M104 62V76M116 60V73M128 58V68M138 55V60\
         tM26 81V85M38 81V85M50 81V85M62 81V85M74 81V85M86 81V85M98 81V85M110 81V85M122 81V85M134 81V85M146 81V85M158 81V85",
    ),
    // crank
    shell(
        "M14 90Q14 82 24 82H150Q160 82 160 90Z",
        false,
        [60, 80, 0],
        [FREE, 0, 0, 0],
        "bM24 82V18Q24 10 32 10H38Q44 10 44 18V82ZbR44 24 92 18 2bR44 46 92 18 2bM136 82V18H146V82Z\
         lM54 24V42M63 24V42M72 24V42M81 24V42M90 24V42M99 24V42M108 24V42M117 24V42M126 24V42\
         M54 46V64M63 46V64M72 46V64M81 46V64M90 46V64M99 46V64M108 46V64M117 46V64M126 46V64\
         lM146 33H166V64H174bR174 59 20 10 5",
    ),
    // barrel
    shell(
        "M98 90L102 34H112L116 90Z",
        false,
        [20, 100, 0],
        [FREE, 0, 0, 0],
        "bM66 90Q68 83 84 82H130Q146 83 148 90ZbM64 12H156Q190 14 190 24Q190 34 156 36H64ZhE64 24 5 12lM60 24H34bR8 18 28 12 6",
    ),
    // egg
    shell(
        "M92 90L96 60H104L108 90Z",
        false,
        [20, 100, 0],
        [FREE, 0, 0, 0],
        "bM56 90Q58 82 76 82H124Q142 82 144 90ZbM100 6C116 6 128 22 128 40C128 54 116 64 100 64C84 64 72 54 72 40C72 22 84 6 100 6ZtM80 42C80 30 86 20 92 16",
    ),
    // ball
    shell(
        "M128 60L78 42L80 36L132 52Z",
        false,
        [20, 100, 0],
        [FREE, 0, 0, 0],
        "bM80 34L22 14Q12 11 9 18Q7 25 16 29L76 46ZbO156 60 29tM138 56C140 46 148 40 156 38",
    ),
    // glass
    shell(
        "M36 70C36 52 64 48 100 48C136 48 164 52 164 70C164 86 132 90 100 90C68 90 36 86 36 70Z",
        false,
        [20, 100, 0],
        [FREE, 0, 0, 0],
        "bM90 52L92 28C84 24 82 20 82 14C82 8 90 6 100 6C110 6 118 8 118 14C118 20 116 24 108 28L110 52Q100 56 90 52ZtM48 68C52 60 66 56 80 56M90 16C90 12 94 11 98 11",
    ),
    // hat
    shell(
        "M10 62Q10 58 16 58H184Q190 58 190 62C170 80 136 90 100 90C64 90 30 80 10 62Z",
        false,
        [58, 100, 1000],
        [WOOD, 0, 0, 0],
        "tM30 66C60 82 140 82 170 66",
    ),
    // stand
    shell(
        "M14 90L20 62H30L22 90ZM92 90L94 62H104L106 90ZM172 90L166 62H156L164 90Z",
        false,
        [20, 100, 0],
        [FREE, 0, 0, 0],
        "bM12 62Q10 44 16 44Q22 44 22 54H176Q176 46 182 46Q188 46 188 54V62ZtM30 58H170",
    ),
    // token
    shell(
        "M62 74V56Q62 52 68 52H106Q128 54 142 74Z",
        false,
        [52, 88, 560],
        [LOOP, 0, 0, 0],
        "tM66 68H134iM10 92L46 40H54M150 40H156L190 92M10 92H190tM40 80H160M22 74.5H34M166 74.5H178",
    ),
    // charm
    shell(
        "M46 88V66Q46 60 54 60H112Q138 64 156 88Z",
        false,
        [60, 82, 640],
        [LOOP, 0, 0, 0],
        "tM52 80H146bO82 16 13E82 16 -9 9",
    ),
];

/// The back of a body with a deck on y = 60: begins the outline, from the sole up to the deck.
pub(crate) static HEELS: [&str; 5] = [
    "M16 90V66Q16 60 22 60",
    "M56 90Q14 88 12 66Q12 60 20 60",
    "M8 90L30 60",
    "M28 90Q2 76 24 60",
    "M4 90Q14 66 34 60",
];

/// Over the deck, in the place of the grip's foot.
pub(crate) static TOPS: [&str; 4] = [
    "nM-46 7H54",
    "bM-66 1V-5Q-66 -8 -62 -8H48Q54 -8 60 1ZbR-5 -13 10 5 1lM0 -13V-16",
    "bM-60 1V-8H44Q56 -8 66 1ZbO-62 -4 6aM64 -6Q66 -18 54 -28M65 -28L54 -28L56 -17",
    "bM-58 2Q-52 -14 0 -14Q46 -14 58 2Z",
];

/// Low on the side.
pub(crate) static VENTS: [&str; 5] = [
    "aM77 63L91 77M91 63L77 77",
    "hO34 72 4O54 72 4O74 72 4O94 72 4O114 72 4O134 72 4O154 73 4",
    "hR32 62 6 18 3R48 62 6 18 3R64 62 6 18 3R80 62 6 18 3R96 62 6 18 3R112 62 6 18 3R128 62 6 18 3R144 64 6 16 3",
    "hM18 57H156L158 62Q147 84 136 62Q125 84 114 62Q103 84 92 62Q81 84 70 62Q59 84 48 62Q37 84 26 62H18Z",
    "bR5 62 12 18 4hO11 71 3lM5 80L9 86",
];

/// At the front of the lid.
pub(crate) static CHIMNEYS: [&str; 4] = [
    "aM157 21L171 35M171 21L157 35",
    "bM138 50C158 50 158 38 157 24L152 10H182L176 24C178 50 168 62 148 62ZhE167 10 15 4",
    "bM140 48V32L134 26H162L156 32V48ZhE148 25 14 4",
    "bM140 48C140 36 138 32 140 22C142 10 164 8 168 20L174 28L168 31C170 38 166 40 158 39L160 52ZkO160 22 1.5hM167 32L162 34",
];

/// At the heel of a smooth hood.
pub(crate) static CORDS: [&str; 5] = [
    "aM6 50L18 62M18 50L6 62",
    "lM17 64H5M17 72H5",
    "bR7 60 12 14 3lM8 66C2 52 4 34 16 28C26 22 24 12 12 8M5 52L10 50M5 44L10 43M7 36L13 38M14 29L19 33M20 20L24 24",
    "bR7 60 12 14 3lM8 65C0 50 4 32 16 26C24 20 22 12 12 6M8 69C6 50 8 38 18 31C30 22 26 12 14 6",
    "bR3 58 13 18 3lM8 58C2 44 6 30 16 24",
];
