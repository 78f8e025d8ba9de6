//! Short words for the tests.

use std::cell::RefCell;
use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use sprag_catalogue::{Event, Mode, OpenError, Options, Publication, Published, Store};
use sprag_proto::v1 as pb;
use tempfile::TempDir;

/// A folder for a store, with room beside it.
pub struct Place {
    folder: TempDir,
    pub path: PathBuf,
}

impl Drop for Place {
    fn drop(&mut self) {
        if std::thread::panicking() {
            // A damaged store that was found by chance may never come again.
            self.folder.disable_cleanup(true);
            eprintln!("kept for examination: {}", self.folder.path().display());
        }
    }
}

pub fn place() -> Place {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("catalogue");
    Place { folder, path }
}

/// A spacer whose thickness tells its versions apart.
pub fn spacer(sku: &str, thickness_um: i64) -> pb::Part {
    let thickness_um = Some(pb::IntegerValue {
        set: Some(pb::integer_value::Set::Exact(thickness_um)),
        ..pb::IntegerValue::default()
    });
    pb::Part {
        sku: sku.into(),
        name: format!("Spacer of {sku} by the Invented Ring Works"),
        kind: Some(pb::part::Kind::Spacer(pb::Spacer { thickness_um, ..pb::Spacer::default() })),
        ..pb::Part::default()
    }
}

pub fn with_gtin(mut part: pb::Part, gtin: &str) -> pb::Part {
    part.gtins.push(gtin.into());
    part
}

/// `count` spacers of one thickness.
pub fn spacers(count: usize, thickness_um: i64) -> Vec<pb::Part> {
    (0..count).map(|number| spacer(&format!("SP-{number:05}"), thickness_um)).collect()
}

pub fn publication(note: &str) -> Publication {
    Publication { author: "test".into(), note: note.into(), created_unix: 1_800_000_000, request: None }
}

pub fn publish(store: &Store, mode: Mode, parts: &[pb::Part]) -> Published {
    let mut draft = store.begin_publish(mode).unwrap();
    parts.iter().for_each(|part| draft.put(part).unwrap());
    draft.finish(publication("test")).unwrap()
}

/// The published parts by stock number.
pub fn content(store: &Store) -> BTreeMap<String, pb::Part> {
    store.load().unwrap().parts.into_iter().collect()
}

pub fn by_sku(parts: &[pb::Part]) -> BTreeMap<String, pb::Part> {
    parts.iter().map(|part| (part.sku.clone(), part.clone())).collect()
}

pub fn open(path: &Path) -> Store {
    Store::open(path, &Options::default(), &|event| panic!("unexpected: {event}")).unwrap()
}

/// Opens and says what was heard.
pub fn open_hearing(path: &Path) -> (Result<Store, OpenError>, Vec<Event>) {
    let events = RefCell::new(Vec::new());
    let store = Store::open(path, &Options::default(), &|event| events.borrow_mut().push(event));
    (store, events.into_inner())
}
