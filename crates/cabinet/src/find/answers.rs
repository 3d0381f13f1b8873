//! The answers in a link, by their permanent codes alone: what they mean only the pack knows.

use crate::order::sorted;

/// Codes of questions, each with the codes of its choices, both sorted.
pub type Answers = Vec<(u16, Vec<u16>)>;

/// The longest link that is read.
const LONGEST: usize = 8_000;

/// Reads the answers of a link's end, such as `1/irons/p2/3.1/5.2+4u/1.640r~k7q3`. Measurements, what could not be told, and
/// whatever is not an answer are passed over.
#[must_use]
pub fn answers(link: &str) -> Answers {
    let link = link.rsplit_once('#').map_or(link, |(_, end)| end);
    let body = link.split('~').next().unwrap_or_default();
    let mut out: Answers = Vec::new();
    if link.len() > LONGEST {
        return out;
    }
    for token in body.split('/').skip(2) {
        let Some((question, choices)) = token.split_once('.') else { continue };
        let Ok(question) = question.parse() else { continue };
        let choices: Option<Vec<u16>> =
            choices.trim_end_matches('u').split('+').map(|c| c.parse().ok()).collect();
        if let Some(choices) = choices {
            out.push((question, sorted(choices)));
        }
    }
    let mut out = sorted(out);
    out.dedup_by_key(|(question, _)| *question);
    out
}

#[cfg(test)]
mod tests {
    use super::answers;

    #[test]
    fn as_a_link_has_them() {
        let link = "https://example.org/#1/irons/p2/o/a1/3.1/5.4+2u/1.640r/7.x/mNO_3.4/f~k7q3";
        assert_eq!(answers(link), [(3, vec![1]), (5, vec![2, 4])]);
        assert!(answers("").is_empty() && answers("#~/./.").is_empty());
    }
}
