//! Whoever waits for long work: sees how far it is and can stop it.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, AtomicUsize, Ordering};

/// A watch over work that may be long. Clones share it: one is given to the
/// work, which counts its parts and looks now and then whether it is still
/// wanted; another one stays with whoever waits. It changes nothing in what
/// comes out, only whether anything does.
///
/// ```
/// use wirewend::units::Watch;
/// let watch = Watch::default();
/// watch.begin(3);
/// watch.step();
/// assert_eq!(watch.progress(), Some((1, 3)));
/// watch.stop();
/// assert!(watch.is_stopped());
/// ```
#[derive(Clone, Debug, Default)]
pub struct Watch(Arc<State>);

#[derive(Debug, Default)]
struct State {
    stopped: AtomicBool,
    done: AtomicUsize,
    all: AtomicUsize,
}

impl Watch {
    /// The work is not wanted any more.
    pub fn stop(&self) {
        self.0.stopped.store(true, Ordering::Relaxed);
    }

    /// Whether it is to end.
    #[must_use]
    pub fn is_stopped(&self) -> bool {
        self.0.stopped.load(Ordering::Relaxed)
    }

    /// So many parts are to be done, none of them is.
    pub fn begin(&self, parts: usize) {
        self.0.done.store(0, Ordering::Relaxed);
        self.0.all.store(parts, Ordering::Relaxed);
    }

    /// One part more is done.
    pub fn step(&self) {
        self.0.done.fetch_add(1, Ordering::Relaxed);
    }

    /// Parts done and parts in all, once the work has said how many there are.
    #[must_use]
    pub fn progress(&self) -> Option<(usize, usize)> {
        let all = self.0.all.load(Ordering::Relaxed);
        (all > 0).then(|| (self.0.done.load(Ordering::Relaxed).min(all), all))
    }
}
