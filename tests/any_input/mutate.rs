//! Good inputs made bad: in their bytes, in their brackets, in their figures.

use crate::dice::Dice;

const PIECES: [&str; 40] = [
    "(",
    ")",
    "[",
    "]",
    "{",
    "}",
    ":",
    ",",
    ";",
    "\t",
    "\"",
    "'",
    "\\",
    "//",
    "/*",
    "*/",
    "r#\"",
    "\"#",
    "-",
    "e9",
    "1",
    "0",
    "-1",
    "NaN",
    "inf",
    "1e308",
    "1e-320",
    "99999999999999999999",
    "2147483648",
    "1000000",
    "-1000000",
    "4294967295",
    "None",
    "true",
    "\u{0}",
    "\u{202e}",
    "\r\n",
    "½",
    "<",
    "&amp;",
];

/// Figures that nobody means.
const ABSURD: [&str; 14] = [
    "0",
    "1",
    "-1",
    "7",
    "100",
    "1000000",
    "-1000000",
    "1000001",
    "999999999",
    "1000000001",
    "1e9",
    "1e300",
    "0.0000001",
    "99999999999999999999999",
];

/// One to four changes of an input; pieces of `other` may come in.
pub fn mutated(bytes: &[u8], other: &[u8], dice: &mut Dice) -> Vec<u8> {
    let mut made = bytes.to_vec();
    for _ in 0..dice.between(1, 4) {
        made = match dice.below(10) {
            0 => turned_over(made, dice),
            1 => cut_out(made, dice),
            2 => put_in(made, dice.pick(&PIECES).as_bytes(), dice),
            3 => {
                let piece = slice(other, dice).to_vec();
                put_in(made, &piece, dice)
            }
            4 | 5 => absurd(made, dice),
            6 => many_times(made, dice),
            7 => swapped(made, dice),
            8 => without_a_part(made, dice),
            _ => {
                let parts = parts(other);
                match parts.is_empty() {
                    true => made,
                    false => {
                        let (from, to) = dice.pick(&parts);
                        in_place_of_a_part(made, &other[from..to], dice)
                    }
                }
            }
        };
        made.truncate(1 << 20);
    }
    made
}

fn turned_over(mut bytes: Vec<u8>, dice: &mut Dice) -> Vec<u8> {
    for _ in 0..dice.between(1, 8) {
        if !bytes.is_empty() {
            let at = dice.below(bytes.len());
            bytes[at] = match dice.below(3) {
                0 => dice.below(256) as u8,
                1 => bytes[at] ^ (1 << dice.below(8)),
                _ => bytes[at].wrapping_add(1),
            };
        }
    }
    bytes
}

fn slice<'a>(bytes: &'a [u8], dice: &mut Dice) -> &'a [u8] {
    let from = dice.below(bytes.len() + 1);
    let to = (from + dice.below(60)).min(bytes.len());
    &bytes[from..to]
}

fn cut_out(mut bytes: Vec<u8>, dice: &mut Dice) -> Vec<u8> {
    let from = dice.below(bytes.len() + 1);
    let to = (from + dice.below(40)).min(bytes.len());
    bytes.drain(from..to);
    bytes
}

fn put_in(mut bytes: Vec<u8>, piece: &[u8], dice: &mut Dice) -> Vec<u8> {
    let at = dice.below(bytes.len() + 1);
    bytes.splice(at..at, piece.iter().copied());
    bytes
}

/// A figure somewhere becomes another.
fn absurd(mut bytes: Vec<u8>, dice: &mut Dice) -> Vec<u8> {
    let is_figure = |byte: &u8| byte.is_ascii_digit();
    let starts: Vec<usize> = (0..bytes.len())
        .filter(|at| is_figure(&bytes[*at]) && (*at == 0 || !is_figure(&bytes[at - 1])))
        .collect();
    if starts.is_empty() {
        return bytes;
    }
    let from = dice.pick(&starts);
    let length = bytes[from..].iter().take_while(|byte| is_figure(byte)).count();
    let figure = match dice.below(3) {
        // Another figure of the same input: ids that meet, places that fall together.
        0 => {
            let at = dice.pick(&starts);
            let length = bytes[at..].iter().take_while(|byte| is_figure(byte)).count();
            bytes[at..at + length].to_vec()
        }
        _ => dice.pick(&ABSURD).as_bytes().to_vec(),
    };
    bytes.splice(from..from + length, figure);
    bytes
}

/// Where something stands in brackets, the brackets among it; the lines of what has none.
fn parts(bytes: &[u8]) -> Vec<(usize, usize)> {
    let mut open = Vec::new();
    let mut parts = Vec::new();
    for (at, byte) in bytes.iter().enumerate() {
        match byte {
            b'(' | b'[' | b'{' => open.push(at),
            b')' | b']' | b'}' => parts.extend(open.pop().map(|from| (from, at + 1))),
            _ => {}
        }
    }
    if parts.len() < 3 {
        let mut from = 0;
        for (at, byte) in bytes.iter().enumerate() {
            if *byte == b'\n' {
                parts.push((from, at + 1));
                from = at + 1;
            }
        }
    }
    parts
}

/// A part stands there many times, with ids counted on where it has one.
fn many_times(mut bytes: Vec<u8>, dice: &mut Dice) -> Vec<u8> {
    let parts = parts(&bytes);
    if parts.is_empty() {
        return bytes;
    }
    let (from, to) = dice.pick(&parts);
    let part = bytes[from..to].to_vec();
    let mut times = dice.pick(&[1, 2, 5, 20, 90, 120, 1000]);
    times = times.min(200_000 / part.len().max(1));
    let mut copies = Vec::new();
    for copy in 0..times {
        copies.push(b',');
        let text = String::from_utf8_lossy(&part).into_owned();
        let counted = match text.find("id: ") {
            Some(at) => {
                let end = at + 4 + text[at + 4..].bytes().take_while(u8::is_ascii_digit).count();
                format!("{}{}{}", &text[..at + 4], 5_000 + copy, &text[end..])
            }
            None => text,
        };
        copies.extend(counted.into_bytes());
    }
    bytes.splice(to..to, copies);
    bytes
}

fn swapped(bytes: Vec<u8>, dice: &mut Dice) -> Vec<u8> {
    let parts = parts(&bytes);
    if parts.len() < 2 {
        return bytes;
    }
    let (one, other) = (dice.pick(&parts), dice.pick(&parts));
    let (first, second) = if one.0 < other.0 { (one, other) } else { (other, one) };
    if first.1 > second.0 {
        return bytes;
    }
    let pieces = [
        &bytes[..first.0],
        &bytes[second.0..second.1],
        &bytes[first.1..second.0],
        &bytes[first.0..first.1],
        &bytes[second.1..],
    ];
    pieces.concat()
}

fn without_a_part(mut bytes: Vec<u8>, dice: &mut Dice) -> Vec<u8> {
    let parts = parts(&bytes);
    if !parts.is_empty() {
        let (from, to) = dice.pick(&parts);
        bytes.drain(from..to);
    }
    bytes
}

fn in_place_of_a_part(mut bytes: Vec<u8>, piece: &[u8], dice: &mut Dice) -> Vec<u8> {
    let parts = parts(&bytes);
    if !parts.is_empty() {
        let (from, to) = dice.pick(&parts);
        bytes.splice(from..to, piece.iter().copied());
    }
    bytes
}
