//! What the process itself uses, as the kernel tells it; left out where it does not.

use super::definitions as defined;
use super::text::Page;

/// Ticks of the kernel's processor times in a second, as it shows them to programs.
const TICKS: f64 = 100.0;

/// Writes the metrics of the process.
pub fn write(page: &mut Page) {
    page.metric(&defined::MEMORY);
    if let Some(bytes) = resident() {
        page.value(&[], bytes);
    }
    page.metric(&defined::PROCESSOR);
    if let Some(seconds) = processor_seconds() {
        page.value(&[], seconds);
    }
    page.metric(&defined::FILES);
    if let Ok(files) = std::fs::read_dir("/proc/self/fd") {
        page.value(&[], files.count());
    }
}

fn resident() -> Option<u64> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find_map(|line| line.strip_prefix("VmRSS:"))?;
    let kibibytes: u64 = line.trim().trim_end_matches(" kB").parse().ok()?;
    Some(kibibytes * 1024)
}

fn processor_seconds() -> Option<f64> {
    let stat = std::fs::read_to_string("/proc/self/stat").ok()?;
    // The name of the program, in brackets, may hold spaces; user and system time are the 12th and 13th field after it.
    let (_, rest) = stat.rsplit_once(") ")?;
    let mut fields = rest.split(' ').skip(11);
    let user: u32 = fields.next()?.parse().ok()?;
    let system: u32 = fields.next()?.parse().ok()?;
    Some((f64::from(user) + f64::from(system)) / TICKS)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_kernel_tells_what_is_used() {
        assert!(resident().is_some_and(|bytes| bytes > 1 << 20));
        assert!(processor_seconds().is_some());
    }
}
