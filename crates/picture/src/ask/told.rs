//! What a page is told.

use super::words::{MOST_WORDS, Reader, Spot, put_list, put_spots, tenths};
use crate::Point;
use crate::outline::{Contour, Shape, Uncut};
use crate::photo::{Measured, Refused};

/// A length with what it is worth, tenths of a millimetre.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Valued {
    /// The length.
    pub length: i32,
    /// The truth lies from here in 95 cases of 100, rounded down,
    pub low: i32,
    /// to here, rounded up.
    pub high: i32,
    /// Standard uncertainty, rounded up, at least one.
    pub u: i32,
    /// Of it by the height alone.
    pub by_height: i32,
}

/// A sole cut out of the picture.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Outline {
    /// Its line over the picture.
    pub seen: Vec<Spot>,
    /// The same line in tenths of a millimetre from the corner of the box around it, turned so that it lies along x.
    pub true_size: Vec<Spot>,
    /// Width and height of that box, tenths of a millimetre.
    pub size: [i32; 2],
    /// Length along its axis and greatest width across, tenths of a millimetre.
    pub length: i32,
    /// See `length`.
    pub width: i32,
    /// Where it is widest, per mille of the length from the narrower end.
    pub widest: i32,
    /// mm2.
    pub area: i32,
    /// Per mille.
    pub symmetry: i32,
    /// Pointed ends.
    pub points: i32,
    /// Per mille.
    pub convexity: i32,
}

/// An answer.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Told {
    /// A picture has been taken in.
    Opened {
        /// Of the working picture, pixels.
        width: i32,
        /// Of the working picture, pixels.
        height: i32,
        /// Focal length for 35 mm film that the file states, mm; 0 for none.
        equivalent: i32,
        /// Whether the file says where it was taken.
        place: bool,
    },
    /// Where a card may lie.
    Proposed(Option<[Spot; 8]>),
    /// The camera is found.
    Placed {
        /// How far it is above the plane, tenths of a millimetre.
        above: i32,
        /// How far it leans from straight above, tenths of a degree.
        leans: i32,
    },
    /// Why not.
    Refused(Refused),
    /// A length.
    Length(Valued),
    /// The outline.
    Cut(Box<Outline>),
    /// Why there is none.
    Uncut(Uncut),
    /// For each drawn outline: how far this one is from it, and how wide it is for its length, per mille.
    Compared(Vec<[i32; 2]>),
    /// The question made no sense here.
    Nonsense,
}

const REFUSED: [Refused; 10] = [
    Refused::NoFourCorners,
    Refused::CutOff,
    Refused::TooSmall,
    Refused::TooOblique,
    Refused::NotFlat,
    Refused::NotRound,
    Refused::Unclear,
    Refused::TooHigh,
    Refused::OffThePlane,
    Refused::TooUncertain,
];
const UNCUT: [Uncut; 4] = [Uncut::NoWindow, Uncut::NoGround, Uncut::NoPiece, Uncut::Touches];
/// What is said of an edge with its taps too near stands behind the others.
const NEAR: i32 = 20;

impl Told {
    /// As numbers.
    #[must_use]
    pub fn words(&self) -> Vec<i32> {
        let mut words = Vec::new();
        match self {
            Told::Opened { width, height, equivalent, place } => {
                words.extend([1, *width, *height, *equivalent, i32::from(*place)]);
            }
            Told::Proposed(edges) => {
                words.push(2);
                put_spots(&mut words, edges.as_ref().map_or(&[], |e| e.as_slice()));
            }
            Told::Placed { above, leans } => words.extend([3, *above, *leans]),
            Told::Refused(Refused::TapsTooNear(edge)) => words.extend([4, NEAR + i32::from(*edge)]),
            Told::Refused(why) => words.extend([4, place(&REFUSED, why)]),
            Told::Length(v) => words.extend([5, v.length, v.low, v.high, v.u, v.by_height]),
            Told::Cut(o) => {
                words.extend([6, o.size[0], o.size[1], o.length, o.width, o.widest, o.area]);
                words.extend([o.symmetry, o.points, o.convexity]);
                put_list(&mut words, &o.seen);
                put_list(&mut words, &o.true_size);
            }
            Told::Uncut(why) => words.extend([7, place(&UNCUT, why)]),
            Told::Compared(all) => {
                words.extend([8, all.len() as i32]);
                words.extend(all.iter().flatten());
            }
            Told::Nonsense => words.push(9),
        }
        words
    }

    /// Reads numbers, trusting nothing.
    #[must_use]
    pub fn of(words: &[i32]) -> Option<Told> {
        if words.len() > MOST_WORDS {
            return None;
        }
        let mut r = Reader(words);
        let long = 1_000_000;
        let told = match r.number(1, 9)? {
            1 => Told::Opened {
                width: r.number(1, 20_000)?,
                height: r.number(1, 20_000)?,
                equivalent: r.number(0, 65_535)?,
                place: r.number(0, 1)? == 1,
            },
            2 if r.0.is_empty() => Told::Proposed(None),
            2 => {
                let mut edges = [Spot::default(); 8];
                for edge in &mut edges {
                    *edge = r.spot()?;
                }
                Told::Proposed(Some(edges))
            }
            3 => Told::Placed { above: r.number(0, long)?, leans: r.number(0, 900)? },
            4 => Told::Refused(match r.number(0, NEAR + 3)? {
                edge @ NEAR.. => Refused::TapsTooNear((edge - NEAR) as u8),
                why => *REFUSED.get(why as usize)?,
            }),
            5 => Told::Length(Valued {
                length: r.number(0, long)?,
                low: r.number(0, long)?,
                high: r.number(0, long)?,
                u: r.number(1, long)?,
                by_height: r.number(0, long)?,
            }),
            6 => {
                let size = [r.number(0, long)?, r.number(0, long)?];
                Told::Cut(Box::new(Outline {
                    size,
                    length: r.number(0, long)?,
                    width: r.number(0, long)?,
                    widest: r.number(0, 1000)?,
                    area: r.number(0, long)?,
                    symmetry: r.number(0, 1000)?,
                    points: r.number(0, 2)?,
                    convexity: r.number(0, 1000)?,
                    seen: r.list(3, 1000, &Reader::spot)?,
                    true_size: r.list(3, 1000, &Reader::spot)?,
                }))
            }
            7 => Told::Uncut(*UNCUT.get(r.number(0, 3)? as usize)?),
            8 => Told::Compared(r.list(0, 30, &|r| Some([r.number(0, long)?, r.number(0, long)?]))?),
            _ => Told::Nonsense,
        };
        r.end(told)
    }
}

fn place<T: PartialEq>(all: &[T], one: &T) -> i32 {
    all.iter().position(|other| other == one).unwrap_or_default() as i32
}

impl Valued {
    /// In whole tenths, the interval rounded outwards.
    #[must_use]
    pub fn of(m: &Measured) -> Valued {
        let [low, high] = m.between().map(|l| l.0 as i32);
        let up = |v: f64| libm::ceil(v * 10.0) as i32;
        Valued { length: tenths(m.mm), low, high, u: up(m.u).max(1), by_height: up(m.by_height) }
    }
}

impl Outline {
    /// Of a contour; `shown` is where a place on it is seen. Nothing when a part of it is seen nowhere.
    #[must_use]
    pub fn of(contour: &Contour, shown: &dyn Fn(Point) -> Point) -> Option<Outline> {
        let shape = Shape::of(contour);
        let seen = contour.points().iter().map(|p| Spot::of(shown(*p))).collect::<Option<Vec<Spot>>>()?;
        // Along x, the narrower end to the right, as the guide draws soles.
        let [toe, heel] = shape.ends;
        let far = toe.distance(heel).max(1e-9);
        let way = toe.from(heel);
        let (x, y) = (way.x / far, way.y / far);
        let turned: Vec<Point> =
            contour.points().iter().map(|p| Point::new(p.x * x + p.y * y, p.y * x - p.x * y)).collect();
        let [from, to] = Contour::of(&turned)?.bounds();
        let at = |p: &Point| Spot::new(tenths(p.x - from.x), tenths(p.y - from.y));
        let mille = |v: f64| libm::round(v * 1000.0).clamp(0.0, 1000.0) as i32;
        Some(Outline {
            seen,
            true_size: turned.iter().map(at).collect(),
            size: [tenths(to.x - from.x), tenths(to.y - from.y)],
            length: tenths(shape.length),
            width: tenths(shape.width),
            widest: mille(shape.widest),
            area: libm::round(shape.area) as i32,
            symmetry: mille(shape.symmetry),
            points: i32::from(shape.points),
            convexity: mille(shape.convexity),
        })
    }
}
