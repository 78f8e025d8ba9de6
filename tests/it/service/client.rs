//! The client's program against the service's: exit statuses, words for people, JSON for programs.

use std::path::{Path, PathBuf};
use std::process::Output;

use serde_json::{Value as Json, json};
use sprag_tests::Service;
use tempfile::TempDir;

use super::bench::{ndjson, programs};
use super::shop::{rows, tourer};

/// A counter with the shop's parts and the touring bike in a file.
struct Counter {
    service: Service,
    folder: TempDir,
}

impl Counter {
    fn open() -> Self {
        let folder = tempfile::tempdir().expect("a folder");
        let service = Service::start(programs(), &folder.path().join("data")).expect("it starts");
        let counter = Self { service, folder };
        let parts = counter.file("parts.ndjson", &ndjson(&rows()));
        let imported = counter.sprag(&["catalogue", "import", &parts]);
        assert!(imported.status.success(), "{}", said(&imported));
        counter.file("tourer.json", &json!({"parts": tourer()}).to_string());
        counter
    }

    fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    fn file(&self, name: &str, text: &str) -> String {
        std::fs::write(self.path(name), text).expect("written");
        self.path(name).display().to_string()
    }

    fn sprag(&self, arguments: &[&str]) -> Output {
        programs().client(&self.service.address, arguments).expect("sprag runs")
    }

    fn check(&self, arguments: &[&str]) -> Output {
        let bike = self.path("tourer.json").display().to_string();
        let mut all = vec!["check", "--build", &bike];
        all.extend(arguments);
        self.sprag(&all)
    }
}

fn said(output: &Output) -> String {
    String::from_utf8_lossy(&output.stdout).into_owned() + &String::from_utf8_lossy(&output.stderr)
}

fn json_of(output: &Output) -> Json {
    serde_json::from_slice(&output.stdout).unwrap_or_else(|error| panic!("{error}: {}", said(output)))
}

#[test]
fn the_exit_status_tells_the_verdict() {
    let counter = Counter::open();
    let missing = "{\"wheel\": {\"hub\": {\"freehub_body\": {\"mount_family\": \"spline-9\"}}}}";
    let asked: [(&[&str], i32); 8] = [
        (&["--fit", "CS-1128"], 0),
        (&["--fit", "CS-1134"], 0),
        (&["--fit", "CS-1134", "--practice", "maker"], 1),
        (&["--fit", "CS-1146"], 1),
        (&["--fit", "CS-1123"], 2),
        (&["--fit", missing], 3),
        (&["--fit", "CS-1132-S"], 4),
        (&["--fit", "CS-1132-S", "--owned", "SPC-185"], 0),
    ];
    for (arguments, status) in asked {
        let answer = counter.check(arguments);
        assert_eq!(answer.status.code(), Some(status), "{arguments:?}: {}", said(&answer));
        assert!(!said(&answer).contains('\u{1b}'), "no colour in a pipe");
    }
    let misspelt = said(&counter.check(&["--fit", "CS-1123"]));
    assert!(misspelt.contains("changes[0].fit.sku") && misspelt.contains("CS-1128"), "{misspelt}");
}

#[test]
fn programs_get_canonical_json() {
    let counter = Counter::open();
    let answer = counter.check(&["--fit", "CS-1146", "--output", "json"]);
    assert_eq!(answer.status.code(), Some(1));
    let answer = json_of(&answer);
    assert_eq!(answer["verdict"], "VERDICT_DOES_NOT_FIT");
    let findings = answer["findings"].as_array().expect("findings");
    let large =
        findings.iter().find(|finding| finding["reason"] == "largest-cog-too-large").expect("the reason");
    assert_eq!(
        (&large["rule"], &large["outcome"]),
        (&json!("derailleur-on-cogs/largest-cog"), &json!("VERDICT_DOES_NOT_FIT"))
    );
    let over = large["numbers"].as_array().expect("numbers").iter().find(|number| number["name"] == "over");
    // 64-bit integers are text in protobuf's JSON.
    assert_eq!(over.map(|number| &number["value"]), Some(&json!("14")));
    assert_eq!(answer["basis"]["catalogueRevision"], "1");

    let spacer = json_of(&counter.check(&["--fit", "CS-1132-S", "--output", "json"]));
    assert_eq!(spacer["extraParts"][0]["kind"], "spacer");
    assert_eq!(spacer["unmetExtras"][0]["skusInStock"], json!(["SPC-185"]));

    let open = "{\"wheel\": {\"hub\": {\"freehub_body\": {\"mount_family\": \"spline-9\"}}}}";
    let asked = json_of(&counter.check(&["--fit", open, "--output", "json"]));
    assert_eq!(asked["questions"][0]["attribute"], "body_length");
}

#[test]
fn a_misspelt_file_is_told_before_anybody_is_asked() {
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("bike.toml");
    let text =
        "[[parts]]\n[parts.cassette]\nlargst_cog = 34\nmount_family = \"spline-9\"\ncogs = \"13-11\"\n";
    std::fs::write(&file, text).expect("written");
    // Nothing listens there, and nothing needs to.
    let bike = file.display().to_string();
    let refused = programs().client("http://127.0.0.1:9", &["check", "--build", &bike]).expect("sprag runs");
    assert_eq!(refused.status.code(), Some(2));
    let told = said(&refused);
    assert!(told.contains("parts[0].cassette.largst_cog") && told.contains("\"largest_cog\""), "{told}");
    assert!(told.contains("parts[0].cassette.cogs"), "all faults at once: {told}");

    std::fs::write(&file, "[[parts]]\nsku = \"CH-9\"\n").expect("written");
    let nobody = programs().client("http://127.0.0.1:9", &["check", "--build", &bike]).expect("sprag runs");
    assert_eq!(nobody.status.code(), Some(2));
    assert!(said(&nobody).contains("spragd"), "{}", said(&nobody));
}

#[test]
fn imports_and_exports_go_through_files() {
    let counter = Counter::open();
    let bad = counter.file("bad.csv", "sku,kind,chain_speed\nA-1,chain,9\nA-2,chain,ninety\n");
    let refused = counter.sprag(&["catalogue", "import", &bad]);
    assert_eq!(refused.status.code(), Some(1));
    let told = said(&refused);
    assert!(told.contains("row 3") && told.contains("chain_speed") && told.contains("ninety"), "{told}");
    let skipped = counter.sprag(&["catalogue", "import", &bad, "--skip-bad-rows"]);
    assert!(said(&skipped).contains("1 parts added"), "{}", said(&skipped));

    let export = counter.path("export.ndjson").display().to_string();
    assert!(counter.sprag(&["catalogue", "export", &export]).status.success());
    let digest = |counter: &Counter| {
        let revision = json_of(&counter.sprag(&["catalogue", "revision", "--output", "json"]));
        revision["revision"]["digest"].clone()
    };
    let before = digest(&counter);
    let again = counter.sprag(&["catalogue", "import", "--full", &export]);
    assert!(again.status.success(), "{}", said(&again));
    assert_eq!(digest(&counter), before);
    let listed = json_of(&counter.sprag(&["catalogue", "list", "--kind", "chain", "--output", "json"]));
    assert_eq!(listed["parts"].as_array().map(Vec::len), Some(3), "{listed}");
}

#[test]
fn examples_of_the_help_run_against_the_demo_shop() {
    let folder = tempfile::tempdir().expect("a folder");
    let service = Service::start(programs(), &folder.path().join("data")).expect("it starts");
    let run = |arguments: &[&str]| programs().client(&service.address, arguments).expect("sprag runs");
    assert!(Path::new(env!("CARGO_MANIFEST_DIR")).join("../deploy/demo/catalogue.ndjson").exists());
    let mut tried = 0;
    for command in [
        "catalogue import",
        "catalogue show",
        "catalogue list",
        "catalogue shelf",
        "catalogue interfaces",
        "check",
        "range",
        "recommend substitute",
        "recommend complete",
        "recommend upgrade",
        "rules show",
        "attributes",
    ] {
        let mut arguments: Vec<&str> = command.split(' ').collect();
        arguments.push("--help");
        let help = said(&run(&arguments));
        let example = help.lines().filter_map(|line| line.trim().strip_prefix("Example: sprag ")).next_back();
        let example = example.unwrap_or_else(|| panic!("{command} has no example: {help}")).replace('"', "");
        let words: Vec<&str> = example.split_whitespace().collect();
        let words = joined(&words);
        let answer = run(&words.iter().map(String::as_str).collect::<Vec<_>>());
        assert_ne!(answer.status.code(), Some(2), "{example}: {}", said(&answer));
        tried += 1;
    }
    assert_eq!(tried, 12);
}

/// A price is one word on the command line: "39.90 EUR".
fn joined(words: &[&str]) -> Vec<String> {
    let mut out: Vec<String> = Vec::new();
    for word in words {
        match out.last_mut() {
            Some(last) if *word == "EUR" => last.push_str(" EUR"),
            _ => out.push((*word).to_owned()),
        }
    }
    out
}
