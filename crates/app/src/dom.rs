//! Elements of the page, built directly and kept in step with the signals read to make them.
//!
//! The framework's own views are compiled anew for every combination of element, attributes and closures; with them
//! the views alone weighed more than physics, pictures and framework together, and the page could not keep its
//! weight. Here every attribute is one call and every closure is boxed, so that the code exists once. Signals, memos and their ownership
//! are the framework's: what is built inside a part that is built anew is given back with it.

use std::cell::{Cell, RefCell};
use std::rc::Rc;
use std::time::Duration;

use leptos::prelude::{Owner, RenderEffect, document, request_animation_frame, set_timeout, window};
use wasm_bindgen::JsCast;
use wasm_bindgen::JsValue;
use wasm_bindgen::closure::Closure;
use web_sys::{Element, Event};

use crate::react::keep;

const SVG: &str = "http://www.w3.org/2000/svg";

/// An element under construction.
#[derive(Clone)]
pub struct El(Element);

/// An HTML element.
pub fn html(tag: &str) -> El {
    // The names are our own and valid, so that this cannot fail; the body stands in rather than a panic.
    El(document().create_element(tag).unwrap_or_else(|_| document().body().map_or_else(no_body, Into::into)))
}

/// An SVG element.
pub fn svg(tag: &str) -> El {
    El(document().create_element_ns(Some(SVG), tag).unwrap_or_else(|_| html("div").0))
}

fn no_body() -> Element {
    unreachable!("the program runs in a page")
}

/// An HTML element with a class.
pub fn block(tag: &str, class: &str) -> El {
    html(tag).class(class)
}

/// An HTML element with a class and words.
pub fn words(tag: &str, class: &str, text: &str) -> El {
    block(tag, class).text(text)
}

/// A button that does something.
pub fn button(text: &str, press: impl Fn() + 'static) -> El {
    boxed_button(text, Box::new(press))
}

fn boxed_button(text: &str, press: Box<dyn Call<()>>) -> El {
    html("button").attr("type", "button").text(text).on("click", move |_| press.call())
}

/// Runs a job now, and again whenever a signal read in it has changed, for as long as what it was made in lasts.
pub fn follow(job: impl Fn() + 'static) {
    keep_following(Box::new(job));
}

fn keep_following(job: Box<dyn Call<()>>) {
    keep(Rc::new(RenderEffect::new(move |_| job.call())));
}

/// A piece of work that is done once.
pub type Step = Box<dyn FnOnce()>;

/// The step of building something and adding it to a place.
pub fn add<const N: usize>(place: &El, make: fn() -> [El; N]) -> Step {
    let place = place.clone();
    Box::new(move || {
        let _ = place.children(make());
    })
}

/// Does steps one after the other, each in a task of its own, so that whoever reads is heard in between.
///
/// All are set at once: browsers make a task wait that another has set which was set by a third, and so on.
pub fn in_turn(steps: Vec<Step>) {
    // What is built later still belongs to what is being built now.
    let Some(owner) = Owner::current() else { return };
    for step in steps {
        let owner = owner.clone();
        set_timeout(move || owner.with(step), Duration::ZERO);
    }
}

/// Does steps in turn once what stands has been painted.
pub fn in_turn_after_painting(steps: Vec<Step>) {
    let Some(owner) = Owner::current() else { return };
    // What is set from within a frame comes after its painting.
    request_animation_frame(move || owner.with(|| in_turn(steps)));
}

/// A closure in a box. The standard library's boxes carry every closure three times, for each way of calling it.
trait Call<T> {
    fn call(&self) -> T;
}

impl<T, F: Fn() -> T> Call<T> for F {
    fn call(&self) -> T {
        self()
    }
}

/// The same for a handler of events.
trait Handle {
    fn handle(&self, event: Event);
}

impl<F: Fn(Event)> Handle for F {
    fn handle(&self, event: Event) {
        self(event);
    }
}

impl El {
    /// The element itself.
    pub fn element(&self) -> &Element {
        &self.0
    }

    /// The element as one of a kind of its own.
    pub fn get<T: JsCast>(&self) -> Option<T> {
        self.0.clone().dyn_into().ok()
    }

    /// Sets the classes; nothing for an empty list.
    pub fn class(self, names: &str) -> Self {
        if names.is_empty() { self } else { self.attr("class", names) }
    }

    /// Sets an attribute.
    pub fn attr(self, name: &str, value: &str) -> Self {
        set_attribute(&self.0, name, Some(value));
        self
    }

    /// Sets several attributes.
    pub fn attrs(self, all: &[(&str, &str)]) -> Self {
        for (name, value) in all {
            set_attribute(&self.0, name, Some(value));
        }
        self
    }

    /// An attribute that follows the signals read to make it; `None` takes it away.
    pub fn attr_live(self, name: &'static str, value: impl Fn() -> Option<String> + 'static) -> Self {
        follow_attribute(&self.0, name, Box::new(value));
        self
    }

    /// An attribute that says true or false.
    pub fn says(self, name: &'static str, value: impl Fn() -> bool + 'static) -> Self {
        follow_switch(&self.0, name, Box::new(value), Switch::Says);
        self
    }

    /// A class that is there or not.
    pub fn class_when(self, name: &'static str, there: impl Fn() -> bool + 'static) -> Self {
        follow_switch(&self.0, name, Box::new(there), Switch::Class);
        self
    }

    /// Hidden while something is so.
    pub fn hidden_when(self, hidden: impl Fn() -> bool + 'static) -> Self {
        follow_switch(&self.0, "hidden", Box::new(hidden), Switch::Stands);
        self
    }

    /// A property that follows, such as the value of a field: unlike the attribute, it changes what somebody has typed.
    pub fn prop_live(self, name: &'static str, value: impl Fn() -> String + 'static) -> Self {
        follow_property(&self.0, name, Box::new(value));
        self
    }

    /// A style that follows. Set as a property, which a strict content-security policy allows.
    pub fn style_live(self, name: &'static str, value: impl Fn() -> Option<String> + 'static) -> Self {
        follow_style(&self, name, Box::new(value));
        self
    }

    /// Adds words.
    pub fn text(self, text: &str) -> Self {
        let _ = self.0.append_child(&document().create_text_node(text));
        self
    }

    /// Adds words that follow.
    pub fn text_live(self, text: impl Fn() -> String + 'static) -> Self {
        follow_text(&self.0, Box::new(text));
        self
    }

    /// Adds an element.
    pub fn child(self, child: El) -> Self {
        let _ = self.0.append_child(&child.0);
        self
    }

    /// Adds elements.
    pub fn children(self, children: impl IntoIterator<Item = El>) -> Self {
        children.into_iter().fold(self, El::child)
    }

    /// Content that is built anew from the signals read to make it.
    pub fn content(self, make: impl Fn() -> Vec<El> + 'static) -> Self {
        follow_content(&self.0, Box::new(make));
        self
    }

    /// Drawn content that follows: markup of our own drawings, never of anything that was typed or opened.
    pub fn drawn(self, markup: impl Fn() -> Option<String> + 'static) -> Self {
        follow_markup(&self.0, Box::new(markup));
        self
    }

    /// Calls back on an event.
    pub fn on(self, event: &str, handler: impl Fn(Event) + 'static) -> Self {
        listen(&self.0, event, Box::new(handler));
        self
    }
}

/// Writes a value to the page, or takes it away.
type Write = Box<dyn Fn(Option<&str>)>;

/// Writes what follows, unless it is what was written last: a browser lays out anew even what stays the same.
fn follow_written(value: Box<dyn Call<Option<String>>>, write: Write) {
    let last = RefCell::new(None);
    follow(move || {
        let value = Some(value.call());
        if *last.borrow() != value {
            write(value.as_ref().and_then(|value| value.as_deref()));
            last.replace(value);
        }
    });
}

fn follow_attribute(element: &Element, name: &'static str, value: Box<dyn Call<Option<String>>>) {
    let element = element.clone();
    follow_written(value, Box::new(move |value| set_attribute(&element, name, value)));
}

/// What is on or off.
#[derive(Clone, Copy)]
enum Switch {
    /// An attribute that says which.
    Says,
    /// An attribute that stands there or not.
    Stands,
    /// A class that stands there or not.
    Class,
}

fn follow_switch(element: &Element, name: &'static str, on: Box<dyn Call<bool>>, switch: Switch) {
    let element = element.clone();
    let last = Cell::new(None);
    follow(move || {
        let on = on.call();
        if last.replace(Some(on)) == Some(on) {
            return;
        }
        match switch {
            Switch::Says => set_attribute(&element, name, Some(if on { "true" } else { "false" })),
            Switch::Stands => set_attribute(&element, name, on.then_some("")),
            Switch::Class => {
                let _ = element.class_list().toggle_with_force(name, on);
            }
        }
    });
}

fn follow_property(element: &Element, name: &'static str, value: Box<dyn Call<String>>) {
    let element = element.clone();
    follow(move || {
        let value = JsValue::from(value.call());
        // Writing the same value again would move the caret.
        if js_sys::Reflect::get(&element, &name.into()).is_ok_and(|now| now != value) {
            let _ = js_sys::Reflect::set(&element, &name.into(), &value);
        }
    });
}

fn follow_style(element: &El, name: &'static str, value: Box<dyn Call<Option<String>>>) {
    if let Some(element) = element.get::<web_sys::HtmlElement>() {
        let write = move |value: Option<&str>| {
            let _ = element.style().set_property(name, value.unwrap_or_default());
        };
        follow_written(value, Box::new(write));
    }
}

fn follow_text(element: &Element, text: Box<dyn Call<String>>) {
    let node = document().create_text_node("");
    let _ = element.append_child(&node);
    follow_written(Box::new(move || Some(text.call())), Box::new(move |text| node.set_data(text.unwrap_or_default())));
}

fn follow_content(element: &Element, make: Box<dyn Call<Vec<El>>>) {
    let element = element.clone();
    follow(move || {
        // Made before the old content goes, so that whoever makes it can still see what had the keyboard.
        let children = make.call();
        element.set_text_content(None);
        for child in children {
            let _ = element.append_child(&child.0);
        }
    });
}

fn follow_markup(element: &Element, markup: Box<dyn Call<Option<String>>>) {
    let element = element.clone();
    follow_written(markup, Box::new(move |markup| element.set_inner_html(markup.unwrap_or_default())));
}

/// Calls back on an event of the window, for as long as the page lasts.
pub fn on_window(event: &str, handler: impl Fn(Event) + 'static) {
    let callback = callback(Box::new(handler));
    let _ = window().add_event_listener_with_callback(event, callback.as_ref().unchecked_ref());
    callback.forget();
}

fn set_attribute(element: &Element, name: &str, value: Option<&str>) {
    // The names are our own and valid.
    let _ = match value {
        Some(value) => element.set_attribute(name, value),
        None => element.remove_attribute(name),
    };
}

fn listen(element: &Element, event: &str, handler: Box<dyn Handle>) {
    let callback = callback(handler);
    let _ = element.add_event_listener_with_callback(event, callback.as_ref().unchecked_ref());
    // Held for as long as what the element was made in.
    keep(Rc::new(callback));
}

fn callback(handler: Box<dyn Handle>) -> Closure<dyn FnMut(Event)> {
    Closure::new(move |event| handler.handle(event))
}

/// The key of a keyboard event; none for any other event.
pub fn key_of(event: &Event) -> String {
    event.dyn_ref::<web_sys::KeyboardEvent>().map(web_sys::KeyboardEvent::key).unwrap_or_default()
}
