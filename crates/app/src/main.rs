//! The page of Holdwater: fields in, answers and pictures out, and the link in the address bar.
//!
//! [`state`] holds what was typed and the one door for changing it, [`flown`] what follows from it, [`link_sync`]
//! the address bar, `view` what is seen. Numbers and sentences come from `holdwater-answers`, pictures from
//! `holdwater-pictures`; nothing is computed here.

mod aside;
mod browser;
mod canvas;
mod choices;
mod compare;
mod dom;
mod files;
mod flown;
mod held;
mod keeping;
mod line;
mod link_sync;
mod react;
mod seen;
mod share;
mod state;
mod sweep;
mod view;

use leptos::mount::mount_to;
use rlsf::{GlobalTlsf, GlobalTlsfOptions};

/// A smaller allocator than the standard one, which would be a fiftieth of the page.
#[global_allocator]
static ALLOCATOR: GlobalTlsf<SmallAllocator> = GlobalTlsf::new();

struct SmallAllocator;

impl GlobalTlsfOptions for SmallAllocator {
    const ENABLE_REALLOCATION: bool = false;
}

fn main() {
    // In a worker there is no page: the program waits for what it is asked.
    if web_sys::window().is_none() {
        return;
    }
    #[cfg(debug_assertions)]
    tell_panics();
    let Some(place) = browser::shell_element("app") else {
        return;
    };
    let inside = place.clone();
    // Until the first answer stands, the shell is seen.
    place.set_hidden(true);
    // The framework starts its runtime and owns all signals; the elements are put in by hand.
    mount_to(place, move || {
        let answered = || {
            for (id, hidden) in [("shell", true), ("app", false)] {
                if let Some(part) = browser::shell_element(id) {
                    part.set_hidden(hidden);
                }
            }
        };
        let whole = || {
            if let Some(shell) = browser::shell_element("shell") {
                shell.remove();
            }
        };
        let _ = inside.append_child(view::app(answered, whole).element());
    })
    .forget();
}

/// Panics stop the program, which `boot.js` sees; in a build for development they also say where and why.
#[cfg(debug_assertions)]
fn tell_panics() {
    std::panic::set_hook(Box::new(|info| web_sys::console::error_1(&info.to_string().into())));
}
