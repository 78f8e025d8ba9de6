//! The dictionary as the .proto files declare it.

use std::collections::BTreeMap;

use anyhow::{Context, Result, bail};
use prost_reflect::{DescriptorPool, DynamicMessage, FieldDescriptor, MessageDescriptor, Value};

/// What the value of an attribute is.
#[derive(Clone, Debug, PartialEq)]
pub enum Form {
    Integer,
    List,
    Flag,
    Words(Vec<String>),
    Interface(String),
    FreeKey,
}

/// One attribute of one kind.
#[derive(Clone, Debug)]
pub struct Attribute {
    /// Name without its unit.
    pub name: String,
    /// Field name on the wire.
    pub field: String,
    pub form: Form,
    /// Name of the unit without its prefix: "MICROMETRE".
    pub unit: String,
    pub hard: (i64, i64),
    pub usual: (i64, i64),
    pub question: String,
    pub measure: String,
}

/// A child of a composite kind.
#[derive(Clone, Debug)]
pub struct Child {
    pub field: String,
    pub message: String,
    pub repeated: bool,
}

/// One kind of part.
#[derive(Clone, Debug)]
pub struct Kind {
    pub message: String,
    /// Field name in Part: "rear_derailleur"; "use" for the use of a bike.
    pub name: String,
    pub label: String,
    pub place: String,
    pub not_judged: String,
    pub attributes: Vec<Attribute>,
    pub children: Vec<Child>,
}

/// Every kind, in the order of the oneof in Part, the use of a bike last.
pub struct Model {
    pub kinds: Vec<Kind>,
}

impl Model {
    pub fn read(descriptors: &[u8]) -> Result<Self> {
        let pool = DescriptorPool::decode(descriptors)?;
        let part = pool.get_message_by_name("sprag.v1.Part").context("message Part is missing")?;
        let oneof = part.oneofs().find(|oneof| oneof.name() == "kind").context("Part has no oneof kind")?;
        let mut kinds = Vec::new();
        for field in oneof.fields() {
            let message = field.kind().as_message().context("a kind must be a message")?.clone();
            kinds.push(read_kind(&pool, field.name(), &message)?);
        }
        let usage = pool.get_message_by_name("sprag.v1.Use").context("message Use is missing")?;
        kinds.push(read_kind(&pool, "use", &usage)?);
        let model = Self { kinds };
        model.check()?;
        Ok(model)
    }

    /// Distinct attributes by name; the form must be the same wherever a name occurs.
    pub fn attributes(&self) -> BTreeMap<&str, &Attribute> {
        self.kinds.iter().flat_map(|kind| &kind.attributes).map(|found| (found.name.as_str(), found)).collect()
    }

    fn check(&self) -> Result<()> {
        let by_name = self.attributes();
        for kind in &self.kinds {
            for attribute in &kind.attributes {
                let other = by_name[attribute.name.as_str()];
                if other.form != attribute.form || other.unit != attribute.unit {
                    bail!("attribute {} of {} has another form or unit elsewhere", attribute.name, kind.name);
                }
            }
        }
        Ok(())
    }
}

fn read_kind(pool: &DescriptorPool, name: &str, message: &MessageDescriptor) -> Result<Kind> {
    let extension = pool.get_extension_by_name("sprag.v1.kind").context("extension kind is missing")?;
    let options = message.options();
    let Value::Message(kind) = options.get_extension(&extension).into_owned() else {
        bail!("message {} does not declare its kind", message.name());
    };
    let mut attributes = Vec::new();
    let mut children = Vec::new();
    for field in message.fields() {
        if let Some(attribute) = read_attribute(pool, &field)? {
            attributes.push(attribute);
        } else {
            let child = field.kind().as_message().with_context(|| format!("{} is no attribute", field.full_name()))?.clone();
            children.push(Child {
                field: field.name().into(),
                message: child.name().into(),
                repeated: field.is_list(),
            });
        }
    }
    let label = text(&kind, "label");
    if label.is_empty() {
        bail!("message {} has no label", message.name());
    }
    Ok(Kind {
        message: message.name().into(),
        name: name.into(),
        label,
        place: text(&kind, "place"),
        not_judged: text(&kind, "not_judged"),
        attributes,
        children,
    })
}

fn read_attribute(pool: &DescriptorPool, field: &FieldDescriptor) -> Result<Option<Attribute>> {
    let extension = pool.get_extension_by_name("sprag.v1.attribute").context("extension attribute is missing")?;
    let options = field.options();
    if !options.has_extension(&extension) {
        return Ok(None);
    }
    let Value::Message(declared) = options.get_extension(&extension).into_owned() else {
        bail!("{} has a strange attribute option", field.full_name());
    };
    let unit = match declared.get_field_by_name("unit").map(|value| value.into_owned()) {
        Some(Value::EnumNumber(number)) => {
            let units = pool.get_enum_by_name("sprag.v1.Unit").context("enum Unit is missing")?;
            let value = units.get_value(number).context("unknown unit")?;
            value.name().trim_start_matches("UNIT_").to_owned()
        }
        _ => "UNSPECIFIED".to_owned(),
    };
    let words = strings(&declared, "words");
    let class = text(&declared, "interface_class");
    let kind = field.kind();
    let message = kind.as_message().with_context(|| format!("{} must be a value message", field.full_name()))?;
    let form = match message.name() {
        "IntegerValue" => Form::Integer,
        "ListValue" => Form::List,
        "FlagValue" => Form::Flag,
        "KeyValue" if !words.is_empty() => Form::Words(words),
        "KeyValue" if !class.is_empty() => Form::Interface(class),
        "KeyValue" => Form::FreeKey,
        other => bail!("{} has no value message but {other}", field.full_name()),
    };
    let hard = (integer(&declared, "hard_min"), integer(&declared, "hard_max"));
    let mut usual = (integer(&declared, "usual_min"), integer(&declared, "usual_max"));
    if usual == (0, 0) {
        usual = hard;
    }
    let numeric = matches!(form, Form::Integer | Form::List);
    let question = text(&declared, "question");
    if question.is_empty() || text(&declared, "measure").is_empty() {
        bail!("{} has no question, or no way to find it out", field.full_name());
    }
    if numeric && (unit == "UNSPECIFIED" || hard.0 >= hard.1 || usual.0 < hard.0 || usual.1 > hard.1) {
        bail!("{} needs a unit and a hard range that holds the usual one", field.full_name());
    }
    Ok(Some(Attribute {
        name: without_unit(field.name(), &unit),
        field: field.name().into(),
        form,
        unit,
        hard,
        usual,
        question,
        measure: text(&declared, "measure"),
    }))
}

/// The suffix that a field name carries for its unit.
fn without_unit(field: &str, unit: &str) -> String {
    let suffix = match unit {
        "MICROMETRE" => "_um",
        "GRAM" => "_g",
        "PERMILLE" => "_permille",
        "NEWTON_METRE" => "_nm",
        "KILOPASCAL" => "_kpa",
        "KILOMETRE_PER_HOUR" => "_kmh",
        "KILOGRAM" => "_kg",
        _ => "",
    };
    field.strip_suffix(suffix).unwrap_or(field).to_owned()
}

fn text(message: &DynamicMessage, field: &str) -> String {
    message.get_field_by_name(field).and_then(|value| value.as_str().map(str::to_owned)).unwrap_or_default()
}

fn integer(message: &DynamicMessage, field: &str) -> i64 {
    message.get_field_by_name(field).and_then(|value| value.as_i64()).unwrap_or_default()
}

fn strings(message: &DynamicMessage, field: &str) -> Vec<String> {
    let list = message.get_field_by_name(field);
    let values = list.as_ref().and_then(|value| value.as_list()).unwrap_or_default();
    values.iter().filter_map(|value| value.as_str().map(str::to_owned)).collect()
}
