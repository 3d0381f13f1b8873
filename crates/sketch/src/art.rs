//! Figures by name. They come as text from outside and may come in portions: nothing here relies on any being there.

/// A figure: strokes under a name.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Figure {
    /// `key.value`, such as `grip.wire`; `part.` and `sign.` for what no line names.
    pub name: String,
    /// The strokes, in the language of `data/art/README.md`.
    pub strokes: String,
    /// What can be seen, as a phrase; empty for parts and signs.
    pub says: String,
}

/// Figures, sorted by name.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Art(Vec<Figure>);

impl Art {
    /// Art of these figures: name, strokes, phrase. Of two with one name the later counts.
    pub fn new<'a>(figures: impl IntoIterator<Item = (&'a str, &'a str, &'a str)>) -> Art {
        let mut art = Art::default();
        art.add(figures);
        art
    }

    /// Adds figures. One whose name is there already takes its place.
    pub fn add<'a>(&mut self, figures: impl IntoIterator<Item = (&'a str, &'a str, &'a str)>) {
        for (name, strokes, says) in figures {
            self.put(name, strokes, says);
        }
    }

    fn put(&mut self, name: &str, strokes: &str, says: &str) {
        let figure = Figure { name: name.into(), strokes: strokes.into(), says: says.into() };
        match self.place(name) {
            Ok(at) => self.0[at] = figure,
            Err(at) => self.0.insert(at, figure),
        }
    }

    fn place(&self, name: &str) -> Result<usize, usize> {
        self.0.binary_search_by(|f| f.name.as_str().cmp(name))
    }

    /// The figure of this name.
    pub fn find(&self, name: &str) -> Option<&Figure> {
        self.0.get(self.place(name).ok()?)
    }

    /// All figures, in the order of their names.
    pub fn figures(&self) -> &[Figure] {
        &self.0
    }
}

/// How figures are looked up while drawing.
pub(crate) type Find<'a> = dyn Fn(&str) -> Option<&'a Figure> + 'a;
