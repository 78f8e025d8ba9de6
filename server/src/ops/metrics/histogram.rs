//! Counts of durations by upper bound.

use std::sync::atomic::{AtomicU64, Ordering};
use std::time::Duration;

/// Upper bounds in nanoseconds, and in seconds as they are written. A check takes some ten microseconds, a search seconds.
pub const BOUNDS: [(u64, &str); 16] = [
    (50_000, "0.00005"),
    (100_000, "0.0001"),
    (250_000, "0.00025"),
    (500_000, "0.0005"),
    (1_000_000, "0.001"),
    (2_500_000, "0.0025"),
    (5_000_000, "0.005"),
    (10_000_000, "0.01"),
    (25_000_000, "0.025"),
    (50_000_000, "0.05"),
    (100_000_000, "0.1"),
    (250_000_000, "0.25"),
    (500_000_000, "0.5"),
    (1_000_000_000, "1"),
    (5_000_000_000, "5"),
    (30_000_000_000, "30"),
];

/// A histogram that many may count in at once.
#[derive(Debug, Default)]
pub struct Histogram {
    counts: [AtomicU64; BOUNDS.len() + 1],
    nanoseconds: AtomicU64,
}

/// A histogram as it was read.
#[derive(Debug)]
pub struct Reading {
    /// Counts between the bounds, the last one above all of them.
    pub counts: [u64; BOUNDS.len() + 1],
    /// Sum of all durations.
    pub seconds: f64,
}

impl Histogram {
    /// Counts a duration.
    pub fn count(&self, taken: Duration) {
        let nanoseconds = u64::try_from(taken.as_nanos()).unwrap_or(u64::MAX);
        let place = BOUNDS.partition_point(|(bound, _)| *bound < nanoseconds);
        self.counts[place].fetch_add(1, Ordering::Relaxed);
        self.nanoseconds.fetch_add(nanoseconds, Ordering::Relaxed);
    }

    /// Nothing was counted.
    pub fn is_empty(&self) -> bool {
        self.counts.iter().all(|count| count.load(Ordering::Relaxed) == 0)
    }

    /// What was counted so far.
    pub fn read(&self) -> Reading {
        let counts = std::array::from_fn(|place| self.counts[place].load(Ordering::Relaxed));
        let seconds = Duration::from_nanos(self.nanoseconds.load(Ordering::Relaxed)).as_secs_f64();
        Reading { counts, seconds }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_bound_is_included_and_written_as_it_counts() {
        let histogram = Histogram::default();
        histogram.count(Duration::from_nanos(50_000));
        histogram.count(Duration::from_nanos(50_001));
        histogram.count(Duration::from_secs(31));
        let read = histogram.read();
        assert_eq!((read.counts[0], read.counts[1], read.counts[16]), (1, 1, 1));
        for (nanoseconds, text) in BOUNDS {
            let seconds: f64 = text.parse().expect("a number");
            assert_eq!(Duration::from_secs_f64(seconds), Duration::from_nanos(nanoseconds), "{text}");
        }
        assert!(BOUNDS.is_sorted());
    }
}
