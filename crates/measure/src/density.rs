//! Density from two weighings: in air, and hanging in water; or in air, and what the bowl of water gains.
//!
//! A scale shows W = m (1 - a/r) / (1 - a/c), with air a, piece r and the weights c that it was set with. For the hanging
//! piece water stands in the place of the first a. Both ways D, what is displaced, is the same, c falls out, and
//! r = a + (w - a) W / D (the formula of the makers of balances). A scale that shows too much or too little by a share does
//! no harm, for the share falls out too.

use crate::fine::FineMass;
use crate::instrument::{combined, of_half_width, of_step};
use crate::water::{AIR, Celsius, in_a_bowl};

/// What was weighed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Weighed {
    /// In air, and hanging in water from the scale without touching the bowl.
    Hanging {
        /// In air.
        air: FineMass,
        /// In water.
        water: FineMass,
    },
    /// In air, and by how much a bowl of water on the scale gains when the piece hangs in it from the hand.
    Displaced {
        /// In air.
        air: FineMass,
        /// What the bowl gains.
        gain: FineMass,
    },
}

/// The smallest step that the scale shows.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Scale {
    /// Above zero.
    pub step: FineMass,
}

/// A density and its standard uncertainty, kg/m3 (a thousandth of a g/cm3), both rounded; the uncertainty up.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Density {
    /// Of the whole piece, with all that is hollow or of wood in it.
    pub value: u32,
    /// Standard uncertainty.
    pub u: u32,
}

/// Why there is no density.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Unweighed {
    /// A reading is nothing, or more than 20 kg; or the scale has no step.
    NoReading,
    /// It weighs no less in water, or displaces more than it weighs: it floats, or readings were exchanged.
    Floats,
    /// What is displaced is less than five times its own uncertainty (practice): take a finer scale.
    TooCoarse,
    /// The water is outside 0 to 40 degrees Celsius.
    Temperature,
}

/// Bubbles, and the pull of the water at the thread, in grams: half width, practice.
const BUBBLES: f64 = 0.03;

impl Scale {
    /// Standard uncertainty of a reading in grams: the step itself, and as much again for a scale that does not come back
    /// to the same figure (practice).
    fn uncertainty(self) -> f64 {
        combined(&[of_step(self.step.grams()), of_half_width(self.step.grams())])
    }
}

/// The density of a piece weighed in air and in water of some temperature; without one, of a room.
///
/// # Errors
/// Why the readings give none.
pub fn density(weighed: Weighed, scale: Scale, at: Option<Celsius>) -> Result<Density, Unweighed> {
    let (air, second) = match weighed {
        Weighed::Hanging { air, water } => (air, water),
        Weighed::Displaced { air, gain } => (air, gain),
    };
    let sound = |m: FineMass| m <= FineMass::HEAVIEST;
    if !sound(air) || !sound(second) || air.0 == 0 || scale.step.0 == 0 || !sound(scale.step) {
        return Err(Unweighed::NoReading);
    }
    if at.is_some_and(|at| !Celsius::RANGE.contains(&at.0)) {
        return Err(Unweighed::Temperature);
    }
    let read = scale.uncertainty();
    let in_water = combined(&[read, of_half_width(BUBBLES)]);
    let w = air.grams();
    // What is displaced, how it follows from each weighing, and its own uncertainty.
    let (d, by_air, u_d) = match weighed {
        Weighed::Hanging { .. } => (w - second.grams(), 1.0, combined(&[read, in_water])),
        Weighed::Displaced { .. } => (second.grams(), 0.0, in_water),
    };
    if d >= w || (d <= 0.0 && by_air > 0.0) {
        return Err(Unweighed::Floats);
    }
    if d < 5.0 * u_d {
        return Err(Unweighed::TooCoarse);
    }
    let (water, u_water) = in_a_bowl(at);
    let buoyant = water - AIR.0;
    // GUM 5.1.2: the parts are the derivatives of r times the uncertainties; W also stands in D when the piece hangs.
    let parts = [
        buoyant * (1.0 / d - by_air * w / (d * d)) * read,
        buoyant * w / (d * d) * in_water,
        w / d * u_water,
        (1.0 - w / d) * of_half_width(AIR.1),
    ];
    let value = AIR.0 + buoyant * w / d;
    Ok(Density { value: libm::round(value) as u32, u: libm::ceil(combined(&parts)) as u32 })
}

#[cfg(test)]
mod tests {
    use super::*;

    fn hanging(air: u32, water: u32, step: u32, at: i16) -> Result<Density, Unweighed> {
        let weighed = Weighed::Hanging { air: FineMass(air), water: FineMass(water) };
        density(weighed, Scale { step: FineMass(step) }, Some(Celsius(at)))
    }

    #[test]
    fn worked_examples() {
        // A school book's ancient coin: 8.630 g, 7.800 g in water of 1.000 g/cm3, hence 10.4 (OpenStax, College Physics,
        // chapter 11). Air takes 11 of 10 398.
        let coin = hanging(863, 780, 1, 40).expect("a density");
        assert!((10_350..10_450).contains(&coin.value), "{coin:?}");
        // A university's course: an alloy of 44.82 g weighs 39.16 g in water of 21.8 degrees, hence 7.90 (report of 2025,
        // means of three weighings).
        let alloy = hanging(4482, 3916, 1, 218).expect("a density");
        assert!((7_850..7_950).contains(&alloy.value), "{alloy:?}");
    }

    #[test]
    fn what_gives_no_density() {
        // By the definition of each.
        for (air, water, step, at, why) in [
            (0, 0, 10, 200, Unweighed::NoReading),
            (20_000, 17_000, 0, 200, Unweighed::NoReading),
            (2_000_001, 17_000, 10, 200, Unweighed::NoReading),
            (20_000, 20_000, 10, 200, Unweighed::Floats),
            (20_000, 21_000, 10, 200, Unweighed::Floats),
            (20_000, 0, 10, 200, Unweighed::Floats),
            (2_000, 1_700, 100, 200, Unweighed::TooCoarse),
            (20_000, 17_000, 10, 401, Unweighed::Temperature),
            (20_000, 17_000, 10, -1, Unweighed::Temperature),
        ] {
            assert_eq!(hanging(air, water, step, at), Err(why), "{air} {water} {step} {at}");
        }
        for (gain, why) in
            [(0, Unweighed::TooCoarse), (2_000, Unweighed::Floats), (2_000_001, Unweighed::NoReading)]
        {
            let weighed = Weighed::Displaced { air: FineMass(2_000), gain: FineMass(gain) };
            assert_eq!(density(weighed, Scale { step: FineMass(10) }, None), Err(why), "{gain}");
        }
    }

    #[test]
    fn what_is_displaced_says_the_same() {
        let scale = Scale { step: FineMass(10) };
        let of = |weighed| density(weighed, scale, None).expect("a density");
        let hanging = of(Weighed::Hanging { air: FineMass(20_000), water: FineMass(17_200) });
        let displaced = of(Weighed::Displaced { air: FineMass(20_000), gain: FineMass(2_800) });
        assert_eq!(hanging.value, displaced.value);
        // One reading of water instead of a difference of two: never less certain.
        assert!(displaced.u <= hanging.u);
    }
}
