//! The attribute dictionary as the descriptors declare it, and every spelling of every field.

use std::collections::HashMap;
use std::sync::LazyLock;

use prost_reflect::{DynamicMessage, ExtensionDescriptor, FieldDescriptor, MessageDescriptor, Value};

use super::units::{Measure, Quantity, base_name, quantity, unit_of_name};
use crate::POOL;
use crate::v1::{AttributeOptions, KindOptions, Unit};

/// What the value of an attribute is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Form {
    Number,
    List,
    Flag,
    /// One of a closed set of words.
    Word,
    /// A key of the interface registry.
    Interface,
    /// A key of no registry.
    FreeKey,
}

/// One attribute of one message.
#[derive(Clone, Debug)]
pub(crate) struct Attribute {
    /// Name without its unit.
    pub base: String,
    pub form: Form,
    pub unit: Unit,
    pub hard: (i64, i64),
    pub usual: (i64, i64),
    pub options: AttributeOptions,
}

impl Attribute {
    pub fn quantity(&self) -> &'static Quantity {
        quantity(self.unit)
    }
}

/// How the name of a field was written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(crate) enum Written {
    /// As declared: numbers are in the declared unit.
    Declared,
    /// With the ending of another unit.
    With(&'static Measure),
    /// Without the ending of its unit.
    Bare,
}

/// The fields of one message and their spellings.
#[derive(Debug)]
pub(crate) struct Shape {
    pub descriptor: MessageDescriptor,
    pub kind: Option<KindOptions>,
    attributes: HashMap<u32, Attribute>,
    spellings: HashMap<String, (u32, Written)>,
    /// The preferred spelling of each field, in order of declaration.
    pub names: Vec<String>,
}

impl Shape {
    /// The field that a name means.
    pub fn field(&self, name: &str) -> Option<(FieldDescriptor, Written)> {
        let (number, written) = self.spellings.get(name)?;
        Some((self.descriptor.get_field(*number)?, *written))
    }

    /// The attribute that a field declares.
    pub fn attribute(&self, field: &FieldDescriptor) -> Option<&Attribute> {
        self.attributes.get(&field.number())
    }

    /// Attributes in order of declaration.
    pub fn attributes(&self) -> impl Iterator<Item = (FieldDescriptor, &Attribute)> {
        self.descriptor
            .fields()
            .filter_map(|field| Some((field.clone(), self.attributes.get(&field.number())?)))
    }

    /// Every spelling of every field.
    pub fn spellings(&self) -> impl Iterator<Item = &str> {
        self.spellings.keys().map(String::as_str)
    }

    /// Every spelling of one field, the declared ones first.
    pub fn spellings_of(&self, field: &FieldDescriptor) -> Vec<&str> {
        let mut found: Vec<(bool, &str)> = Vec::new();
        for (name, (number, written)) in &self.spellings {
            if *number == field.number() {
                found.push((*written != Written::Declared, name));
            }
        }
        found.sort_unstable();
        found.into_iter().map(|(_, name)| name).collect()
    }

    fn read(descriptor: MessageDescriptor) -> Self {
        let kind = option(EXTENSIONS.kind.as_ref(), &descriptor.options());
        let mut shape = Self {
            descriptor: descriptor.clone(),
            kind,
            attributes: HashMap::new(),
            spellings: HashMap::new(),
            names: Vec::new(),
        };
        for field in descriptor.fields() {
            shape.add(&field);
        }
        shape
    }

    fn add(&mut self, field: &FieldDescriptor) {
        let number = field.number();
        let attribute = read_attribute(field);
        let counted = field.kind().as_message().is_none() && !field.is_list();
        let unit = match &attribute {
            Some(attribute) => attribute.unit,
            None if counted => unit_of_name(field.name()),
            None => Unit::Unspecified,
        };
        let base = base_name(field.name(), unit).to_owned();
        if base != field.name() {
            let measures = quantity(unit).measures.iter().filter(|measure| !measure.suffix.is_empty());
            for measure in measures {
                self.spell(format!("{base}_{}", measure.suffix), number, Written::With(measure));
            }
            self.spell(base, number, Written::Bare);
        }
        self.names.push(field.name().to_owned());
        self.spellings.insert(field.json_name().to_owned(), (number, Written::Declared));
        self.spellings.insert(field.name().to_owned(), (number, Written::Declared));
        if let Some(attribute) = attribute {
            self.attributes.insert(number, attribute);
        }
    }

    /// Adds a spelling that is not declared; a declared name always wins.
    fn spell(&mut self, name: String, number: u32, written: Written) {
        if self.descriptor.get_field_by_name(&name).is_none() {
            self.spellings.insert(name, (number, written));
        }
    }
}

struct Extensions {
    attribute: Option<ExtensionDescriptor>,
    kind: Option<ExtensionDescriptor>,
}

static EXTENSIONS: LazyLock<Extensions> = LazyLock::new(|| Extensions {
    attribute: POOL.get_extension_by_name("sprag.v1.attribute"),
    kind: POOL.get_extension_by_name("sprag.v1.kind"),
});

static SHAPES: LazyLock<HashMap<String, Shape>> = LazyLock::new(|| {
    POOL.all_messages().map(|message| (message.full_name().to_owned(), Shape::read(message))).collect()
});

/// The shape of a message; `None` where the descriptors have no such message.
pub(crate) fn shape(full_name: &str) -> Option<&'static Shape> {
    SHAPES.get(full_name)
}

/// The kinds of part: the name of the field in Part and the shape of its message, in order of declaration.
pub(crate) fn kinds() -> &'static [(String, &'static Shape)] {
    static KINDS: LazyLock<Vec<(String, &'static Shape)>> = LazyLock::new(|| {
        let oneof = shape("sprag.v1.Part")
            .and_then(|part| part.descriptor.oneofs().find(|oneof| oneof.name() == "kind"));
        let fields = oneof.iter().flat_map(|oneof| oneof.fields());
        let named = fields.filter_map(|field| {
            let message = field.kind().as_message().map(|message| message.full_name().to_owned())?;
            Some((field.name().to_owned(), shape(&message)?))
        });
        named.collect()
    });
    &KINDS
}

/// A custom option, read as its message.
fn option<M: prost::Message + Default>(
    extension: Option<&ExtensionDescriptor>,
    options: &DynamicMessage,
) -> Option<M> {
    let extension = extension.filter(|extension| options.has_extension(extension))?;
    match options.get_extension(extension).as_ref() {
        Value::Message(message) => message.transcode_to().ok(),
        _ => None,
    }
}

fn read_attribute(field: &FieldDescriptor) -> Option<Attribute> {
    let options: AttributeOptions = option(EXTENSIONS.attribute.as_ref(), &field.options())?;
    let form = match field.kind().as_message()?.full_name() {
        "sprag.v1.IntegerValue" => Form::Number,
        "sprag.v1.ListValue" => Form::List,
        "sprag.v1.FlagValue" => Form::Flag,
        "sprag.v1.KeyValue" if !options.words.is_empty() => Form::Word,
        "sprag.v1.KeyValue" if !options.interface_class.is_empty() => Form::Interface,
        "sprag.v1.KeyValue" => Form::FreeKey,
        _ => return None,
    };
    let unit = options.unit();
    let hard = (options.hard_min, options.hard_max);
    let usual = match (options.usual_min, options.usual_max) {
        (0, 0) => hard,
        usual => usual,
    };
    Some(Attribute { base: base_name(field.name(), unit).to_owned(), form, unit, hard, usual, options })
}
