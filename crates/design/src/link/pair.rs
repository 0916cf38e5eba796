//! Two designs in one fragment, `LINK~LINK`: the one at hand and the one pinned to compare it with.
//!
//! A link of ours holds no bare tilde, since names are written with `%7E`. Names that people write into a link by hand may, so a tilde
//! parts two designs only where a link begins after it.

/// Stands between the two designs of a fragment.
const BETWEEN: char = '~';

/// With what every link begins.
const BEGINNING: &str = "v=";

/// The two links of a fragment, or of an address with one; the second is empty when there is one design.
#[must_use]
pub fn split(fragment: &str) -> (&str, &str) {
    fragment
        .match_indices(BETWEEN)
        .map(|(at, between)| (&fragment[..at], fragment[at + between.len()..].trim_start()))
        .find(|(_, after)| after.starts_with(BEGINNING))
        .unwrap_or((fragment, ""))
}

/// A fragment of a design and what is pinned.
#[must_use]
pub fn join(own: &str, pinned: Option<&str>) -> String {
    match pinned {
        Some(other) => format!("{own}{BETWEEN}{other}"),
        None => own.to_owned(),
    }
}

#[cfg(test)]
mod tests {
    use super::{join, split};
    use crate::link::{open, write};

    #[test]
    fn a_tilde_parts_two_designs_where_a_link_begins_after_it() {
        assert_eq!(split("v=1&delay=0.4~v=1&delay=0.5"), ("v=1&delay=0.4", "v=1&delay=0.5"));
        assert_eq!(split("v=1~\nv=1&delay=0.5"), ("v=1", "v=1&delay=0.5"));
        assert_eq!(split("https://example.org/#v=1~v=1"), ("https://example.org/#v=1", "v=1"));
        assert_eq!(split("v=1&name=a~b~v=1&name=c~d"), ("v=1&name=a~b", "v=1&name=c~d"));
        for one in ["", "v=1", "v=1&name=High~Low", "v=1&name=a~v", "v=1~", "~"] {
            assert_eq!(split(one), (one, ""));
        }
    }

    #[test]
    fn what_was_joined_is_split_again_whatever_the_names() {
        let named = |name: &str| {
            let mut design = open("").design;
            assert!(design.set_name(name));
            write(&design)
        };
        let (own, pinned) = (named("~v=1"), named("a~v=2&end=~"));
        assert_eq!(split(&join(&own, Some(&pinned))), (own.as_str(), pinned.as_str()));
        assert_eq!(split(&join(&own, None)), (own.as_str(), ""));
    }
}
