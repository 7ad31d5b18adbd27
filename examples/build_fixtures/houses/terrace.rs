pub(crate) fn plan() -> wirewend::plan::Plan {
    wirewend::plan::Plan::default()
}
