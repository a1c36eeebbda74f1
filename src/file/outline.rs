//! Where things stand in the text of a file: brackets, keys, values.
//!
//! The reader of RON says what is wrong but not always where, and nothing of places in a file that it could read. This
//! reader knows no grammar beyond brackets, colons and commas; any text has an outline, however broken. Nothing here calls
//! itself, so that no depth of brackets is too deep.

use std::ops::Range;

use super::token::{Kind, Token, Tokens};
use super::v1::old::means;

/// A step from a value to a value inside it.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Step {
    /// To the value of this key.
    Key(&'static str),
    /// To the item at this index.
    Item(usize),
}

/// The bytes of the value that the steps lead to from the whole file; of the last that is there.
pub fn find(text: &str, steps: &[Step]) -> Range<usize> {
    let mut tokens = Tokens::of(text);
    let mut found = value(&mut tokens.clone());
    for step in steps {
        let inside = match step {
            Step::Key(key) => enter(&mut tokens) && skip_to_key(&mut tokens, key),
            Step::Item(index) => enter(&mut tokens) && (0..*index).all(|_| skip_item(&mut tokens)),
        };
        if !inside {
            break;
        }
        found = value(&mut tokens.clone());
    }
    found
}

/// Steps over an opening bracket and the name that may stand before it.
fn enter(tokens: &mut Tokens) -> bool {
    match tokens.next().map(|token| token.kind) {
        Some(Kind::Open) => true,
        Some(Kind::Word) => tokens.next().is_some_and(|token| token.kind == Kind::Open),
        _ => false,
    }
}

fn skip_to_key(tokens: &mut Tokens, wanted: &str) -> bool {
    loop {
        let mut ahead = tokens.clone();
        let (Some(key), Some(colon)) = (ahead.next(), ahead.next()) else {
            return false;
        };
        if colon.kind == Kind::Colon && means(tokens.text(&key), wanted) {
            *tokens = ahead;
            return true;
        }
        if !skip_item(tokens) {
            return false;
        }
    }
}

/// Steps over what stands up to the next comma of this level, and the comma; false when there is none.
fn skip_item(tokens: &mut Tokens) -> bool {
    value(tokens);
    tokens.next().is_some_and(|token| token.kind == Kind::Comma)
}

/// Steps over a value; gives its bytes.
fn value(tokens: &mut Tokens) -> Range<usize> {
    let mut found: Option<Range<usize>> = None;
    let mut depth = 0usize;
    loop {
        let mut ahead = tokens.clone();
        let Some(token) = ahead.next() else { break };
        match token.kind {
            Kind::Open => depth += 1,
            Kind::Comma if depth == 0 => break,
            Kind::Close if depth == 0 => break,
            Kind::Close => depth -= 1,
            _ => {}
        }
        *tokens = ahead;
        found = Some(found.map_or(token.at.start, |found| found.start)..token.at.end);
    }
    found.unwrap_or(tokens.reached()..tokens.reached())
}

/// The last token that ends at or before a byte.
pub fn token_before(text: &str, at: usize) -> Option<Token> {
    Tokens::of(text).take_while(|token| token.at.end <= at).last()
}

/// The first token that starts at or after a byte.
pub fn token_after(text: &str, at: usize) -> Option<Token> {
    Tokens::of(text).find(|token| token.at.start >= at)
}

/// The token that a byte is in.
pub fn token_at(text: &str, at: usize) -> Option<Token> {
    Tokens::of(text)
        .find(|token| token.at.end > at)
        .filter(|token| token.at.start <= at)
}

/// The innermost bracket that is open at a byte, with the name before it.
pub fn open_at(text: &str, at: usize) -> Option<Range<usize>> {
    let mut open: Vec<Range<usize>> = Vec::new();
    let mut name: Option<Range<usize>> = None;
    for token in Tokens::of(text).take_while(|token| token.at.start < at) {
        match token.kind {
            Kind::Open => open.push(name.take().map_or(token.at.start, |name| name.start)..token.at.end),
            Kind::Close => drop(open.pop()),
            _ => {}
        }
        name = (token.kind == Kind::Word).then_some(token.at);
    }
    open.pop()
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    const TEXT: &str = r##"// joints: [
        Job(version: 1, /* runs: /* [ */ ] */ joints: [
            (id: 1, at: (0, 0, 0), label: "runs: [(id: \" 9)]"),
            (id: 2, at: (1, 0, 0), device: valve(kind: plug), label: r#"a")"#),
        ],
        runs: [(id: 7, from: 1, to: 2)])"##;

    #[track_caller]
    fn check(steps: &[Step], expected: &str) {
        assert_eq!(&TEXT[find(TEXT, steps)], expected);
    }

    #[test]
    fn steps_lead_to_a_value() {
        use Step::{Item, Key};
        check(&[Key("version")], "1");
        check(&[Key("runs"), Item(0), Key("to")], "2");
        check(&[Key("joints"), Item(1), Key("id")], "2");
        check(&[Key("joints"), Item(1), Key("at"), Item(0)], "1");
        check(&[Key("joints"), Item(1), Key("device")], "valve(kind: plug)");
        check(&[Key("joints"), Item(1), Key("device"), Key("kind")], "plug");
        check(&[Key("joints"), Item(1), Key("label")], r##"r#"a")"#"##);
        check(&[Key("runs")], "[(id: 7, from: 1, to: 2)]");
    }

    #[test]
    fn steps_that_lead_nowhere_end_where_they_can() {
        use Step::{Item, Key};
        check(&[Key("runs"), Item(5)], "[(id: 7, from: 1, to: 2)]");
        check(&[Key("runs"), Item(0), Key("length")], "(id: 7, from: 1, to: 2)");
    }

    #[test]
    fn the_open_bracket_is_found_with_its_name() {
        let at = TEXT.find("plug").unwrap();
        assert_eq!(&TEXT[open_at(TEXT, at).unwrap()], "valve(");
        assert_eq!(open_at(TEXT, TEXT.len()), None);
        assert_eq!(open_at("((((", 2), Some(1..2));
    }

    proptest! {
        #[test]
        fn any_text_has_an_outline(text in "[a-zé0-9:,()\\[\\]{}\"'#r/*\\\\\n ]{0,60}", at in 0usize..70) {
            let found = find(&text, &[Step::Key("a"), Step::Item(1), Step::Key("b")]);
            prop_assert!(text.get(found).is_some());
            token_before(&text, at);
            token_after(&text, at);
            token_at(&text, at);
            open_at(&text, at);
        }
    }
}
