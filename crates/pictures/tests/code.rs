//! QR codes, read back by an independent reader.

#![allow(clippy::unwrap_used, reason = "a panic is how a test fails")]

use holdwater_design::{Design, Input, link};
use holdwater_pictures::code::{Code, MOST, TooLong};

/// Paints path data of the form `M x y h w v h H x z` into modules, each of which may be painted once.
fn painted(code: &Code) -> Vec<bool> {
    let mut dark = vec![false; code.side * code.side];
    for piece in code.path.split('z').filter(|piece| !piece.is_empty()) {
        let numbers: Vec<usize> = piece
            .split(['M', ' ', 'h', 'v', 'H'])
            .filter(|text| !text.is_empty())
            .map(|text| text.parse().unwrap())
            .collect();
        let [x, y, width, height, back] = numbers[..] else { panic!("{piece}") };
        assert_eq!(x, back, "{piece}");
        for row in y..y + height {
            for column in x..x + width {
                let module = &mut dark[row * code.side + column];
                assert!(!*module, "painted twice: {piece}");
                *module = true;
            }
        }
    }
    dark
}

/// What the reader finds in the picture, with so many pixels to a module.
fn decoded(code: &Code, pixels: usize) -> (String, usize) {
    let dark = painted(code);
    let size = code.side * pixels;
    let mut picture = rqrr::PreparedImage::prepare_from_greyscale(size, size, |x, y| {
        if dark[y / pixels * code.side + x / pixels] { 0 } else { 255 }
    });
    let grids = picture.detect_grids();
    assert_eq!(grids.len(), 1, "one code is found");
    let (facts, text) = grids[0].decode().unwrap();
    (text, facts.ecc_level.into())
}

/// Levels as the standard numbers them in a code's format: M is 0, L is 1, H is 2, Q is 3.
const LEVEL_M: usize = 0;
const LEVEL_L: usize = 1;

fn full_link() -> String {
    let mut design = Design::default();
    design.set_name("Möwe 🚀 \"quoted\" & more");
    for input in Input::ALL {
        let row = input.row();
        let value = row.nearest(row.min + 0.371_234_5 * (row.max - row.min));
        assert_eq!(design.set(input, Some(value)), Ok(()));
    }
    format!("https://example.org/holdwater/#{}", link::write(&design))
}

fn of_length(length: usize) -> String {
    "https://example.org/#v=1&name=".chars().chain("abcdefghij".chars().cycle()).take(length).collect()
}

/// Read by rqrr, which shares no code with the encoder.
#[test]
fn tool_short_medium_and_long_links_are_read_back() {
    let texts = ["", "v=1", "https://example.org/holdwater/#v=1&delay=0.4&end=5z8e96"].map(str::to_owned);
    for text in texts.into_iter().chain([full_link(), of_length(300), of_length(666), of_length(700), of_length(1_500)])
    {
        let code = Code::new(&text).unwrap();
        assert_eq!(decoded(&code, 4).0, text);
        assert!(code.path.len() < 7 * code.side * code.side, "{} bytes", code.path.len());
    }
}

#[test]
fn limit_the_longest_link_is_read_back_and_a_longer_one_is_refused() {
    let code = Code::new(&of_length(MOST)).unwrap();
    assert_eq!(code.side, 177 + 8);
    assert_eq!(decoded(&code, 4), (of_length(MOST), LEVEL_L));
    assert_eq!(Code::new(&of_length(MOST + 1)), Err(TooLong { length: MOST + 1, most: MOST }));
}

/// Capacities of version 20 in bytes, 666 at M and 858 at L: tables of ISO/IEC 18004, from memory.
#[test]
fn published_capacity_decides_between_levels() {
    assert_eq!(Code::new(&of_length(666)).unwrap().side, 97 + 8);
    assert_eq!(decoded(&Code::new(&of_length(666)).unwrap(), 4).1, LEVEL_M);
    assert_eq!(Code::new(&of_length(858)).unwrap().side, 97 + 8);
    assert_eq!(decoded(&Code::new(&of_length(858)).unwrap(), 4).1, LEVEL_L);
}

#[test]
fn property_the_quiet_zone_stays_light_and_the_corners_are_dark() {
    let code = Code::new(&full_link()).unwrap();
    let dark = painted(&code);
    for (index, module) in dark.iter().enumerate() {
        let (x, y) = (index % code.side, index / code.side);
        let quiet = x.min(y) < 4 || x.max(y) >= code.side - 4;
        assert!(!quiet || !module, "({x}, {y})");
    }
    assert!(dark[4 * code.side + 4]);
    let svg = code.svg();
    assert!(svg.starts_with("<svg") && svg.contains("crispEdges") && svg.contains(&code.path));
}
