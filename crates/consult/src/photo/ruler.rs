//! The ruler on the screen: for an outline on paper or a card, never for an iron. How many millimetres a pixel has no page
//! can know, so it is set by the short side of a card, and that holds for this screen only.

use serde::Serialize;

/// The short side of an ID-1 card, hundredths of a millimetre: ISO/IEC 7810.
const SHORT: i32 = 5398;
/// The bar for it before anybody set it, tenths of a pixel: CSS counts 96 pixels to an inch, whatever the screen. 96 / 25.4 x
/// 53.98 by arithmetic.
const USUAL: i32 = 2040;
/// Least and greatest bar: screens of 50 to 250 pixels to an inch. Practice.
const BARS: [i32; 2] = [1060, 5310];
/// How wide the ruler is drawn, tenths of a pixel.
const WIDE: i32 = 3280;
/// The longest name of a screen.
const LONGEST: usize = 60;

/// The ruler as it was set.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Ruler {
    /// Length of the bar that is as long as the card's short side, tenths of a pixel.
    bar: i32,
    /// The screen it was set for.
    of: Option<String>,
    /// The screen it is shown on: its size, pixel ratio and zoom.
    on: String,
}

impl Default for Ruler {
    fn default() -> Ruler {
        Ruler { bar: USUAL, of: None, on: String::new() }
    }
}

/// The ruler as it is drawn.
#[derive(Debug, Clone, PartialEq, Serialize)]
pub struct RulerView {
    /// What to be told of it.
    pub says: String,
    /// Width of the drawing, tenths of a pixel.
    pub wide: i32,
    /// The marks of the millimetres.
    pub marks: String,
    /// Every tenth: where, and its number.
    pub numbers: Vec<(i32, i32)>,
    /// The bar for the card's short side, tenths of a pixel.
    pub bar: i32,
}

impl Ruler {
    /// What is kept on the device.
    pub(crate) fn text(&self) -> String {
        self.of.as_ref().map_or(String::new(), |of| format!("{} {of}", self.bar))
    }

    /// Takes what was kept; what makes no sense is dropped.
    pub(crate) fn read(&mut self, text: &str) {
        let kept = text.split_once(' ').and_then(|(bar, of)| Some((bar.parse().ok()?, of)));
        if let Some((bar, of)) =
            kept.filter(|(bar, of)| (BARS[0]..=BARS[1]).contains(bar) && of.len() <= LONGEST)
        {
            (self.bar, self.of) = (bar, Some(of.to_string()));
        }
    }

    /// The screen is this one now. What was set for another one no longer holds.
    pub(super) fn screen(&mut self, name: &str) {
        self.on = name.chars().filter(|c| !c.is_control()).take(LONGEST).collect();
        if self.of.as_ref().is_some_and(|of| *of != self.on) {
            (self.bar, self.of) = (USUAL, None);
        }
    }

    /// A longer or a shorter bar, by tenths of a pixel.
    pub(super) fn wider(&mut self, by: i32) {
        self.bar = (self.bar + by.clamp(-100, 100)).clamp(BARS[0], BARS[1]);
        self.of = None;
    }

    /// The bar is as long as the card's short side.
    pub(super) fn fits(&mut self) {
        self.of = Some(self.on.clone());
    }

    pub(super) fn view(&self) -> RulerView {
        let at = |mm: i32| (i64::from(mm) * 100 * i64::from(self.bar) / i64::from(SHORT)) as i32;
        let (mut marks, mut numbers) = (String::new(), Vec::new());
        for mm in 0..=200 {
            let x = 60 + at(mm);
            if x > WIDE - 60 {
                break;
            }
            let long = if mm % 10 == 0 {
                300
            } else if mm % 5 == 0 {
                220
            } else {
                140
            };
            marks.push_str(&format!("M{x} 0V{long}"));
            if mm % 10 == 0 {
                numbers.push((x, mm));
            }
        }
        let says = if self.of.is_some() {
            "Set for this screen. It holds until the screen, its pixels or the zoom change."
        } else {
            "Approximate: no page knows how large its pixels are. Hold the short side of a bank card to the lower bar and make \
             the bar as long."
        };
        RulerView { says: says.to_string(), wide: WIDE, marks, numbers, bar: self.bar }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn it_holds_for_one_screen() {
        let mut ruler = Ruler::default();
        ruler.screen("360x740 2000 1000");
        assert!(ruler.view().says.starts_with("Approximate"));
        // 300 pixels for 53.98 mm: ten millimetres are 55.6 (arithmetic).
        ruler.wider(100);
        (0..9).for_each(|_| ruler.wider(100));
        ruler.wider(-40);
        ruler.fits();
        assert_eq!(ruler.bar, 3000);
        let shown = ruler.view();
        assert!(shown.says.starts_with("Set for this screen"));
        assert_eq!(shown.numbers.get(1), Some(&(60 + 555, 10)));
        let mut other = Ruler::default();
        other.read(&ruler.text());
        other.screen("360x740 2000 1000");
        assert_eq!((other.bar, other.of.is_some()), (3000, true));
        // Another pixel ratio.
        other.screen("360x740 3000 1000");
        assert_eq!(other, Ruler { on: other.on.clone(), ..Ruler::default() });
        for bad in ["", "x y", "99999999 a", "1 b", "3000"] {
            let mut ruler = Ruler::default();
            ruler.read(bad);
            assert_eq!(ruler, Ruler::default(), "{bad}");
        }
    }
}
