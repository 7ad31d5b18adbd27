//! What is being computed, and what came of it last.

use std::sync::Arc;

use crate::session::work::Picture;
use crate::units::Watch;

/// What is being computed: of the job and of its letters at most one piece each
/// at a time, always the latest.
#[derive(Debug)]
pub struct Jobs {
    picture: Option<Arc<Picture>>,
    stamp: u64,
    ordered: u64,
    is_busy: bool,
    is_lettering: bool,
    watch: Watch,
    waited: u32,
}

impl Default for Jobs {
    fn default() -> Self {
        Self {
            picture: None,
            stamp: 1,
            ordered: 0,
            is_busy: false,
            is_lettering: false,
            watch: Watch::default(),
            waited: 0,
        }
    }
}

impl Jobs {
    /// What was computed last.
    pub const fn picture(&self) -> Option<&Arc<Picture>> {
        self.picture.as_ref()
    }

    /// Which state of the plan and of what is shown this is.
    pub const fn stamp(&self) -> u64 {
        self.stamp
    }

    /// Over the work that is under way: it stops it, and tells how far it is.
    pub const fn watch(&self) -> &Watch {
        &self.watch
    }

    /// How long that has taken, seconds.
    pub const fn waited(&self) -> u32 {
        self.waited
    }

    /// Whether a plan is being computed.
    pub const fn is_busy(&self) -> bool {
        self.is_busy
    }

    /// Whether what is shown is older than the plan.
    pub fn is_behind(&self) -> bool {
        self.picture.as_ref().is_none_or(|picture| picture.stamp != self.stamp)
    }

    /// A second has passed.
    pub const fn tick(&mut self) {
        self.waited += 1;
    }

    /// What is shown is no longer what is.
    pub(crate) const fn renew(&mut self) {
        self.stamp += 1;
    }

    /// Begins a job where one is due: then it is under way.
    pub(crate) fn begin(&mut self) -> bool {
        let is_due = !self.is_busy && self.ordered != self.stamp;
        if is_due {
            self.is_busy = true;
            self.ordered = self.stamp;
            (self.watch, self.waited) = (Watch::default(), 0);
        }
        is_due
    }

    /// Begins the letters of what is shown where they are due.
    pub(crate) fn begin_letters(&mut self) -> Option<Arc<Picture>> {
        let picture = self.picture.as_ref().filter(|_| !self.is_lettering && !self.is_behind())?;
        if picture.lettered {
            return None;
        }
        self.is_lettering = true;
        Some(Arc::clone(picture))
    }

    /// Takes what was computed; false for letters that come too late for their
    /// job.
    pub(crate) fn take(&mut self, picture: Arc<Picture>) -> bool {
        if picture.lettered {
            self.is_lettering = false;
            if picture.stamp != self.stamp {
                return false;
            }
        } else {
            self.is_busy = false;
        }
        self.picture = Some(picture);
        true
    }

    /// What was ordered could not be computed; what is shown stays.
    pub(crate) const fn fail(&mut self) {
        (self.is_busy, self.is_lettering) = (false, false);
    }
}
