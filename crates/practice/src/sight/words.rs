//! The words of a drawing as pairs: what is said of each key.

/// What is said of each key, in the order in which it is said.
#[derive(Debug, Clone, Default, PartialEq, Eq)]
pub(crate) struct Words(Vec<(String, String)>);

impl Words {
    /// Reads a line; what says how it is to be shown is left out.
    pub(crate) fn read(line: &str) -> Words {
        let pairs = line.split_ascii_whitespace().filter_map(|w| w.split_once('='));
        let said = pairs.filter(|(k, _)| !matches!(*k, "view" | "ask" | "size"));
        Words(said.map(|(k, v)| (k.to_string(), v.to_string())).collect())
    }

    pub(crate) fn get(&self, key: &str) -> Option<&str> {
        self.0.iter().find(|(k, _)| k == key).map(|(_, v)| v.as_str())
    }

    pub(crate) fn put(&mut self, key: &str, value: &str) {
        match self.0.iter_mut().find(|(k, _)| k == key) {
            Some(pair) => pair.1 = value.to_string(),
            None => self.0.push((key.to_string(), value.to_string())),
        }
    }

    pub(crate) fn drop_where(&mut self, mut belied: impl FnMut(&str, &str) -> bool) {
        self.0.retain(|(k, v)| !belied(k, v));
    }

    pub(crate) fn pairs(&self) -> impl Iterator<Item = (&str, &str)> {
        self.0.iter().map(|(k, v)| (k.as_str(), v.as_str()))
    }

    /// As a line, in this view.
    pub(crate) fn line(&self, view: &str) -> String {
        let mut line = format!("view={view}");
        for (key, value) in &self.0 {
            line.push_str(&format!(" {key}={value}"));
        }
        line
    }
}

/// The word that a line asks about: key and value.
pub(crate) fn asked(line: &str) -> Option<(String, String)> {
    let value_of =
        |key: &str| line.split_ascii_whitespace().filter_map(|w| w.split_once('=')).find(|(k, _)| *k == key);
    let (_, key) = value_of("ask")?;
    let (key, value) = value_of(key)?;
    Some((key.to_string(), value.to_string()))
}

/// A line without what it asks about, so that nothing stands out.
pub(crate) fn unasked(line: &str) -> String {
    let view = line.split_ascii_whitespace().any(|w| w.starts_with("view="));
    let mut words: Vec<&str> = line.split_ascii_whitespace().filter(|w| !w.starts_with("ask=")).collect();
    let own = asked(line).and_then(|(key, _)| sketch::KEYS.iter().find(|k| k.name == key));
    let named = own.and_then(|k| k.views.split(' ').next()).map(|v| format!("view={v}"));
    if let Some(named) = named.as_deref().filter(|_| !view) {
        words.insert(0, named);
    }
    words.join(" ")
}
