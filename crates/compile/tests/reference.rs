//! The reference tables of the project compile, stay small, and every slip in them is told with its place.

use compile::{Files, Reference, reference};
use std::fs;
use std::io::Write;
use std::path::Path;

fn folder() -> Vec<(String, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("../../data/reference");
    let mut all = Vec::new();
    for inside in ["", "marks", "numbers"] {
        for entry in fs::read_dir(root.join(inside)).expect("the folder of the tables") {
            let path = entry.expect("an entry").path();
            let name = path.file_name().expect("a name").to_string_lossy().into_owned();
            if path.is_file() && (name.ends_with(".toml") || name.ends_with(".csv")) {
                let text = fs::read_to_string(&path).expect("a text");
                all.push((if inside.is_empty() { name } else { format!("{inside}/{name}") }, text));
            }
        }
    }
    all
}

fn good() -> Reference {
    let lines = |faults: Vec<compile::Fault>| faults.iter().map(|f| format!("{f}\n")).collect::<String>();
    reference(&Files::new(folder())).map_err(lines).expect("tables without faults")
}

fn brotli(bytes: &[u8]) -> usize {
    let mut packed = Vec::new();
    let mut writer = brotli::CompressorWriter::new(&mut packed, 1 << 16, 11, 22);
    writer.write_all(bytes).expect("a writer to memory");
    drop(writer);
    packed.len()
}

#[test]
fn the_tables_compile_and_stay_small() {
    let found = good();
    assert_eq!(pack::marks::read_marks(&found.bytes).as_ref(), Ok(&found.marks));
    let packed = brotli(&found.bytes);
    println!(
        "figure: reference tables: {} bytes, {packed} with brotli at quality 11; {} series, {} marks, sha {}",
        found.bytes.len(),
        found.marks.series.len(),
        found.marks.marks.len(),
        &found.digest[..12],
    );
    for (basis, n) in found.counts {
        println!("figure: reference tables: {n} figures {}", basis.phrase());
    }
    // Basis of the bound: practice, what the tables may cost a page that has to load them.
    assert!(packed <= 30_000, "{packed} bytes");
}

/// One slip: the file, what stands there, what is put in its place, and the fault that must be told.
const SLIPS: &[(&str, &str, &str, &str)] = &[
    (
        "reference.toml",
        "edition = \"2026-01-31\"",
        "edition = \"spring\"",
        "reference.toml:2: edition: This is not a date. Write year, month and day: \"2026-01-31\".",
    ),
    ("reference.toml", "[met]", "[mat]", "reference.toml: met: The table [met] is missing."),
    (
        "reference.toml",
        "years = [1836, 1865, 1925, 1990]",
        "years = [1836, 1865, 1825, 1990]",
        "reference.toml:16: met.years: These must be four years in order. Write for example: years = [1836, 1865, 1925, 1990]",
    ),
    (
        "reference.toml",
        "tempered = -700",
        "tempered = 700",
        "reference.toml:21: combined.tempered: The number must lie between -1000 and 0.",
    ),
    (
        "sources.toml",
        "zip = \"",
        "zap = \"",
        "marks/texts.toml:110: source: sources.toml has no source \"zip\". Did you mean \"zap\"?",
    ),
    (
        "numbers/us-patent.csv",
        "date,number,basis,source,note",
        "date;number",
        "numbers/us-patent.csv:3: The first line must name the columns. Write: date,number,basis,source,note",
    ),
    (
        "numbers/us-patent.csv",
        "1876,171641,",
        "1876,171641x,",
        "numbers/us-patent.csv:44: number: \"171641x\" is no number from 1 to 99999998. Write digits only, without commas or spaces.",
    ),
    (
        "numbers/us-patent.csv",
        "1876,171641,",
        "1876,17164,",
        "numbers/us-patent.csv:44: The row does not come after the one above it. Rows stand in order of date, and numbers rise with them.",
    ),
    (
        "numbers/us-patent.csv",
        "1876,171641,published,uspto-years,",
        "1876-13-01,171641,published,uspto-years,",
        "numbers/us-patent.csv:44: date: \"1876-13-01\" is not a date. Write year, month and day, \"1871-05-23\", or a year, \"1871\"; between 1600 and 2299.",
    ),
    (
        "numbers/us-patent.csv",
        "1876,171641,published,uspto-years,",
        "1876,171641,published,,",
        "numbers/us-patent.csv:44: source: What is published has a source. Name a key of sources.toml, or say \"memory\" or \"practice\".",
    ),
    (
        "numbers/us-patent.csv",
        "1876,171641,published,uspto-years,",
        "1876,171641,memory,uspto-years,",
        "numbers/us-patent.csv:44: source: Only what is published has a source. Leave the source out, or say \"published\".",
    ),
    (
        "numbers/us-patent.csv",
        "1876,171641,published,uspto-years,",
        "1876,171641,invented,,",
        "numbers/us-patent.csv:44: basis: Nothing here may be invented. These tables hold facts: leave the row out.",
    ),
    (
        "numbers/us-patent.csv",
        "1876,171641,published,uspto-years,",
        "1876,171641,published,uspto-yaers,",
        "numbers/us-patent.csv:44: source: sources.toml has no source \"uspto-yaers\". Did you mean \"uspto-years\"?",
    ),
    (
        "numbers/us-patent.csv",
        "1876,171641,published,uspto-years,",
        "1876,171641,published",
        "numbers/us-patent.csv:44: The row has 3 cells instead of 5. A cell that holds a comma stands in double quotes.",
    ),
    (
        "numbers/us-patent.csv",
        "1876,171641,published,uspto-years,",
        "1876,171641,published,\"uspto-years,",
        "numbers/us-patent.csv:44: A quote is not closed. Cells in quotes end on the same line.",
    ),
    (
        "series.toml",
        "file = \"us-design.csv\"",
        "file = \"us-designs.csv\"",
        "series.toml:26: file: There is no file \"numbers/us-designs.csv\".",
    ),
    (
        "series.toml",
        "counts = \"last\"",
        "counts = \"lost\"",
        "series.toml:99: counts: \"lost\" cannot stand here. Write \"first\" or \"last\": which numbers of their date the file holds.",
    ),
    (
        "series.toml",
        "alone = \"drgm\"",
        "alone = \"drgn\"",
        "series.toml:118: alone: There is no mark \"drgn\". Did you mean \"drgm\"?",
    ),
    (
        "series.toml",
        "terms = [[\"1891-10-01\", 6]]",
        "terms = []",
        "series.toml:124: terms: There is no term. Write: terms = [[\"1836-07-13\", 14]]",
    ),
    (
        "series.toml",
        "terms = [[\"1891-10-01\", 6]]",
        "terms = [[\"1891-10-01\"]]",
        "series.toml:124: terms: A term is a date and a number of years. Write: terms = [[\"1836-07-13\", 14]]",
    ),
    (
        "series.toml",
        "id = \"us-design\"",
        "id = \"us-patent\"",
        "series.toml:23: id: The series \"us-patent\" is described twice. Remove one, or give it another id.",
    ),
    (
        "series.toml",
        "id = \"us-design\"",
        "dated = true\nid = \"us-design\"",
        "series.toml:23: dated: Two series are dated. Only one series can have its dates marked as well as its numbers.",
    ),
    (
        "marks/origin.toml",
        "proves = \"between\"",
        "proves = \"bitween\"",
        "marks/origin.toml:105: proves: \"bitween\" cannot stand here. Write one of: not-before, habit, between, not-after, nothing.",
    ),
    (
        "marks/origin.toml",
        "hard = \"both\"",
        "hard = \"bath\"",
        "marks/origin.toml:232: hard: \"bath\" cannot stand here. Write one of: none, from, to, both.",
    ),
    (
        "marks/origin.toml",
        "legal = [\"1947-02-20\", \"1952-04-28\"]",
        "legal = [\"1952-04-28\", \"1947-02-20\"]",
        "marks/origin.toml:230: legal: The end lies before the start. Write the earlier date first.",
    ),
    (
        "marks/origin.toml",
        "legal = [\"1947-02-20\", \"1952-04-28\"]",
        "legal = [\"1947-02-20\"]",
        "marks/origin.toml:230: legal: This must be two dates, either of which may be empty. Write: [\"1891-03-01\", \"\"]",
    ),
    (
        "marks/origin.toml",
        "habit = [1947, 1951]",
        "habit = [\"1947\", 1951]",
        "marks/origin.toml:231: habit: A year is written without quotes. Write 1891, or \"\" where there is none.",
    ),
    (
        "marks/origin.toml",
        "writes = [\"NIPPON\",",
        "writes = [\"Nippon\",",
        "marks/origin.toml:195: writes: \"Nippon\" is no spelling. Write capitals, digits and spaces, without accents, at most 48 of them.",
    ),
    (
        "marks/origin.toml",
        "writes = [\"NIPPON\",",
        "writes = [\"NIPPON\", \"NIPPON\",",
        "marks/origin.toml:195: writes: \"NIPPON\" stands here twice. Remove one.",
    ),
    (
        "marks/origin.toml",
        "id = \"japan\"",
        "id = \"nippon\"",
        "marks/origin.toml:209: id: The mark \"nippon\" is described twice. Remove one, or give it another id.",
    ),
    (
        "marks/origin.toml",
        "caution = \"It is copied on reproductions.\"",
        "cuation = \"It is copied on reproductions.\"",
        "marks/origin.toml:235: There is no field \"cuation\" here. Did you mean \"caution\"?",
    ),
    (
        "marks/rights.toml",
        "proves = \"nothing\"",
        "proves = \"not-before\"",
        "marks/rights.toml:7: proves: This needs a legal start. Fill in legal or habit, or change what it proves.",
    ),
    (
        "marks/rights.toml",
        "habit = [\"\", \"\"]\nhard",
        "habit = [1870, \"\"]\nhard",
        "marks/rights.toml:7: proves: What proves nothing has no bounds. Leave legal and habit empty, or change what it proves.",
    ),
    (
        "marks/texts.toml",
        "legal = [\"1855-08-14\", \"\"]",
        "legal = [\"\", \"\"]",
        "marks/texts.toml:9: proves: This needs a legal start. Fill in legal or habit, or change what it proves.",
    ),
    ("words.toml", "[\"MAY\"],\n", "", "words.toml:54: months.writes: There must be twelve months."),
    (
        "words.toml",
        "[patent]",
        "[petent]",
        "words.toml:4: There is no field \"petent\" here. Did you mean \"patent\"?",
    ),
    (
        "diamond.toml",
        "letters = \"CGWHEMIRDBKA\"",
        "letters = \"CGWHEMIRDBK\"",
        "diamond.toml:46: months: There must be twelve letters, January first.",
    ),
    (
        "diamond.toml",
        "right = \"day\"",
        "right = \"year\"",
        "diamond.toml:18: right: \"year\" stands in another corner too. Each stands in one.",
    ),
    (
        "diamond.toml",
        "month = [\"R\", 9]",
        "month = [\"R\", 13]",
        "diamond.toml:63: month: The number must lie between 1 and 12.",
    ),
    (
        "diamond.toml",
        "month = [\"K\", 12]\n",
        "",
        "diamond.toml:68: Neither year nor month has another letter. Write for example: month = [\"R\", 9]",
    ),
    (
        "diamond.toml",
        "[\"II\", \"wood\"]",
        "[\"2\", \"wood\"]",
        "diamond.toml:90: classes.names: A class is a Roman numeral and a material. Write: [\"I\", \"metal\"]",
    ),
    (
        "sizes.toml",
        "grams = 875\n",
        "",
        "sizes.toml:54: grams: The field is missing. Add a line such as: grams = 10",
    ),
    (
        "sizes.toml",
        "fits = \"length\"",
        "fits = \"lenght\"",
        "sizes.toml:46: fits: \"lenght\" cannot stand here. Write one of: none, mass, length.",
    ),
    (
        "sizes.toml",
        "from = 8\nto = 24",
        "from = 24\nto = 8",
        "sizes.toml:43: from: The smallest is above the greatest.",
    ),
    (
        "sizes.toml",
        "grams = 875\nspread = 100\n",
        "grams = 875\n",
        "sizes.toml:54: spread: The field is missing. Add a line such as: spread = 10",
    ),
    (
        "sizes.toml",
        "heft = 550 ",
        "heft = 0 ",
        "sizes.toml:92: irons.heft: The number must lie between 1 and 20000.",
    ),
    (
        "issue-days.csv",
        "rule,1848-01-01,,Tuesday",
        "rule,1848-01-01,,Toosday",
        "issue-days.csv:5: weekday: \"Toosday\" is no weekday. Write one of: Monday, Tuesday, Wednesday, Thursday, Friday, Saturday, Sunday.",
    ),
    (
        "issue-days.csv",
        "missed,1945-06-01,1945-09-30",
        "missed,1945-09-30,1945-06-01",
        "issue-days.csv:8: to: The end lies before the start.",
    ),
    (
        "issue-days.csv",
        "extra,1849",
        "also,1849",
        "issue-days.csv:6: kind: \"also\" is no kind. Write one of: rule, extra, missed.",
    ),
    (
        "likeness.csv",
        "1,7,14,memory",
        "1,7,14,memory\n7,1,14,memory",
        "likeness.csv:4: This pair is no new one. Each pair stands once; it counts either way.",
    ),
    (
        "likeness.csv",
        "1,7,14,memory",
        "1,77,14,memory",
        "likeness.csv:3: other: \"77\" is not one capital or digit.",
    ),
    (
        "likeness.csv",
        "1,7,14,memory",
        "1,7,900,memory",
        "likeness.csv:3: of_1000: \"900\" is no number from 1 to 200. Write digits only, without commas or spaces.",
    ),
];

#[test]
fn every_slip_is_told_with_its_place() {
    for (file, from, to, told) in SLIPS {
        let mut files = folder();
        let text = &mut files.iter_mut().find(|(p, _)| p == file).expect("the file").1;
        assert!(text.contains(from), "{file} has no {from}");
        *text = text.replacen(from, to, 1);
        let faults = reference(&Files::new(files)).expect_err(told);
        let lines: Vec<String> = faults.iter().map(ToString::to_string).collect();
        assert!(lines.iter().any(|l| l == told), "{told}\nis not among\n{}", lines.join("\n"));
    }
}

/// The bytes of the tables, changed bit by bit and cut: refused with a sentence, or tables that hold together.
#[test]
fn hostile_bytes_are_answered() {
    let whole = good().bytes;
    let (mut read, mut refused) = (0, 0);
    let mut answered = |bytes: &[u8]| match pack::marks::read_marks(bytes) {
        Ok(marks) => {
            assert!(pack::marks::write_marks(&marks).is_ok(), "what was let in cannot be written");
            read += 1;
        }
        Err(fault) => {
            assert!(fault.0.ends_with('.') && fault.0.len() > 20, "{}", fault.0);
            refused += 1;
        }
    };
    for at in (0..whole.len()).step_by(3) {
        let mut bytes = whole.clone();
        bytes[at] ^= 1 << (at % 8);
        answered(&bytes);
        bytes[at] = 0xff;
        answered(&bytes);
        answered(&whole[..at]);
    }
    println!("figure: hostile tables: {refused} refused, {read} read");
    assert!(read > 0 && refused > whole.len() / 4, "{read} {refused}");
}

/// Files that are missing, strange or far too large.
#[test]
fn files_that_do_not_belong() {
    let told = |files: Vec<(String, String)>| -> Vec<String> {
        reference(&Files::new(files)).expect_err("faults").iter().map(ToString::to_string).collect()
    };
    let all = told(Vec::new());
    assert!(all.iter().any(|l| l.starts_with("reference.toml: The file is missing.")), "{all:?}");
    let mut files = folder();
    files.push(("notes.txt".to_string(), String::new()));
    assert!(told(files)[0].starts_with("notes.txt: No file of this name belongs to the tables."));
    let mut files = folder();
    files.push(("numbers/us-patent-2.csv".to_string(), "date,number,basis,source,note\n".to_string()));
    assert_eq!(
        told(files)[0],
        "numbers/us-patent-2.csv: No series uses this file. Name it as the file of a series in series.toml."
    );
    let mut files = folder();
    files.push(("marks/more.toml".to_string(), "[[mark]\n".to_string()));
    assert!(told(files).iter().any(|l| l.starts_with("marks/more.toml:1: The line cannot be read")));
}
