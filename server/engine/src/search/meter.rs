//! The work of a search, with its limit.

/// A search was stopped before it was through.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Stopped;

/// Units of work between two looks at whether the caller still waits.
const LOOK_EVERY: u64 = 1 << 14;

/// Counts work; stops at a limit, or when the caller does not wait any longer.
pub struct Meter<'a> {
    done: u64,
    max: u64,
    next_look: u64,
    cancelled: &'a dyn Fn() -> bool,
}

impl<'a> Meter<'a> {
    /// A meter that stops after `max` units of work (a unit is about one look-up), or when `cancelled` says so.
    pub fn new(max: u64, cancelled: &'a dyn Fn() -> bool) -> Self {
        Self { done: 0, max, next_look: 0, cancelled }
    }

    /// A meter without limits.
    pub fn unbounded() -> Meter<'static> {
        Meter::new(u64::MAX, &|| false)
    }

    /// Work done so far.
    pub fn done(&self) -> u64 {
        self.done
    }

    /// Counts work that is about to be done.
    ///
    /// # Errors
    /// The limit is reached, or the caller does not wait any longer.
    pub fn work(&mut self, units: usize) -> Result<(), Stopped> {
        self.done = self.done.saturating_add(u64::try_from(units).unwrap_or(u64::MAX));
        if self.done > self.max {
            return Err(Stopped);
        }
        if self.done >= self.next_look {
            self.next_look = self.done.saturating_add(LOOK_EVERY);
            if (self.cancelled)() {
                return Err(Stopped);
            }
        }
        Ok(())
    }
}

impl std::fmt::Debug for Meter<'_> {
    fn fmt(&self, out: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        out.debug_struct("Meter").field("done", &self.done).field("max", &self.max).finish_non_exhaustive()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn work_stops_at_the_limit_and_when_nobody_waits() {
        let mut meter = Meter::new(10, &|| false);
        assert_eq!(meter.work(10), Ok(()));
        assert_eq!(meter.work(1), Err(Stopped));
        assert_eq!(Meter::new(10, &|| true).work(1), Err(Stopped));
        assert_eq!(Meter::unbounded().work(usize::MAX), Ok(()));
    }
}
