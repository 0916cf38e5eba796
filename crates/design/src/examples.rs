//! The gallery: designs to start from, all of the Curlew club, which flies over a tidal flat.
//!
//! This is the only list of examples: gallery, tests and documentation all read it.

/// A design to start from.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Example {
    /// What it shows, as a heading.
    pub title: &'static str,
    /// Its story in one sentence.
    pub story: &'static str,
    /// The design, as the part of a link that follows `#`.
    pub link: &'static str,
}

/// All examples; the first one is the default design.
pub const EXAMPLES: [Example; 8] = [
    Example {
        title: "Curlew club stack",
        story: "The stack the Curlew club flies over the flat at low tide: two spliced bottles below, one bottle on top.",
        link: "v=1&end=a0q1bm",
    },
    Example {
        title: "Bottle stack that must release early",
        story: "Short, wide and draggy: the stack slows hard after burnout, so the sustainer's water climbs at once.",
        link: "v=1&name=Whimbrel&b.vol=4&b.bore=106&b.water=1.3&b.fill=8&b.dry=0.3&b.drag=0.62&b.dia=118\
               &s.fill=8&delay=0.3&end=jdje0n",
    },
    Example {
        title: "The same bottle stack with a restrictor",
        story: "One plate with a single hole, at the water's surface, holds the water down: the timer may be late and the club may wait \
                for the stack to slow.",
        link: "v=1&name=Whimbrel%20with%20plate&b.vol=4&b.bore=106&b.water=1.3&b.fill=8&b.dry=0.3\
               &b.drag=0.62&b.dia=118&s.fill=8&delay=0.7&r.bore=25&r.height=82&end=082x4b",
    },
    Example {
        title: "Long narrow metal stack",
        story: "Two aluminium tubes for the still hour at slack water: narrow bores, high pressure, little drag.",
        link: "v=1&name=Godwit&b.vol=9&b.bore=76&b.nozzle=16&b.water=2.6&b.fill=35&b.dry=2.6&b.drag=0.36\
               &b.dia=82&s.vol=2.4&s.bore=60&s.nozzle=8&s.water=0.7&s.fill=35&s.dry=0.75&s.drag=0.32\
               &s.dia=66&delay=1.5&end=zxfccf",
    },
    Example {
        title: "Cluster booster",
        story: "Three bottles side by side lift a full sustainer off the mud in a hurry.",
        link: "v=1&name=Three%20Oystercatchers&b.vol=6&b.nozzle=13&b.count=3&b.water=1.8&b.fill=9\
               &b.dry=0.55&b.drag=0.8&b.dia=190&s.fill=9&delay=0.2&end=k6zstb",
    },
    Example {
        title: "Single stage",
        story: "The sustainer alone from a pad launch tube, which is how a Curlew newcomer starts.",
        link: "v=1&name=First%20flight&stages=1&b.tube=180&b.tubeod=8.5&s.water=0.6&s.fill=7&end=pxa1ag",
    },
    Example {
        title: "Launch tube between the stages",
        story: "A tube on the booster pushes the sustainer off, so that the first stretch costs no water.",
        link: "v=1&name=Sandpiper&s.water=0.45&s.tube=220&delay=0.6&end=b19cdh",
    },
    Example {
        title: "Small-tube test",
        story: "A hole that held in a narrow clear tube is made as large a share of the real vessel, where it leaks.",
        link: "v=1&name=Dunlin&delay=0.8&r.bore=41.3&r.height=82&t.decel=1.4&end=92eszh",
    },
];

#[cfg(test)]
mod tests {
    use super::*;
    use crate::design::Design;
    use crate::link;

    #[test]
    fn every_example_opens_without_complaint_and_is_written_again_byte_for_byte() {
        for example in EXAMPLES {
            let opened = link::open(example.link);
            assert_eq!((opened.complaints, opened.remarks), (vec![], vec![]), "{}", example.title);
            assert_eq!(link::write(&opened.design), example.link, "{}", example.title);
        }
    }

    #[test]
    fn the_first_example_is_the_default_design_and_no_two_are_alike() {
        assert_eq!(link::open(EXAMPLES[0].link).design, Design::default());
        for (index, example) in EXAMPLES.iter().enumerate() {
            let unlike = |other: &Example| other.title != example.title && other.link != example.link;
            assert!(EXAMPLES[..index].iter().all(unlike), "{}", example.title);
        }
    }

    #[test]
    fn every_story_is_one_sentence() {
        for example in EXAMPLES {
            assert!(example.story.ends_with('.') && !example.story.contains(". "), "{}", example.title);
        }
    }
}
