//! Checks of the plain fields of records, with all faults at once.

use sprag_engine::fit::Date;
use sprag_proto::text::{Fault, nearest};
use sprag_proto::v1 as pb;

use super::registry::RecordFault;
use super::type_name;

/// Characters that an id may have.
pub const ID_MAX: usize = 100;
/// Characters of a strange text that a fault repeats.
const SHOWN_MAX: usize = 60;

/// Collects what is wrong with records.
#[derive(Debug, Default)]
pub struct Checker {
    name: pb::RecordName,
    faults: Vec<RecordFault>,
}

impl Checker {
    /// Goes on to a record, and checks its id.
    pub fn begin(&mut self, name: &pb::RecordName) {
        self.name = name.clone();
    }

    /// How many faults there are.
    pub fn count(&self) -> usize {
        self.faults.len()
    }

    /// Notes a fault of a field.
    pub fn fault(&mut self, field: &str, found: &str, wanted: &str) {
        self.near(field, found, wanted, None);
    }

    /// The same, with the nearest right spelling.
    pub fn near(&mut self, field: &str, found: &str, wanted: &str, nearest: Option<String>) {
        let record = type_name(self.name.r#type());
        let path = if field.is_empty() { record.to_owned() } else { format!("{record}.{field}") };
        let fault = Fault { path, found: found.to_owned(), wanted: wanted.to_owned(), nearest };
        self.faults.push(RecordFault { name: self.name.clone(), fault });
    }

    /// A text of one line and at most so many characters, which must be there.
    pub fn line(&mut self, field: &str, text: &str, max: usize) -> bool {
        let length = text.chars().count();
        let fine = !text.trim().is_empty() && length <= max && !text.contains(char::is_control);
        if !fine {
            let found = match length {
                0 => "nothing".to_owned(),
                _ if length > max => format!("{length} characters"),
                _ => quoted(text),
            };
            self.fault(field, &found, &format!("1 to {max} characters in one line"));
        }
        fine
    }

    /// The id of a record.
    pub fn id(&mut self, field: &str, id: &str) {
        if self.line(field, id, ID_MAX) && id.trim() != id {
            self.near(field, &quoted(id), "no blanks around it", Some(id.trim().to_owned()));
        }
    }

    /// A day.
    pub fn date(&mut self, field: &str, text: &str) -> Option<Date> {
        let found = Date::parse(text);
        if found.is_none() {
            self.fault(field, &or_nothing(text), "a day that exists, as 2026-11-25");
        }
        found
    }

    /// One of some names.
    pub fn one_of<'a, T>(
        &mut self,
        field: &str,
        text: &str,
        what: &str,
        find: impl FnOnce(&str) -> Option<T>,
        known: impl Iterator<Item = &'a str>,
    ) -> Option<T> {
        let found = find(text);
        if found.is_none() {
            self.near(field, &or_nothing(text), what, nearest(text, known));
        }
        found
    }

    /// The value where nothing is wrong, otherwise all that is.
    pub fn finish<T>(self, value: T) -> Result<T, Vec<RecordFault>> {
        if self.faults.is_empty() { Ok(value) } else { Err(self.faults) }
    }
}

/// A text as a fault repeats it.
pub fn quoted(text: &str) -> String {
    let short: String = text.chars().take(SHOWN_MAX).collect();
    format!("{short:?}")
}

/// The same, for a text that may be missing.
pub fn or_nothing(text: &str) -> String {
    if text.is_empty() { "nothing".to_owned() } else { quoted(text) }
}
