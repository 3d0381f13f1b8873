//! The shape and the readers know the same fields: the reader itself is asked what it knows, everywhere in a pack.

use crate::common::{cases, patched};
use compile::shape::{FILES, Shape, Sort};
use compile::{Files, compile};

/// A name that is near to no field, so that the refusal lists all there are.
const STRANGER: &str = "zzzzzzzzzzzzzzzzzzzzzzzzzzzzzzzz";

/// What the reader says it knows at a place into which the stranger was put.
fn known(files: &[(String, String)], path: &str, text: String) -> Vec<String> {
    let mut files = files.to_vec();
    files.iter_mut().filter(|(p, _)| p == path).for_each(|(_, t)| t.clone_from(&text));
    let faults = compile(&Files::new(files)).expect_err("the stranger is refused");
    let fault = faults
        .iter()
        .find(|f| f.says.contains(STRANGER))
        .unwrap_or_else(|| unreachable!("no word of the stranger in {path}: {:?}\n{text}", faults.first()));
    let list = fault.hint.strip_prefix("Known here: ").expect("a list of what is known");
    let mut names: Vec<String> = list.trim_end_matches('.').split(", ").map(String::from).collect();
    names.sort();
    names
}

/// The same by the shape, with the makes of the pack.
fn shaped(shape: &Shape, makes: &[&str]) -> Vec<String> {
    let mut names: Vec<String> = shape.fields.iter().map(|f| f.name.to_string()).collect();
    if shape.by_make.is_some() {
        names.extend(makes.iter().map(|m| m.to_string()));
    }
    names.sort();
    names
}

/// The shape of the table that a heading such as `kind.later` names.
fn at<'a>(shape: &'a Shape, heading: &str) -> Option<&'a Shape> {
    heading.split('.').try_fold(shape, |shape, name| match shape.sort(name)? {
        Sort::One(inner) | Sort::Once(_, inner) | Sort::Many(_, inner) => Some(inner),
        _ => None,
    })
}

#[test]
fn reader_and_shape_know_the_same_fields_under_every_heading() {
    // The good pack and the one with lessons between them have every heading but those of a kind's further statements.
    let mut tried: Vec<(String, String)> = Vec::new();
    for case in ["good", "lessons-sound"] {
        let files: Vec<(String, String)> = patched(&cases().join(case))
            .iter()
            .map(|(p, t)| {
                let more = "[[kind.also_said]]\nsays = \"Other.\"\nbasis = \"memory\"\n[[kind.example]]\nname = \"A\"\n\
                            make = \"period\"\nlooks = { grip = \"wire\" }\nunusual = \"grip\"\n";
                let text = if p == "kinds/cast.toml" { format!("{t}\n{more}") } else { t.to_string() };
                (p.to_string(), text)
            })
            .collect();
        assert!(compile(&Files::new(files.clone())).is_ok(), "{case} is sound");
        for (path, text) in files.iter().filter(|(p, _)| !p.starts_with("art/") && p.ends_with(".toml")) {
            let file =
                FILES.iter().find(|f| f.path == path || (f.path.ends_with('/') && path.starts_with(f.path)));
            let file = file.expect("every file has a shape");
            let top = format!("{STRANGER} = 1\n{text}");
            if file.shape.free.is_none() {
                assert_eq!(known(&files, path, top), shaped(file.shape, &[]), "{path}");
            }
            for (i, line) in text.lines().enumerate().filter(|(_, l)| l.starts_with('[')) {
                let heading = line.trim_matches(['[', ']']);
                let Some(shape) = at(file.shape, heading) else { continue };
                let mut lines: Vec<&str> = text.lines().collect();
                let stranger = format!("{STRANGER} = 1");
                lines.insert(i + 1, &stranger);
                let mut shaped = shaped(shape, &["period", "later"]);
                // What the usual line rests on is read only where there is one.
                let own = || text.lines().skip(i + 1).take_while(|l| !l.starts_with('['));
                if heading == "question" && !own().any(|l| l.starts_with("usual")) {
                    shaped.retain(|f| f != "basis" && f != "source");
                }
                assert_eq!(known(&files, path, lines.join("\n") + "\n"), shaped, "{path}: {line}");
                tried.push((file.path.to_string(), heading.to_string()));
            }
        }
    }
    tried.sort();
    tried.dedup();
    for (path, heading) in [
        ("pack.toml", "words"),
        ("pack.toml", "common"),
        ("pack.toml", "place"),
        ("pack.toml", "tool"),
        ("pack.toml", "part"),
        ("pack.toml", "role"),
        ("pack.toml", "make"),
        ("makes.toml", "make"),
        ("cautions.toml", "caution"),
        ("glossary.toml", "term"),
        ("questions/", "question"),
        ("questions/", "question.choice"),
        ("kinds/", "family"),
        ("kinds/", "family.later"),
        ("kinds/", "kind"),
        ("kinds/", "kind.period"),
        ("kinds/", "kind.form"),
        ("kinds/", "kind.taken_for"),
        ("kinds/", "kind.also_said"),
        ("kinds/", "kind.example"),
        ("lessons/", "lesson"),
        ("lessons/", "lesson.step"),
        ("lessons/", "block"),
        ("lessons/", "proof"),
    ] {
        assert!(tried.contains(&(path.to_string(), heading.to_string())), "{path} {heading} was not tried");
    }
}

#[test]
fn a_field_that_must_be_there_is_missed() {
    let files = crate::common::good();
    for (path, field) in [
        ("pack.toml", "edition"),
        ("pack.toml", "unknown"),
        ("pack.toml", "opening"),
        ("questions/form.toml", "ask"),
        ("questions/form.toml", "picture"),
        ("kinds/cast.toml", "purpose"),
        ("glossary.toml", "means"),
    ] {
        let mut files = files.clone();
        let text = &mut files.iter_mut().find(|(p, _)| p == path).expect("a file").1;
        let cut: Vec<&str> = text.lines().filter(|l| !l.starts_with(&format!("{field} ="))).collect();
        *text = cut.join("\n");
        let faults = compile(&Files::new(files)).expect_err("a field is missing");
        assert!(
            faults.iter().any(|f| f.field.ends_with(field) && f.says == "The field is missing."),
            "{path} {field}"
        );
        let file = FILES.iter().find(|f| path.starts_with(f.path)).expect("a shape");
        let musts = |shape: &Shape| shape.fields.iter().any(|f| f.name == field && f.must);
        let inner = file.shape.fields.iter().any(|f| matches!(f.sort, Sort::Many(_, inner) if musts(inner)));
        assert!(musts(file.shape) || inner, "the shape does not say that {field} must be there");
    }
}
