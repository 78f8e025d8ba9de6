//! Messages, clients, servers and the descriptor set.

use std::path::{Path, PathBuf};

use anyhow::Result;
use prost::Message;
use prost_types::FileDescriptorSet;

/// A file to write, with its path below the workspace root.
pub type File = (PathBuf, Vec<u8>);

/// The encoded descriptor set of every .proto file, custom options included.
pub fn compile(proto: &Path) -> Result<Vec<u8>> {
    let mut sources: Vec<PathBuf> =
        std::fs::read_dir(proto.join("sprag/v1"))?.map(|entry| Ok(entry?.path())).collect::<Result<_>>()?;
    sources.sort();
    let mut compiler = protox::Compiler::new([proto])?;
    compiler.include_imports(true).include_source_info(true).open_files(sources)?;
    // The convenience function of protox drops extension options; this one keeps them.
    Ok(compiler.encode_file_descriptor_set())
}

/// Rust code and descriptor set for the proto crate.
pub fn generate(descriptors: &[u8]) -> Result<Vec<File>> {
    let folder = tempfile::tempdir()?;
    let mut set = FileDescriptorSet::decode(descriptors)?;
    let mut config = prost_build::Config::new();
    config.out_dir(folder.path());
    config.enable_type_names();
    config.type_name_domain(["."], "");
    tonic_prost_build::configure()
        .build_transport(false)
        .emit_rerun_if_changed(false)
        .out_dir(folder.path())
        .compile_fds_with_config(set.clone(), config)?;
    let mut files = Vec::new();
    for package in ["google.rpc", "sprag.v1"] {
        let code = std::fs::read_to_string(folder.path().join(format!("{package}.rs")))?;
        files.push((PathBuf::from(format!("proto/src/gen/{package}.rs")), code.into_bytes()));
    }
    files.push((PathBuf::from("proto/src/gen/descriptors.binpb"), strip_sources(&mut set, descriptors)?));
    Ok(files)
}

/// Leaves the comments out of the committed descriptor set: reflection does not need them.
fn strip_sources(_set: &mut FileDescriptorSet, descriptors: &[u8]) -> Result<Vec<u8>> {
    // A round trip through prost_types would lose extension options, so this goes through dynamic messages.
    let pool = prost_reflect::DescriptorPool::global();
    let descriptor = pool
        .get_message_by_name("google.protobuf.FileDescriptorSet")
        .ok_or_else(|| anyhow::anyhow!("the descriptor of descriptors is missing"))?;
    let mut set = prost_reflect::DynamicMessage::decode(descriptor, descriptors)?;
    if let Some(files) = set.get_field_by_name_mut("file").and_then(|value| value.as_list_mut().map(Vec::as_mut_slice)) {
        for file in files {
            if let prost_reflect::Value::Message(message) = file {
                message.clear_field_by_name("source_code_info");
            }
        }
    }
    Ok(set.encode_to_vec())
}
