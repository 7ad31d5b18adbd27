//! The window. It computes nothing: it draws what the library makes of a plan,
//! and turns what the hand does into edits.

mod amounts;
mod at_hand;
mod band;
mod blank;
mod bring;
mod building;
mod camera;
#[cfg(test)]
mod circuit_flows;
mod circuits;
mod clip;
mod corners;
mod desk;
mod draft_form;
mod drops;
mod export;
mod figure;
#[cfg(test)]
mod file_flows;
mod files;
mod find;
mod first_time;
#[cfg(test)]
mod flows;
mod foils;
mod frames;
mod going;
mod ground;
#[cfg(test)]
mod habit_flows;
mod habits;
mod hand;
mod hold;
mod in_the_way;
mod keys;
mod kit;
#[cfg(test)]
mod layout_flows;
mod length;
mod lettering;
mod levels;
mod lists;
mod lit;
mod mend;
mod message;
mod near;
#[cfg(test)]
mod number_flows;
mod outlines;
mod paint;
mod panes;
mod pictures;
mod pins;
mod pins_held;
mod points;
#[cfg(test)]
mod reach;
mod remove;
mod renumber;
mod reshape;
mod rooms;
#[cfg(test)]
mod set_out_flows;
mod settings;
mod sketch;
mod sketch_building;
mod snap;
mod strip;
mod surface;
mod survey;
mod survey_commands;
#[cfg(test)]
mod survey_flows;
mod theme;
mod under;
mod unnamed;
mod update;
mod view;
mod wall_areas;
mod wire;
mod work;
mod working;

use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex};

use iced::{Font, Size, Subscription, Task, keyboard, window};
use wirewend::plan::Plan;
use wirewend::rules::RuleBook;
use wirewend::sheet::{BOLD, REGULAR, SIGNS};
use wirewend::store::Known;
use wirewend::units::Watch;

use self::desk::Desk;
use self::keys::Command;
use self::message::{Leave, Message, Over};
use self::settings::Settings;
use self::theme::Look;

/// The window.
struct App {
    desk: Desk,
    look: Look,
    over: Over,
    panes: panes::Panes,
    /// What lies beneath it, and for what it was painted.
    under: under::Under,
    long: bring::Long,
    /// Over the papers that are written.
    writing: Option<Watch>,
    rules: Arc<RuleBook>,
    /// What was computed before.
    known: Arc<Mutex<work::Known>>,
    frames: Option<frames::Frames>,
    /// The line that is picked in a list.
    picked: usize,
    /// The chosen leg rolled out.
    strip: Option<strip::Strip>,
    settings: settings::Settings,
    /// Where the window's own files are.
    folder: Option<PathBuf>,
    /// The window that closes once the plan has its file.
    closing: Option<window::Id>,
}

/// Opens the window on a plan file, or on the sample.
///
/// # Errors
/// Where the file is no plan, or no window can be opened.
pub(super) fn run(file: Option<&Path>, sample: Plan) -> Result<(), String> {
    let started = frames::now();
    let (plan, file) = match file {
        None => (sample, None),
        Some(file) if file.exists() => {
            let read = wirewend::store::read_known(file).map_err(|error| error.to_string())?;
            (read.0, Some((file.to_owned(), Some(read.1))))
        }
        Some(file) => (blank::plan(), Some((file.to_owned(), None))),
    };
    let fonts = [REGULAR, BOLD, SIGNS].map(std::borrow::Cow::Borrowed).to_vec();
    let folder = settings::folder();
    let remembered = Settings::read(folder.as_deref());
    let size = frames::Frames::asked(started)
        .map_or(Size::new(remembered.size.0, remembered.size.1), |frames| frames.size);
    let boot = move || App::new(plan.clone(), file.clone(), folder.clone(), started);
    iced::application(boot, App::update, view::view)
        .settings(iced::Settings {
            id: Some("wirewend".to_owned()),
            fonts,
            default_font: Font::with_name("Noto Sans"),
            default_text_size: 13.into(),
            antialiasing: true,
            ..iced::Settings::default()
        })
        .title(App::title)
        .theme(|app: &App| app.look.theme())
        .scale_factor(|app: &App| app.settings.scale)
        .subscription(App::subscription)
        .window(window::Settings {
            size,
            min_size: Some(Size::new(800.0, 500.0)),
            exit_on_close_request: false,
            ..window::Settings::default()
        })
        .run()
        .map_err(|error| error.to_string())
}

/// Whether there is a screen to open a window on.
pub(super) fn has_display() -> bool {
    let set = |name: &str| std::env::var_os(name).is_some_and(|value| !value.is_empty());
    cfg!(not(target_os = "linux")) || set("DISPLAY") || set("WAYLAND_DISPLAY")
}

impl App {
    fn new(
        plan: Plan,
        file: Option<(PathBuf, Option<Known>)>,
        folder: Option<PathBuf>,
        started: std::time::Instant,
    ) -> (Self, Task<Message>) {
        let keep = folder.as_deref();
        let mut settings = Settings::read(keep);
        let desk = match file {
            Some((file, known)) => Desk::of_known(plan, file, known),
            None => Desk::left_behind(keep).unwrap_or_else(|| Desk::unnamed(plan, keep)),
        };
        if let Some(file) = desk.file.as_ref().filter(|file| file.exists()) {
            settings.note(file);
            settings.write(keep);
        }
        let mut app = Self {
            desk,
            look: Look::named(&settings.look),
            picked: 0,
            strip: None,
            settings,
            folder,
            over: Over::Nothing,
            panes: panes::Panes::default(),
            under: under::Under::default(),
            long: bring::Long::default(),
            writing: None,
            rules: Arc::new(RuleBook::shipped()),
            known: Arc::default(),
            frames: frames::Frames::asked(started),
            closing: None,
        };
        let work = app.work();
        (app, work)
    }

    /// The work that is due, done on a thread of its own: whatever it takes,
    /// the hand goes on.
    fn work(&mut self) -> Task<Message> {
        let mut tasks = Vec::new();
        while let Some(order) = self.desk.due() {
            let (rules, known) = (Arc::clone(&self.rules), Arc::clone(&self.known));
            let (send, receive) = iced::futures::channel::oneshot::channel();
            std::thread::spawn(move || {
                // A window that has closed in the meantime needs no answer.
                let _ = send.send(Arc::new(order.done(&rules, &known)));
            });
            tasks.push(Task::perform(receive, |answer| Message::Drawn(answer.ok())));
        }
        Task::batch(tasks)
    }

    fn title(&self) -> String {
        let name = self.desk.file.as_ref().and_then(|file| file.file_name());
        let own = Some(self.desk.plan.project.title.as_str()).filter(|title| !title.is_empty());
        let name = name.map_or_else(
            || own.unwrap_or("no name yet").to_owned(),
            |name| name.to_string_lossy().into_owned(),
        );
        let mark = if self.desk.unsaved() { " (not saved)" } else { "" };
        format!("{name}{mark} - Wirewend")
    }

    fn subscription(&self) -> Subscription<Message> {
        Subscription::batch([
            window::close_requests().map(Message::CloseAsked),
            iced::event::listen_with(aside),
            if self.frames.is_some() {
                window::frames().map(|_| Message::Frame)
            } else {
                Subscription::none()
            },
            // Nothing wakes an idle window.
            if self.desk.unsaved() || self.works() {
                iced::time::every(std::time::Duration::from_secs(1)).map(|_| Message::Second)
            } else {
                Subscription::none()
            },
        ])
    }
}

/// What no widget tells of: a dropped file, and Escape in a field, which keeps
/// it to itself.
fn aside(event: iced::Event, status: iced::event::Status, _: window::Id) -> Option<Message> {
    match event {
        iced::Event::Window(window::Event::FileDropped(path)) => Some(Message::Dropped(path)),
        iced::Event::Window(window::Event::Focused) => Some(Message::Focused),
        iced::Event::Window(window::Event::Resized(size)) => Some(Message::Sized(size)),
        iced::Event::Keyboard(keyboard::Event::KeyPressed { key, .. }) => {
            let escape = key == keyboard::Key::Named(keyboard::key::Named::Escape);
            let kept = escape && status == iced::event::Status::Captured;
            kept.then_some(Message::Do(Command::LetGo))
        }
        _ => None,
    }
}
