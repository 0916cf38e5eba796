//! Signals and memos of any type, made of one signal and one memo of the framework.
//!
//! The framework compiles all of a signal or memo anew for every type it holds, several kilobytes each. Here the framework's hold
//! a value of a type it does not know, so that its code exists once; what is left for every type is finding the value and comparing it.
//! What follows what, and when it is given back, remains the framework's.

use std::any::Any;
use std::cell::RefCell;
use std::marker::PhantomData;
use std::ops::Deref;
use std::rc::Rc;
use std::sync::Arc;

use leptos::prelude::{Get, GetUntracked, Notify, Track};

/// A value of a type that the framework does not know.
type Value = Rc<dyn Any>;
type AnySignal = leptos::prelude::RwSignal<Held>;
type AnyMemo = leptos::prelude::Memo<Held>;

/// A value that is set, and followed by whatever reads it.
pub struct RwSignal<T> {
    any: AnySignal,
    holds: PhantomData<fn() -> T>,
}

impl<T> Copy for RwSignal<T> {}

impl<T> Clone for RwSignal<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T: Default + 'static> Default for RwSignal<T> {
    fn default() -> Self {
        Self::new(T::default())
    }
}

impl<T: 'static> RwSignal<T> {
    /// A signal with its first value.
    pub fn new(value: T) -> Self {
        Self { any: new_signal(Rc::new(RefCell::new(value))), holds: PhantomData }
    }

    /// The value, followed.
    pub fn get(self) -> T
    where
        T: Clone,
    {
        self.with(T::clone)
    }

    /// The value as it is now.
    pub fn get_untracked(self) -> T
    where
        T: Clone,
    {
        self.with_untracked(T::clone)
    }

    /// The value as it is now; `None` once what it was made in is gone.
    pub fn try_get_untracked(self) -> Option<T>
    where
        T: Clone,
    {
        value_of_signal(self.any).map(|value| cell::<T>(&value).borrow().clone())
    }

    /// Makes something of the value, followed.
    pub fn with<U>(self, make: impl FnOnce(&T) -> U) -> U {
        self.track();
        self.with_untracked(make)
    }

    /// Makes something of the value as it is now.
    pub fn with_untracked<U>(self, make: impl FnOnce(&T) -> U) -> U {
        let value = value_of_signal(self.any).unwrap_or_else(|| gone());
        let value = cell::<T>(&value).borrow();
        make(&value)
    }

    /// Follows the value without looking at it.
    pub fn track(self) {
        track_signal(self.any);
    }

    /// Sets the value; nothing once what it was made in is gone.
    pub fn set(self, value: T) {
        if let Some(held) = value_of_signal(self.any) {
            cell::<T>(&held).replace(value);
            notify_signal(self.any);
        }
    }

    /// Sets the value if it is another one, so that nothing is made anew from the same.
    pub fn put(self, value: T)
    where
        T: PartialEq,
    {
        if self.with_untracked(|now| *now != value) {
            self.set(value);
        }
    }

    /// Changes the value in place; nothing once what it was made in is gone.
    pub fn update(self, change: impl FnOnce(&mut T)) {
        self.try_update(change);
    }

    /// Changes the value in place and returns what the change does.
    pub fn try_update<U>(self, change: impl FnOnce(&mut T) -> U) -> Option<U> {
        let held = value_of_signal(self.any)?;
        let done = change(&mut cell::<T>(&held).borrow_mut());
        notify_signal(self.any);
        Some(done)
    }
}

/// A value that follows from others, made anew when they have changed and it is read.
pub struct Memo<T> {
    any: AnyMemo,
    holds: PhantomData<fn() -> T>,
}

impl<T> Copy for Memo<T> {}

impl<T> Clone for Memo<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T: 'static> Memo<T> {
    /// A memo; `make` is given the value of before.
    pub fn new(make: impl Fn(Option<&T>) -> T + 'static) -> Self
    where
        T: PartialEq,
    {
        Self { any: new_memo(Box::new(Making { make, makes: PhantomData })), holds: PhantomData }
    }

    /// The value, followed.
    pub fn get(self) -> T
    where
        T: Clone,
    {
        self.with(T::clone)
    }

    /// The value as it is now.
    pub fn get_untracked(self) -> T
    where
        T: Clone,
    {
        self.with_untracked(T::clone)
    }

    /// Makes something of the value, followed.
    pub fn with<U>(self, make: impl FnOnce(&T) -> U) -> U {
        make(known(&*value_of_memo(self.any, true)))
    }

    /// Makes something of the value as it is now.
    pub fn with_untracked<U>(self, make: impl FnOnce(&T) -> U) -> U {
        make(known(&*value_of_memo(self.any, false)))
    }

    /// The value to be read in place, followed.
    pub fn read(self) -> Reading<T> {
        Reading { value: value_of_memo(self.any, true), holds: PhantomData }
    }

    /// The value as it is now, to be read in place.
    pub fn read_untracked(self) -> Reading<T> {
        Reading { value: value_of_memo(self.any, false), holds: PhantomData }
    }

    /// Follows the value without looking at it.
    pub fn track(self) {
        value_of_memo(self.any, true);
    }
}

/// A value of a memo being read.
pub struct Reading<T> {
    value: Value,
    holds: PhantomData<T>,
}

impl<T: 'static> Deref for Reading<T> {
    type Target = T;

    fn deref(&self) -> &T {
        known(&*self.value)
    }
}

/// A value that is kept and that nothing follows.
pub struct StoredValue<T>(RwSignal<T>);

impl<T> Copy for StoredValue<T> {}

impl<T> Clone for StoredValue<T> {
    fn clone(&self) -> Self {
        *self
    }
}

impl<T: 'static> StoredValue<T> {
    /// Keeps a value.
    pub fn new(value: T) -> Self {
        Self(RwSignal::new(value))
    }

    /// The value.
    pub fn get_value(self) -> T
    where
        T: Clone,
    {
        self.0.get_untracked()
    }

    /// Makes something of the value.
    pub fn with_value<U>(self, make: impl FnOnce(&T) -> U) -> U {
        self.0.with_untracked(make)
    }

    /// Sets the value.
    pub fn set_value(self, value: T) {
        self.0.set(value);
    }
}

/// Keeps a value for as long as what it is made in lasts.
pub fn keep(value: Rc<dyn Any>) {
    new_signal(value);
}

/// How the value of a memo is made, for any type; says as well whether it differs from the one before.
trait Make {
    fn make(&self, before: Option<Value>) -> (Value, bool);
}

struct Making<T, F> {
    make: F,
    makes: PhantomData<fn() -> T>,
}

impl<T: PartialEq + 'static, F: Fn(Option<&T>) -> T> Make for Making<T, F> {
    fn make(&self, before: Option<Value>) -> (Value, bool) {
        let before = before.as_ref().and_then(|before| before.downcast_ref::<T>());
        let value = (self.make)(before);
        let differs = before != Some(&value);
        (Rc::new(value), differs)
    }
}

/// What the framework holds: the place of a value that stays with its thread. The framework asks for what may cross threads, and there is only one.
#[derive(Clone)]
struct Held(Arc<Place>);

struct Place(usize);

thread_local! {
    static VALUES: RefCell<Vec<Option<Value>>> = const { RefCell::new(Vec::new()) };
    static FREE_PLACES: RefCell<Vec<usize>> = const { RefCell::new(Vec::new()) };
}

impl Held {
    fn new(value: Value) -> Self {
        let free = FREE_PLACES.with_borrow_mut(Vec::pop);
        let place = VALUES.with_borrow_mut(|values| {
            let place = free.unwrap_or(values.len());
            if place == values.len() {
                values.push(None);
            }
            values[place] = Some(value);
            place
        });
        Self(Arc::new(Place(place)))
    }

    fn value(&self) -> Value {
        let value = VALUES.with_borrow(|values| values.get(self.0.0).cloned().flatten());
        value.unwrap_or_else(|| gone())
    }
}

impl Drop for Place {
    fn drop(&mut self) {
        // Given back once the list is free again: with a value others may go that are in the list as well.
        let value = VALUES.with_borrow_mut(|values| values.get_mut(self.0).and_then(Option::take));
        drop(value);
        FREE_PLACES.with_borrow_mut(|free| free.push(self.0));
    }
}

fn new_signal(value: Value) -> AnySignal {
    AnySignal::new(Held::new(value))
}

fn new_memo(make: Box<dyn Make>) -> AnyMemo {
    let make = Held::new(Rc::new(make));
    AnyMemo::new_owning(move |before: Option<Held>| {
        let make = make.value();
        let (value, differs) = known::<Box<dyn Make>>(&*make).make(before.map(|before| before.value()));
        (Held::new(value), differs)
    })
}

#[inline(never)]
fn value_of_signal(signal: AnySignal) -> Option<Value> {
    signal.try_get_untracked().map(|held| held.value())
}

#[inline(never)]
fn track_signal(signal: AnySignal) {
    signal.track();
}

#[inline(never)]
fn notify_signal(signal: AnySignal) {
    signal.notify();
}

#[inline(never)]
fn value_of_memo(memo: AnyMemo, followed: bool) -> Value {
    let value = if followed { memo.try_get() } else { memo.try_get_untracked() };
    value.map_or_else(|| gone(), |held| held.value())
}

fn cell<T: 'static>(value: &Value) -> &RefCell<T> {
    known(&**value)
}

fn known<T: 'static>(value: &dyn Any) -> &T {
    value.downcast_ref().unwrap_or_else(|| gone())
}

#[cold]
fn gone() -> ! {
    unreachable!("a value is read while what it was made in lasts, and as the type that was put in")
}
