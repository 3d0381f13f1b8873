//! How one value of a record is written as text and read back, and the macro that makes parts out of values.

/// A value that stands behind a key: written as one text, read from it.
pub trait Value: Sized {
    /// As text; empty when there is nothing to write.
    fn shown(&self) -> String;

    /// Out of text that is not empty.
    ///
    /// # Errors
    /// A sentence that says what should stand there.
    fn read(text: &str) -> Result<Self, String>;

    /// Makes of it what reading would give: texts lose control characters and blanks at the ends of lines.
    fn tidy(&mut self) {}
}

impl Value for String {
    fn shown(&self) -> String {
        self.clone()
    }

    fn read(text: &str) -> Result<String, String> {
        Ok(tidied(text))
    }

    fn tidy(&mut self) {
        *self = tidied(self);
    }
}

impl<T: Value> Value for Option<T> {
    fn shown(&self) -> String {
        self.as_ref().map_or_else(String::new, Value::shown)
    }

    fn read(text: &str) -> Result<Option<T>, String> {
        T::read(text).map(Some)
    }

    fn tidy(&mut self) {
        if let Some(value) = self {
            value.tidy();
        }
    }
}

impl Value for bool {
    fn shown(&self) -> String {
        String::from(if *self { "yes" } else { "" })
    }

    fn read(text: &str) -> Result<bool, String> {
        match text.to_ascii_lowercase().as_str() {
            "yes" | "y" | "1" | "x" | "true" => Ok(true),
            "no" | "n" | "0" | "false" => Ok(false),
            _ => Err(format!("\u{201c}{}\u{201d} is neither yes nor no.", short(text))),
        }
    }
}

/// Words such as materials: `cast iron; wood`.
impl Value for Vec<String> {
    fn shown(&self) -> String {
        self.join("; ")
    }

    fn read(text: &str) -> Result<Vec<String>, String> {
        let mut words = vec![text.to_string()];
        words.tidy();
        Ok(words)
    }

    fn tidy(&mut self) {
        let words = |text: &String| {
            let words: Vec<String> = text.split([';', '\n']).map(tidied).filter(|w| !w.is_empty()).collect();
            words
        };
        *self = self.iter().flat_map(words).collect();
    }
}

/// Whole numbers such as those of an outline: `12 -40 33`.
impl Value for Vec<i32> {
    fn shown(&self) -> String {
        self.iter().map(ToString::to_string).collect::<Vec<_>>().join(" ")
    }

    fn read(text: &str) -> Result<Vec<i32>, String> {
        let numbers: Option<Vec<i32>> = text.split_whitespace().map(|n| n.parse().ok()).collect();
        numbers.ok_or_else(|| format!("\u{201c}{}\u{201d} is no list of whole numbers.", short(text)))
    }
}

/// A text as it is kept: lines end with a line feed, no other control character, no blanks around a line, no empty
/// lines at either end.
pub(crate) fn tidied(text: &str) -> String {
    let text = text.replace("\r\n", "\n");
    let mut out = String::with_capacity(text.len());
    for line in text.split(['\n', '\r']) {
        let sound = |c: &char| !c.is_control() && *c != '\u{feff}';
        let line: String = line.chars().map(|c| if c == '\t' { ' ' } else { c }).filter(sound).collect();
        out.push_str(line.trim());
        out.push('\n');
    }
    out.trim_matches('\n').to_string()
}

/// The beginning of a text, for a sentence about it.
pub(crate) fn short(text: &str) -> String {
    let mut out: String = text.chars().take(30).filter(|c| !c.is_control()).collect();
    if text.chars().nth(30).is_some() {
        out.push('\u{2026}');
    }
    out
}

/// A part of a record as keys and values.
pub trait Part {
    /// Its lines: keys with values that are not empty, in order; lines that this edition does not know stand last.
    fn lines(&self) -> Vec<(&str, String)>;

    /// All its keys, in order.
    fn keys(&self) -> &'static [&'static str];

    /// Puts a value behind a key; `false` when the key is not one of the part's.
    ///
    /// # Errors
    /// A sentence that says what should stand there.
    fn set(&mut self, key: &str, value: &str) -> Result<bool, String>;

    /// The lines that this edition does not know. They are kept and written again.
    fn other(&mut self) -> &mut Vec<(String, String)>;

    /// Brings every value into the form in which it comes back from text.
    fn tidy(&mut self);
}

/// Makes a part: a structure of values, each with the key it has in text. Behind `with`, fields that are no lines.
macro_rules! part {
    ($(#[$about:meta])* $name:ident { $( $(#[$doc:meta])* $field:ident : $kind:ty = $key:literal, )* }
     $( with { $( $(#[$more:meta])* $list:ident : $of:ty, )* } )?) => {
        $(#[$about])*
        #[derive(Debug, Clone, PartialEq, Eq, Default)]
        pub struct $name {
            $( $(#[$doc])* pub $field: $kind, )*
            $( $( $(#[$more])* pub $list: $of, )* )?
            /// Lines that this edition does not know, kept as they came.
            pub other: Vec<(String, String)>,
        }

        impl $crate::record::Part for $name {
            fn lines(&self) -> Vec<(&str, String)> {
                let mut lines: Vec<(&str, String)> =
                    vec![$( ($key, $crate::record::Value::shown(&self.$field)), )*];
                lines.extend(self.other.iter().map(|(key, value)| (key.as_str(), value.clone())));
                lines.retain(|(_, value)| !value.is_empty());
                lines
            }

            fn keys(&self) -> &'static [&'static str] {
                &[$( $key, )*]
            }

            fn set(&mut self, key: &str, value: &str) -> Result<bool, String> {
                match key {
                    $( $key => self.$field = $crate::record::Value::read(value)?, )*
                    _ => return Ok(false),
                }
                Ok(true)
            }

            fn other(&mut self) -> &mut Vec<(String, String)> {
                &mut self.other
            }

            fn tidy(&mut self) {
                $( $crate::record::Value::tidy(&mut self.$field); )*
                for (_, value) in &mut self.other {
                    $crate::record::Value::tidy(value);
                }
                self.other.retain(|(_, value)| !value.is_empty());
            }
        }
    };
}

/// Makes a choice: a list of words, of which one may stand.
macro_rules! choice {
    ($(#[$about:meta])* $name:ident { $( $(#[$doc:meta])* $item:ident = $word:literal, )* }) => {
        $(#[$about])*
        #[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
        pub enum $name { $( $(#[$doc])* $item, )* }

        impl $name {
            /// All of them.
            pub const ALL: &'static [$name] = &[$( $name::$item, )*];

            /// The word in text.
            #[must_use]
            pub fn word(self) -> &'static str {
                match self { $( $name::$item => $word, )* }
            }
        }

        impl $crate::record::Value for $name {
            fn shown(&self) -> String {
                self.word().to_string()
            }

            fn read(text: &str) -> Result<$name, String> {
                let words: Vec<&str> = $name::ALL.iter().map(|item| item.word()).collect();
                let at = $crate::record::value::named(text, &words)?;
                Ok($name::ALL[at])
            }
        }
    };
}
pub(crate) use {choice, part};

/// Which of the words a text is.
pub(crate) fn named(text: &str, words: &[&str]) -> Result<usize, String> {
    let asked = text.trim().to_ascii_lowercase();
    words
        .iter()
        .position(|word| *word == asked)
        .ok_or_else(|| format!("\u{201c}{}\u{201d} is none of: {}.", short(text), words.join(", ")))
}
