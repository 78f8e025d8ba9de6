//! Hard stops: a child process publishes until it is killed; what it was told is published must be there.

use std::env;
use std::fs::{self, OpenOptions};
use std::io::Write as _;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use std::thread;
use std::time::Duration;

use sprag_catalogue::{Event, Mode, OpenError, Options, ShelfEntry, Store, TrialCommand, trial_report};

use crate::support::{content, place, publish, spacers};

const STORE: &str = "SPRAG_TEST_STORE";
/// How many kills; 10 where it is not set, thousands for a soak.
const KILLS: &str = "SPRAG_TEST_KILLS";
const PARTS: usize = 40;

/// The line that the child writes after each acknowledged step: thickness of all parts, and shelf sequence.
fn told(path: &Path) -> PathBuf {
    path.with_file_name("told")
}

/// Not a test of its own: what the child process does.
#[test]
#[ignore = "run by the test below in a process that is killed"]
fn child_that_publishes_until_it_is_killed() {
    let Some(path) = env::var_os(STORE).map(PathBuf::from) else { return };
    let store = Store::open(&path, &Options::default(), &|_| {}).unwrap();
    let mut told = OpenOptions::new().append(true).create(true).open(told(&path)).unwrap();
    let start = i64::try_from(store.head().unwrap().number).unwrap();
    for thickness in start + 1.. {
        let published = publish(&store, Mode::Delta, &spacers(PARTS, thickness));
        let stock = published.revision;
        let sequence = store
            .update_shelf(&[ShelfEntry { sku: "SP-00000".into(), price: None, stock: Some(stock) }])
            .unwrap();
        writeln!(told, "{} {sequence}", published.revision).unwrap();
    }
}

/// Not a test of its own: the trial opening of the test below.
#[test]
#[ignore = "run by the test below as its trial command"]
fn child_that_tries_a_store() {
    let path = env::args().next_back().map(PathBuf::from).unwrap();
    let (status, text) = trial_report(&path);
    eprintln!("{text}");
    std::process::exit(status.into());
}

/// This program, told to run the child above; the path comes last and is taken for one more name of a test.
fn trial() -> TrialCommand {
    let args = ["--ignored", "--exact", "--nocapture", "crash::child_that_tries_a_store"];
    TrialCommand::new(env::current_exe().unwrap(), args)
}

fn last_told(path: &Path) -> (u64, u64) {
    let text = fs::read_to_string(told(path)).unwrap_or_default();
    // A line may be cut by the kill.
    let whole = text.rsplit_once('\n').map_or("", |(whole, _)| whole);
    let parse = |line: &str| {
        let (revision, sequence) = line.split_once(' ')?;
        Some((revision.parse().ok()?, sequence.parse().ok()?))
    };
    whole.lines().last().and_then(parse).unwrap_or_default()
}

#[test]
fn nothing_acknowledged_is_lost_over_many_kills() {
    let place = place();
    Store::create(&place.path).unwrap().close().unwrap();
    let program = env::current_exe().unwrap();
    let kills: u64 = env::var(KILLS).ok().and_then(|kills| kills.parse().ok()).unwrap_or(10);
    for kill in 0..kills {
        let mut child = Command::new(&program)
            .args(["--ignored", "--exact", "crash::child_that_publishes_until_it_is_killed"])
            .env(STORE, &place.path)
            .stdout(Stdio::null())
            .stderr(Stdio::null())
            .spawn()
            .unwrap();
        // In turn while it opens the store and while it publishes.
        let delay = if kill % 2 == 0 { 60 + kill * 67 % 400 } else { 2 + kill * 13 % 60 };
        thread::sleep(Duration::from_millis(delay));
        child.kill().unwrap();
        child.wait().unwrap();
        let (revision, sequence) = last_told(&place.path);
        let store = Store::open(&place.path, &Options { trial: Some(trial()) }, &|event| {
            if !matches!(event, Event::Suspect { .. } | Event::LeftoversRemoved { .. }) {
                println!("kill {kill}: {event}");
            }
            assert!(!matches!(event, Event::ChangesLost { .. }), "{event}");
        })
        .unwrap();
        let head = store.head().unwrap().number;
        assert!(head >= revision, "kill {kill}: told {revision}, found {head}");
        assert!(store.load_shelf().unwrap().sequence >= sequence, "kill {kill}");
        let wanted = spacers(if head == 0 { 0 } else { PARTS }, i64::try_from(head).unwrap());
        assert_eq!(content(&store), crate::support::by_sku(&wanted), "kill {kill}");
        store.verify().unwrap();
        store.prune(10).unwrap();
        store.close().unwrap();
    }
    assert!(last_told(&place.path).0 > 3, "the child must have come to publish");
}

#[test]
fn a_trial_in_a_process_of_its_own_tells_damage_and_is_ended_when_it_takes_too_long() {
    let place = place();
    let store = Store::create(&place.path).unwrap();
    publish(&store, Mode::Full, &spacers(PARTS, 1_850));
    store.close().unwrap();
    fs::remove_file(place.path.join("CLEAN")).unwrap();
    let open = |trial| Store::open(&place.path, &Options { trial: Some(trial) }, &|_| {});
    // A trial that never ends, and one that says nothing.
    let mut endless = TrialCommand::new("sh", ["-c", "sleep 60", "sh"]);
    endless.patience = Duration::from_millis(200);
    let refused = open(endless).err().unwrap();
    assert!(refused.to_string().contains("not done after 0 s"), "{refused}");
    let refused = open(TrialCommand::new("false", [""; 0])).err().unwrap();
    assert!(refused.to_string().contains("exit status: 1"), "{refused}");
    // Nothing was harmed by either.
    assert_eq!(content(&open(trial()).unwrap()).len(), PARTS);
    fs::remove_file(place.path.join("CLEAN")).unwrap();
    OpenOptions::new().write(true).open(place.path.join("data").join("db")).unwrap().set_len(5_000).unwrap();
    let refused = open(trial()).err().unwrap();
    assert!(matches!(refused, OpenError::Damaged { .. }));
    assert!(refused.to_string().contains("the files as found: exit status: 1"), "{refused}");
}
