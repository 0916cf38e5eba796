//! Long computations beside the page: in a web worker, so that nothing here waits for them.
//!
//! The worker is a second copy of this program. It flies and sends back bare numbers; the page makes its answers from them with the
//! same code, and finds every flight it would have flown itself. Where a browser starts no worker, the page flies in slices of its
//! own frames.

mod jobs;
mod worker;

use std::cell::{Cell, RefCell};
use std::rc::Rc;

use holdwater_design::find;
pub use jobs::{CURVE_POINTS, News, What};
use jobs::{Jobs, Question};
use js_sys::{Array, Float64Array};
use wasm_bindgen::JsCast;
use wasm_bindgen::closure::Closure;
use web_sys::{HtmlScriptElement, MessageEvent, Worker, WorkerOptions, WorkerType};

use crate::browser::{NextFrame, milliseconds};
use crate::line::Line;
use crate::react::RwSignal;

/// Time one animation frame may spend on jobs where there is no worker; the rest belongs to typing and drawing.
const FRAME_BUDGET_MS: f64 = 5.0;
/// The script of the page, from whose address that of the worker follows.
const PAGE_SCRIPT: &str = "script[src*='boot.js']";

/// Whoever asks, and hears.
#[derive(Clone)]
pub struct Aside(Rc<Inner>);

/// Whoever hears the news of one kind.
type Hearer = Rc<dyn Fn(News)>;

struct Inner {
    /// The newest question of each kind.
    newest: RefCell<[Option<Question>; What::ALL.len()]>,
    count: Cell<u32>,
    hearers: RefCell<[Option<Hearer>; What::ALL.len()]>,
    worker: RefCell<Option<Worker>>,
    /// Whether a worker was started, or cannot be.
    is_up: Cell<bool>,
    /// Where there is no worker.
    here: RefCell<Jobs>,
    frame: RefCell<Option<NextFrame>>,
}

impl Aside {
    /// Nothing is asked yet; the worker starts with the first question.
    pub fn start() -> Self {
        let this = Self(Rc::new(Inner {
            newest: RefCell::default(),
            count: Cell::new(0),
            hearers: RefCell::default(),
            worker: RefCell::default(),
            is_up: Cell::new(false),
            here: RefCell::default(),
            frame: RefCell::default(),
        }));
        let own = this.clone();
        *this.0.frame.borrow_mut() = Some(NextFrame::new(move || own.work_here()));
        this
    }

    /// Hears all news of one kind about the newest question.
    pub fn hear(&self, what: What, hearer: impl Fn(News) + 'static) {
        self.0.hearers.borrow_mut()[what as usize] = Some(Rc::new(hearer));
    }

    /// Keeps a line that is asked for.
    pub fn hear_line(&self, what: What, line: RwSignal<Line>) {
        self.hear(what, move |news| {
            if let Some(numbers) = news.brought {
                line.set(Line::read(&numbers));
            }
        });
    }

    /// Asks about a design at a delay. Whatever was asked of the same kind before is dropped.
    pub fn ask(&self, what: What, link: String, delay: f64) {
        self.0.count.set(self.0.count.get().wrapping_add(1));
        let question = Question { number: self.0.count.get(), what, link, delay };
        self.0.newest.borrow_mut()[what as usize] = Some(question.clone());
        self.send(question);
    }

    /// Drops what was asked, if it has not been answered.
    pub fn forget(&self, what: What) {
        let asked = self.0.newest.borrow_mut()[what as usize].take();
        if let Some(asked) = asked {
            self.send(Question { link: String::new(), ..asked });
        }
    }

    fn send(&self, question: Question) {
        if !self.0.is_up.replace(true) {
            *self.0.worker.borrow_mut() = start_worker().inspect(|worker| self.listen(worker));
        }
        if let Some(worker) = self.0.worker.borrow().as_ref() {
            let Question { number, what, link, delay } = question;
            let message = Array::of4(&number.into(), &(what as u32).into(), &link.into(), &delay.into());
            let _ = worker.post_message(&message);
        } else {
            self.0.here.borrow_mut().ask(question);
            self.ask_for_a_frame();
        }
    }

    fn listen(&self, worker: &Worker) {
        let (told, failed) = (self.clone(), self.clone());
        let told = Closure::<dyn Fn(MessageEvent)>::new(move |event: MessageEvent| {
            if let Some(news) = event.data().dyn_ref().map(Float64Array::to_vec).and_then(|all| News::read(&all)) {
                told.tell(news);
            }
        });
        worker.set_onmessage(Some(told.as_ref().unchecked_ref()));
        let failed = Closure::<dyn Fn()>::new(move || failed.without_worker());
        worker.set_onerror(Some(failed.as_ref().unchecked_ref()));
        // Both listen until the window closes.
        told.forget();
        failed.forget();
    }

    /// Passes news on, unless a newer question was asked meanwhile.
    fn tell(&self, news: News) {
        let is_newest = |question: &Option<Question>| question.as_ref().is_some_and(|it| it.number == news.number);
        if !is_newest(&self.0.newest.borrow()[news.what as usize]) {
            return;
        }
        if news.brought.is_some() {
            self.0.newest.borrow_mut()[news.what as usize] = None;
        }
        let hearer = self.0.hearers.borrow()[news.what as usize].clone();
        if let Some(hearer) = hearer {
            hearer(news);
        }
    }

    /// The worker did not come up or has stopped: everything that is still asked is flown here.
    fn without_worker(&self) {
        if let Some(worker) = self.0.worker.borrow_mut().take() {
            worker.terminate();
        }
        let open: Vec<Question> = self.0.newest.borrow().iter().flatten().cloned().collect();
        open.into_iter().for_each(|question| self.send(question));
    }

    fn work_here(&self) {
        let started = milliseconds();
        loop {
            let Some(news) = self.0.here.borrow_mut().step() else { return };
            self.tell(news);
            if milliseconds() - started > FRAME_BUDGET_MS {
                break;
            }
        }
        self.ask_for_a_frame();
    }

    fn ask_for_a_frame(&self) {
        if let Some(frame) = self.0.frame.borrow().as_ref() {
            frame.ask();
        }
    }
}

/// The worker, with the compiled program as its first message, so that it is neither fetched nor compiled again.
fn start_worker() -> Option<Worker> {
    let document = web_sys::window()?.document()?;
    let script = document.query_selector(PAGE_SCRIPT).ok()??.dyn_into::<HtmlScriptElement>().ok()?;
    let options = WorkerOptions::new();
    options.set_type(WorkerType::Module);
    let page_script = script.src();
    let (before, after) = find::split_once(&page_script, "boot.js")?;
    let worker = Worker::new_with_options(&[before, "searcher.js", after].concat(), &options).ok()?;
    worker.post_message(&wasm_bindgen::module()).ok()?;
    Some(worker)
}
