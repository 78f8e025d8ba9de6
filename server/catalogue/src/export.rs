//! Export as NDJSON that imports to an identical catalogue.

use sprag_proto::json::to_json;
use sprag_proto::text::Fault;

use crate::live::View;

impl View {
    /// The lines of an export, in order of SKU, each with its line end.
    pub fn export(&self) -> impl Iterator<Item = Result<String, Fault>> {
        self.snapshot.parts().iter().map(|stocked| {
            let mut line = to_json(&self.catalogued(stocked), false)?;
            line.push('\n');
            Ok(line)
        })
    }
}
