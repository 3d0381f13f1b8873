//! What a person brings back: an export or a record of the cabinet, a table, practice.

use crate::project::{at, files};
use crate::{Reader, must};
use cabinet::archive::{Import, Writer, digest, photo_name};
use cabinet::csv::{Table, guess, head, row, take};
use cabinet::linked_art::linked_art;
use cabinet::record::{Date, Moment, Profile, Uuid, Version, faults, lacks};
use cabinet::sheets::{one, sale_text};
use cabinet::text;
use practice::Progress;
use std::fs;

const TODAY: Date = Date { year: 2026, month: 11, day: 29 };

/// Practice as the export of the cabinet has it.
pub(crate) const PRACTICE: Reader = Reader {
    name: "practice",
    seeds: || {
        let full = "pressmark practice 1\npack irons\nasked 3\nlook 5 box 2 due 9 right 4 wrong 1\nkind 64 box 5 due \
                    20030 right 9 wrong 0\npair 3 64 box 1 due 9 right 0 wrong 2\nmake 2 box 3 due 12 right 1 wrong 1\n\
                    proof 4 box 4 due 20 right 8 wrong 1\ntook 64 for 3 times 2\nlesson 5\n\
                    trial 20001 right 7 seed 1152921504606846976\ngloves 1 2 3\n";
        let plain = "pressmark practice 1\npack irons\nasked 0\n";
        [full, plain].map(|text| text.as_bytes().to_vec()).to_vec()
    },
    words: &[
        "pressmark practice 1\n",
        "\npack irons\n",
        "\nasked ",
        "\nlook ",
        "\nkind ",
        "\npair ",
        "\nmake ",
        "\nproof ",
        " box ",
        " due ",
        " right ",
        " wrong ",
        "\ntook ",
        " for ",
        " times ",
        "\nlesson ",
        "\ntrial ",
        " seed ",
        "0",
        "4294967295",
        "18446744073709551615",
        "65535",
        "\r\n",
        "\u{202e}",
    ],
    answered: |bytes| {
        let Ok(text) = core::str::from_utf8(bytes) else { return Ok(false) };
        match Progress::read(text, "irons") {
            Ok(read) => {
                must(
                    Progress::read(&read.text(), "irons").as_ref() == Ok(&read),
                    "practice does not come back",
                )?;
                must(read.merged(&read) == read, "merged with itself it is another")?;
                let empty = Progress::of("irons");
                must(read.merged(&empty) == empty.merged(&read), "merging knows an order")?;
                for day in [0, 20_000, u32::MAX] {
                    must(read.due(day).len() <= read.cards.len(), "more is due than there is")?;
                }
                Ok(true)
            }
            Err(says) => must(says.ends_with('.'), "refused without a sentence").map(|()| false),
        }
    },
};

fn record() -> Vec<u8> {
    fs::read(at("crates/cabinet/tests/zip/record.txt")).unwrap_or_default()
}

/// An export of everything, or one record.
pub(crate) const CABINET: Reader = Reader {
    name: "cabinet",
    seeds: || {
        let mut writer = Writer::new(Moment(1_795_000_000_000));
        let picture = b"\xff\xd8\xff one".to_vec();
        let mut whole = Vec::new();
        let name = photo_name(&digest(&picture));
        for (name, data) in [("records/a.txt", &record()), (&name, &picture)] {
            whole.extend(writer.entry(name, data).unwrap_or_default());
            whole.extend(data);
        }
        whole.extend(writer.finish());
        let mut seeds = files("crates/cabinet/tests/zip", "zip");
        // One of them is there to be refused.
        seeds.retain(|zip| taken_in(zip).is_ok());
        seeds.extend([whole, record()]);
        seeds
    },
    words: &[
        "PK\u{3}\u{4}",
        "PK\u{1}\u{2}",
        "PK\u{5}\u{6}",
        "records/",
        "photos/",
        "../",
        "\0\0\0\0",
        "\n[mark]\n",
        "\n[photo]\n",
        "\n[measurement]\n",
        "\n[valuation]\n",
        "\n[acquired]\n",
        "\n| ",
        "\n: ",
        "\nid: ",
        "\nversion: ",
        "\nafter: ",
        "\nvalue: -1 mm\n",
        "low: 1e9 USD\n",
        "99999999999999999999",
        "format 2",
        "\r\n",
        "\u{202e}",
    ],
    answered: |bytes| {
        let taken = taken_in(bytes);
        if let Err(says) = &taken {
            must(!says.is_empty() && says.len() < 50, "refused without a sentence, or with too many")?;
            must(says.iter().all(|s| s.ends_with('.')), "no sentence")?;
        }
        match text::read(bytes) {
            Ok(version) => used(&version).map(|()| true),
            Err(faults) => {
                let lines = bytes.iter().filter(|byte| **byte == b'\n').count() + 1;
                must(!faults.is_empty() && faults.len() <= text::MOST_FAULTS + 1, "no faults, or too many")?;
                must(
                    faults.iter().all(|f| f.line <= lines && f.says.ends_with('.')),
                    "a fault without a line",
                )?;
                Ok(taken.is_ok())
            }
        }
    },
};

/// Reads an export by ranges, as the page does, and uses every version in it.
fn taken_in(bytes: &[u8]) -> Result<(), Vec<String>> {
    let mut import = Import::new(bytes.len() as u64);
    while let Some(want) = import.wants() {
        let range = bytes.get(want.from as usize..want.to as usize);
        import.give(range.ok_or_else(|| vec!["a range is asked for that the file has not".to_string()])?);
    }
    let found = import.finish()?;
    found.versions.iter().try_for_each(used).map_err(|says| vec![says])
}

/// Nothing that was read upsets anything that is done with it.
fn used(version: &Version) -> Result<(), String> {
    let (id, record) = (version.stamp.id, &version.record);
    must(text::read(text::write(version).as_bytes()).as_ref() == Ok(version), "a record does not come back")?;
    let _ = (faults(record, TODAY), lacks(record, TODAY), record.valued(), sale_text(record));
    let _ = linked_art(id, record, Profile::Insurance);
    must(!one(id, record, Profile::Sale, TODAY).blocks.is_empty(), "an empty sheet")
}

/// A table of pieces.
pub(crate) const SHEET: Reader = Reader {
    name: "sheet",
    seeds: || {
        let version = text::read(&record()).unwrap_or_default();
        let own = head() + &row(version.stamp.id, &version.record);
        // As another program might hold it.
        let foreign = "Inventory-Number;Title\r\n1999.2;\"Small; a swan\"\r\n";
        vec![own.into_bytes(), foreign.as_bytes().to_vec()]
    },
    words: &[
        "\"",
        "\"\"",
        ",",
        ";",
        "\t",
        "\r\n",
        "\0",
        "=",
        "1.234,50",
        "3/10/2026",
        "USD",
        "EUR",
        "64 mm",
        "2 1/2 in",
        "120 g",
        "owned",
        "wanted",
        "\u{feff}",
        "\u{202e}",
    ],
    answered: |bytes| {
        let mut next = 0_u128;
        let mut fresh = || {
            next += 1;
            Uuid(next.to_be_bytes())
        };
        match Table::read(bytes)
            .and_then(|table| take(&table, &guess(&table.heads), &|_| None, &mut fresh, TODAY))
        {
            Ok(found) => {
                for (_, record) in &found.records {
                    must(&record.tidied() == record, "what was taken is not tidy")?;
                    must(faults(record, TODAY).is_empty(), "what was taken has faults")?;
                }
                Ok(true)
            }
            Err(faults) => {
                must(!faults.is_empty() && faults.iter().all(|f| !f.says.is_empty()), "refused without words")
                    .map(|()| false)
            }
        }
    },
};
