//! Vessel parts in a link: `p1.kind=shell&p1.wall=0.4`.

use crate::design::Design;
use crate::link::complaint::{Complaints, LinkComplaint, Remark};
use crate::parts::{MOST_PARTS, PartComplaint, PartInput, PartKind, VesselPart, key_of};

/// The pairs of all parts: what each part is, which is what makes it a part, and what differs from the defaults of its kind.
pub(super) fn write(design: &Design) -> Vec<(String, String)> {
    let mut pairs = Vec::new();
    for (part, number) in design.parts().iter().zip(1..) {
        let is_written = |input: &PartInput| *input == PartInput::Kind || !part.is_default(*input);
        pairs.extend(part.asked().filter(is_written).map(|input| (key_of(number, input), part.text(input))));
    }
    pairs
}

/// What a link gives for its parts: number of the part, input and text, in the order of the link.
#[derive(Default)]
pub(super) struct Given<'a>(Vec<(usize, PartInput, &'a str)>);

impl<'a> Given<'a> {
    /// Takes a pair that belongs to a part; `false` for any other key.
    pub(super) fn take(&mut self, key: &str, given: &'a str, complaints: &mut Complaints) -> bool {
        let Some((number, input)) = parsed(key) else { return false };
        if number > MOST_PARTS {
            complaints.push(LinkComplaint::TooManyParts { key: key.to_owned(), given: given.to_owned() });
        } else {
            self.0.push((number, input, given));
        }
        true
    }

    /// Makes the parts. What a part is comes first in the table and is read first, since everything else depends on it.
    pub(super) fn read(self, design: &mut Design, complaints: &mut Complaints, remarks: &mut Vec<Remark>) {
        let is_given = |number: &usize| self.0.iter().any(|given| given.0 == *number);
        let numbers: Vec<usize> = (1..=MOST_PARTS).filter(is_given).collect();
        if numbers.last().is_some_and(|last| *last > numbers.len()) {
            remarks.push(Remark::PartsRenumbered);
        }
        // There are no more than are allowed, since their numbers were looked at.
        design.set_parts(numbers.into_iter().map(|number| self.part(number, complaints)).collect::<Vec<_>>());
    }

    /// The texts of one input of a part.
    fn of(&self, number: usize, input: PartInput) -> impl Iterator<Item = &'a str> {
        self.0.iter().filter(move |given| (given.0, given.1) == (number, input)).map(|given| given.2)
    }

    /// One part; of an input that is given more than once the first text counts.
    fn part(&self, number: usize, complaints: &mut Complaints) -> VesselPart {
        let mut part = VesselPart::new(PartKind::Shell);
        if self.of(number, PartInput::Kind).next().is_none() {
            complaints.push(LinkComplaint::NoKind { key: key_of(number, PartInput::Kind) });
        }
        for input in PartInput::ALL {
            let mut texts = self.of(number, input);
            let Some(first) = texts.next() else { continue };
            let key = key_of(number, input);
            if let Err(problem) = part.set_text(input, first) {
                let complaint = PartComplaint::new(number, &part, input, first, problem);
                complaints.push(LinkComplaint::Part { key: key.clone(), complaint });
            }
            for again in texts {
                complaints.push(LinkComplaint::repeated(&key, again, part.show(input)));
            }
        }
        part
    }
}

/// Number and input of a key such as `p12.wall`. Numbers are plain, without leading noughts, so that a part has one key only.
fn parsed(key: &str) -> Option<(usize, PartInput)> {
    let (number, input) = key.strip_prefix('p')?.split_once('.')?;
    let is_plain = number.bytes().all(|byte| byte.is_ascii_digit()) && !number.starts_with('0');
    let number = number.parse().ok().filter(|_| is_plain)?;
    Some((number, PartInput::from_key(input)?))
}
