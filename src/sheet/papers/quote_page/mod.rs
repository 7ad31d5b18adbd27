//! The quote as one page for a telephone or a screen: nothing is fetched, and
//! without a script everything can be read all the same.

mod drawing;
mod points;
mod price;

use crate::plan::{Plan, Stage};
use crate::runs::built;
use crate::sheet::house::House;
use crate::sheet::html::Html;
use crate::sheet::{Floors, cautions, faults_in_words};
use crate::takeoff::{ClientChoices, Item};

use super::opened_walls::{OpenedWall, opened_walls};
use super::quote::EXCLUSIONS;

/// What the page may do: its own styles and script, and nothing from anywhere.
const POLICY: &str = "default-src 'none'; style-src 'unsafe-inline'; script-src 'unsafe-inline'; \
                      base-uri 'none'; form-action 'none'";
const STYLE: &str = include_str!("../../../../assets/quote/quote.css");
const SCRIPT: &str = include_str!("../../../../assets/quote/quote.js");

/// The quote as an HTML file that stands alone. Of the materials it says what is
/// fitted where.
#[must_use]
pub fn quote_page(
    house: &House<'_>,
    floors: &mut Floors<'_>,
    materials: &[Item],
    choices: &ClientChoices,
) -> String {
    let mut html = Html::default();
    let title = title(house.plan);
    html.raw("<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n");
    html.raw("<meta http-equiv=\"Content-Security-Policy\" content=\"").raw(POLICY).raw("\">\n");
    html.raw("<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n");
    html.element("title", &format!("Quote: {title}"));
    html.raw("<style>\n").raw(STYLE).raw("</style>\n</head>\n<body>\n");
    let status = match built(house.plan, house.runs) {
        told if told.stage == Stage::Planned => "drawn as planned".to_owned(),
        told => told.words(),
    };
    heading(&mut html, house, (&title, &status), choices);
    html.raw("<main>\n");
    let opened = opened_walls(house);
    drawing::drawing(&mut html, house, floors, &opened);
    points::rooms(&mut html, house, materials);
    openings(&mut html, &opened);
    price::price(&mut html, choices);
    html.element("h2", "Not in the price");
    html.raw("<ul>\n");
    for text in EXCLUSIONS {
        html.element("li", text);
    }
    html.raw("</ul>\n").element("h2", "Please heed");
    html.element("p", cautions::AID);
    for text in cautions::BEFORE_WORK {
        html.element("p", text);
    }
    html.raw("</main>\n");
    html.raw(
        "<div id=\"card\" role=\"dialog\" aria-label=\"The point that was tapped\" hidden>\
         <ul id=\"card-words\"></ul><button type=\"button\" id=\"card-close\">Close</button></div>\n",
    );
    html.raw("<script>\n").raw(SCRIPT).raw("</script>\n</body>\n</html>\n");
    html.done()
}

fn title(plan: &Plan) -> String {
    match plan.project.title.as_str() {
        "" => "electrical work".to_owned(),
        title => title.to_owned(),
    }
}

fn heading(
    html: &mut Html,
    house: &House<'_>,
    (title, status): (&str, &str),
    choices: &ClientChoices,
) {
    let plan = house.plan;
    html.raw("<header>\n").element("h1", &format!("Quote: {title}"));
    let project = &plan.project;
    let about = [
        ("for", &project.client),
        ("at", &project.site),
        ("by", &project.contractor),
        ("of", &project.date),
        ("revision", &project.revision),
    ];
    let about = about.into_iter().filter(|(_, text)| !text.is_empty());
    let about: Vec<String> = about.map(|(word, text)| format!("{word} {text}")).collect();
    let stage = format!("{}; {status}.", about.join(", "));
    html.raw("<p class=\"soft\">").text(stage.trim_start_matches("; ")).raw("</p>\n");
    price::to_pay(html, choices);
    if let Some(words) = faults_in_words(house.faults) {
        html.raw("<p class=\"caution\">").text(&words).raw(": see check.</p>\n");
    }
    html.raw("<p class=\"caution\">");
    if choices.with_all().is_some_and(|quote| quote.is_invented) {
        html.text("The prices on this page are invented: they show how a quote looks. ");
    }
    html.text(
        "Please check every line, walk through the house with it, and say what should move \
         before you sign: after plastering every change costs more.",
    );
    html.raw("</p>\n</header>\n");
}

fn openings(html: &mut Html, opened: &[OpenedWall]) {
    if opened.is_empty() {
        return;
    }
    html.element("h2", "Where walls are opened");
    html.element("p", "The numbers stand in boxes on the drawing above.");
    html.raw("<ol>\n");
    for one in opened {
        let words = format!("{}: {}", one.name, one.what);
        html.raw(&format!("<li value=\"{}\">", one.number)).text(&words).raw("</li>\n");
    }
    html.raw("</ol>\n");
    html.element("p", "Grooves and holes are closed ready for the plasterer.");
}
