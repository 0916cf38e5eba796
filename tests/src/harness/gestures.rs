//! What a finger, a mouse and a keyboard do.

use std::time::Duration;

use fantoccini::actions::{InputSource, KeyAction, KeyActions, MouseActions, PointerAction, TouchActions};
use fantoccini::key::Key;
use serde_json::json;

use super::engine::Ability;
use super::{Engine, Outcome, Page, Point};

/// A finger does not jump: a drag arrives as this many moves, one per frame.
const DRAG_STEPS: u32 = 12;
const FRAME: Duration = Duration::from_millis(16);
/// A finger that is lifted while it moves flings, and the browser takes the next tap for the end of
/// that fling. So the finger rests first, as a person's does who aims at a value.
const REST: Duration = Duration::from_millis(150);
/// How long a tap presses.
const PRESS: Duration = Duration::from_millis(40);

/// In this time a page hears of a click whose driver does not wait for it.
const HEARD: Duration = Duration::from_millis(60);

impl Page {
    /// Taps an element with a finger, or clicks it where there is a mouse.
    ///
    /// The driver itself scrolls to the element and refuses to tap what something else covers. That of Chromium makes a touch of
    /// the click where the device is touched.
    pub async fn tap(&self, css: &str) -> Outcome {
        if !self.taps_by_place(css).await? {
            self.wait_for(css).await?.click().await?;
            if self.engine() == Engine::WebKit {
                // Its driver answers before the page has heard of the click, which may take the page away.
                tokio::time::sleep(HEARD).await;
            }
            return Ok(());
        }
        let point = self.center(css).await?;
        let hit = "return document.elementFromPoint(arguments[1], arguments[2])?.closest(arguments[0]) != null;";
        let place = vec![json!(css), json!(point.0), json!(point.1)];
        if self.client().execute(hit, place).await? != true {
            return Err(format!("something covers `{css}` or it is out of sight").into());
        }
        self.tap_at(point).await
    }

    /// Whether a tap has to go to a place instead of an element: Firefox makes no touch of a click, and the drivers of others
    /// than Chromium find no part of a drawing.
    async fn taps_by_place(&self, css: &str) -> Outcome<bool> {
        match self.engine() {
            Engine::Chromium => Ok(false),
            Engine::Firefox if self.device().is_touched => Ok(true),
            Engine::Firefox | Engine::WebKit => {
                self.wait_for(css).await?;
                let is_drawn = "return document.querySelector(arguments[0]) instanceof SVGElement;";
                Ok(self.client().execute(is_drawn, vec![json!(css)]).await? == true)
            }
        }
    }

    /// Taps a point of the window, or clicks it where there is a mouse.
    ///
    /// Unlike [`Page::tap`] it does not mind what lies there, as a person does not.
    pub async fn tap_at(&self, point: Point) -> Outcome {
        self.tap_at_once(point, 1).await
    }

    /// Taps an element several times in haste, whatever time the driver takes for a tap.
    pub async fn tap_in_haste(&self, css: &str, times: usize) -> Outcome {
        let point = self.center(css).await?;
        self.tap_at_once(point, times).await
    }

    async fn tap_at_once(&self, point: Point, times: usize) -> Outcome {
        let pause = PointerAction::Pause { duration: PRESS };
        let press = [PointerAction::Down { button: 0 }, pause.clone(), PointerAction::Up { button: 0 }, pause];
        let mut presses = vec![move_to(point, Duration::ZERO)];
        presses.extend(press.iter().cycle().take(times * press.len()).cloned());
        let is_touched = self.device().is_touched && self.has(Ability::Touch);
        if is_touched { self.act_with_finger(presses).await } else { self.act_with_mouse(presses).await }
    }

    /// Drags a finger from one point of the window to another; the mouse where there are no fingers.
    pub async fn touch_drag(&self, from: Point, to: Point) -> Outcome {
        if self.has(Ability::Touch) {
            self.act_with_finger(drag(from, to)).await
        } else {
            self.mouse_drag(from, to).await
        }
    }

    /// Drags with the left button of the mouse from one point of the window to another.
    pub async fn mouse_drag(&self, from: Point, to: Point) -> Outcome {
        self.act_with_mouse(drag(from, to)).await
    }

    async fn act_with_finger(&self, actions: Vec<PointerAction>) -> Outcome {
        let finger = actions.into_iter().fold(TouchActions::new("finger".to_owned()), TouchActions::then);
        Ok(self.client().perform_actions(finger).await?)
    }

    async fn act_with_mouse(&self, actions: Vec<PointerAction>) -> Outcome {
        let mouse = actions.into_iter().fold(MouseActions::new("mouse".to_owned()), MouseActions::then);
        Ok(self.client().perform_actions(mouse).await?)
    }

    /// Presses keys together, the first one first: what has the focus gets them.
    pub async fn press(&self, keys: &[Key]) -> Outcome {
        self.press_all(keys.iter().map(|key| (*key).into()).collect()).await
    }

    /// Presses a letter while keys such as Control are held.
    pub async fn press_letter(&self, held: &[Key], letter: char) -> Outcome {
        self.press_all(held.iter().map(|key| (*key).into()).chain([letter]).collect()).await
    }

    async fn press_all(&self, keys: Vec<char>) -> Outcome {
        let down = keys.iter().map(|key| KeyAction::Down { value: *key });
        let up = keys.iter().rev().map(|key| KeyAction::Up { value: *key });
        let keyboard = down.chain(up).fold(KeyActions::new("keyboard".to_owned()), KeyActions::then);
        Ok(self.client().perform_actions(keyboard).await?)
    }

    /// Replaces the text of a field as a person does: select all of it and type.
    pub async fn type_into(&self, css: &str, text: &str) -> Outcome {
        let field = self.wait_for(css).await?;
        let script = "const field = document.querySelector(arguments[0]); \
                      field.focus(); field.select();";
        self.client().execute(script, vec![json!(css)]).await?;
        Ok(field.send_keys(text).await?)
    }
}

fn move_to((x, y): Point, duration: Duration) -> PointerAction {
    PointerAction::MoveTo { duration: Some(duration), x, y }
}

/// What a finger or a mouse does to drag from one point to another.
fn drag(from: Point, to: Point) -> Vec<PointerAction> {
    let button = 0;
    let mut actions = vec![move_to(from, Duration::ZERO), PointerAction::Down { button }];
    actions.extend((1..=DRAG_STEPS).map(|step| {
        let share = f64::from(step) / f64::from(DRAG_STEPS);
        move_to((from.0 + share * (to.0 - from.0), from.1 + share * (to.1 - from.1)), FRAME)
    }));
    actions.extend([PointerAction::Pause { duration: REST }, PointerAction::Up { button }]);
    actions
}
