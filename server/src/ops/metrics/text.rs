//! The Prometheus text format, version 0.0.4.

use std::fmt::{Display, Write};

use super::definitions::Definition;
use super::histogram::{BOUNDS, Histogram};

/// Writes metrics one after the other.
#[derive(Default)]
pub struct Page {
    text: String,
    current: &'static str,
}

impl Page {
    /// What was written.
    pub fn finish(self) -> String {
        self.text
    }

    /// Starts a metric: its help and its kind, even where it has no values yet.
    pub fn metric(&mut self, found: &'static Definition) {
        self.current = found.name;
        // Writing to a string cannot fail.
        let _ = writeln!(self.text, "# HELP {} {}", found.name, found.help);
        let _ = writeln!(self.text, "# TYPE {} {}", found.name, found.kind.name());
    }

    /// A value of the metric that was started last.
    pub fn value(&mut self, labels: &[(&str, &str)], value: impl Display) {
        self.line("", labels, value);
    }

    /// A metric with one value.
    pub fn single(&mut self, found: &'static Definition, value: impl Display) {
        self.metric(found);
        self.value(&[], value);
    }

    /// The values of a histogram.
    pub fn histogram(&mut self, labels: &[(&str, &str)], found: &Histogram) {
        let read = found.read();
        let mut sum = 0;
        let bounds = BOUNDS.iter().map(|(_, text)| *text).chain(["+Inf"]);
        for (bound, count) in bounds.zip(read.counts) {
            sum += count;
            let with_bound: Vec<_> = labels.iter().copied().chain([("le", bound)]).collect();
            self.line("_bucket", &with_bound, sum);
        }
        self.line("_sum", labels, read.seconds);
        self.line("_count", labels, sum);
    }

    fn line(&mut self, suffix: &str, labels: &[(&str, &str)], value: impl Display) {
        self.text.push_str(self.current);
        self.text.push_str(suffix);
        for (index, (name, value)) in labels.iter().enumerate() {
            self.text.push(if index == 0 { '{' } else { ',' });
            let value = value.replace('\\', "\\\\").replace('"', "\\\"").replace('\n', "\\n");
            let _ = write!(self.text, "{name}=\"{value}\"");
        }
        if !labels.is_empty() {
            self.text.push('}');
        }
        let _ = writeln!(self.text, " {value}");
    }
}
