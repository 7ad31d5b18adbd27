//! Plan files: what is written reads back, and what is wrong is said exactly.

use wirewend::plan::Plan;
use wirewend::store::{read, write};

use crate::sample;

#[test]
fn what_is_written_reads_back() {
    for plan in [Plan::default(), sample::plan()] {
        let text = write(&plan);
        let again = read(text.as_bytes(), "sample.wend").unwrap();
        assert_eq!(again, plan, "read after write");
        assert_eq!(write(&again), text, "write after read after write");
    }
}
