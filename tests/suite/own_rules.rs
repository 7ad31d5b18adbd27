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
    assert!(says.contains("the folder \"ice\" is none of a regime"), "{says}");
    std::fs::remove_dir_all(folder.path().join("rules/ice")).unwrap();
    assert!(refused(&rules).contains("no <regime>/<table>.csv in it"), "an empty folder");
}
