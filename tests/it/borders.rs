//! The borders of the house, read from the manifests: an arrow that is not drawn fails.

use std::collections::BTreeSet;

use sprag_tests::root;

/// Which of our crates each crate may use. The drawing in DEVELOPERS.md says the same.
const ARROWS: [(&str, &[&str]); 7] = [
    ("client-cli", &["sprag-proto"]),
    ("proto", &[]),
    ("proto/codegen", &[]),
    ("server", &["sprag-catalogue", "sprag-engine", "sprag-proto"]),
    ("server/catalogue", &["sprag-engine", "sprag-proto"]),
    ("server/engine", &[]),
    ("tests", &["sprag-catalogue", "sprag-engine", "sprag-proto", "sprag-server"]),
];

/// Libraries that belong to one room only.
const ROOMS: [(&str, &[&str]); 5] = [
    ("sled", &["server/catalogue"]),
    ("tonic-health", &["server", "tests"]),
    ("tonic-reflection", &["server"]),
    ("comfy-table", &["client-cli"]),
    ("tokio", &["client-cli", "server", "tests"]),
];

fn manifest(folder: &str) -> toml::Table {
    let path = root().join(folder).join("Cargo.toml");
    let text = std::fs::read_to_string(&path).unwrap_or_else(|error| panic!("{}: {error}", path.display()));
    text.parse().expect("a manifest is TOML")
}

fn dependencies(folder: &str) -> BTreeSet<String> {
    let manifest = manifest(folder);
    let sections = ["dependencies", "dev-dependencies", "build-dependencies"];
    sections
        .iter()
        .filter_map(|section| manifest.get(*section)?.as_table())
        .flat_map(|table| table.keys().cloned())
        .collect()
}

#[test]
fn crates_use_only_what_is_drawn() {
    for (folder, allowed) in ARROWS {
        let used = dependencies(folder);
        let ours = used.iter().filter(|name| *name == "sprag" || name.starts_with("sprag-"));
        for name in ours {
            assert!(allowed.contains(&name.as_str()), "{folder} uses {name}, which is not drawn");
        }
    }
}

#[test]
fn every_crate_of_the_workspace_is_drawn() {
    let workspace = manifest("");
    let members = workspace["workspace"]["members"].as_array().expect("members").clone();
    for member in members {
        let member = member.as_str().expect("a folder").to_owned();
        assert!(ARROWS.iter().any(|(folder, _)| *folder == member), "{member} is not drawn");
    }
}

#[test]
fn libraries_stay_in_their_rooms() {
    for (library, rooms) in ROOMS {
        for (folder, _) in ARROWS {
            let used = dependencies(folder).contains(library);
            assert!(!used || rooms.contains(&folder), "{folder} uses {library}, which belongs to {rooms:?}");
        }
    }
}

#[test]
fn the_engine_stands_alone() {
    let engine = manifest("server/engine");
    let used = engine.get("dependencies").and_then(|table| table.as_table()).map_or(0, toml::Table::len);
    assert_eq!(used, 0, "the engine needs nothing but the standard library");
}

#[test]
fn unsafe_code_is_forbidden_everywhere() {
    assert_eq!(manifest("")["workspace"]["lints"]["rust"]["unsafe_code"].as_str(), Some("forbid"));
    for (folder, _) in ARROWS.iter().filter(|(folder, _)| *folder != "proto/codegen") {
        let manifest = manifest(folder);
        assert_eq!(manifest["lints"]["workspace"].as_bool(), Some(true), "{folder} does not take the lints");
    }
    assert_eq!(manifest("proto/codegen")["lints"]["rust"]["unsafe_code"].as_str(), Some("forbid"));
}
