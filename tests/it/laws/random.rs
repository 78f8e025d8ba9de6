//! Random parts: values are drawn from what matters to rules, so that every outcome comes up.

use sprag_engine::fit::Slot;
use sprag_engine::fit::rule::Rule;
use sprag_engine::part::interface::Interfaces;
use sprag_engine::part::{Attribute, AttributeSpec, Form, Kind, Origin, Part, Set, Unit, Value};

/// A small generator with a fixed sequence for each seed (SplitMix64, as published by its authors).
pub struct Random(pub u64);

impl Random {
    /// The next number.
    pub fn next(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut mixed = self.0;
        mixed = (mixed ^ (mixed >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        mixed = (mixed ^ (mixed >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        mixed ^ (mixed >> 31)
    }

    /// A number below a limit.
    pub fn below(&mut self, limit: usize) -> usize {
        usize::try_from(self.next() % u64::try_from(limit.max(1)).expect("a small limit"))
            .expect("below a small limit")
    }

    /// One of several.
    pub fn pick<'a, T>(&mut self, from: &'a [T]) -> &'a T {
        &from[self.below(from.len())]
    }

    /// True once in so many times.
    pub fn once_in(&mut self, times: usize) -> bool {
        self.below(times) == 0
    }
}

/// Numbers that rules compare with: a rule's outcome changes near these.
const LENGTHS_UM: [i64; 22] = [
    1_600, 1_780, 1_850, 2_070, 2_180, 2_380, 2_910, 3_180, 3_600, 3_690, 3_900, 3_950, 4_340, 4_800, 5_000,
    5_500, 6_600, 7_100, 7_800, 30_400, 34_900, 36_750,
];

/// One possible value of an attribute.
pub fn atom(spec: &AttributeSpec, random: &mut Random) -> i64 {
    match spec.form {
        Form::Flag => i64::from(random.once_in(2)),
        Form::Words(words) => i64::try_from(random.below(words.len())).expect("few words"),
        Form::Interface(class) => {
            let keys: Vec<i64> =
                Interfaces::standard_ref().of_class(class).map(|(key, _)| i64::from(key.0)).collect();
            *random.pick(&keys)
        }
        Form::FreeKey => *random.pick(&[11, 22]),
        Form::Integer | Form::List => number(spec, random),
    }
}

fn number(spec: &AttributeSpec, random: &mut Random) -> i64 {
    let (low, high) = if random.once_in(4) { spec.hard } else { spec.usual };
    let near: Vec<i64> = match spec.unit {
        Unit::Micrometres => {
            LENGTHS_UM.iter().copied().filter(|length| (low..=high).contains(length)).collect()
        }
        _ => Vec::new(),
    };
    if !near.is_empty() && !random.once_in(4) {
        return *random.pick(&near);
    }
    let span = usize::try_from(high - low).expect("a hard range") + 1;
    low + i64::try_from(random.below(span)).expect("within the range")
}

/// What is known of an attribute.
pub fn set(spec: &AttributeSpec, random: &mut Random) -> Set {
    let numeric = spec.form == Form::Integer;
    match random.below(12) {
        0 => Set::Unknown,
        1 => Set::Absent,
        2 | 3 => Set::one_of((0..3).map(|_| atom(spec, random)).collect()),
        4 if numeric => Set::between(atom(spec, random), atom(spec, random)),
        5 if numeric => {
            let low = atom(spec, random);
            Set::between(low, (low + 3).min(spec.hard.1))
        }
        _ => Set::Exact(atom(spec, random)),
    }
}

/// A part that fills a slot, with random values for everything that the rule reads of it.
pub fn part(rule: &Rule, slot: Slot, random: &mut Random) -> Part {
    let kind = *random.pick(slot.kinds());
    let mut part = Part::new(kind);
    for (_, attribute) in rule.inputs.iter().filter(|(input, _)| *input == slot) {
        if let Some(spec) = kind.attribute(*attribute) {
            part.set(*attribute, Value::stated(set(spec, random)));
        }
    }
    part
}

/// Changes everything that a rule does not read of a slot.
pub fn scramble_undeclared(part: &mut Part, rule: &Rule, slot: Slot, random: &mut Random) {
    for spec in part.kind.spec().attributes {
        if !rule.inputs.contains(&(slot, spec.attribute)) {
            part.set(spec.attribute, Value::stated(set(spec, random)));
        }
    }
}

/// Knows more of one attribute: a smaller set within the one that was known. `None` where it is known exactly.
pub fn narrowed(part: &Part, attribute: Attribute, random: &mut Random) -> Option<Part> {
    let spec = part.kind.attribute(attribute)?;
    let narrower = match part.value(attribute).set.clone() {
        Set::Unknown => set(spec, random),
        Set::OneOf(values) => Set::Exact(*random.pick(&values)),
        Set::Between(low, high) => {
            let span = usize::try_from(high - low).ok()? + 1;
            let mut draw = || low + i64::try_from(random.below(span)).expect("within the range");
            Set::between(draw(), draw())
        }
        Set::Absent | Set::Exact(_) | Set::List(_) => return None,
    };
    let mut known = part.clone();
    known.set(attribute, Value { set: narrower, origin: Origin::Measured });
    Some(known)
}

/// A whole bike's worth of parts, each kind at most once, with random values.
pub fn bike(random: &mut Random) -> Vec<Part> {
    let kinds = [
        Kind::Cassette,
        Kind::Freewheel,
        Kind::FreehubBody,
        Kind::Hub,
        Kind::Chain,
        Kind::QuickLink,
        Kind::RearDerailleur,
        Kind::RearShifter,
        Kind::Chainring,
        Kind::Crankset,
        Kind::Frame,
        Kind::Lockring,
    ];
    let mut parts: Vec<Part> = Vec::new();
    for kind in kinds {
        let taken =
            |part: &Part| part.kind.spec().place == kind.spec().place && !kind.spec().place.is_empty();
        if random.once_in(3) || parts.iter().any(taken) {
            continue;
        }
        let mut part = Part::new(kind);
        for spec in kind.spec().attributes.iter().filter(|spec| spec.form != Form::List) {
            part.set(spec.attribute, Value::stated(set(spec, random)));
        }
        parts.push(part);
    }
    parts
}
