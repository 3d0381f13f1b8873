//! One picture and what is asked about it.

use picture::ask::{Asked, Outline, Patch, Spot, Told, Valued};
use picture::outline::{Contour, Cutting, Descriptors, Mend, Shape, Window};
use picture::photo::{Height, Lens, Placed, place_card, place_coin};
use picture::propose::Proposing;
use picture::strip::about;
use picture::{Pixels, Point};

/// Pixels of the longer side of a working picture at most. Practice: a card at arm's length is then about 400 pixels long,
/// and a telephone with little memory still holds the picture twice.
pub const LONGEST: usize = 2200;

/// A picture and the work on it.
#[derive(Default)]
pub struct Work {
    size: [usize; 2],
    rgba: Vec<u8>,
    equivalent: Option<u16>,
    place: bool,
    placed: Option<Placed>,
    contour: Option<Contour>,
    job: Job,
}

#[derive(Default)]
enum Job {
    #[default]
    None,
    Proposing(Box<Proposing>),
    Cutting(Box<Cutting>),
    /// What takes one step.
    Short(Asked),
    Nonsense,
}

fn proper(edges: [Spot; 8]) -> [[Point; 2]; 4] {
    core::array::from_fn(|i| [edges[2 * i].point(), edges[2 * i + 1].point()])
}

fn hundredths(n: i32) -> f64 {
    f64::from(n) / 100.0
}

impl Work {
    /// Begins anew with what the first bytes of a file say of its lens and place.
    pub fn head(&mut self, bytes: &[u8]) {
        *self = Work::default();
        if let Ok(found) = about(bytes) {
            (self.equivalent, self.place) = (found.equivalent, found.place);
        }
    }

    /// Makes room for a picture of this size; false when it is none or too large.
    pub fn begin(&mut self, width: usize, height: usize) -> bool {
        let fits = (16..=LONGEST).contains(&width) && (16..=LONGEST).contains(&height);
        self.size = if fits { [width, height] } else { [0, 0] };
        self.rgba = if fits { Vec::with_capacity(4 * width * height) } else { Vec::new() };
        (self.placed, self.contour, self.job) = (None, None, Job::None);
        fits
    }

    /// Takes rows from the top. When the last has come the picture is there; more than there is room for is refused.
    pub fn rows(&mut self, rgba: &[u8]) -> Option<Told> {
        let [width, height] = self.size;
        let whole = 4 * width * height;
        if width == 0 || !rgba.len().is_multiple_of(4 * width) || self.rgba.len() + rgba.len() > whole {
            return Some(Told::Nonsense);
        }
        self.rgba.extend_from_slice(rgba);
        (self.rgba.len() == whole).then(|| Told::Opened {
            width: width as i32,
            height: height as i32,
            equivalent: self.equivalent.map_or(0, i32::from),
            place: self.place,
        })
    }

    fn lens(&self) -> Lens {
        Lens::of(self.size[0] as u32, self.size[1] as u32, self.equivalent)
    }

    fn pixels(&self) -> Option<Pixels<'_>> {
        Pixels::of(self.size[0], self.size[1], &self.rgba)
    }

    /// Begins to answer a message; the one before is dropped.
    pub fn ask(&mut self, words: &[i32]) {
        let asked = Asked::of(words).filter(|_| self.pixels().is_some());
        self.job = match asked {
            Some(Asked::Propose) => match self.pixels() {
                Some(pixels) => Job::Proposing(Box::new(Proposing::new(pixels, self.lens()))),
                None => Job::Nonsense,
            },
            Some(Asked::Cut { around, height, patches }) => self.cutting(&around, height, &patches),
            Some(asked) => Job::Short(asked),
            None => Job::Nonsense,
        };
    }

    fn cutting(&self, around: &[Spot], height: i32, patches: &[Patch]) -> Job {
        let Some(placed) = &self.placed else { return Job::Nonsense };
        let height = f64::from(height) / 10.0;
        let own = |s: &Spot| placed.on_plane(s.point(), height);
        let mend = |p: &Patch| Mend { at: own(&p.at), radius: f64::from(p.radius) / 10.0, piece: p.piece };
        let around: Vec<Point> = around.iter().map(own).collect();
        let mends = patches.iter().map(mend).collect();
        Job::Cutting(Box::new(Cutting::new(placed.clone(), height, window(&around), mends)))
    }

    /// Does a little, at most some milliseconds of work on a slow telephone, and answers when done.
    pub fn step(&mut self) -> Option<Told> {
        let mut job = core::mem::take(&mut self.job);
        let told = match &mut job {
            Job::None => return None,
            Job::Nonsense => Some(Told::Nonsense),
            Job::Proposing(proposing) => {
                proposing.step(self.pixels()?).map(|found| Told::Proposed(found.and_then(spots)))
            }
            Job::Cutting(cutting) => {
                let found = cutting.step(self.pixels()?);
                found.map(|found| match found {
                    Ok(contour) => {
                        let outline = Outline::of(&contour, &|p| cutting.pixel(p));
                        self.contour = Some(contour);
                        outline.map_or(Told::Nonsense, |o| Told::Cut(Box::new(o)))
                    }
                    Err(why) => Told::Uncut(why),
                })
            }
            Job::Short(asked) => {
                let asked = core::mem::replace(asked, Asked::Propose);
                Some(self.short(asked))
            }
        };
        if told.is_none() {
            self.job = job;
        }
        told
    }

    fn short(&mut self, asked: Asked) -> Told {
        match asked {
            Asked::Card { edges, tap } => {
                self.place(place_card(&self.lens(), &proper(edges), hundredths(tap)))
            }
            Asked::Coin { diameter, rim, tap } => {
                let rim: Vec<Point> = rim.into_iter().map(Spot::point).collect();
                self.place(place_coin(&self.lens(), &rim, hundredths(diameter), hundredths(tap)))
            }
            Asked::Length { ends, height, tap } => match &self.placed {
                Some(placed) => {
                    let [from, to] = height.map(|h| f64::from(h) / 10.0);
                    let height = Height { from: from.min(to), to: from.max(to) };
                    let found = placed.length(ends.map(Spot::point), height, hundredths(tap));
                    found.map_or_else(Told::Refused, |m| Told::Length(Valued::of(&m)))
                }
                None => Told::Nonsense,
            },
            Asked::Compare(soles) => match &self.contour {
                Some(own) => Told::Compared(soles.iter().map(|sole| compared(own, sole)).collect()),
                None => Told::Nonsense,
            },
            Asked::Propose | Asked::Cut { .. } => Told::Nonsense,
        }
    }

    fn place(&mut self, found: Result<Placed, picture::photo::Refused>) -> Told {
        self.contour = None;
        match found {
            Ok(placed) => {
                let told = Told::Placed { above: (placed.distance() * 10.0) as i32, leans: placed.leans() };
                self.placed = Some(placed);
                told
            }
            Err(why) => {
                self.placed = None;
                Told::Refused(why)
            }
        }
    }

    /// How much is done, per mille.
    #[must_use]
    pub fn done(&self) -> u32 {
        match &self.job {
            Job::Proposing(proposing) => proposing.done(),
            Job::Cutting(cutting) => cutting.done(),
            Job::None | Job::Short(_) | Job::Nonsense => 0,
        }
    }
}

/// Two spots at the ends of a length say nothing of the breadth: it is taken to be no more than the length.
fn window(around: &[Point]) -> Window {
    let [first, second] = [0, 1].map(|i| around.get(i).copied().unwrap_or_default());
    let mut all = around.to_vec();
    if around.len() == 2 {
        let middle = first.towards(second, 0.5);
        let half = second.from(first);
        for side in [-0.45, 0.45] {
            all.push(Point::new(middle.x - side * half.y, middle.y + side * half.x));
        }
    }
    Window::around(&all)
}

fn spots(edges: [[Point; 2]; 4]) -> Option<[Spot; 8]> {
    let mut found = [Spot::default(); 8];
    for (to, from) in found.iter_mut().zip(edges.iter().flatten()) {
        *to = Spot::of(*from)?;
    }
    Some(found)
}

/// How far an outline is from a drawn one, and how wide that is for its length, per mille.
fn compared(own: &Contour, sole: &[Spot]) -> [i32; 2] {
    let points: Vec<Point> = sole.iter().map(|s| s.point()).collect();
    let Some(drawn) = Contour::of(&points) else { return [1_000_000; 2] };
    let shape = Shape::of(&drawn);
    let mirrored: Vec<Point> = drawn.points().iter().map(|p| Point::new(p.x, -p.y)).collect();
    let of = |points: &[Point]| Descriptors::of(points).distance(&Descriptors::of(own.points()));
    // A drawing shows neither left nor right: the nearer of the two counts.
    let far = match Contour::of(&mirrored) {
        Some(other) => of(drawn.points()).min(of(other.points())),
        None => of(drawn.points()),
    };
    let mille = |v: f64| (v * 1000.0).clamp(0.0, 1_000_000.0) as i32;
    [mille(far), mille(shape.width / shape.length.max(1e-9))]
}
