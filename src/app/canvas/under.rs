//! What lies beneath the drawing: the paper and the picture of a plan. A layer
//! of its own, since pictures lie over all lines of theirs.

use std::collections::BTreeMap;
use std::path::{Path, PathBuf};

use iced::widget::canvas::{self, Frame, Geometry};
use iced::widget::image::Handle;
use iced::{Point as Spot, Radians, Rectangle, Renderer, Size, Task, Theme, mouse};
use image::ImageDecoder as _;
use kurbo::{Point, Vec2};
use wirewend::plan::{Backdrop, LevelId, Subject};
use wirewend::session::Session;
use wirewend::session::state::{Camera, Step};
use wirewend::store::backdrop_path;

use crate::app::canvas::paint::{point, short};
use crate::app::canvas::theme::Look;
use crate::app::{App, Message};

/// The longest side that a picture is kept with, pixels.
const LONGEST: u32 = 3000;

/// A picture that was read.
#[derive(Clone, Debug)]
pub(in crate::app) struct Pixels {
    handle: Handle,
    size: (u32, u32),
}

/// What is kept of the layer.
#[derive(Debug, Default)]
pub(in crate::app) struct Under {
    cache: canvas::Cache,
    shown: Option<Shown>,
    /// Pictures by their files. None: being read, or not to be read.
    pictures: BTreeMap<PathBuf, Option<Pixels>>,
}

/// What the layer was painted for.
#[derive(Clone, Copy, Debug, PartialEq)]
struct Shown {
    stamp: u64,
    camera: Camera,
    level: Option<LevelId>,
    step: Step,
    look: &'static str,
    below: Option<LevelId>,
    read: usize,
    chosen: Option<Subject>,
}

impl Under {
    /// Is painted anew where something of it has changed.
    pub(in crate::app) fn renew(&mut self, session: &Session, look: &Look) {
        let shown = Shown {
            stamp: session.jobs.stamp(),
            camera: session.sight.camera(),
            level: session.sight.level(),
            step: session.sight.step(),
            look: look.name,
            below: session.below(),
            read: self.pictures.values().flatten().count(),
            chosen: session.selection.chosen().iter().next().copied(),
        };
        // A point that is dragged changes nothing here.
        let same = |old: Shown| {
            session.hand.hold().is_some() && Shown { stamp: old.stamp, ..shown } == old
        };
        if self.shown != Some(shown) && !self.shown.is_some_and(same) {
            self.shown = Some(shown);
            self.cache.clear();
        }
    }
}

/// Reads a picture the right way up.
fn read(path: &Path) -> Result<Pixels, String> {
    let fail = |error: &dyn std::fmt::Display| format!("{}: {error}", path.display());
    let reader = image::ImageReader::open(path).map_err(|e| fail(&e))?;
    let reader = reader.with_guessed_format().map_err(|e| fail(&e))?;
    let mut decoder = reader.into_decoder().map_err(|e| fail(&e))?;
    // A camera says which way up it was held.
    let orientation = decoder.orientation().map_err(|e| fail(&e))?;
    let mut picture = image::DynamicImage::from_decoder(decoder).map_err(|e| fail(&e))?;
    picture.apply_orientation(orientation);
    let size = (picture.width(), picture.height());
    if size.0.max(size.1) > LONGEST {
        picture = picture.thumbnail(LONGEST, LONGEST);
    }
    let rgba = picture.into_rgba8();
    let handle = Handle::from_rgba(rgba.width(), rgba.height(), rgba.into_raw());
    Ok(Pixels { handle, size })
}

impl App {
    /// Pictures of the plan that were not read yet, read on threads.
    pub(in crate::app) fn pictures_due(&mut self) -> Task<Message> {
        let folder = self.session.document.folder();
        let mut tasks = Vec::new();
        for backdrop in self.session.document.plan().backdrops.values() {
            let path = backdrop_path(&folder, &backdrop.file);
            if self.under.pictures.contains_key(&path) || !path.is_file() {
                continue;
            }
            self.under.pictures.insert(path.clone(), None);
            let (send, receive) = iced::futures::channel::oneshot::channel();
            let file = path.clone();
            std::thread::spawn(move || {
                // A window that has closed in the meantime needs no answer.
                let _ = send.send(read(&file));
            });
            tasks.push(Task::perform(receive, move |answer| {
                let answer = answer.unwrap_or_else(|_| Err("the picture was not read".to_owned()));
                Message::PictureRead(path.clone(), answer)
            }));
        }
        Task::batch(tasks)
    }

    /// A picture was read, or could not be.
    pub(in crate::app) fn picture_read(&mut self, path: PathBuf, pixels: Result<Pixels, String>) {
        let folder = self.session.document.folder();
        match pixels {
            Ok(pixels) => {
                let files =
                    self.session.document.plan().backdrops.values().map(|one| one.file.clone());
                for file in files.filter(|file| backdrop_path(&folder, file) == path) {
                    self.session.sight.know_picture(file, pixels.size);
                }
                self.under.pictures.insert(path, Some(pixels));
            }
            Err(why) => self.session.said = why,
        }
    }
}

/// The layer's canvas.
pub(in crate::app) struct Beneath<'a> {
    pub(in crate::app) session: &'a Session,
    pub(in crate::app) look: &'a Look,
    pub(in crate::app) under: &'a Under,
}

impl canvas::Program<Message> for Beneath<'_> {
    type State = ();

    fn draw(
        &self,
        (): &(),
        renderer: &Renderer,
        _: &Theme,
        bounds: Rectangle,
        _: mouse::Cursor,
    ) -> Vec<Geometry> {
        let (session, look) = (self.session, self.look);
        let paper = self.under.cache.draw(renderer, bounds.size(), |frame| {
            frame.fill_rectangle(Spot::ORIGIN, bounds.size(), look.paper);
            if session.sight.step() == Step::Papers {
                return;
            }
            if let Some((_, backdrop)) = session.backdrop() {
                self.picture(frame, backdrop);
            }
        });
        vec![paper]
    }
}

impl Beneath<'_> {
    fn picture(&self, frame: &mut Frame, backdrop: &Backdrop) {
        let path = backdrop_path(&self.session.document.folder(), &backdrop.file);
        let pixels = self.under.pictures.get(&path).and_then(Option::as_ref);
        let (Some(pixels), Some(place)) = (pixels, self.session.frame_of(backdrop)) else { return };
        if backdrop.hidden {
            return;
        }
        let middle = self.session.sight.camera().screen(place * Point::new(0.5, 0.5));
        let per = 1.0 / self.session.sight.camera().reach(1.0);
        let width = backdrop.width.to_f64() * per;
        let height = width * f64::from(pixels.size.1) / f64::from(pixels.size.0.max(1));
        let corner = point(middle - Vec2::new(width, height) / 2.0);
        let turn = f64::from(backdrop.turn.millidegrees()) / 1000.0;
        let image = canvas::Image::new(pixels.handle.clone())
            .rotation(Radians(short(-turn.to_radians())))
            .opacity(f32::from(backdrop.strength.min(100)) / 100.0);
        let size = Size::new(short(width), short(height));
        frame.draw_image(Rectangle::new(corner, size), image);
    }
}
