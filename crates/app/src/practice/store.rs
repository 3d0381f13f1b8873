//! What the program begins with, and where it keeps what was practised: a note in the store of this device.

use crate::browser::database::{self, Database, Fault, NOTES, PRACTICE, brought};
use crate::browser::{clock, pack};
use ::practice::{Progress, Sight, Trainer};
use consult::Guide;

/// The pack made ready, and what was kept.
pub struct Begun {
    pub(super) guide: &'static Guide,
    pub(super) trainer: Trainer<'static>,
    pub(super) db: Option<Database>,
    pub(super) kept: Option<String>,
    /// What files of the cabinet brought, to be taken in.
    pub(super) brought: Vec<String>,
}

/// The name of the note with what was practised with a pack.
pub(super) fn name(pack: &str) -> String {
    format!("{PRACTICE}{pack}")
}

/// Loads the pack and what was kept.
///
/// # Errors
/// A sentence for the user.
pub async fn begun() -> Result<Begun, String> {
    let guide =
        Guide::from_bytes(&pack::load("core").await?, &pack::load("book").await?, clock::this_year())?;
    // One pack for as long as the page stands: what borrows it may be kept in the program.
    let guide: &'static Guide = Box::leak(Box::new(guide));
    let sight: &'static Sight = Box::leak(Box::new(Sight::new(guide)));
    let db = database::open(None).await.ok();
    let (mut kept, mut came) = (None, Vec::new());
    if let Some(db) = &db {
        let id = &guide.core.head.id;
        kept = db.note(&name(id)).await.ok().filter(|text| !text.is_empty());
        came = db.texts(NOTES, &brought(id)).await.unwrap_or_default();
    }
    Ok(Begun { guide, trainer: Trainer::new(guide, sight), db, kept, brought: came })
}

/// Keeps what was practised, together with what another window has kept meanwhile. A text that cannot be read is put aside,
/// not written over.
pub(super) async fn keep(db: &Database, pack: &str, text: &str) -> Result<(), Fault> {
    let name = name(pack);
    let there = db.note(&name).await?;
    let text = match (Progress::read(&there, pack), Progress::read(text, pack)) {
        (Ok(there), Ok(own)) => own.merged(&there).text(),
        (Err(_), _) if !there.is_empty() => {
            db.keep(&format!("{name}/unread"), &there, true).await?;
            text.to_string()
        }
        _ => text.to_string(),
    };
    db.keep(&name, &text, true).await
}

/// Takes away what files of the cabinet had left, once it is kept.
pub(super) async fn done_with_brought(db: &Database, pack: &str) -> Result<(), Fault> {
    let begin = brought(pack);
    for name in db.names(NOTES).await?.iter().filter(|name| name.starts_with(&begin)) {
        db.keep(name, "", false).await?;
    }
    Ok(())
}
