//! The dictionary as data, for reference documents.

use super::dictionary::{Form, kinds, shape};
use super::units::quantity;
use crate::v1::Unit;

/// One kind of part, or the use of a bike.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct KindDoc {
    /// Field name in Part: "rear_derailleur"; "use" for the use of a bike.
    pub kind: String,
    /// What the trade calls it.
    pub label: String,
    /// Parts of kinds with the same place displace each other; empty = several may be fitted.
    pub place: String,
    /// Why the kind is not judged; empty = judged.
    pub not_judged: String,
    /// Parts that it opens into, as field names.
    pub children: Vec<String>,
}

/// One attribute of one kind.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct AttributeDoc {
    /// Field name of the kind in Part; "use" for the use of a bike.
    pub kind: String,
    /// Name without its unit.
    pub name: String,
    /// Field name.
    pub field: String,
    /// "number", "list", "yes-no", "word", "key" (of the interface registry) or "free key".
    pub form: &'static str,
    /// What the integers count; unspecified for other forms.
    pub unit: Unit,
    /// Unit as people write it; empty for plain counts and other forms.
    pub unit_word: &'static str,
    /// Values outside are refused; in the unit of the field; `None` for other forms.
    pub hard: Option<(i64, i64)>,
    /// Values outside are flagged; in the unit of the field; `None` for other forms.
    pub usual: Option<(i64, i64)>,
    /// The words allowed; empty for other forms.
    pub words: Vec<String>,
    /// The class of the interface registry; empty for other forms.
    pub interface_class: String,
    /// What a mechanic would ask to learn it.
    pub question: String,
    /// How to find it out.
    pub measure: String,
    /// Every name under which it may be written, the declared ones first.
    pub spellings: Vec<String>,
}

/// Every kind, in the order of Part, the use of a bike last.
pub fn kind_docs() -> Vec<KindDoc> {
    let mut docs = Vec::new();
    for (name, shape) in every_kind() {
        let options = shape.kind.clone().unwrap_or_default();
        let children = shape.descriptor.fields().filter(|field| shape.attribute(field).is_none());
        docs.push(KindDoc {
            kind: name.to_owned(),
            label: options.label,
            place: options.place,
            not_judged: options.not_judged,
            children: children.map(|field| field.name().to_owned()).collect(),
        });
    }
    docs
}

/// Every attribute of every kind, in the order of declaration.
pub fn attributes() -> Vec<AttributeDoc> {
    let mut docs = Vec::new();
    for (kind, shape) in every_kind() {
        for (field, attribute) in shape.attributes() {
            let numeric = matches!(attribute.form, Form::Number | Form::List);
            docs.push(AttributeDoc {
                kind: kind.to_owned(),
                name: attribute.base.clone(),
                field: field.name().to_owned(),
                form: match attribute.form {
                    Form::Number => "number",
                    Form::List => "list",
                    Form::Flag => "yes-no",
                    Form::Word => "word",
                    Form::Interface => "key",
                    Form::FreeKey => "free key",
                },
                unit: attribute.unit,
                unit_word: if numeric { quantity(attribute.unit).human.word } else { "" },
                hard: numeric.then_some(attribute.hard),
                usual: numeric.then_some(attribute.usual),
                words: attribute.options.words.clone(),
                interface_class: attribute.options.interface_class.clone(),
                question: attribute.options.question.clone(),
                measure: attribute.options.measure.clone(),
                spellings: shape.spellings_of(&field).into_iter().map(str::to_owned).collect(),
            });
        }
    }
    docs
}

fn every_kind() -> impl Iterator<Item = (&'static str, &'static super::dictionary::Shape)> {
    let parts = kinds().iter().map(|(name, shape)| (name.as_str(), *shape));
    parts.chain(shape("sprag.v1.Use").map(|shape| ("use", shape)))
}
