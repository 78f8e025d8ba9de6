//! Damaged files. Whatever is done to them, opening and loading either gives all that was published or an error.

use std::fs;
use std::path::{Path, PathBuf};

use sprag_catalogue::{Event, Mode, OpenError, Store};

use crate::support::{Place, by_sku, content, open_hearing, place, publish, spacers};

const PARTS: usize = 900;

/// A closed store of two revisions; with the marker gone it stands as after a hard stop.
fn store(closed_in_order: bool) -> Place {
    let place = place();
    let store = Store::create(&place.path).unwrap();
    publish(&store, Mode::Full, &spacers(PARTS - 100, 1_850));
    publish(&store, Mode::Delta, &spacers(PARTS, 1_850));
    store.close().unwrap();
    if !closed_in_order {
        fs::remove_file(place.path.join("CLEAN")).unwrap();
    }
    place
}

fn copy(from: &Path, to: &Path) {
    fs::create_dir_all(to).unwrap();
    for item in fs::read_dir(from).unwrap() {
        let item = item.unwrap();
        let target = to.join(item.file_name());
        if item.file_type().unwrap().is_dir() {
            copy(&item.path(), &target);
        } else {
            fs::copy(item.path(), target).unwrap();
        }
    }
}

fn db(path: &Path) -> PathBuf {
    path.join("data").join("db")
}

/// Damages a copy, opens it, and holds the law; returns whether it was whole after all.
fn law(original: &Path, name: &str, damage: impl FnOnce(&Path)) -> bool {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("catalogue");
    copy(original, &path);
    damage(&path);
    let found = fs::read(db(&path)).ok();
    let (store, events) = open_hearing(&path);
    match store {
        Ok(store) => {
            assert_eq!(content(&store), by_sku(&spacers(PARTS, 1_850)), "{name}");
            true
        }
        Err(error) => {
            assert!(matches!(error, OpenError::Damaged { .. }), "{name}: {error}");
            assert!(error.to_string().contains("kept as found in"), "{error}");
            assert!(events.iter().any(|event| matches!(event, Event::TrialFailed { .. })), "{name}");
            assert_eq!(fs::read(db(&path)).ok(), found, "{name}: the file must be left as found");
            false
        }
    }
}

#[test]
fn a_cut_file_never_answers_with_fewer_parts() {
    for closed_in_order in [true, false] {
        let place = store(closed_in_order);
        let size = fs::metadata(db(&place.path)).unwrap().len();
        for permille in [999, 980, 950, 700, 500, 100, 1, 0] {
            let cut = size * permille / 1000;
            law(&place.path, &format!("cut to {cut} of {size}"), |path| {
                fs::OpenOptions::new().write(true).open(db(path)).unwrap().set_len(cut).unwrap();
            });
        }
        assert!(!law(&place.path, "no file", |path| fs::remove_file(db(path)).unwrap()));
        assert!(!law(&place.path, "no folder", |path| fs::remove_dir_all(path.join("data")).unwrap()));
    }
}

#[test]
fn flipped_bytes_never_panic_out_and_never_answer_wrongly() {
    for closed_in_order in [true, false] {
        let place = store(closed_in_order);
        let size = fs::metadata(db(&place.path)).unwrap().len();
        let size = usize::try_from(size).unwrap();
        for step in 0..12 {
            let position = size * (2 * step + 1) / 24;
            law(&place.path, &format!("byte {position} of {size}"), |path| {
                let mut bytes = fs::read(db(path)).unwrap();
                bytes[position] ^= 0xFF;
                fs::write(db(path), bytes).unwrap();
            });
        }
        law(&place.path, "a block of zeros", |path| {
            let mut bytes = fs::read(db(path)).unwrap();
            bytes[4096..8192].fill(0);
            fs::write(db(path), bytes).unwrap();
        });
    }
}

#[test]
fn damage_to_the_small_files_is_survived_or_refused() {
    let place = store(false);
    let conf_cut = |path: &Path| {
        let conf = path.join("data").join("conf");
        let bytes = fs::read(&conf).unwrap();
        fs::write(&conf, &bytes[..bytes.len() / 2]).unwrap();
    };
    assert!(law(&place.path, "conf cut in half", conf_cut));
    let left_over = |path: &Path| {
        fs::write(path.join("data").join("snap.0000000000001F00.generating"), b"half a snapshot").unwrap();
    };
    assert!(law(&place.path, "a snapshot in the making", left_over));
    assert!(law(&place.path, "an empty snapshot", |path| {
        fs::write(path.join("data").join("snap.00000000000FFFFF"), b"").unwrap();
    }));
    assert!(law(&place.path, "no record of what was acknowledged", |path| {
        fs::remove_file(path.join("ACKNOWLEDGED")).unwrap();
    }));
}

#[test]
fn an_older_state_that_is_whole_in_itself_is_not_taken_for_the_acknowledged_one() {
    let place = place();
    let store = Store::create(&place.path).unwrap();
    publish(&store, Mode::Full, &spacers(10, 1_850));
    store.close().unwrap();
    let older = place.path.with_file_name("older");
    copy(&place.path, &older);
    let (store, _) = open_hearing(&place.path);
    let store = store.unwrap();
    publish(&store, Mode::Full, &spacers(20, 1_850));
    store.close().unwrap();
    // The engine's files go back to an earlier moment, as those of a cut log do.
    fs::remove_dir_all(place.path.join("data")).unwrap();
    copy(&older.join("data"), &place.path.join("data"));
    let (store, _) = open_hearing(&place.path);
    let refused = store.err().unwrap();
    assert!(
        refused.to_string().contains("published revision: wanted 2 or later, as acknowledged, found 1"),
        "{refused}"
    );
}
