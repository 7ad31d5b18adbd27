use super::*;

fn file(data: &str) -> String {
    format!(
        "ISO-10303-21;\nHEADER;\nFILE_SCHEMA(('IFC4'));\nENDSEC;\nDATA;\n{data}\nENDSEC;\nEND-ISO-10303-21;\n"
    )
}

#[test]
fn parameters_of_every_kind_are_read() {
    let text = file(
        "#7= /* a (comment; */ IFCTHING('it''s',$,*,-1.5E1,.YES.,#8,(1,(2,3)),IFCLABEL('x'));",
    );
    let file = StepFile::new(text.as_bytes()).unwrap();
    assert_eq!(file.schema, "IFC4", "the schema");
    assert_eq!(file.named("IFCTHING"), [7], "by name");
    let entity = file.entity(7).unwrap();
    assert_eq!(entity.text(0), "it's", "a doubled quote");
    assert_eq!(entity.number(3), Ok(-15.0), "a real number");
    assert_eq!(entity.word(4), "YES", "a word");
    assert_eq!(entity.reference(5), Ok(8), "a reference");
    assert_eq!(entity.list(6).len(), 2, "a list in a list");
    assert_eq!(file.line(7), 6, "its line");
}

#[test]
fn letters_outside_ascii_are_decoded() {
    // ISO 10303-21:2016, 6.4.3; the last is written by some programs all the same.
    for (coded, letters) in [
        (r"K\S\|che", "Küche"),
        (r"K\X\FCche", "Küche"),
        (r"K\X2\00FC\X0\che", "Küche"),
        ("Küche", "Küche"),
    ] {
        let text = file(&format!("#1=IFCTHING('{coded}');"));
        let file = StepFile::new(text.as_bytes()).unwrap();
        assert_eq!(file.entity(1).unwrap().text(0), letters, "{coded}");
    }
}

#[test]
fn flaws_have_a_line() {
    for (data, line, says) in [
        ("#1=IFCTHING('x);", 8, "does not end"),
        ("#1=IFCTHING(1);\n#1=IFCTHING(2);", 7, "a second entity #1"),
        ("#1=IFCTHING((1);", 6, "inside brackets"),
        ("#1 IFCTHING(1);", 6, "expected \"=\""),
        ("#=IFCTHING(1);", 6, "without a number"),
    ] {
        let text = file(data);
        let flaw = StepFile::new(text.as_bytes()).unwrap_err();
        assert!(flaw.problem.contains(says), "{data}: {flaw:?}");
        assert!(flaw.line == line || says == "does not end", "{data}: {flaw:?}");
    }
}
