//! The way back: what the design was before, and before that.

/// Most steps that can be taken back.
const MOST: usize = 200;

/// Edits of one thing that follow each other within this time are one step, in milliseconds.
const QUICK_MS: u64 = 1_000;

/// The states of a design as links, and which of them it has now.
///
/// Typing a number or dragging a slider makes many states but is one step to whoever takes it back: a change of the same thing
/// as the change before, made soon after it, replaces its state instead of adding one.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct History {
    states: Vec<State>,
    /// Which state is the present one; always one of them.
    at: usize,
}

#[derive(Clone, Debug, PartialEq, Eq)]
struct State {
    link: String,
    /// What was changed to come here; empty when the next change is a step of its own in any case.
    what: String,
    when_ms: u64,
}

impl History {
    /// A history that begins with a design.
    #[must_use]
    pub fn new(link: &str) -> Self {
        Self { states: vec![State { link: link.to_owned(), what: String::new(), when_ms: 0 }], at: 0 }
    }

    /// Notes what the design has become. `what` names the input that was changed, or is empty for what is always a step
    /// of its own, such as opening a link. What had been taken back can no longer be brought back.
    pub fn note(&mut self, link: &str, what: &str, now_ms: u64) {
        if self.states.get(self.at).is_none_or(|state| state.link == link) {
            return;
        }
        let in_the_past = self.at + 1 < self.states.len();
        self.states.truncate(self.at + 1);
        let state = State { link: link.to_owned(), what: what.to_owned(), when_ms: now_ms };
        let quick = |last: &State| last.what == what && now_ms.saturating_sub(last.when_ms) <= QUICK_MS;
        let belongs = !what.is_empty() && !in_the_past && self.states.last().is_some_and(quick);
        if belongs {
            self.states.pop();
            // Dragged there and back again: nothing is left to take back.
            if self.states.last().is_some_and(|before| before.link == link) {
                self.at = self.states.len() - 1;
                return;
            }
        }
        self.states.push(state);
        // The state of the beginning does not count as a step.
        if self.states.len() > MOST + 1 {
            self.states.remove(0);
        }
        self.at = self.states.len() - 1;
    }

    /// Takes the last step back; the answer is what the design is to become.
    pub fn undo(&mut self) -> Option<&str> {
        self.go(self.at.checked_sub(1)?)
    }

    /// Takes a step again that was taken back.
    pub fn redo(&mut self) -> Option<&str> {
        self.go(self.at + 1)
    }

    /// Whether there is a step to take back.
    #[must_use]
    pub fn can_undo(&self) -> bool {
        self.at > 0
    }

    /// Whether there is a step to take again.
    #[must_use]
    pub fn can_redo(&self) -> bool {
        self.at + 1 < self.states.len()
    }

    fn go(&mut self, to: usize) -> Option<&str> {
        let state = self.states.get_mut(to)?;
        self.at = to;
        // Whatever is changed next is a step of its own, also when it is the same thing.
        state.what.clear();
        Some(&state.link)
    }
}
