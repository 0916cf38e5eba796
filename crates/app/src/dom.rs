//! Elements of the page, built directly and kept in step with the signals read to make them.
//!
//! The framework's own views are compiled anew for every combination of element, attributes and closures; with them
//! the views alone weighed more than physics, pictures and framework together, and the page could not keep its
//! weight. Here every attribute is one call and every closure is boxed, so that the code exists once. Signals, memos and their ownership
//! are the framework's: what is built inside a part that is built anew is given back with it.

use leptos::prelude::*;
use wasm_bindgen::JsCast;
use wasm_bindgen::JsValue;
use wasm_bindgen::closure::Closure;
use web_sys::{Element, Event};

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
    html("button").attr("type", "button").text(text).on("click", move |_| press())
}

/// Runs a job now, and again whenever a signal read in it has changed, for as long as what it was made in lasts.
pub fn follow(job: impl Fn() + 'static) {
    keep_following(Box::new(job));
}

fn keep_following(job: Box<dyn Fn()>) {
    StoredValue::new_local(RenderEffect::new(move |_| job()));
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
        let element = self.0.clone();
        follow(move || set_attribute(&element, name, value().as_deref()));
        self
    }

    /// An attribute that says true or false.
    pub fn says(self, name: &'static str, value: impl Fn() -> bool + 'static) -> Self {
        self.attr_live(name, move || Some(value().to_string()))
    }

    /// A class that is there or not.
    pub fn class_when(self, name: &'static str, there: impl Fn() -> bool + 'static) -> Self {
        let list = self.0.class_list();
        follow(move || {
            let _ = list.toggle_with_force(name, there());
        });
        self
    }

    /// Hidden while something is so.
    pub fn hidden_when(self, hidden: impl Fn() -> bool + 'static) -> Self {
        self.attr_live("hidden", move || hidden().then(String::new))
    }

    /// A property that follows, such as the value of a field: unlike the attribute, it changes what somebody has typed.
    pub fn prop_live(self, name: &'static str, value: impl Fn() -> String + 'static) -> Self {
        let element = self.0.clone();
        follow(move || {
            let value = JsValue::from(value());
            // Writing the same value again would move the caret.
            if js_sys::Reflect::get(&element, &name.into()).is_ok_and(|now| now != value) {
                let _ = js_sys::Reflect::set(&element, &name.into(), &value);
            }
        });
        self
    }

    /// A style that follows. Set as a property, which a strict content-security policy allows.
    pub fn style_live(self, name: &'static str, value: impl Fn() -> Option<String> + 'static) -> Self {
        if let Some(element) = self.get::<web_sys::HtmlElement>() {
            follow(move || {
                let _ = element.style().set_property(name, &value().unwrap_or_default());
            });
        }
        self
    }

    /// Adds words.
    pub fn text(self, text: &str) -> Self {
        let _ = self.0.append_child(&document().create_text_node(text));
        self
    }

    /// Adds words that follow.
    pub fn text_live(self, text: impl Fn() -> String + 'static) -> Self {
        let node = document().create_text_node("");
        let _ = self.0.append_child(&node);
        follow(move || node.set_data(&text()));
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
        let element = self.0.clone();
        follow(move || {
            // Made before the old content goes, so that whoever makes it can still see what had the keyboard.
            let children = make();
            element.set_text_content(None);
            for child in children {
                let _ = element.append_child(&child.0);
            }
        });
        self
    }

    /// Drawn content that follows: markup of our own drawings, never of anything that was typed or opened.
    pub fn drawn(self, markup: impl Fn() -> Option<String> + 'static) -> Self {
        let element = self.0.clone();
        follow(move || element.set_inner_html(&markup().unwrap_or_default()));
        self
    }

    /// Calls back on an event.
    pub fn on(self, event: &str, handler: impl Fn(Event) + 'static) -> Self {
        listen(&self.0, event, Box::new(handler));
        self
    }
}

fn set_attribute(element: &Element, name: &str, value: Option<&str>) {
    // The names are our own and valid.
    let _ = match value {
        Some(value) => element.set_attribute(name, value),
        None => element.remove_attribute(name),
    };
}

fn listen(element: &Element, event: &str, handler: Box<dyn FnMut(Event)>) {
    let handler = Closure::<dyn FnMut(Event)>::wrap(handler);
    let _ = element.add_event_listener_with_callback(event, handler.as_ref().unchecked_ref());
    // Held for as long as what the element was made in.
    StoredValue::new_local(handler);
}

/// The key of a keyboard event; none for any other event.
pub fn key_of(event: &Event) -> String {
    event.dyn_ref::<web_sys::KeyboardEvent>().map(web_sys::KeyboardEvent::key).unwrap_or_default()
}
