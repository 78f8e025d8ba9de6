//! The records of a revision, checked and compiled for look-up.

use std::sync::LazyLock;

use sprag_engine::fit::book::{Book, Identity};
use sprag_engine::part::Part;
use sprag_engine::part::interface::Interfaces;
use sprag_proto::text::{Fault, gtin14};
use sprag_proto::v1 as pb;
use sprag_proto::v1::record::Record as Which;

use super::alias::Aliases;
use super::text::Checker;
use super::{interface, name_of, pair, selector};

/// What is wrong with a record.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct RecordFault {
    /// Its name.
    pub name: pb::RecordName,
    /// What is wrong; the path is within the record: `statement.part.sku`.
    pub fault: Fault,
}

/// The records of a revision, compiled: every interface, every alias, and the book of statements and rulings.
#[derive(Clone, Debug)]
pub struct Registry {
    /// The interfaces: the standard ones, and the shop's.
    pub interfaces: Interfaces,
    /// The shop's words for them.
    pub aliases: Aliases,
    /// What makers state and the shop has ruled.
    pub book: Book,
}

impl Registry {
    /// The registry of a catalogue without records.
    pub fn standard() -> &'static Self {
        static STANDARD: LazyLock<Registry> = LazyLock::new(|| Registry {
            interfaces: Interfaces::standard(),
            aliases: Aliases::default(),
            book: Book::default(),
        });
        &STANDARD
    }

    /// Compiles records. Where two contradict each other, the later one is at fault.
    ///
    /// # Errors
    /// All that is wrong with them.
    pub fn compile<'a>(records: impl IntoIterator<Item = &'a pb::Record>) -> Result<Self, Vec<RecordFault>> {
        let mut checker = Checker::default();
        let (mut interfaces, mut aliases, mut pairs) = (Vec::new(), Vec::new(), Vec::new());
        for record in records {
            let name = name_of(record).unwrap_or_default();
            checker.begin(&name);
            match &record.record {
                None => checker.fault("", "nothing", "a statement, a ruling, an interface or an alias"),
                Some(Which::Interface(found)) => interfaces.push((name, found)),
                Some(Which::Alias(found)) => aliases.push((name, found)),
                Some(Which::Statement(found)) => pairs.push((name, pair::Said::from(found))),
                Some(Which::Ruling(found)) => pairs.push((name, pair::Said::from(found))),
            }
        }
        // Interfaces come first, since the others speak of them; all of them before what they accept.
        let mut registry = Self::standard().clone();
        let mut known = Vec::new();
        for (name, found) in interfaces {
            checker.begin(&name);
            known.extend(
                interface::add(found, &mut registry.interfaces, &mut checker).map(|key| (name, found, key)),
            );
        }
        for (name, found, key) in known {
            checker.begin(&name);
            interface::join(found, key, &mut registry.interfaces, &mut checker);
        }
        for (name, found) in aliases {
            checker.begin(&name);
            registry.aliases.add(found, &registry.interfaces, &mut checker);
        }
        let mut sayings = Vec::new();
        for (name, found) in pairs {
            checker.begin(&name);
            sayings.extend(pair::read(&found, &registry.interfaces, &mut checker));
        }
        registry.book = Book::new(sayings);
        checker.finish(registry)
    }

    /// Gives a part its marks in the book: by its own stock number, and by the other numbers of its message.
    pub fn mark(&self, part: &mut Part, message: &pb::Part) {
        if self.book.is_empty() && part.marks().is_empty() {
            return;
        }
        let gtins: Vec<String> = message.gtins.iter().filter_map(|gtin| gtin14(gtin).ok()).collect();
        let number = message.maker_part.as_ref().map(selector::maker_number);
        let maker_part = number.as_ref().map(|(brand, number)| (brand.as_str(), number.as_str()));
        let sku = part.sku.to_string();
        self.book.mark(part, Identity { sku: &sku, gtins: &gtins, maker_part });
    }
}
