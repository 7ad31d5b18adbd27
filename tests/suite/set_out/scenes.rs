//! What the drawn sheets say: figures and boxes by room.

use wirewend::plan::{End, Place, Subject};
use wirewend::sheet::{
    Group, House, Item, Layer, Mark, Scene, Text, Weight, concealed_sheets, elevations, wall_views,
};

use super::Job;
use super::outline::Outlines;
use crate::on_paper::{groups, texts};

pub(super) fn scenes(job: &Job, house: &House<'_>) -> Vec<String> {
    let mut found = Vec::new();
    for scene in elevations(house).iter().chain(&concealed_sheets(house)) {
        for group in figures(scene) {
            found.extend(figure(job, house, scene, group));
        }
    }
    found
}

/// The drawn walls of a sheet.
fn figures(scene: &Scene) -> Vec<&Group> {
    let of_walls = groups(&scene.items).into_iter();
    of_walls
        .filter(|one| one.layer == Layer::Walls && matches!(one.subject, Some(Subject::Wall(_))))
        .collect()
}

/// The heading of a figure, its lines put together.
fn title(group: &Group) -> String {
    let own = group.items.iter().filter_map(|item| match item {
        Item::Text(text) if text.weight == Weight::Bold && text.turn == 0.0 => Some(text),
        _ => None,
    });
    // Titles begin at the figure's left edge, in lines from the top.
    let mut lines: Vec<&Text> = own.collect();
    let Some(first) = lines.iter().map(|text| text.at.y).reduce(f64::min) else {
        return String::new();
    };
    let left =
        lines.iter().find(|text| (text.at.y - first).abs() < 1e-9).map_or(0.0, |text| text.at.x);
    lines.retain(|text| (text.at.x - left).abs() < 0.01);
    lines.sort_by(|a, b| a.at.y.total_cmp(&b.at.y));
    let all: Vec<&str> = lines.iter().map(|text| text.content.as_str()).collect();
    all.join(" ")
}

fn figure(job: &Job, house: &House<'_>, scene: &Scene, group: &Group) -> Vec<String> {
    let mut found = Vec::new();
    let title = title(group);
    let Some((rooms, rest)) = title.rsplit_once(": ") else {
        return vec![format!("{}: a figure without a title: {title:?}", scene.title)];
    };
    let name = rest.split(" (").next().unwrap_or_default();
    let rooms: Vec<&str> = rooms.split(", ").collect();
    let views = wall_views(house);
    let named = |view: &&wirewend::sheet::WallView<'_>| {
        let mut own = view.piece.rooms.iter().map(|id| job.plan.rooms[id].name.as_str());
        view.piece.name == name
            && if view.piece.rooms.is_empty() {
                rooms == ["Outside"]
            } else {
                own.all(|one| rooms.contains(&one))
            }
    };
    let all: Vec<_> = views.iter().filter(named).collect();
    let [view] = all.as_slice() else {
        return vec![format!("{title}: {} pieces of that name", all.len())];
    };
    let outlines = Outlines::of(&job.plan);
    let figures = below(group);
    for one in &group.items {
        let Item::Group(Group { subject: Some(subject), .. }) = one else { continue };
        let end = match subject {
            Subject::Board(id) => End::Board(*id),
            Subject::Point(id) => End::Point(*id),
            _ => continue,
        };
        let Some(Place::Wall(on)) = job.plan.place_of(end) else { continue };
        let along = on.along.to_f64();
        let run = outlines.run(&job.plan, (on.wall, on.face), along);
        let room = job.plan.room_of(&Place::Wall(on)).map(|id| job.plan.rooms[&id].name.as_str());
        // What is drawn within another wall is in no room, and says so.
        if run.is_some() && room.is_some_and(|room| !rooms.contains(&room)) {
            found.push(format!("{title}: {end} of {room:?}"));
        }
        if let Some(run) = run.filter(|_| scene.title.contains("elevation"))
            && !figures.iter().any(|figure| (figure - run.left).abs() <= 2.0)
        {
            found.push(format!("{title}: {end} is {:.1} from the left: {figures:?}", run.left));
        }
    }
    // The floor line, at the scale that the title or else the sheet says.
    if !title.contains(", part from ") {
        let scale = title.rsplit_once("at 1:").and_then(|(_, to)| to.parse::<f64>().ok());
        let scale = scale.unwrap_or(50.0);
        let drawn = floor_line(group) * scale;
        if (drawn - view.piece.length).abs() > 1.0 {
            found.push(format!("{title}: drawn {drawn:.1}, clear {:.1}", view.piece.length));
        }
    }
    found
}

/// The figures under a wall, in millimetres.
fn below(group: &Group) -> Vec<f64> {
    let all = texts(&group.items).into_iter();
    let turned = all.filter(|text| text.turn != 0.0 && text.weight == Weight::Regular);
    turned
        .filter_map(|text| text.content.parse::<f64>().ok())
        .map(|metres| metres * 1000.0)
        .collect()
}

/// The longest level line of a figure: its floor, paper mm.
fn floor_line(group: &Group) -> f64 {
    let level = group.items.iter().filter_map(|item| match item {
        Item::Path(Mark { path, fill: None, stroke: Some(stroke) })
            if (stroke.width - 0.35).abs() < 1e-9 =>
        {
            let area = kurbo::Shape::bounding_box(path);
            (area.height() < 0.01).then_some(area.width())
        }
        _ => None,
    });
    level.fold(0.0, f64::max)
}
