//! The report of an import: what was counted, and what is wrong.

use sprag_proto::text::Fault;
use sprag_proto::v1 as pb;

use crate::store::RecordChanges;

/// Faults told in a report; further ones are counted.
const FAULTS_SHOWN: usize = 200;

/// What became of parts.
pub(crate) fn count(report: &mut pb::ImportReport, added: u64, changed: u64, removed: u64) {
    report.parts_added = signed(added);
    report.parts_changed = signed(changed);
    report.parts_removed = signed(removed);
}

/// What became of records.
pub(crate) fn count_records(report: &mut pb::ImportReport, records: RecordChanges) {
    report.records_added = signed(records.added);
    report.records_changed = signed(records.changed);
    report.records_removed = signed(records.removed);
}

fn signed(count: u64) -> i64 {
    i64::try_from(count).unwrap_or(i64::MAX)
}

/// Faults in order of rows, the first ones whole.
#[derive(Default)]
pub(crate) struct FaultList {
    shown: Vec<pb::ImportFault>,
    left_off: i64,
}

impl FaultList {
    /// Adds a fault of a row.
    pub(crate) fn push(&mut self, row: i64, sku: &str, found: Fault, error: bool) {
        // Warnings leave room for errors.
        if self.shown.len() >= if error { FAULTS_SHOWN } else { FAULTS_SHOWN / 2 } {
            self.left_off += 1;
            return;
        }
        let severity = if error { pb::Severity::Error } else { pb::Severity::Warning };
        self.shown.push(pb::ImportFault {
            row,
            column: found.path,
            value: found.found,
            text: found.wanted,
            nearest: found.nearest.unwrap_or_default(),
            severity: severity.into(),
            sku: sku.to_owned(),
        });
    }

    /// Writes the faults into a report.
    pub(crate) fn report(self, report: &mut pb::ImportReport) {
        report.faults = self.shown;
        report.faults_left_off = self.left_off;
    }
}
