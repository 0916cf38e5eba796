//! Dragging sideways on something that also has to scroll with the page.

use std::cell::Cell;

use leptos::prelude::event_target;
use web_sys::{Element, PointerEvent};

/// A finger has to go this far sideways before it drags, CSS px: until then it may want to scroll.
const DECIDED_PX: i32 = 6;

#[derive(Clone, Copy)]
enum Finger {
    Up,
    /// Down, and it may still turn out to scroll the page.
    Undecided(i32),
    Dragging,
}

/// Calls back with the horizontal place of a mouse or finger that drags, CSS px from the left edge of the element.
///
/// The element needs `touch-action: pan-y`; the browser then takes a vertical drag for itself and cancels ours.
pub struct Drag {
    finger: Cell<Finger>,
    moved_to: Box<dyn Fn(f64)>,
}

impl Drag {
    /// A drag that tells where it is.
    pub fn along(moved_to: impl Fn(f64) + 'static) -> Self {
        Self { finger: Cell::new(Finger::Up), moved_to: Box::new(moved_to) }
    }

    /// A mouse means what it presses; a finger has to show it.
    pub fn down(&self, event: &PointerEvent) {
        if event.button() != 0 {
            return;
        }
        let element: Element = event_target(event);
        let _ = element.set_pointer_capture(event.pointer_id());
        if event.pointer_type() == "mouse" {
            self.finger.set(Finger::Dragging);
            self.tell(event);
        } else {
            self.finger.set(Finger::Undecided(event.offset_x()));
        }
    }

    /// Follows the finger once it drags.
    pub fn moved(&self, event: &PointerEvent) {
        if let Finger::Undecided(start) = self.finger.get()
            && (event.offset_x() - start).abs() > DECIDED_PX
        {
            self.finger.set(Finger::Dragging);
        }
        if let Finger::Dragging = self.finger.get() {
            self.tell(event);
        }
    }

    /// A tap that never moved counts as well.
    pub fn up(&self, event: &PointerEvent) {
        if let Finger::Undecided(_) = self.finger.replace(Finger::Up) {
            self.tell(event);
        }
    }

    /// The browser took the finger for scrolling.
    pub fn cancel(&self) {
        self.finger.set(Finger::Up);
    }

    fn tell(&self, event: &PointerEvent) {
        (self.moved_to)(f64::from(event.offset_x()));
    }
}
