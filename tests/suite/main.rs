//! Wirewend checked from outside.
#![allow(
    clippy::unwrap_used,
    clippy::print_stdout,
    reason = "a test that cannot go on should stop, and one that leaves something out says so"
)]

mod as_built;
mod by_hand;
mod checker;
mod checker_is_loud;
mod checks;
mod client_papers;
mod command;
mod cut_on_site;
mod cutting;
mod cutting_jobs;
mod draft;
mod draft_places;
mod dragged;
mod drawings_overlay;
mod everything;
mod exact_houses;
mod files;
mod fixtures;
mod generate;
mod generated;
mod graph_library;
mod grouping;
mod houses;
mod imports;
#[allow(dead_code, reason = "made for the benches too")]
#[path = "../benches/house/invented.rs"]
mod invented;
mod isolators;
mod journal;
mod lanes_inside;
mod large_storeys;
mod layouts;
mod marks;
mod names_found;
mod on_paper;
mod open_corners;
mod outside;
mod own_rules;
mod paper_set;
mod papers;
mod plan_edits;
mod plan_files;
mod plan_review;
mod plan_schema;
mod power_flow;
mod published_orders;
mod quote_page;
mod rooms;
mod rules;
mod sample;
mod set_out;
mod several_boards;
mod sheet;
mod sheet_sample;
mod site_lists;
mod sound;
mod tables_and_physics;
mod take_off;
mod told_ways;
mod variation;
mod watch;
mod windows;
mod wired;
mod wording;
mod worked_examples;
