use super::*;
use crate::plan::{OpeningKind, RoomUse};
use crate::units::Point2;

fn read(walls: &str, openings: &str, rooms: &str) -> (Plan, LayoutReport) {
    let text = format!(
        r#"{{"name":"t","levels":[{{"elevation":0,"height":2.6,
            "walls":[{walls}],"openings":[{openings}],"rooms":[{rooms}]}}]}}"#
    );
    read_layout(&text, &LayoutOptions::default()).unwrap()
}

#[test]
fn walls_that_stop_at_faces_meet_at_centre_lines() {
    // The first reaches through to the outer face of the second, the third
    // stops at the inner face of the first: both 100 mm from its centre line.
    let (plan, report) = read(
        r#"{"a":[0,0.1],"b":[4,0.1],"thickness":0.2},
           {"a":[0.1,0],"b":[0.1,3],"thickness":0.2},
           {"a":[2,0.2],"b":[2,3],"thickness":0.1}"#,
        "",
        "",
    );
    let walls: Vec<_> = plan.walls.values().map(|wall| (wall.a, wall.b)).collect();
    assert_eq!(walls[0].0, Point2::new(100, 100), "the corner, from the first wall");
    assert_eq!(walls[1].0, Point2::new(100, 100), "the corner, from the second wall");
    assert_eq!(walls[2].0, Point2::new(2000, 100), "the T-junction");
    assert_eq!(report.count(NoteKind::Changed), 3, "{:?}", report.notes);
}

#[test]
fn thin_pieces_become_screens_and_short_ones_are_left_out() {
    let (plan, report) = read(
        r#"{"a":[0,0],"b":[4,0],"thickness":0},
           {"a":[0,5],"b":[0.01,5],"thickness":0.1},
           {"a":[4,0],"b":[0,0],"thickness":0.1}"#,
        r#"{"kind":"door","wall":1,"at":[0,5],"width":0.8,"sill":0,"head":2}"#,
        "",
    );
    assert_eq!(plan.walls.len(), 1, "neither the piece of 10 mm nor the double: {report:?}");
    assert_eq!(plan.walls[0].build, WallBuild::Screen, "nothing runs in a line");
    assert_eq!(report.count(NoteKind::LeftOut), 3, "two walls and a door: {report:?}");
}

#[test]
fn openings_are_clipped_to_their_walls() {
    let (plan, report) = read(
        r#"{"a":[0,0],"b":[3,4],"thickness":0.2}"#,
        r#"{"kind":"window","wall":0,"at":[1.5,2],"width":1,"sill":0.9,"head":2.1},
           {"kind":"door","subtype":"sliding_door","wall":0,"at":[3,4],"width":1,"sill":0,"head":9},
           {"kind":"opening","wall":0,"at":[9,12],"width":1,"sill":0,"head":2},
           {"kind":"door","wall":7,"at":[0,0],"width":1,"sill":0,"head":2}"#,
        "",
    );
    let openings: Vec<_> = plan
        .openings
        .values()
        .map(|opening| (opening.kind, opening.from.get(), opening.width.get(), opening.head.get()))
        .collect();
    // The wall is 5 m long (3, 4, 5), so its middle is at 2.5 m.
    let expect =
        [(OpeningKind::Window, 2000, 1000, 2100), (OpeningKind::SlidingDoor, 4500, 500, 2600)];
    assert_eq!(openings, expect, "{report:?}");
    assert_eq!(report.count(NoteKind::LeftOut), 2, "one beyond its wall, one without: {report:?}");
}

#[test]
fn rooms_are_known_by_type_or_name_in_several_languages() {
    let (plan, _) = read(
        "",
        "",
        r#"{"name":"Küche"},{"name":"Bad"},{"name":"Treppenhaus"},{"name":"Room 1","type":"KITCHEN"},
           {"name":"Living_Dining 2","type":"LIVING_DINING"},{"name":"Camera da letto"},
           {"name":"Salle de bain"},{"name":"Raum 3"},{"name":"x","type":"SLAB"},
           {"name":"Bedroom 2","polygon":[[0,0],[1,0],[1,1],[0,0]]}"#,
    );
    let uses: Vec<_> = plan.rooms.values().map(|room| room.usage).collect();
    use RoomUse::*;
    let expect =
        [Kitchen, Bathroom, Stair, Kitchen, Living, Bedroom, Bathroom, Other, Bedroom].to_vec();
    assert_eq!(uses, expect, "by type first, then by name");
    assert_eq!(plan.rooms.values().last().unwrap().outline.len(), 3, "the repeat is dropped");
}

#[test]
fn ceilings_lie_below_the_next_floor_with_a_void_between() {
    let text = r#"{"levels":[{"elevation":-1,"height":9},{"elevation":2,"height":2.5}]}"#;
    let options = LayoutOptions { subfloor: true, ..LayoutOptions::default() };
    let (plan, _) = read_layout(text, &options).unwrap();
    let heights: Vec<_> = plan.levels.values().map(|level| (level.floor, level.height)).collect();
    let mm = Mm::new;
    assert_eq!(heights, [(mm(0), mm(2700)), (mm(3000), mm(2500))], "300 mm of floor between");
    let planes: Vec<_> = plan.voids.values().map(|void| void.z).collect();
    assert_eq!(planes, [mm(-300), mm(2850), mm(5600)], "under, between, over");
    let concrete = LayoutOptions { roof_space: false, between_floors: false, ..Default::default() };
    assert!(read_layout(text, &concrete).unwrap().0.voids.is_empty(), "concrete all round");
}

#[test]
fn a_wall_that_stands_on_the_next_level_goes_there_with_its_door() {
    let text = r#"{"levels":[
        {"elevation":0,"height":3,"walls":[
            {"a":[0,0],"b":[5,0],"thickness":0.2,"base":2.6,"height":3.2},
            {"a":[0,0],"b":[0,5],"thickness":0.2,"base":0,"height":1}],
         "openings":[{"kind":"door","wall":0,"at":[2,0],"width":0.8,"sill":3,"head":5.1}]},
        {"elevation":3,"height":2.5}]}"#;
    let (plan, report) = read_layout(text, &LayoutOptions::default()).unwrap();
    let (upper, _) = plan.levels.get_index(1).unwrap();
    let (door, wall) = (&plan.openings[0], &plan.walls[&plan.openings[0].wall]);
    assert_eq!((wall.level, door.sill, door.head), (*upper, Mm::ZERO, Mm::new(2100)), "{report:?}");
    assert_eq!(plan.walls[0].build, WallBuild::Screen, "a wall of 1 m carries nothing overhead");
}

#[test]
fn a_stray_piece_is_dropped_and_a_free_standing_wall_is_kept() {
    let (plan, report) = read(
        r#"{"a":[0,0],"b":[4,0],"thickness":0.1},
           {"a":[9,9],"b":[9,10],"thickness":0.1},
           {"a":[2,3],"b":[2,4],"thickness":0.1}"#,
        r#"{"kind":"door","wall":2,"at":[2,3.5],"width":0.8,"sill":0,"head":2}"#,
        r#"{"name":"Hall","polygon":[[0,0],[4,0],[4,5],[0,5]]}"#,
    );
    assert_eq!(plan.walls.len(), 2, "the one at (9, 9) is by itself: {report:?}");
    assert_eq!(
        plan.openings[0].wall,
        *plan.walls.get_index(1).unwrap().0,
        "the door keeps its wall"
    );
}

#[test]
fn bad_layouts_get_an_error_that_says_where() {
    let message = |text: &str| {
        read_layout(text, &LayoutOptions::default()).expect_err("a bad layout").to_string()
    };
    assert!(message("").contains("line 1"), "{}", message(""));
    assert!(message(r#"{"levels":[]}"#).contains("none"), "no level");
    assert!(message(r#"{"units":"ft","levels":[]}"#).contains("ft"), "feet");
    let far = r#"{"levels":[{"elevation":0,"height":2,"walls":[
        {"a":[0,0],"b":[1e9,0],"thickness":0.1}]}]}"#;
    let far = message(far);
    assert!(far.contains("line 2") && far.contains("levels[0].walls[0].b"), "{far}");
    let many = format!(
        r#"{{"levels":[{{"elevation":0,"height":2,"rooms":[{}]}}]}}"#,
        vec!["{}"; LAYOUT_PARTS_MAX].join(",")
    );
    assert!(message(&many).contains("most"), "one part too many");
    let deep = "[".repeat(100_000);
    assert!(!message(&deep).is_empty(), "deep nesting is refused");
    assert!(message(&" ".repeat(LAYOUT_BYTES_MAX + 1)).contains("bytes"), "too large");
}
