//! What goes to the client holds nothing of how the contractor reckons, and no
//! sum that is not known. Looked for in the files that the program writes.

use std::collections::BTreeSet;
use std::path::{Path, PathBuf};

use wirewend::lengths;
use wirewend::plan::*;
use wirewend::runs::{self, chain::Effort};
use wirewend::sheet::{Floors, House, quote_page, quote_sheets};
use wirewend::space::Space;
use wirewend::takeoff::{Choices, ClientSums, Quote, Total, choices, take_off};
use wirewend::units::Cents;

use crate::command::{Folder, wirewend};
use crate::fixtures::{house, text};
use crate::fixtures::{local, shipped_rules};
use crate::on_paper::texts;

/// The terrace, some of it optional, with prices that nothing else could be: no
/// two alike, thousands with odd cents.
fn telltale() -> Plan {
    let mut plan = house("terrace");
    for point in plan.points.values_mut().rev().take(3) {
        point.optional = true;
    }
    let mut next = 733_317;
    let mut price = || {
        next += 17_377;
        Cents::new(next)
    };
    plan.prices.items.iter_mut().for_each(|item| item.price = price());
    plan.stock.drums.iter_mut().for_each(|drum| drum.price = Some(price()));
    plan.prices.margin_permille = 237;
    plan.prices.tax_permille = 100;
    plan
}

fn figure(amount: Cents) -> String {
    format!("{}.{:02}", amount.get().div_euclid(100), amount.get().rem_euclid(100))
}

fn quotes_of(plan: &Plan) -> Choices {
    let runs = runs::route(plan, &Space::of(plan), &Effort::default());
    choices(
        plan,
        &take_off(plan, &runs, &lengths::measure(plan, &runs), shipped_rules()),
        shipped_rules(),
    )
}

/// Every figure that is nobody's business but the contractor's.
fn secrets(quote: &Quote) -> BTreeSet<String> {
    let mut secrets = BTreeSet::new();
    let mut groups = std::collections::BTreeMap::new();
    for line in &quote.lines {
        secrets.extend(line.price.map(figure));
        secrets.extend(line.amount.map(figure));
        let sum: &mut i64 = groups.entry(line.group).or_default();
        *sum += line.amount.map_or(0, Cents::get);
    }
    secrets.extend(groups.values().map(|sum| figure(Cents::new(*sum))));
    if let Some(sums) = quote.total.priced() {
        secrets.extend([&sums.net, &sums.margin].map(|it| figure(it.value)));
    }
    secrets
}

/// What the client may read.
fn told(choices: &Choices) -> BTreeSet<String> {
    let client = choices.for_client();
    let sums = client.quotes.iter().filter_map(|quote| quote.total.priced().copied());
    let of = |it: ClientSums| [it.materials, it.work, it.tax, it.sum].map(figure);
    sums.flat_map(of).collect()
}

/// The figures in a text.
fn figures(text: &str) -> BTreeSet<&str> {
    text.split(|sign: char| !sign.is_ascii_digit() && sign != '.').collect()
}

/// Text without what styles it.
fn unstyled(text: &str) -> String {
    let (before, rest) = text.split_once("<style>").unwrap_or((text, ""));
    let (_, after) = rest.split_once("</style>").unwrap_or(("", rest));
    format!("{before}{after}")
}

fn files(folder: &Path) -> Vec<PathBuf> {
    let entries = std::fs::read_dir(folder).unwrap();
    let mut all: Vec<PathBuf> = entries.map(|entry| entry.unwrap().path()).collect();
    all.sort();
    all
}

/// What a person could read of a file, with what a look into it would find;
/// None where it cannot be read here.
fn readable(path: &Path) -> Option<String> {
    match path.extension()?.to_str()? {
        "pdf" => {
            let output =
                std::process::Command::new("pdftotext").arg("-raw").arg(path).arg("-").output();
            String::from_utf8(output.ok()?.stdout).ok()
        }
        "xlsx" => None,
        _ => Some(String::from_utf8_lossy(&std::fs::read(path).ok()?).into_owned()),
    }
}

/// The whole folder as the program writes it, and the variation with it: the
/// internal files hold every figure, all others none.
#[test]
fn nothing_internal_is_in_what_goes_to_the_client() {
    let folder = Folder::new("client");
    let (old, new) = (folder.path().join("old.wend"), folder.path().join("new.wend"));
    let plan = telltale();
    let mut before = plan.clone();
    before.prices.margin_permille = 111;
    before.prices.items.iter_mut().for_each(|item| item.price = Cents::new(item.price.get() + 7));
    let gone = before.points.values_mut().find(|it| it.kind == PointKind::Socket).unwrap();
    gone.gangs = 1;
    std::fs::write(&old, text(&before)).unwrap();
    std::fs::write(&new, text(&plan)).unwrap();
    let out = folder.path().join("out");
    let (out_name, old_name, new_name) =
        (out.to_str().unwrap(), old.to_str().unwrap(), new.to_str().unwrap());
    let (is_done, said) = wirewend(&["papers", new_name, "--to", out_name, "--since", old_name]);
    assert!(is_done, "{said}");

    let (now, was) = (quotes_of(&plan), quotes_of(&before));
    let all = |of: fn(&Quote) -> BTreeSet<String>| -> BTreeSet<String> {
        now.quotes.iter().chain(&was.quotes).flat_map(of).collect()
    };
    let open: BTreeSet<String> = told(&now).union(&told(&was)).cloned().collect();
    let secrets: BTreeSet<String> = all(secrets).difference(&open).cloned().collect();
    assert!(secrets.len() > 80, "there is something to find: {}", secrets.len());

    let (mut clean, mut internal) = (0, String::new());
    for path in files(&out) {
        let name = path.file_name().unwrap().to_string_lossy().into_owned();
        let Some(text) = readable(&path) else {
            println!("not checked: {name} cannot be read here");
            continue;
        };
        if name.starts_with("internal") {
            internal.push_str(&text);
            continue;
        }
        clean += 1;
        let text = unstyled(&text);
        let found: Vec<&str> =
            figures(&text).into_iter().filter(|it| secrets.contains(*it)).collect();
        assert!(found.is_empty(), "{name}: {found:?}");
        for word in ["overhead", "margin", "internal", "price for one", " min<", " min "] {
            assert!(!text.to_lowercase().contains(word), "{name}: {word}");
        }
    }
    assert!(clean > 20, "{clean} files");
    let shown = figures(&internal);
    let quote = now.with_all().unwrap();
    for line in &quote.lines {
        for amount in line.price.into_iter().chain(line.amount) {
            let amount = figure(amount);
            assert!(shown.contains(amount.as_str()), "{}: {amount} for the contractor", line.name);
        }
    }
    let sums = quote.total.whole().unwrap();
    for part in [&sums.net, &sums.margin, &sums.tax, &sums.sum] {
        assert!(shown.contains(figure(part.value).as_str()), "{part:?}");
    }
    assert!(internal.contains("overhead and margin") && internal.contains(" min"), "in words");
    assert!(internal.contains("not for the client"), "and says whom it is not for");
    let page = std::fs::read_to_string(out.join("quote.html")).unwrap();
    let total = figure(sums.sum.value);
    assert!(figures(&page).contains(total.as_str()), "the client reads the total");
}

/// On the command line the client's view is what is shown unless asked.
#[test]
fn the_command_line_tells_what_is_internal_only_when_asked() {
    let folder = Folder::new("internal");
    let path = folder.path().join("plan.wend");
    let plan = telltale();
    std::fs::write(&path, text(&plan)).unwrap();
    let path = path.to_str().unwrap();
    let choices = quotes_of(&plan);
    let quote = choices.with_all().unwrap();
    let open = told(&choices);
    let secrets: BTreeSet<String> = secrets(quote).difference(&open).cloned().collect();
    for (arguments, is_internal) in [
        (&["quote", path][..], false),
        (&["quote", path, "--json"], false),
        (&["quote", path, "--internal"], true),
    ] {
        let (is_done, said) = wirewend(arguments);
        assert!(is_done, "{said}");
        let found = figures(&said).into_iter().filter(|it| secrets.contains(*it)).count();
        assert_eq!(found > 10, is_internal, "{arguments:?}: {found}");
        assert_eq!(said.contains("margin"), is_internal, "{arguments:?}");
    }
}

/// The client's papers are drawn from types without room for such figures, and
/// do not look into the price book past them.
#[test]
fn the_clients_papers_know_no_internal_types() {
    let papers = Path::new(env!("CARGO_MANIFEST_DIR")).join("src/sheet/papers");
    let mut sources: Vec<PathBuf> = files(&papers.join("quote_page"));
    sources.extend(["quote.rs", "variation.rs", "client_price.rs"].map(|it| papers.join(it)));
    let knows = |text: &str| {
        let marks = [".prices", "QuoteLine", "TakeOff", "Labour", "margin", "LineGroup", "minutes"];
        let types = ["Quote", "Choices", "Variation", "Bill", "Sums"];
        let words: Vec<&str> =
            text.split(|sign: char| !sign.is_alphanumeric() && sign != '_').collect();
        marks
            .into_iter()
            .filter(|it| text.contains(it))
            .chain(types.into_iter().filter(|it| words.contains(it)).collect::<Vec<_>>())
            .map(str::to_owned)
            .collect::<Vec<String>>()
    };
    for path in &sources {
        // In the words of what is told, not of the code.
        let text = std::fs::read_to_string(path).unwrap();
        let code = text.lines().filter(|line| {
            let line = line.trim_start();
            !line.starts_with("//") && !line.contains('"')
        });
        let code: String = code.map(|line| format!("{line}\n")).collect();
        let known = knows(&code);
        assert!(known.is_empty(), "{}: {known:?}", path.display());
    }
    let costing = std::fs::read_to_string(papers.join("costing.rs")).unwrap();
    assert!(knows(&costing).len() > 4, "the test can fail");
}

/// A terrace with one kind of thing that may be left out and has no price.
fn short_with_the_option() -> Plan {
    let mut plan = house("terrace");
    for point in plan.points.values_mut() {
        point.optional = false;
        if point.kind == PointKind::WeatherproofSocket {
            point.kind = PointKind::Socket;
        }
    }
    let mut sockets = plan.points.values_mut();
    let one = sockets.find(|it| it.kind == PointKind::Socket && it.gangs == 2).unwrap();
    one.kind = PointKind::WeatherproofSocket;
    one.optional = true;
    let priced = plan.prices.items.len();
    plan.prices.items.retain(|item| !item.code.starts_with("weatherproof"));
    assert!(plan.prices.items.len() < priced, "it had a price");
    plan
}

/// With what has no price there is no total, without it there is: heading, sums
/// and signatures follow.
#[test]
fn what_has_no_price_never_stands_in_a_total() {
    let plan = short_with_the_option();
    let runs = runs::route(&plan, &Space::of(&plan), &Effort::default());
    let lengths = lengths::measure(&plan, &runs);
    let taken = take_off(&plan, &runs, &lengths, shipped_rules());
    let choices = choices(&plan, &taken, shipped_rules());
    let with = &choices.with_all().unwrap().total;
    let without = choices.without_all().unwrap();
    let Total::Short { priced: Some(priced), lacks } = with else { panic!("{with:?}") };
    let house = House::new(&plan, &runs, &lengths, local(&plan));
    let mut floors = Floors::of(&plan, &runs, &lengths, local(&plan));
    let client = choices.for_client();
    let page = quote_page(&house, &mut floors, &taken.materials, &client);
    let so_far = figure(priced.sum.value);
    let heading = page.split("<main>").next().unwrap();
    assert!(heading.contains("No total yet. Priced so far:"), "{heading}");
    assert!(heading.contains(&so_far) && !heading.contains("To pay"), "{heading}");
    let says = lacks.says();
    assert!(says.starts_with("incomplete: ") && says.contains("without a price"), "{says}");
    assert!(heading.contains(&says[1..]), "{says}");
    // What the script shows once it is ticked off.
    let sums = page.split("data-sums=\"").nth(1).unwrap().split('"').next().unwrap();
    let sums: serde_json::Value = serde_json::from_str(&sums.replace("&quot;", "\"")).unwrap();
    let total = figure(without.to_pay().expect("without it all has a price"));
    assert_eq!(sums[0]["label"], "To pay, all in:");
    assert!(sums[0]["pay"].as_str().unwrap().ends_with(&total), "{sums}");
    assert_eq!((&sums[0]["note"], &sums[0]["sums"][3]), (&"".into(), &total.as_str().into()));
    assert_eq!(sums[0]["kept"], "Without everything that is optional.");
    assert_eq!(sums[1]["label"], "No total yet. Priced so far:");
    assert_eq!(sums[1]["last"].as_str().unwrap().split(',').next(), Some("priced so far"));

    let scenes = quote_sheets(&house, &mut floors, &client);
    let said: Vec<String> =
        scenes.iter().flat_map(|it| texts(&it.items)).map(|it| it.content.clone()).collect();
    let has = |text: &str| said.iter().any(|it| it.contains(text));
    assert!(has("priced so far, no total") && has("Incomplete: "), "{said:?}");
    assert!(has("what it saves is not known yet"), "no saving off what is not known");
    assert!(!has("agreed: client"), "nothing to sign");
}

#[test]
fn where_nothing_is_known_the_command_line_says_so() {
    let folder = Folder::new("unknown");
    let write = |name: &str, plan: &Plan| {
        let path = folder.path().join(name);
        std::fs::write(&path, text(plan)).unwrap();
        path.to_str().unwrap().to_owned()
    };
    let mut plan = house("flat");
    plan.stock = Stock::default();
    let bare = write("no-stock.wend", &plan);
    let (_, said) = wirewend(&["cuts", &bare]);
    assert!(!said.contains("0 cuts") && !said.contains("0.000 m"), "{said}");
    assert!(said.contains("nothing in stock to cut"), "{said}");
    let (_, said) = wirewend(&["materials", &bare]);
    assert!(said.contains("nothing in stock to cut it from"), "{said}");
    assert!(!said.contains(" 0.000 m"), "{said}");
    plan.prices = PriceBook::default();
    let free = write("no-prices.wend", &plan);
    for internal in [&[][..], &["--internal"]] {
        let (_, said) = wirewend(&[&["quote", free.as_str()], internal].concat());
        assert!(!said.contains("0.00\n") && said.contains("Incomplete: "), "{said}");
        assert!(said.contains("without a price"), "{said}");
    }
    let mut plan = house("flat");
    plan.prices.items.remove(3);
    let short = write("short.wend", &plan);
    let (_, said) = wirewend(&["quote", &short]);
    assert!(said.contains("Priced so far, no total"), "{said}");
    assert!(!said.contains("To pay"), "{said}");
    let (_, said) = wirewend(&["compare", &free, &short]);
    assert!(said.contains("So the difference to pay is not known"), "{said}");
    let half = write("half.wend", &house("half_drawn"));
    let (_, said) = wirewend(&["quote", &half]);
    assert!(said.contains("not wired yet") || said.contains("without a device"), "{said}");
}
