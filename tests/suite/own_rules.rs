//! Tables of a person's own count wherever rules do.

use std::path::{Path, PathBuf};

use crate::command::{Folder, wirewend};

/// A table of one's own, in the folder of the international ones.
fn own(folder: &Folder, name: &str, text: &str) -> PathBuf {
    let regime = folder.path().join("rules/iec");
    std::fs::create_dir_all(&regime).unwrap();
    let path = regime.join(name);
    std::fs::write(&path, text).unwrap();
    path
}

const DROP: &str = "supply,use,limit_percent,source\n\
                    public,other,0.01,my copy\npublic,lighting,0.01,my copy\n";

/// What a command says, with one's own tables or without.
fn said(all: &[&str], rules: Option<&Path>) -> String {
    let mut all = all.to_vec();
    if let Some(rules) = rules {
        all.extend(["--rules", rules.to_str().unwrap()]);
    }
    wirewend(&all).1
}

#[test]
fn one_s_own_tables_count_in_every_command_that_goes_by_rules() {
    let folder = Folder::new("own-rules");
    let rules = folder.path().join("rules");
    let drop = own(&folder, "volt_drop_limit.csv", DROP);
    own(&folder, "insulation_test.csv", "voltage_v,resistance_mohm,source\n251,7,my copy\n");
    let plan = crate::fixtures::folder().join("flat.wend");
    let plan = plan.to_str().unwrap();
    let credit = "my copy (your own table)";
    for command in ["check", "runs"] {
        let plain = said(&[command, plan, "--json"], None);
        assert!(plain.len() > 200 && !plain.contains(credit), "{command}: the shipped limit");
        let mine = said(&[command, plan, "--json"], Some(&rules));
        assert!(mine.contains(credit), "{command}: one's own");
        let file = said(&[command, plan, "--json"], Some(&drop));
        assert!(file.contains(credit), "{command}: by a single table");
    }
    for command in [&["sheet", plan][..], &["reading", plan, "--blank"][..]] {
        let (plain, mine) = (said(command, None), said(command, Some(&rules)));
        assert!(plain.len() > 200 && plain != mine, "{command:?}: {mine}");
    }
}

#[test]
fn one_s_own_tables_count_in_drafts_and_in_what_compares_them() {
    let folder = Folder::new("own-rules-draft");
    let rules = folder.path().join("rules");
    own(&folder, "set_height.csv", "kind,height_mm,source\nswitch,1234,my copy\n");
    let standard = "purpose,size_mm2,rating_a,curve,wiring,loop,fixed_mm,source\n\
                    sockets,4,25,B,chain,none,8000,my copy\n";
    own(&folder, "circuit_standard.csv", standard);
    let layout = crate::fixtures::folder().join("layouts/resplan_50.json");
    let layout = layout.to_str().unwrap();
    let drafted = |name: &str, rules: Option<&Path>| {
        let to = folder.path().join(name);
        let told = said(&["draft", layout, "--regime", "iec", "--to", to.to_str().unwrap()], rules);
        std::fs::read_to_string(to).unwrap_or_else(|_| panic!("{told}"))
    };
    let (plain, mine) = (drafted("plain.wend", None), drafted("mine.wend", Some(&rules)));
    assert!(!plain.contains("1234"), "the shipped height");
    assert!(mine.contains("1234") && mine.contains("\"rating\": 25"), "one's own");
    let options = ["options", layout, "--regime", "iec"];
    assert_ne!(said(&options, None), said(&options, Some(&rules)), "compared by one's own");
}

#[test]
fn tables_that_cannot_be_used_are_named_by_file_and_line() {
    let folder = Folder::new("own-rules-wrong");
    let rules = folder.path().join("rules");
    let plan = crate::fixtures::folder().join("flat.wend");
    let refused = |rules: &Path| {
        let all = ["check", plan.to_str().unwrap(), "--rules", rules.to_str().unwrap()];
        let (done, said) = wirewend(&all);
        assert!(!done, "refused: {said}");
        said
    };
    let table = own(&folder, "volt_drop_limit.csv", &DROP.replace("limit_percent", "limit_volt"));
    for path in [&rules, &table] {
        let says = refused(path);
        let at = "rules/iec/volt_drop_limit.csv: line 1: the column \"limit_volt\" is not one";
        assert!(says.contains(at) && says.contains("did you mean \"limit_percent\""), "{says}");
    }
    std::fs::write(&table, DROP.replace("other", "othre")).unwrap();
    let says = refused(&rules);
    let at =
        "volt_drop_limit.csv: line 2: \"use\" holds \"othre\", expected one of lighting, other";
    assert!(says.contains(at), "{says}");
    std::fs::rename(folder.path().join("rules/iec"), folder.path().join("rules/ice")).unwrap();
    let says = refused(&rules);
    let at =
        "rules/ice: there are no rules \"ice\", there are as-nzs, bs, iec; did you mean \"iec\"?";
    assert!(says.contains(at) && says.contains("needs ice/manifest.json"), "{says}");
    std::fs::remove_dir_all(folder.path().join("rules/ice")).unwrap();
    assert!(refused(&rules).contains("no <regime>/<table>.csv in it"), "an empty folder");
}

/// A regime of one's own: nothing but a folder.
const MANIFEST: &str = r#"{
  "standard": "Island Rules",
  "edition": "7",
  "place": "our island",
  "language": "en-GB",
  "currency": "OIP",
  "inherits": "bs"
}"#;

#[test]
fn a_regime_is_a_folder_and_nothing_else() {
    let folder = Folder::new("own-regime");
    let regime = folder.path().join("rules/our-island");
    std::fs::create_dir_all(&regime).unwrap();
    std::fs::write(regime.join("manifest.json"), MANIFEST).unwrap();
    std::fs::write(regime.join("volt_drop_limit.csv"), DROP).unwrap();
    let height = "kind,height_mm,source\nswitch,1234,island rule 9\n";
    std::fs::write(regime.join("set_height.csv"), height).unwrap();
    let layout = crate::fixtures::folder().join("layouts/resplan_50.json");
    let (layout, plan) = (layout.to_str().unwrap(), folder.path().join("drafted.wend"));
    let plan = plan.to_str().unwrap();
    for rules in [folder.path().join("rules"), regime.clone()] {
        let rules = Some(rules.as_path());
        let draft = ["draft", layout, "--regime", "our-island", "--to", plan, "--replace"];
        let told = said(&draft, rules);
        let text = std::fs::read_to_string(plan).unwrap_or_else(|_| panic!("{told}"));
        assert!(text.contains("\"regime\": \"our_island\""), "named in the plan");
        assert!(text.contains("1234"), "drafted by its heights");
        let checked = said(&["check", plan, "--json"], rules);
        assert!(checked.contains("my copy (your own table)"), "its own limit");
        assert!(checked.contains("BS 7671"), "and what it inherits");
        assert!(!checked.contains("unknown-rules"), "{checked}");
        assert!(said(&["options", plan, "--json"], rules).contains("volt_drop"), "compared");
        let papers = folder.path().join("papers");
        let to = papers.to_str().unwrap();
        let told = said(&["papers", plan, "--to", to, "--replace", "--only", "floors"], rules);
        let sheet = papers.join("floor-L1.svg");
        let sheet = std::fs::read_to_string(sheet).unwrap_or_else(|_| panic!("{told}"));
        assert!(sheet.contains("Island Rules"), "named in the title block");
    }
}

#[test]
fn rules_that_are_not_there_are_said_wherever_they_would_count() {
    let folder = Folder::new("no-regime");
    let plan = std::fs::read_to_string(crate::fixtures::folder().join("flat.wend")).unwrap();
    let path = folder.path().join("island.wend");
    std::fs::write(&path, plan.replace("\"regime\": \"iec\"", "\"regime\": \"our_island\""))
        .unwrap();
    let path = path.to_str().unwrap();
    let (done, says) = wirewend(&["check", path]);
    let at = "there are no rules \"our-island\", there are as-nzs, bs, iec: \
              all is checked by IEC 60364 instead";
    assert!(!done && says.contains(at), "{says}");
    let sheet = said(&["sheet", path], None);
    assert!(sheet.contains("unknown: our"), "no sheet names rules that were not used");
    let to = folder.path().join("papers");
    let (done, says) =
        wirewend(&["papers", path, "--to", to.to_str().unwrap(), "--regime", "as_nz"]);
    assert!(!done && says.contains("did you mean \"as-nzs\"?"), "{says}");
    let (done, _) = wirewend(&["draft", path, "--to", "x.wend", "--regime", "AS/NZS"]);
    assert!(!done, "no name of rules");
}

#[test]
fn a_regime_that_leads_nowhere_is_refused_with_its_file() {
    let folder = Folder::new("lost-regime");
    let rules = folder.path().join("rules");
    let write = |name: &str, inherits: &str| {
        let regime = rules.join(name);
        std::fs::create_dir_all(&regime).unwrap();
        let text = MANIFEST.replace("\"bs\"", inherits);
        std::fs::write(regime.join("manifest.json"), text).unwrap();
    };
    let plan = crate::fixtures::folder().join("flat.wend");
    let refused = || {
        let all = ["check", plan.to_str().unwrap(), "--rules", rules.to_str().unwrap()];
        let (done, said) = wirewend(&all);
        assert!(!done, "refused: {said}");
        said
    };
    write("east", "\"west\"");
    let says = refused();
    assert!(says.contains("rules/east/manifest.json: there are no rules \"west\""), "{says}");
    write("west", "\"east\"");
    let says = refused();
    assert!(says.contains("manifest.json: \"inherits\" leads back to where it began"), "{says}");
    write("west", "null");
    let says = refused();
    assert!(says.contains("rules/west/balance.csv: this table is missing"), "{says}");
}
