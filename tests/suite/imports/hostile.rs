//! Cut, altered and made-up files: an error or a plan, never a panic, and
//! never long.

use proptest::prelude::*;
use wirewend::store::{ImportOptions, import};

use super::bytes;

/// Small enough that hundreds of altered copies are read in seconds.
fn seeds() -> Vec<Vec<u8>> {
    vec![
        bytes("cc-by-sa/open_smart_home_flat.ifc"),
        bytes("large_two_block.dxf"),
        bytes("large_two_block.svg"),
        bytes("large_two_block.geojson"),
        bytes("large_two_block.ifc.gz"),
    ]
}

fn tried(bytes: &[u8]) {
    if let Err(error) = import(bytes, "altered", &ImportOptions::default()) {
        let text = error.to_string();
        assert!(text.starts_with("altered: ") && text.len() < 1500, "{text}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(60))]

    #[test]
    fn cut_files_are_refused_or_read(seed in 0_usize..5, share in 0.0_f64..1.0) {
        let seeds = seeds();
        let bytes = &seeds[seed % seeds.len()];
        let cut = wirewend::units::Mm::new(i64::try_from(bytes.len()).unwrap()).to_f64() * share;
        let keep = bytes.len().min(format!("{cut:.0}").parse().unwrap());
        tried(&bytes[..keep]);
    }

    #[test]
    fn altered_files_are_refused_or_read(
        seed in 0_usize..5,
        changes in prop::collection::vec((any::<prop::sample::Index>(), any::<u8>()), 1..40),
    ) {
        let seeds = seeds();
        let mut bytes = seeds[seed % seeds.len()].clone();
        for (at, byte) in changes {
            let at = at.index(bytes.len());
            bytes[at] = byte;
        }
        tried(&bytes);
    }
}

/// A file whose parts go round in circles or are nested without end.
#[test]
fn rings_and_depths_are_refused() {
    let step = |data: &str| {
        format!(
            "ISO-10303-21;HEADER;FILE_SCHEMA(('IFC4'));ENDSEC;DATA;{data}ENDSEC;END-ISO-10303-21;"
        )
    };
    let ring = step(
        "#1=IFCBUILDINGSTOREY('',$,'S',$,$,#2,$,$,$,0.);#2=IFCLOCALPLACEMENT(#3,#4);\
         #3=IFCLOCALPLACEMENT(#2,#4);#4=IFCAXIS2PLACEMENT3D(#5,$,$);#5=IFCCARTESIANPOINT((0.,0.,0.));",
    );
    let deep = step(&format!("#1=IFCWALL({}{});", "(".repeat(100_000), ")".repeat(100_000)));
    let svg = format!("<svg xmlns=\"http://www.w3.org/2000/svg\">{}</svg>", "<g>".repeat(100_000));
    let round = "<svg xmlns=\"http://www.w3.org/2000/svg\"><g id=\"a\"><use href=\"#a\"/><use href=\"#a\"/></g></svg>";
    let json = format!("{{\"type\":\"FeatureCollection\",\"features\":{}", "[".repeat(100_000));
    let block = "0\nSECTION\n2\nBLOCKS\n0\nBLOCK\n2\nA\n10\n0\n20\n0\n0\nINSERT\n2\nA\n10\n0\n20\n0\n0\nINSERT\n2\nA\n10\n1\n20\n0\n0\nENDBLK\n0\nENDSEC\n0\nSECTION\n2\nENTITIES\n0\nINSERT\n2\nA\n10\n0\n20\n0\n0\nENDSEC\n0\nEOF\n";
    for text in [&ring, &deep, &svg, round, &json, block] {
        let error = import(text.as_bytes(), "altered", &ImportOptions::default()).unwrap_err();
        assert!(error.to_string().len() < 1500, "{error}");
    }
}

#[test]
fn a_packed_file_that_swells_is_refused() {
    use std::io::Write as _;
    let mut packed = flate2::write::GzEncoder::new(Vec::new(), flate2::Compression::fast());
    let block = vec![b' '; 1 << 20];
    for _ in 0..300 {
        packed.write_all(&block).unwrap();
    }
    let error =
        import(&packed.finish().unwrap(), "swollen", &ImportOptions::default()).unwrap_err();
    assert!(error.to_string().contains("larger than"), "{error}");
}

#[test]
fn errors_say_where() {
    let flat = String::from_utf8(bytes("cc-by-sa/open_smart_home_flat.ifc")).unwrap();
    let dxf = String::from_utf8(bytes("large_two_block.dxf")).unwrap();
    for (text, says) in [
        (flat.replacen("IFCWALLTYPE(", "IFCWALLTYPE((", 1), "line "),
        (dxf.replacen("LWPOLYLINE\n  5", "LWPOLYLINE\nfive", 1), "is no group code"),
        (dxf.replace("EOF", "END"), "the file ends before EOF"),
        ("<svg><path></svg>".to_owned(), "line 1"),
        ("{\"type\":\"Feature\",\"geometry\":7}".to_owned(), "features[0]"),
        ("hello".to_owned(), "neither IFC"),
        (String::new(), "neither IFC"),
    ] {
        let error = import(text.as_bytes(), "altered", &ImportOptions::default()).unwrap_err();
        assert!(error.to_string().contains(says), "{error}");
    }
}
