//! Export as NDJSON that imports to an identical catalogue.

use sprag_proto::json::to_json;
use sprag_proto::text::Fault;

use crate::live::View;

impl View {
    /// The lines of an export, each with its line end: the records, in the order in which they build on each other, then
    /// the parts in order of SKU.
    pub fn export(&self) -> impl Iterator<Item = Result<String, Fault>> {
        let ended = |mut line: String| {
            line.push('\n');
            line
        };
        let records = self.snapshot.records().iter().map(|record| to_json(record, false));
        let parts = self.snapshot.parts().iter().map(|stocked| to_json(&self.catalogued(stocked), false));
        records.chain(parts).map(move |line| line.map(ended))
    }
}
