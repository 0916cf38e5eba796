//! The plate to scale, and its template at true size.

use std::rc::Rc;

use holdwater_design::Input;
use holdwater_physics::restrictor::holes::centres;
use holdwater_pictures::drawing::{Drawing, PlateDrawing, plate as plate_drawing, template};

use super::drawing::markup;
use super::export::save_drawing;
use crate::canvas::size_of;
use crate::dom::{El, block, svg, words};
use crate::react::Memo;
use crate::state::{Page, page};

/// Web that is left between holes at least, m: what survives drilling.
const LEAST_WEB: f64 = 1e-3;

/// The plate that is fitted, its drawing and its template; nothing without one.
pub fn plate() -> El {
    let page = page();
    let fitted = Memo::new(move |_| fitted_plate(page));
    let room = block("div", "plate-room").attr("data-test", "plate");
    let size = size_of(&room);
    let drawing = Memo::new(move |_| {
        let (width, height) = size.get()?;
        Some(plate_drawing(&fitted.get()?, width, height, page.units.get()))
    });
    let of = move |pick: fn(&Drawing) -> String| move || drawing.with(|drawing| drawing.as_ref().map(pick));
    let picture = svg("svg")
        .attrs(&[("class", "drawing"), ("role", "img")])
        .attr_live("viewBox", of(|drawing| drawing.view_box.view_box()))
        .attr_live("aria-label", of(|drawing| drawing.description.clone()))
        .drawn(of(|drawing| markup(&drawing.shapes)));
    let to_print = Rc::new(move || {
        let name = page.name.get_untracked();
        fitted.get_untracked().map(|plate| template(&plate, &name, page.units.get_untracked()))
    });
    let no_room = move || has_restrictor(page) && fitted.with(Option::is_none);
    block("div", "plate")
        .child(
            words("p", "says", "So many holes with a web of 1 mm find no room on a round plate in this vessel, so there is no drawing.")
                .hidden_when(move || !no_room()),
        )
        .child(
            block("div", "")
                .hidden_when(move || fitted.with(Option::is_none))
                .child(room.child(picture))
                .child(words(
                    "p",
                    "says",
                    "The template prints at true size. Print it without scaling, and check its 50 mm bar with a ruler before you drill.",
                ))
                .child(save_drawing("plate", "Save the template as SVG", to_print)),
        )
}

fn has_restrictor(page: &Page) -> bool {
    page.design.with(|design| design.number(Input::RestrictorBore) > 0.0)
}

/// The plate of the design with its holes in place.
fn fitted_plate(page: &Page) -> Option<PlateDrawing> {
    let rocket = page.design.with(|design| design.rocket());
    let restrictor = rocket.restrictor?;
    let (bore_m, hole_m) = (rocket.sustainer.bore_m, restrictor.hole_m);
    let centres = centres(restrictor.holes, hole_m, bore_m, LEAST_WEB)?;
    Some(PlateDrawing { bore_m, hole_m, centres })
}
