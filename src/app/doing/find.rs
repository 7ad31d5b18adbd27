//! Finding a point, a circuit or an action by its name.

use std::path::PathBuf;

use wirewend::plan::{PointKind, Subject};
use wirewend::session::Session;
use wirewend::session::search::{matching, things};

use crate::app::keys::{self, Command};

/// Where a hit leads.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::app) enum Goes {
    /// To something in the plan.
    To(Subject),
    /// To an action.
    Do(Command),
    /// To another kind of what is chosen.
    Kind(PointKind),
    /// To another plan.
    Open(PathBuf),
}

/// Something that was found.
#[derive(Clone, Debug, PartialEq)]
pub(in crate::app) struct Hit {
    pub(in crate::app) name: String,
    /// A key, or a word about what it is.
    pub(in crate::app) aside: String,
    pub(in crate::app) goes: Goes,
}

/// How many hits are shown.
pub(in crate::app) const MOST: usize = 9;

/// What a text finds: things whose name begins with it first, then those that
/// hold all its words.
pub(in crate::app) fn hits(session: &Session, text: &str) -> Vec<Hit> {
    let commands = keys::all().into_iter().map(|bound| Hit {
        name: bound.does.to_owned(),
        aside: bound.key.to_owned(),
        goes: Goes::Do(bound.command),
    });
    let named = things(session.document.plan()).into_iter().map(|one| Hit {
        name: one.name,
        aside: one.aside,
        goes: Goes::To(one.subject),
    });
    let all = commands.chain(named).collect();
    let mut all = matching(all, text, |hit: &Hit| (hit.name.clone(), hit.aside.clone()));
    all.truncate(MOST);
    all
}
