//! The window. It computes nothing: it draws what the library makes of a plan,
//! and turns what the hand does into edits.

mod canvas;
mod doing;
mod draft_form;
mod frames;
mod keys;
mod message;
mod settings;
#[cfg(test)]
mod tests;
mod view;

use std::path::{Path, PathBuf};
use std::sync::{Arc, Mutex};

use iced::{Font, Size, Subscription, Task, keyboard, window};
use wirewend::plan::Plan;
use wirewend::rules::RuleBook;
use wirewend::session::work::Known as Computed;
use wirewend::sheet::{BOLD, REGULAR, SIGNS};
use wirewend::store::Known;
use wirewend::units::Watch;

use self::canvas::layers::{CanvasLayers, Painted};
use self::canvas::panes::Panes;
use self::canvas::strip::Strip;
use self::canvas::theme::Look;
use self::canvas::under::Under;
use self::doing::bring::Long;
use self::keys::Command;
use self::message::{Leave, Message, Over};
use self::settings::Settings;
use wirewend::session::Session;

/// The window.
struct App {
    session: Session,
    look: Look,
    over: Over,
    panes: Panes,
    /// The marks of what is shown, made ready for the canvas.
    layers: CanvasLayers,
    /// What lies beneath it, and for what it was painted.
    under: Under,
    long: Long,
    /// Over the papers that are written.
    writing: Option<Watch>,
    rules: Arc<RuleBook>,
    /// What was computed before.
    known: Arc<Mutex<Computed>>,
    frames: Option<frames::Frames>,
    /// The line that is picked in a list.
    picked: usize,
    /// The chosen leg rolled out.
    strip: Option<Strip>,
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
pub(super) fn run(file: Option<&Path>, sample: Plan, rules: RuleBook) -> Result<(), String> {
    let started = frames::now();
    let (plan, file) = match file {
        None => (sample, None),
        Some(file) if file.exists() => {
            let read = wirewend::store::read_known(file).map_err(|error| error.to_string())?;
            (read.0, Some((file.to_owned(), Some(read.1))))
        }
        Some(file) => (wirewend::session::ground::blank::plan(), Some((file.to_owned(), None))),
    };
    let fonts = [REGULAR, BOLD, SIGNS].map(std::borrow::Cow::Borrowed).to_vec();
    let folder = settings::folder();
    let remembered = Settings::read(folder.as_deref());
    let size = frames::Frames::asked(started)
        .map_or(Size::new(remembered.size.0, remembered.size.1), |frames| frames.size);
    let rules = Arc::new(rules);
    let boot =
        move || App::new(plan.clone(), file.clone(), folder.clone(), (started, Arc::clone(&rules)));
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
        (started, rules): (std::time::Instant, Arc<RuleBook>),
    ) -> (Self, Task<Message>) {
        let keep = folder.as_deref();
        let mut settings = Settings::read(keep);
        let session = match file {
            Some((file, known)) => Session::of_known(plan, file, known),
            None => Session::left_behind(keep).unwrap_or_else(|| Session::unnamed(plan, keep)),
        };
        if let Some(file) = session.document.file().as_ref().filter(|file| file.exists()) {
            settings.note(file);
            settings.write(keep);
        }
        let mut app = Self {
            session,
            look: Look::named(&settings.look),
            picked: 0,
            strip: None,
            settings,
            folder,
            over: Over::Nothing,
            panes: Panes::default(),
            layers: CanvasLayers::default(),
            under: Under::default(),
            long: Long::default(),
            writing: None,
            rules,
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
        while let Some(order) = self.session.due() {
            let (rules, known) = (Arc::clone(&self.rules), Arc::clone(&self.known));
            let before = self.layers.clone();
            let (send, receive) = iced::futures::channel::oneshot::channel();
            std::thread::spawn(move || {
                // A window that has closed in the meantime needs no answer.
                let _ = send.send(Painted::of(order.done(&rules, &known), &before));
            });
            tasks.push(Task::perform(receive, |answer| Message::Drawn(answer.ok())));
        }
        Task::batch(tasks)
    }

    fn title(&self) -> String {
        let name = self.session.document.file().as_ref().and_then(|file| file.file_name());
        let own = Some(self.session.document.plan().project.title.as_str())
            .filter(|title| !title.is_empty());
        let name = name.map_or_else(
            || own.unwrap_or("no name yet").to_owned(),
            |name| name.to_string_lossy().into_owned(),
        );
        let mark = if self.session.document.unsaved() { " (not saved)" } else { "" };
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
            if self.session.document.unsaved() || self.works() {
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
