//! Work away from the window: a thread of its own that tells what it finds, and stops when nobody waits for it.

use std::sync::Arc;
use std::sync::atomic::{AtomicBool, Ordering};
use std::sync::mpsc::{Receiver, Sender, TryRecvError, channel};

use egui::Context;

/// The end of the work that the window holds. Once it is dropped, the work is told to stop.
#[derive(Debug)]
pub struct Worker<T> {
    is_stopped: Arc<AtomicBool>,
    is_woken: Arc<AtomicBool>,
    news: Receiver<T>,
}

/// The end that the work holds.
#[derive(Debug)]
pub struct Teller<T> {
    is_stopped: Arc<AtomicBool>,
    is_woken: Arc<AtomicBool>,
    /// Gone once the work is over.
    news: Option<Sender<T>>,
    ctx: Context,
}

impl<T: Send + 'static> Worker<T> {
    /// Begins the work in a thread of this name; the window is woken when there is something to take.
    #[must_use]
    pub fn start(name: &str, ctx: &Context, work: impl FnOnce(&Teller<T>) + Send + 'static) -> Self {
        let (sender, news) = channel();
        let (is_stopped, is_woken) = (Arc::new(AtomicBool::new(false)), Arc::new(AtomicBool::new(false)));
        let teller = Teller {
            is_stopped: Arc::clone(&is_stopped),
            is_woken: Arc::clone(&is_woken),
            news: Some(sender),
            ctx: ctx.clone(),
        };
        let spawned = std::thread::Builder::new().name(name.to_owned()).spawn(move || work(&teller));
        if let Err(error) = spawned {
            // The other end is gone with the work: it is over, and nothing came of it.
            log::error!("no thread for “{name}”: {error}");
        }
        Self { is_stopped, is_woken, news }
    }

    /// What was told since the last time, and whether the work is over.
    #[must_use]
    pub fn news(&self) -> (Vec<T>, bool) {
        // Before it is emptied: what comes meanwhile wakes the window again.
        self.is_woken.store(false, Ordering::Release);
        let mut all = Vec::new();
        loop {
            match self.news.try_recv() {
                Ok(one) => all.push(one),
                Err(TryRecvError::Empty) => return (all, false),
                Err(TryRecvError::Disconnected) => return (all, true),
            }
        }
    }
}

impl<T> Drop for Worker<T> {
    fn drop(&mut self) {
        self.is_stopped.store(true, Ordering::Release);
    }
}

impl<T> Teller<T> {
    /// Whether nobody waits for it any more.
    #[must_use]
    pub fn is_stopped(&self) -> bool {
        self.is_stopped.load(Ordering::Acquire)
    }

    /// Tells something; whether the work is to go on.
    pub fn tell(&self, news: T) -> bool {
        let is_heard = self.news.as_ref().is_some_and(|sender| sender.send(news).is_ok());
        self.wake();
        is_heard && !self.is_stopped()
    }

    /// Asks for a frame, once until the window has looked.
    fn wake(&self) {
        if !self.is_stopped() && !self.is_woken.swap(true, Ordering::AcqRel) {
            self.ctx.request_repaint();
        }
    }
}

impl<T> Drop for Teller<T> {
    /// Also of work that broke: the window has to see that it is over.
    fn drop(&mut self) {
        self.news = None;
        // What was told last may not have been looked at yet.
        if !self.is_stopped() {
            self.ctx.request_repaint();
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn all<T: Send + 'static>(worker: &Worker<T>) -> Vec<T> {
        let mut all = Vec::new();
        loop {
            let (news, is_over) = worker.news();
            all.extend(news);
            if is_over {
                return all;
            }
            std::thread::yield_now();
        }
    }

    #[test]
    fn everything_that_is_told_arrives_in_its_order_and_wakes_the_window() {
        let ctx = Context::default();
        let worker = Worker::start("test", &ctx, |teller| {
            for number in 0..100 {
                assert!(teller.tell(number));
            }
        });
        assert_eq!(all(&worker), (0..100).collect::<Vec<_>>());
        assert!(ctx.has_requested_repaint());
    }

    #[test]
    fn work_that_nobody_waits_for_ends() {
        let (sender, over) = channel();
        let worker = Worker::start("test", &Context::default(), move |teller| {
            while teller.tell(()) {}
            sender.send(teller.is_stopped()).expect("somebody listens");
        });
        drop(worker);
        assert_eq!(over.recv_timeout(std::time::Duration::from_secs(20)), Ok(true));
    }

    #[test]
    fn work_that_breaks_is_over() {
        let worker = Worker::<()>::start("test that breaks", &Context::default(), |_| panic!("broken for a test"));
        assert_eq!(all(&worker), []);
    }
}
