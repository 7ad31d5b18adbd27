//! Measures frames, when asked to by `WIREWEND_FRAMES=WIDTHxHEIGHT:FILE`: the
//! window drags the first point of its level to and fro, writes the time to the
//! first frame and from frame to frame into the file, and closes. Beside the
//! time by the clock it notes the processor's, which other work on the machine
//! does not touch; only Linux tells it.

use std::path::PathBuf;
use std::time::Instant;

use iced::Size;
use kurbo::{Point, Vec2};
use wirewend::store::{self, Manner, Replace, SystemDisk};

/// Frames that are dragged through.
const STEPS: u32 = 240;

/// Times in milliseconds.
#[derive(Debug)]
pub(super) struct Frames {
    pub(super) size: Size,
    to: PathBuf,
    started: Instant,
    last: Option<(Instant, Option<f64>)>,
    first: Option<(f64, Option<f64>)>,
    dragged: Vec<f64>,
    worked: Vec<f64>,
    step: u32,
    from: Point,
}

/// What the measurement wants the hand to do.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) enum Move {
    Take(Point),
    Drag(Point),
    End,
}

/// The moment.
#[expect(clippy::disallowed_methods, reason = "only the window sees a clock")]
pub(super) fn now() -> Instant {
    Instant::now()
}

impl Frames {
    /// None where nobody asked.
    pub(super) fn asked(started: Instant) -> Option<Self> {
        let asked = std::env::var("WIREWEND_FRAMES").ok()?;
        let (size, to) = asked.split_once(':')?;
        let (width, height) = size.split_once('x')?;
        Some(Self {
            size: Size::new(width.parse().ok()?, height.parse().ok()?),
            to: PathBuf::from(to),
            started,
            last: None,
            first: None,
            dragged: Vec::new(),
            worked: Vec::new(),
            step: 0,
            from: Point::ORIGIN,
        })
    }

    /// A frame begins; the one before it has been shown. `point` is something
    /// to drag, once all is drawn.
    pub(super) fn frame(&mut self, point: Option<Point>) -> Option<Move> {
        let (at, cpu) = (now(), processor());
        let since = |from: Instant| (at - from).as_secs_f64() * 1e3;
        match self.last {
            // The second redraw: by then the first frame has been shown.
            Some(_) if self.first.is_none() => self.first = Some((since(self.started), cpu)),
            // The first few fill caches.
            Some((last, before)) if self.step > 20 => {
                self.dragged.push(since(last));
                self.worked.extend(cpu.zip(before).map(|(now, before)| now - before));
            }
            _ => {}
        }
        self.last = Some((at, cpu));
        if self.step == 0 {
            self.from = point?;
            self.step = 1;
            return Some(Move::Take(self.from));
        }
        self.step += 1;
        if self.step > STEPS {
            self.write();
            return Some(Move::End);
        }
        let swing = f64::from(self.step * 37 % 1200) - 600.0;
        Some(Move::Drag(self.from + Vec2::new(swing, swing * 0.4)))
    }

    fn write(&mut self) {
        let (first, first_cpu) = self.first.unwrap_or((f64::NAN, None));
        let text = format!(
            "| {} × {} | {first:.0} ms, processor {:.0} | {} | {} | {} |\n",
            self.size.width,
            self.size.height,
            first_cpu.unwrap_or(f64::NAN),
            self.dragged.len(),
            shares(&mut self.dragged),
            shares(&mut self.worked),
        );
        // A measurement that cannot be written is missed by whoever asked.
        let manner = Manner { replace: Replace::Anything, keep: false, settle: false };
        let _ = store::put(&SystemDisk, &self.to, text.as_bytes(), manner);
    }
}

/// Median, 95th percentile and worst.
fn shares(times: &mut [f64]) -> String {
    times.sort_by(f64::total_cmp);
    let share = |percent: usize| {
        let index = (times.len().saturating_sub(1) * percent).div_euclid(100);
        times.get(index).copied().unwrap_or(f64::NAN)
    };
    format!("{:.1}, {:.1}, {:.1} ms", share(50), share(95), share(100))
}

/// How long the processor has worked for this thread, which paints; ms.
fn processor() -> Option<f64> {
    let told = std::fs::read_to_string("/proc/thread-self/schedstat").ok()?;
    let nanoseconds: f64 = told.split_whitespace().next()?.parse().ok()?;
    Some(nanoseconds / 1e6)
}
