//! What measuring can tell of a piece: what a reading is worth (GUM, JCGM 100:2008), whether it is a casting of a casting,
//! its density from two weighings, its heft, which metals a magnet leaves. Units in, units out. Never in here: trade
//! knowledge (it arrives as a table of metals), sentences, a browser.

mod density;
mod fine;
mod heft;
mod instrument;
mod normal;
mod possible;
mod recast;
mod water;

pub use density::{Density, Scale, Unweighed, Weighed, density};
pub use fine::{FineLength, FineMass};
pub use heft::{Heft, Hefted, expected, heft};
pub use instrument::{Instrument, combined, of_half_width, of_step};
pub use possible::{Caution, Magnet, Possible, Told, before_water, possible};
pub use recast::{Lean, Pair, Reading, Recast, Says, Side, Size, Why, recast};
pub use water::{AIR, Celsius, water};
